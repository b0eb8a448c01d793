//! *Published (computed)* and *hand.* Beams alone: closed forms of any handbook, and random frames solved
//! by finite elements and by integration on a grid (`tests/generators/frames.py`, numpy and scipy).

use super::yard::close;
use axlewright_core::numeric::{
    BeamEvent, BeamPiece, Support, beam_pieces, beam_remainder, influence, on_rows,
};
use serde::Deserialize;

fn force(x_mm: f64, force_n: f64) -> BeamEvent {
    BeamEvent {
        x_mm,
        force_n,
        ..BeamEvent::default()
    }
}

fn spread(from: f64, to: f64, n: f64) -> [BeamEvent; 2] {
    let density = n / (to - from);
    [(from, density), (to, -density)].map(|(x_mm, more_n_per_mm)| BeamEvent {
        x_mm,
        more_n_per_mm,
        ..BeamEvent::default()
    })
}

fn beam(mut events: Vec<BeamEvent>) -> Vec<BeamPiece> {
    events.sort_by(|a, b| a.x_mm.total_cmp(&b.x_mm));
    let (shear, moment) = beam_remainder(&events);
    let size: f64 = events.iter().map(|e| e.force_n.abs()).sum();
    close(shear, 0.0, 1e-9 * size);
    close(moment, 0.0, 1e-5 * size);
    beam_pieces(&events)
}

fn peak(pieces: &[BeamPiece]) -> (f64, f64) {
    let ends = |p: &BeamPiece| [Some(p.from_mm), p.turns_at(), Some(p.to_mm)];
    pieces
        .iter()
        .flat_map(|p| ends(p).into_iter().flatten().map(|x| (x, p.moment_at(x))))
        .reduce(|a, b| if b.1.abs() > a.1.abs() { b } else { a })
        .unwrap()
}

fn at(pieces: &[BeamPiece], x: f64) -> (f64, f64) {
    let piece = pieces
        .iter()
        .find(|p| p.from_mm <= x && x < p.to_mm)
        .unwrap();
    (piece.shear_at(x), piece.moment_at(x))
}

/// A quarter of the load times the span.
#[test]
fn a_load_in_the_middle() {
    let pieces = beam(vec![
        force(0.0, -5_000.0),
        force(2_000.0, 10_000.0),
        force(4_000.0, -5_000.0),
    ]);
    assert_eq!(peak(&pieces), (2_000.0, 10_000.0 * 4_000.0 / 4.0));
    assert_eq!(at(&pieces, 500.0), (5_000.0, 2_500_000.0));
    assert_eq!(at(&pieces, 3_000.0), (-5_000.0, 5_000_000.0));
}

/// An eighth of the load times the span, in the middle, where no event stands.
#[test]
fn a_load_spread_evenly() {
    let mut events = vec![force(0.0, -8_000.0), force(4_000.0, -8_000.0)];
    events.extend(spread(0.0, 4_000.0, 16_000.0));
    let pieces = beam(events);
    assert_eq!(peak(&pieces), (2_000.0, 16_000.0 * 4_000.0 / 8.0));
}

/// A load on an overhang bends the beam up over the near support: minus load times overhang.
#[test]
fn an_overhang() {
    let pieces = beam(vec![
        force(0.0, 3_000.0),
        force(3_000.0, -9_000.0),
        force(4_500.0, 6_000.0),
    ]);
    assert_eq!(peak(&pieces), (3_000.0, -6_000.0 * 1_500.0));
    assert_eq!(at(&pieces, 4_000.0), (6_000.0, -6_000.0 * 500.0));
}

/// A tail that carries an even load: minus load times half its length at the support.
#[test]
fn a_tail_with_an_even_load() {
    let mut events = vec![force(0.0, 1_200.0), force(4_000.0, -6_000.0)];
    events.extend(spread(4_000.0, 6_000.0, 4_800.0));
    let pieces = beam(events);
    assert_eq!(peak(&pieces), (4_000.0, -4_800.0 * 1_000.0));
    close(
        at(&pieces, 5_000.0).1,
        -2.4 * 1_000.0_f64.powi(2) / 2.0,
        1e-6,
    );
}

