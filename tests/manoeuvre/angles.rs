//! *Hand*: angles, bump and ramp, followed on paper from the bare chassis.

use super::{answers, library, yard};
use axlewright_core::chassis::{Chassis, Shape};
use axlewright_core::manoeuvre::{OnRamp, Pitch, rise_mm, tangent_deg};
use axlewright_core::plan::Plan;
use axlewright_core::vehicle::Vehicle;

fn with_box(chassis: Chassis, tag: &str, size: [f64; 3], at: [f64; 3]) -> Vehicle {
    let mut plan = yard::plan(chassis);
    yard::put(&mut plan, yard::part(tag, "equipment-box", 10.0, size), at);
    resolve(&plan)
}

fn resolve(plan: &Plan) -> Vehicle {
    Vehicle::resolve(plan, &library()).unwrap()
}

#[test]
fn a_tangent_touches_the_arc_where_the_half_angle_says() {
    // h = tan t (x − r tan(t/2)), solved backwards.
    for deg in [2.0_f64, 7.0, 15.0, 30.0, 44.0] {
        for r in [0.0, 300.0, 500.0] {
            let (x, t) = (1_900.0, deg.to_radians());
            let h = t.tan() * (x - r * (t / 2.0).tan());
            yard::close(tangent_deg(x, h, r).unwrap(), deg, 1e-9);
        }
    }
    assert_eq!(
        tangent_deg(300.0, 400.0, 500.0),
        None,
        "within the tyre's silhouette"
    );
    assert_eq!(
        tangent_deg(-10.0, 100.0, 500.0),
        None,
        "on the other side of the axle"
    );
}

#[test]
fn departure_is_limited_by_the_lowest_part_behind_and_names_it() {
    let bare = yard::bare();
    let alone = answers(&super::alone(bare.clone()))
        .angles
        .departure
        .unwrap();
    // Rails end 1,500 behind the axle, 740 above ground; laden is lower.
    yard::close(alone.deg, tangent_deg(1_500.0, 740.0, 480.0).unwrap(), 1e-9);
    assert!(alone.by.contains("rail") && alone.tag.is_empty() && !alone.unladen);
    let low = with_box(bare, "P", [200.0, 300.0, 200.0], [6_000.0, 0.0, 350.0]);
    let found = answers(&low).angles.departure.unwrap();
    yard::close(found.deg, tangent_deg(1_200.0, 350.0, 480.0).unwrap(), 1e-9);
    assert_eq!(found.tag, "P");
}

#[test]
fn approach_is_smaller_when_the_truck_is_empty() {
    let mut chassis = yard::bare();
    chassis.dimensions.bumper_bottom_mm = Some(400.0);
    chassis.dimensions.frame_top_unladen_mm = 1_060.0;
    let found = answers(&super::alone(chassis)).angles.approach.unwrap();
    // The tail rises 60 mm over 5,000, so the bumper, 1,300 ahead, dips 15.6 mm.
    yard::close(
        found.deg,
        tangent_deg(1_300.0, 400.0 - 15.6, 480.0).unwrap(),
        1e-9,
    );
    assert!(found.unladen);
}

#[test]
fn a_round_tank_across_the_frame_counts_as_round() {
    let mut chassis = yard::bare();
    let tank = Shape::Cylinder {
        from_mm: [2_500.0, -400.0, 600.0],
        to_mm: [2_500.0, 400.0, 600.0],
        diameter_mm: 600.0,
    };
    let model =
        r#"{"id": "tank", "name": "Tank", "kind": "other", "clearance_mm": 0, "envelope": []}"#;
    let mut obstacle: axlewright_core::chassis::Obstacle = serde_json::from_str(model).unwrap();
    obstacle.envelope = vec![tank];
    chassis.obstacles.push(obstacle);
    let found = answers(&super::alone(chassis)).angles.breakover.unwrap();
    // By symmetry both lines meet at its lowest point.
    let wanted = 2.0 * tangent_deg(2_500.0, 300.0, 480.0).unwrap();
    yard::close(found.deg, wanted, 0.01);
    assert_eq!(found.by, "Tank");
}

#[test]
fn a_long_flat_pack_strikes_in_its_middle_and_not_at_its_corners() {
    let pack = with_box(
        yard::bare(),
        "P",
        [3_000.0, 600.0, 300.0],
        [1_000.0, 0.0, 400.0],
    );
    let found = answers(&pack).angles.breakover.unwrap();
    let middle = 2.0 * tangent_deg(2_500.0, 400.0, 480.0).unwrap();
    yard::close(found.deg, middle, 1e-6);
    let corners =
        tangent_deg(1_000.0, 400.0, 480.0).unwrap() + tangent_deg(4_000.0, 400.0, 480.0).unwrap();
    assert!(found.deg < corners - 1.0);
    assert_eq!(found.tag, "P");
    yard::close(found.at.x, 2_500.0, 1.0);
    // Over a bump as well: at its corners an axle stands on the bump and lifts it.
    let over = answers(&pack).bump.unwrap();
    yard::close(over.at_rest_mm, 300.0, 1e-6);
}

