//! *Property*: true of every truck.

use super::{alone, answers, coupled, lock, turn_with, yard};
use axlewright_core::manoeuvre::{at_outer, stance::trailer_mm, sweep};
use axlewright_core::vehicle::Vehicle;

#[test]
fn a_longer_wheelbase_never_turns_tighter() {
    let mut last = [0.0; 4];
    for step in 0..40 {
        let turning = lock(&alone(yard::with_wheelbase(
            3_000.0 + 150.0 * f64::from(step),
        )));
        let turn = &turning.turn;
        let now = [
            turning.wheel_mm,
            turning.kerb_mm,
            turn.outer_mm,
            turn.centre_radius_mm,
        ];
        assert!(
            now.iter().zip(last).all(|(now, last)| *now > last),
            "{now:?} after {last:?}"
        );
        last = now;
    }
}

#[test]
fn more_lock_turns_tighter_and_the_inner_wheel_keeps_its_angle() {
    let mut last = f64::INFINITY;
    for deg in 20..=55 {
        let mut chassis = yard::bare();
        chassis.axles[0].steer_angle_deg = f64::from(deg);
        let turning = lock(&alone(chassis));
        yard::close(turning.inner_deg, f64::from(deg), 1e-9);
        assert!(turning.outer_deg < turning.inner_deg);
        assert!(turning.kerb_mm < last);
        last = turning.kerb_mm;
    }
}

#[test]
fn a_long_turn_comes_to_the_steady_one() {
    for (wheelbase, ahead, long) in [
        (4_700.0, 300.0, 8_000.0),
        (3_800.0, 600.0, 7_500.0),
        (6_000.0, -200.0, 6_000.0),
    ] {
        let mut vehicle = coupled(wheelbase, ahead, long, 2_500.0);
        vehicle.moving.turn_deg = Some(360.0);
        let turning = lock(&vehicle);
        let path = sweep(&vehicle, &turning, 18_000.0).unwrap();
        let steady = path.steady.steady;
        let wanted = steady.off_tracking_mm.unwrap();
        yard::close(path.off_tracking_mm, wanted, 0.02 * wanted);
        assert!(path.off_tracking_mm <= wanted + 1e-6, "from below");
        // Shorter turns off-track less.
        let mut last = 0.0;
        for deg in [30.0, 60.0, 90.0, 180.0, 360.0] {
            vehicle.moving.turn_deg = Some(deg);
            let path = sweep(&vehicle, &turning, 18_000.0).unwrap();
            assert!(path.off_tracking_mm >= last);
            assert!(path.outer_mm <= 18_000.0 + 1.0, "within the stated radius");
            last = path.off_tracking_mm;
        }
    }
}

#[test]
fn left_and_right_are_mirror_images() {
    let mut vehicle = coupled(4_700.0, 300.0, 9_000.0, 2_500.0);
    let mut one = |left: bool| {
        vehicle.moving.turn_left = left;
        sweep(&vehicle, &lock(&vehicle), 14_000.0).unwrap()
    };
    let (left, right) = (one(true), one(false));
    assert_eq!(left.poses.len(), right.poses.len());
    for (a, b) in left.poses.iter().zip(&right.poses) {
        yard::close(a.front.1, -b.front.1, 1e-9);
        yard::close(a.heading_rad, -b.heading_rad, 1e-12);
        let ((a_at, a_heading), (b_at, b_heading)) = (a.trailer.unwrap(), b.trailer.unwrap());
        yard::close(a_at.1, -b_at.1, 1e-9);
        yard::close(a_heading, -b_heading, 1e-12);
    }
    yard::close(left.inner_mm, right.inner_mm, 1e-9);
    yard::close(left.outer_at.1, -right.outer_at.1, 1e-9);
    assert!(left.poses.iter().all(|p| p.front.1 <= 0.0), "left is −y");
}

#[test]
fn a_part_that_sticks_out_on_one_side_widens_only_the_turn_to_the_other() {
    let mut plan = yard::plan(yard::bare());
    let wide = yard::part("W", "equipment-box", 10.0, [400.0, 400.0, 400.0]);
    yard::put(&mut plan, wide, [-1_200.0, -1_500.0, 500.0]);
    let mut vehicle = Vehicle::resolve(&plan, &super::library()).unwrap();
    let mut outer = |left: bool| {
        vehicle.moving.turn_left = left;
        let turn = lock(&vehicle).turn;
        (turn.outer_mm, turn.outer_by.tag)
    };
    let bare = lock(&alone(yard::bare())).turn.outer_mm;
    // It stands on the left: outside of a turn to the right.
    let (right, by) = outer(false);
    assert_eq!(by, "W");
    assert!(right > bare);
    let (left, by) = outer(true);
    assert_eq!((left, by.as_str()), (bare, ""));
}

