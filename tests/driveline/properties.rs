//! *Properties.* What must hold of any line.

use super::{falling, of, with_line};
use axlewright_core::driveline::{Ride, Shaft, critical_rpm, longest_mm};
use axlewright_core::geometry::Point;
use proptest::prelude::*;

fn line() -> impl Strategy<Value = (Vec<Point>, f64, f64)> {
    let step = (400.0..1_600.0, -80.0..80.0, -150.0..150.0);
    (
        (1_000.0..3_000.0, -60.0..60.0, 500.0..900.0),
        proptest::collection::vec(step, 1..4),
        -8.0..8.0,
        -8.0..8.0,
    )
        .prop_map(|((x, y, z), steps, drive, axle)| {
            let mut joints = vec![Point::new(x, y, z)];
            for (dx, dy, dz) in steps {
                let last = joints[joints.len() - 1];
                joints.push(last + Point::new(dx, dy, dz));
            }
            (joints, drive, axle)
        })
}

fn shaft(joints: Vec<Point>, drive: Point, axle: Point) -> Shaft {
    of(&with_line(joints, drive, Some(axle))).shafts.remove(0)
}

fn same(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-7
}

fn angles(shaft: &Shaft, ride: Ride) -> Vec<f64> {
    shaft
        .state(ride)
        .joints
        .iter()
        .map(|j| j.angle_deg)
        .collect()
}

proptest! {
    #[test]
    fn moving_the_whole_line_changes_no_angle(
        (joints, drive, axle) in line(), dx in -500.0..500.0, dy in -300.0..300.0, dz in -200.0..200.0
    ) {
        let moved = joints.iter().map(|p| *p + Point::new(dx, dy, dz)).collect();
        let (a, b) = (falling(drive), falling(axle));
        let (one, other) = (shaft(joints, a, b), shaft(moved, a, b));
        for ride in Ride::ALL {
            for (x, y) in angles(&one, ride).iter().zip(angles(&other, ride)) {
                prop_assert!(same(*x, y));
            }
            let left = |s: &Shaft| s.state(ride).left_deg.unwrap();
            prop_assert!(same(left(&one), left(&other)));
        }
        prop_assert!(same(one.plunge_mm, other.plunge_mm));
    }

    #[test]
    fn left_and_right_are_alike((joints, drive, axle) in line()) {
        let over = joints.iter().map(|p| Point::new(p.x, -p.y, p.z)).collect();
        let (a, b) = (falling(drive), falling(axle));
        let (one, other) = (shaft(joints, a, b), shaft(over, a, b));
        for ride in Ride::ALL {
            for (x, y) in one.state(ride).joints.iter().zip(&other.state(ride).joints) {
                prop_assert!(same(x.angle_deg, y.angle_deg) && same(x.side_deg, y.side_deg));
                prop_assert!(same(x.plan_deg, -y.plan_deg));
            }
            let left = |s: &Shaft| s.state(ride).left_deg.unwrap();
            prop_assert!(same(left(&one), left(&other)));
        }
    }

    #[test]
    fn parallel_axes_cancel_whatever_the_offset((joints, drive, _) in line()) {
        let ends = vec![joints[0], joints[joints.len() - 1]];
        let axis = falling(drive);
        let shaft = shaft(ends, axis, axis);
        for ride in Ride::ALL {
            let state = shaft.state(ride);
            prop_assert!(same(state.unequal_deg().unwrap(), 0.0));
            // A square root of a difference that cancels keeps half the digits.
            prop_assert!(state.left_deg.unwrap() < 1e-5);
        }
        prop_assert_eq!(shaft.parallel, Some(true));
    }

    #[test]
    fn the_angle_in_space_is_not_less_than_seen_from_the_side((joints, drive, axle) in line()) {
        let shaft = shaft(joints, falling(drive), falling(axle));
        for state in &shaft.states {
            for joint in &state.joints {
                // Seen from the side, a direction with some run to the right looks steeper than it is;
                // with at most 80 mm in 400 that is below 2 %.
                let seen = joint.side_deg.abs() * 0.98;
                prop_assert!(joint.angle_deg + 0.02 * 20.0 >= seen);
            }
        }
    }

    #[test]
    fn a_longer_tube_bends_sooner_and_the_longest_is_just_safe(
        outer in 60.0..180.0, wall in 3.0..12.0, length in 400.0..3_000.0, rpm in 500.0..6_000.0
    ) {
        let inner = outer - 2.0 * wall;
        let now = critical_rpm(outer, inner, length);
        prop_assert!(critical_rpm(outer, inner, 2.0 * length) * 4.0 - now < 1e-6 * now);
        prop_assert!(critical_rpm(outer + 5.0, inner, length) > now);
        let longest = longest_mm(outer, inner, rpm);
        let safe = 0.70 * critical_rpm(outer, inner, longest);
        prop_assert!((safe - rpm).abs() < 1e-6 * rpm);
    }

    #[test]
    fn slip_is_the_spread_of_the_lengths((joints, drive, axle) in line()) {
        let shaft = shaft(joints, falling(drive), falling(axle));
        let lengths = shaft.states.each_ref().map(|s| s.pieces.last().unwrap().length_mm);
        prop_assert!(shaft.plunge_mm >= 0.0);
        for one in lengths {
            for other in lengths {
                prop_assert!((one - other).abs() <= shaft.plunge_mm + 1e-9);
            }
        }
    }
}