#[test]
fn a_bump_is_an_arc_of_its_height_and_length() {
    yard::close(rise_mm(100.0, 3_657.6, 0.0), 100.0, 1e-9);
    yard::close(rise_mm(100.0, 3_657.6, 1_828.8), 0.0, 1e-9);
    assert_eq!(rise_mm(100.0, 3_657.6, 5_000.0), 0.0);
    assert_eq!(rise_mm(0.0, 3_657.6, 0.0), 0.0);
    // Radius (1,828.8² + 100²)/200 = 16,772.5; half way out the sagitta is 914.4²/2R, nearly.
    yard::close(
        rise_mm(100.0, 3_657.6, 914.4),
        100.0 - 914.4 * 914.4 / 33_545.0,
        0.05,
    );
}

#[test]
fn room_over_a_bump_at_rest_and_at_the_stops() {
    let low = |x: f64, z: f64| {
        let vehicle = with_box(yard::bare(), "P", [0.01, 300.0, 100.0], [x, 0.0, z]);
        answers(&vehicle).bump.unwrap()
    };
    // In the middle of 5,000 both axles stand clear of the bump; both sink by 100.
    let middle = low(2_500.0, 260.0);
    assert_eq!(middle.tag, "P");
    yard::close(middle.at_rest_mm, 160.0, 1e-6);
    yard::close(middle.at_stops_mm, 60.0, 1e-6);
    // 500 behind the front axle, that axle stands on the bump and lifts the place with nine tenths.
    let ahead = low(500.0, 260.0);
    let lift = rise_mm(100.0, 3_657.6, 500.0) * 0.9;
    yard::close(ahead.at_rest_mm, 160.0 + lift, 0.01);
    // Behind the last axle the lever is longer than the wheelbase.
    let behind = low(6_000.0, 220.0);
    let lift = rise_mm(100.0, 3_657.6, 1_000.0) * 1.2;
    yard::close(behind.at_rest_mm, 120.0 + lift, 0.01);
}

fn ramp_of(percent: f64, part: [f64; 3], at: [f64; 3]) -> Vec<OnRamp> {
    let mut plan = yard::plan(yard::tractor(5_000.0, 500.0));
    plan.moving.ramp_percent = Some(percent);
    yard::couple(&mut plan, 0.0);
    yard::put(&mut plan, yard::part("P", "equipment-box", 10.0, part), at);
    let found = answers(&resolve(&plan)).ramp.unwrap().unwrap();
    found.into_iter().filter(|n| n.tag == "P").collect()
}

#[test]
fn the_nose_dips_towards_what_stands_behind_the_cab() {
    // Kingpin at 4,500 and 1,200 high; the nose is 914 ahead, so its top stands at 3,586. The tractor's
    // last axle is 500 behind the kingpin, the trailer's 12,000: a grade of 20 % pitches by
    // atan 0.2 − atan(0.2/24).
    let pitch = 0.2_f64.atan() - (0.2_f64 * 500.0 / 12_000.0).atan();
    // A plate reaching up to 3,800, its rear face at 3,000.
    let found = ramp_of(20.0, [100.0, 600.0, 2_700.0], [2_900.0, 0.0, 1_100.0]);
    let dip = found.iter().find(|n| n.pitch == Pitch::Dip).unwrap();
    let dx = -914.0_f64;
    let front_at = |dz: f64| {
        // Where the pitched nose's front stands at the height of the plate's top edge.
        let foot = (dx * pitch.cos(), dx * pitch.sin());
        let up = (dz - foot.1) / pitch.cos();
        4_500.0 + foot.0 - up * pitch.sin()
    };
    let gap_along = front_at(3_800.0 - 1_200.0) - 3_000.0;
    yard::close(dip.distance_mm, gap_along * pitch.cos(), 0.5);
    assert!(
        dip.distance_mm > -60.0 && dip.distance_mm < 150.0,
        "{}",
        dip.distance_mm
    );
}

#[test]
fn over_a_crest_the_underside_comes_down_behind_the_kingpin() {
    let pitch = 0.11_f64.atan() - (0.11_f64 * 500.0 / 12_000.0).atan();
    // A box whose upper rear edge stands 1,500 behind the kingpin and 100 below the trailer's floor.
    let found = ramp_of(11.0, [300.0, 600.0, 200.0], [5_700.0, 0.0, 900.0]);
    let crest = found.iter().find(|n| n.pitch == Pitch::Crest).unwrap();
    // The floor at the box's edge has come down by its lever; the distance is square to the floor.
    let room = -100.0 * pitch.cos() + 1_500.0 * pitch.sin();
    yard::close(crest.distance_mm, -room, 0.5);
    assert!(crest.distance_mm < 0.0, "it strikes");
    // On the level it would be free by 100.
    let level = ramp_of(0.0, [300.0, 600.0, 200.0], [5_700.0, 0.0, 900.0]);
    yard::close(level[0].distance_mm, 100.0, 1e-6);
}