#[test]
fn outer_radius_is_kept_or_full_lock_is_said() {
    let vehicle = alone(yard::bare());
    let turning = lock(&vehicle);
    for outer in [9_000.0_f64, 10_000.0, 12_000.0, 13_716.0, 20_000.0] {
        let turn = at_outer(&vehicle, &turning, outer).unwrap();
        assert_eq!(turn.locked, outer < turning.turn.outer_mm, "{outer}");
        yard::close(turn.outer_mm, outer.max(turning.turn.outer_mm), 1e-6);
    }
    let (outer, turn) = turn_with(&vehicle, 12_000.0, |t| t.steady.front_mm);
    assert!(outer > 12_000.0 && !turn.locked);
}

#[test]
fn tail_swing_is_the_overhang_on_the_circle() {
    // A body 2,500 wide, its end 3,000 behind the rear axle.
    let mut chassis = yard::bare();
    chassis.body = Some(axlewright_core::chassis::Body {
        name: "body".to_owned(),
        front_x_mm: 1_500.0,
        rear_x_mm: 8_000.0,
        width_mm: 2_500.0,
        floor_z_mm: 1_100.0,
        top_z_mm: 3_000.0,
        clearance_mm: 0.0,
    });
    let turn = lock(&alone(chassis)).turn;
    let side = turn.centre_radius_mm + 1_250.0;
    yard::close(turn.tail_swing_mm, side.hypot(3_000.0) - side, 1e-6);
    assert_eq!(turn.tail_by.unwrap().name, "body");
    // Nothing behind that is wide enough: the frame alone does not swing out.
    let bare = lock(&alone(yard::bare())).turn;
    assert_eq!((bare.tail_swing_mm, bare.tail_by), (0.0, None));
}

#[test]
fn a_trailer_tandem_turns_a_little_behind_its_middle() {
    yard::close(trailer_mm(12_000.0, 0.0, 3), 12_000.0, 0.0);
    yard::close(trailer_mm(12_000.0, 1_245.0, 1), 12_000.0, 0.0);
    yard::close(
        trailer_mm(12_000.0, 1_300.0, 2),
        12_000.0 + 650.0 * 650.0 / 12_000.0,
        1e-9,
    );
    // Three axles: (1,300² + 0 + 1,300²)/3.
    let three = 2.0 * 1_300.0 * 1_300.0 / 3.0;
    yard::close(
        trailer_mm(7_700.0, 1_300.0, 3),
        7_700.0 + three / 7_700.0,
        1e-9,
    );
}

#[test]
fn what_is_missing_is_said_and_no_number_made_up() {
    let mut chassis = yard::bare();
    chassis.axles[0].steer_angle_deg = 0.0;
    let found = answers(&alone(chassis));
    assert!(
        found
            .turning
            .unwrap_err()
            .contains("steering angle of axle-1")
    );
    assert!(found.stated.is_err());
    assert!(found.angles.approach.unwrap_err().contains("bumper"));
}

#[test]
fn too_much_articulation_stops_the_turn() {
    let mut vehicle = coupled(4_700.0, 300.0, 12_000.0, 2_500.0);
    vehicle.trailer.as_mut().unwrap().articulation_deg = 70.0;
    vehicle.moving.turn_deg = Some(360.0);
    let path = sweep(&vehicle, &lock(&vehicle), 11_000.0).unwrap();
    assert!(path.jackknifes);
    assert!(path.articulation_deg > 70.0 && path.articulation_deg < 71.0);
}

#[test]
fn a_ring_is_passed_by_truck_and_trailer_or_said_to_be_too_narrow() {
    let ring = |vehicle: &mut Vehicle, outer: f64, inner: f64| {
        vehicle.moving.turn_outer_mm = Some(outer);
        vehicle.moving.turn_inner_mm = Some(inner);
        answers(vehicle).ring.unwrap().unwrap()
    };
    // Directive 96/53/EC, annex I, 1.5 (EU-11): 12.50 m and 5.30 m.
    let mut european = coupled(3_800.0, 600.0, 7_700.0, 2_550.0);
    let found = ring(&mut european, 12_500.0, 5_300.0);
    assert!(found.by_trailer && !found.followed);
    yard::close(found.outer_mm, 12_500.0, 1e-6);
    assert!(
        found.inner_mm > 5_300.0,
        "a common European combination passes: {}",
        found.inner_mm
    );
    let mut american = coupled(5_600.0, 300.0, 12_200.0, 2_590.0);
    let found = ring(&mut american, 12_500.0, 5_300.0);
    assert!(
        found.followed && found.inner_mm < 5_300.0,
        "a 53-ft trailer does not"
    );
    // Too tight for the lock: the outer radius is missed and said.
    let mut long = alone(yard::with_wheelbase(8_500.0));
    let found = ring(&mut long, 12_500.0, 5_300.0);
    assert!(found.outer_mm > 12_600.0 && !found.by_trailer);
    assert!(answers(&alone(yard::bare())).ring.is_none(), "nobody asks");
}