/// Two hangers take a push between them by lever; one alone leaves a moment; three share as on springs.
#[test]
fn rows_share_a_load() {
    let rows = |force: f64, moment: f64, rows: &[f64]| {
        let mut found = Vec::new();
        let left = on_rows(force, moment, rows, |x, n| found.push((x, n)));
        (found, left)
    };
    let (found, left) = rows(900.0, 0.0, &[-600.0, 300.0]);
    assert_eq!((found[0].0, left), (-600.0, 0.0));
    close(found[0].1, 300.0, 1e-9);
    close(found[1].1, 600.0, 1e-9);
    assert_eq!(
        rows(100.0, 5_000.0, &[20.0]),
        (vec![(20.0, 100.0)], 3_000.0)
    );
    let (found, _) = rows(300.0, 300.0 * 50.0, &[0.0, 100.0, 200.0]);
    close(found.iter().map(|r| r.1).sum(), 300.0, 1e-9);
    close(found.iter().map(|r| r.0 * r.1).sum(), 15_000.0, 1e-9);
    close(found[1].1, 100.0, 1e-9);
}

const FRAMES: &str = include_str!("../published/frames.json");

#[derive(Deserialize)]
struct File {
    library: String,
    frames: Vec<Frame>,
}

#[derive(Deserialize)]
struct Frame {
    kind: String,
    supports: Vec<Held>,
    points: Vec<[f64; 2]>,
    spreads: Vec<[f64; 3]>,
    couples: Vec<[f64; 2]>,
    probes: Vec<[f64; 3]>,
}

#[derive(Deserialize)]
struct Held {
    x_mm: f64,
    rate: f64,
    weighed_n: f64,
    mounts_mm: Vec<f64>,
}

impl Frame {
    fn pieces(&self) -> Vec<BeamPiece> {
        let supports: Vec<Support> = self
            .supports
            .iter()
            .map(|s| Support {
                x_mm: s.x_mm,
                rate: Some(s.rate),
                fixed_kg: None,
                raised: false,
                weighed_kg: s.weighed_n,
            })
            .collect();
        let influence = influence(&supports).unwrap();
        let (mut force_n, mut moment) = (0.0, 0.0);
        let mut events = Vec::new();
        for [x, n] in &self.points {
            force_n += n;
            moment += n * x;
            events.push(force(*x, *n));
        }
        for [a, b, n] in &self.spreads {
            force_n += n;
            moment += n * (a + b) / 2.0;
            events.extend(spread(*a, *b, *n));
        }
        for [x_mm, couple_nmm] in &self.couples {
            moment += couple_nmm;
            events.push(BeamEvent {
                x_mm: *x_mm,
                couple_nmm: *couple_nmm,
                ..BeamEvent::default()
            });
        }
        for (index, held) in self.supports.iter().enumerate() {
            let push = influence.reaction_kg(index, force_n, moment);
            let none = [0.0];
            let mounts = if held.mounts_mm.is_empty() {
                &none[..]
            } else {
                &held.mounts_mm[..]
            };
            on_rows(push, 0.0, mounts, |row, n| {
                events.push(force(held.x_mm + row, -n));
            });
        }
        beam(events)
    }
}

/// To a millionth of the largest moment and shear: the boxes that stand for points on the grid are a
/// hundredth of a millimetre wide, and the file keeps tenths of a newton millimetre.
#[test]
fn frames_agree_with_elements_and_with_integration() {
    let file: File = serde_json::from_str(FRAMES).unwrap();
    assert!(file.library.starts_with("numpy ") && file.library.contains("scipy "));
    let of = |kind: &str| file.frames.iter().filter(|f| f.kind == kind).count();
    assert!(of("two") >= 30 && of("springs") >= 30);
    for (number, frame) in file.frames.iter().enumerate() {
        let pieces = frame.pieces();
        let most = peak(&pieces).1.abs();
        let shears = pieces.iter().map(|p| p.shear_n.abs());
        let shear = shears.fold(0.0, f64::max);
        for [x, v, m] in &frame.probes {
            let (found_v, found_m) = at(&pieces, *x);
            assert!(
                (found_m - m).abs() <= 1e-6 * most && (found_v - v).abs() <= 1e-6 * shear,
                "frame {number} ({}) at {x}: {found_v} N, {found_m} N mm; the second road {v}, {m}",
                frame.kind
            );
        }
    }
}
