//! *Second road*: paths and stances worked out by `tests/generators/turning.py`.

use super::{alone, coupled, lock, turn_with, yard};
use axlewright_core::chassis::{AxleKind, Group};
use axlewright_core::manoeuvre::sweep;
use serde::Deserialize;

#[derive(Deserialize)]
struct File {
    made_with: String,
    paths: Vec<Path>,
    stances: Vec<Stance>,
}

#[derive(Deserialize)]
struct Path {
    wheelbase_mm: f64,
    kingpin_x_mm: f64,
    trailer_mm: f64,
    angle_deg: f64,
    front_radius_mm: f64,
    /// Way of the front axle, heading of the truck, heading of the trailer.
    poses: Vec<[f64; 3]>,
}

#[derive(Deserialize)]
struct Stance {
    x_mm: Vec<f64>,
    dual: Vec<bool>,
    lock_deg: Vec<f64>,
    centre_x_mm: f64,
    equivalent_mm: f64,
}

fn file() -> File {
    let file: File = serde_json::from_str(include_str!("../published/turning/paths.json")).unwrap();
    assert!(file.made_with.contains("scipy"));
    file
}

/// Difference of two angles, radians.
fn apart(a: f64, b: f64) -> f64 {
    (a - b).sin().atan2((a - b).cos()).abs()
}

#[test]
fn the_path_is_the_one_that_scipy_follows() {
    let paths = file().paths;
    assert!(paths.len() >= 16);
    for (index, path) in paths.iter().enumerate() {
        let ahead = path.wheelbase_mm - path.kingpin_x_mm;
        let mut vehicle = coupled(path.wheelbase_mm, ahead, path.trailer_mm, 2_500.0);
        vehicle.moving.turn_deg = Some(path.angle_deg);
        vehicle.moving.turn_left = true;
        let (outer, _) = turn_with(&vehicle, path.front_radius_mm, |t| t.steady.front_mm);
        let found = sweep(&vehicle, &lock(&vehicle), outer).unwrap();
        assert_eq!(found.poses.len(), path.poses.len(), "path {index}");
        for (pose, [way, truck, trailer]) in found.poses.iter().zip(&path.poses) {
            let (_, heading) = pose.trailer.unwrap();
            assert!(
                (pose.way_mm - way).abs() < 1e-3,
                "path {index}: {} {way}",
                pose.way_mm
            );
            let off = apart(pose.heading_rad, *truck).max(apart(heading, *trailer));
            assert!(off < 1e-7, "path {index} at {way}: {off}");
        }
    }
}

#[test]
fn several_axles_stand_where_least_squares_puts_them() {
    let stances = file().stances;
    assert!(stances.len() >= 50);
    for (index, wanted) in stances.iter().enumerate() {
        let mut chassis = yard::bare();
        let model = chassis.axles[0].clone();
        chassis.axles.clear();
        chassis.groups.clear();
        for (i, x_mm) in wanted.x_mm.iter().enumerate() {
            let mut axle = model.clone();
            axle.id = format!("axle-{}", i + 1);
            axle.x_mm = *x_mm;
            axle.tyres.dual = wanted.dual[i];
            axle.steer_angle_deg = wanted.lock_deg[i];
            axle.kind = if wanted.lock_deg[i] > 0.0 {
                AxleKind::Steer
            } else {
                AxleKind::Drive
            };
            chassis.groups.push(Group {
                id: format!("group-{i}"),
                name: format!("group {i}"),
                axles: vec![axle.id.clone()],
                share: axlewright_core::chassis::Share::Equal,
                gawr_kg: None,
                mounts_mm: Vec::new(),
            });
            chassis.axles.push(axle);
        }
        chassis.dimensions.wheelbase_mm = wanted.x_mm[wanted.x_mm.len() - 1];
        let stance = axlewright_core::manoeuvre::stance::stance(&alone(chassis)).unwrap();
        let off = (stance.centre_x_mm - wanted.centre_x_mm).abs()
            + (stance.equivalent_mm - wanted.equivalent_mm).abs();
        assert!(off < 1e-4, "stance {index}: {stance:?}");
    }
}

#[test]
fn one_steered_axle_and_a_tandem_give_the_published_form() {
    // l + Δ²/l and l + (1 + Cr/Cf) Δ²/l, eight tyres behind and two in front.
    let mut chassis = yard::with_wheelbase(5_000.0);
    let mut second = chassis.axles[1].clone();
    chassis.axles[1].x_mm = 4_350.0;
    second.id = "axle-3".to_owned();
    second.x_mm = 5_650.0;
    chassis.axles.push(second);
    chassis.groups[1].axles.push("axle-3".to_owned());
    let stance = lock(&alone(chassis)).stance;
    let more = 650.0 * 650.0 / 5_000.0;
    yard::close(stance.centre_x_mm, 5_000.0 + more, 1e-6);
    yard::close(
        stance.equivalent_mm,
        5_000.0 + (1.0 + 8.0 / 2.0) * more,
        1e-6,
    );
}
