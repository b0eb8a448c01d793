//! *Published (computed).* Rigid frames on three to five supports against least work, by numpy; see
//! `tests/generators/springs.py`, which also confirms each frame in exact fractions.

use axlewright_core::loads::{Support, influence};
use serde::Deserialize;

const FRAMES: &str = include_str!("../published/springs.json");

#[derive(Deserialize)]
struct File {
    library: String,
    frames: Vec<Frame>,
}

#[derive(Deserialize)]
struct Frame {
    kind: String,
    supports: Vec<Spring>,
    masses_kg_mm: Vec<[f64; 2]>,
    reactions_kg: Vec<f64>,
}

#[derive(Deserialize)]
struct Spring {
    x_mm: f64,
    rate: f64,
    fixed_kg: Option<f64>,
    raised: bool,
    weighed_kg: f64,
}

impl Frame {
    fn supports(&self) -> Vec<Support> {
        self.supports
            .iter()
            .map(|s| Support {
                x_mm: s.x_mm,
                rate: Some(s.rate),
                fixed_kg: s.fixed_kg,
                raised: s.raised,
                weighed_kg: s.weighed_kg,
            })
            .collect()
    }

    /// Each reaction against least work, to 1e-9 of all that presses on the frame: both roads work
    /// in doubles, and their condition is below 1e4.
    fn compare(&self, number: usize) {
        let influence = influence(&self.supports()).unwrap();
        let mass: f64 = self.masses_kg_mm.iter().map(|[m, _]| m).sum();
        let moment: f64 = self.masses_kg_mm.iter().map(|[m, x]| m * x).sum();
        let size: f64 = self.masses_kg_mm.iter().map(|[m, _]| m.abs()).sum();
        for (index, wanted) in self.reactions_kg.iter().enumerate() {
            let found = influence.reaction_kg(index, mass, moment);
            assert!(
                (found - wanted).abs() <= 1e-9 * size,
                "frame {number} ({}), support {index}: found {found}, least work says {wanted}",
                self.kind
            );
        }
    }
}

#[test]
fn frames_on_springs_agree_with_least_work() {
    let file: File = serde_json::from_str(FRAMES).unwrap();
    assert!(file.library.starts_with("numpy "), "{}", file.library);
    assert!(file.frames.len() >= 50, "{} frames", file.frames.len());
    for kind in ["springs", "fixed", "raised", "both"] {
        assert!(
            file.frames.iter().any(|f| f.kind == kind),
            "no frame of kind {kind}"
        );
    }
    for (number, frame) in file.frames.iter().enumerate() {
        frame.compare(number);
    }
}

/// *Hand.* What the scale showed is what the frame answers, whatever the rates.
#[test]
fn the_weighed_load_gives_the_weighed_reactions() {
    let file: File = serde_json::from_str(FRAMES).unwrap();
    let on_springs_only = |f: &&Frame| f.supports.iter().all(|s| s.fixed_kg.is_none() && !s.raised);
    for frame in file.frames.iter().filter(on_springs_only) {
        let influence = influence(&frame.supports()).unwrap();
        let mass: f64 = frame.supports.iter().map(|s| s.weighed_kg).sum();
        let moment: f64 = frame.supports.iter().map(|s| s.weighed_kg * s.x_mm).sum();
        for (index, support) in frame.supports.iter().enumerate() {
            let found = influence.reaction_kg(index, mass, moment);
            assert!((found - support.weighed_kg).abs() < 1e-9 * mass, "{found}");
        }
    }
}
