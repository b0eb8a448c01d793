//! *Published (computed).* Angles and shake by numpy, critical speeds by scipy; see
//! `tests/generators/shafts.py`.

use super::{falling, of, with_line};
use axlewright_core::driveline::{Ride, critical_rpm};
use axlewright_core::geometry::Point;
use serde::Deserialize;

const FILE: &str = include_str!("../published/driveline/second_road.json");

#[derive(Deserialize)]
struct File {
    library: String,
    lines: Vec<Line>,
    tubes: Vec<Tube>,
}

#[derive(Deserialize)]
struct Line {
    drive_down_deg: f64,
    axle_down_deg: f64,
    joints_mm: Vec<[f64; 3]>,
    angles_deg: Vec<f64>,
    lengths_mm: Vec<f64>,
    left_deg: f64,
}

#[derive(Deserialize)]
struct Tube {
    outer_mm: f64,
    inner_mm: f64,
    length_mm: f64,
    critical_rpm: f64,
}

fn file() -> File {
    serde_json::from_str(FILE).unwrap()
}

#[test]
fn joint_angles_and_lengths_agree_with_numpy() {
    let file = file();
    assert!(file.library.starts_with("numpy ") && file.lines.len() >= 50);
    for (number, line) in file.lines.iter().enumerate() {
        let joints = line
            .joints_mm
            .iter()
            .map(|[x, y, z]| Point::new(*x, *y, *z));
        let vehicle = with_line(
            joints.collect(),
            falling(line.drive_down_deg),
            Some(falling(line.axle_down_deg)),
        );
        let driveline = of(&vehicle);
        let state = driveline.shafts[0].state(Ride::Laden);
        assert_eq!(state.joints.len(), line.angles_deg.len());
        for (joint, wanted) in state.joints.iter().zip(&line.angles_deg) {
            // The arc cosine of the other road is good to 1e-6 degrees near a straight joint.
            assert!(
                (joint.angle_deg - wanted).abs() < 2e-6,
                "line {number}: {} for {wanted}",
                joint.angle_deg
            );
        }
        for (piece, wanted) in state.pieces.iter().zip(&line.lengths_mm) {
            assert!(
                (piece.length_mm - wanted).abs() < 1e-9 * wanted,
                "line {number}"
            );
        }
    }
}

/// Squares of small angles against turning joints: 2 % and a tenth of a degree, for joints that bend up
/// to about 12 degrees.
#[test]
fn what_is_left_of_the_joints_agrees_with_joints_that_turn() {
    for (number, line) in file().lines.iter().enumerate() {
        let joints = line
            .joints_mm
            .iter()
            .map(|[x, y, z]| Point::new(*x, *y, *z));
        let vehicle = with_line(
            joints.collect(),
            falling(line.drive_down_deg),
            Some(falling(line.axle_down_deg)),
        );
        let found = of(&vehicle).shafts[0].state(Ride::Laden).left_deg.unwrap();
        let wanted = line.left_deg;
        assert!(
            (found - wanted).abs() < 0.1 + 0.02 * wanted,
            "line {number}: {found} for {wanted}"
        );
    }
}

#[test]
fn critical_speeds_agree_with_a_beam_of_elements() {
    let file = file();
    assert!(file.library.contains("scipy ") && file.tubes.len() >= 50);
    for tube in &file.tubes {
        let found = critical_rpm(tube.outer_mm, tube.inner_mm, tube.length_mm);
        // The formula's constant is rounded to three figures.
        let off = (found - tube.critical_rpm).abs() / tube.critical_rpm;
        assert!(off < 1e-3, "{found} for {}", tube.critical_rpm);
    }
}
