//! *Properties.* What must hold of any truck.

use super::yard::{assess, bare, close, part, plan, put};
use axlewright_core::loads::Case;
use axlewright_core::stability::{highest_payload_mm, rollover};
use proptest::prelude::*;

proptest! {
    #[test]
    fn the_threshold_falls_with_height_and_offset_and_rises_with_track(
        height in 500.0..2_500.0, offset in 0.0..200.0, track in 1_500.0..2_300.0, more in 1.0..300.0
    ) {
        let of = |h: f64, y: f64, t: f64| rollover(h, y, &[(5_000.0, t), (9_000.0, t + 50.0)]).unwrap();
        let now = of(height, offset, track);
        prop_assert!(of(height + more, offset, track).reduced_g < now.reduced_g);
        prop_assert!(of(height, offset + more, track).reduced_g < now.reduced_g);
        prop_assert!(of(height, offset, track + more).reduced_g > now.reduced_g);
        // Left and right are alike, and tilting is the same thing said as an angle.
        prop_assert_eq!(of(height, -offset, track), now);
        prop_assert!((now.tilt_deg.to_radians().tan() - now.reduced_g).abs() < 1e-12);
        prop_assert!(now.tilt_deg < now.rigid_tilt_deg);
        // A centre of gravity at the height that was asked for has just that threshold.
        let there = of(now.height_at_mm(0.35), offset, track);
        prop_assert!((there.reduced_g - 0.35).abs() < 1e-12);
    }

    #[test]
    fn payload_at_its_highest_gives_just_the_height(
        without in 3_000.0..15_000.0, payload in 100.0..20_000.0, z in 600.0..1_500.0, limit in 1_000.0..2_500.0
    ) {
        let whole = without + payload;
        let highest = highest_payload_mm(whole, limit, without, z).unwrap();
        let together: f64 = (without * z + payload * highest) / whole;
        prop_assert!((together - limit).abs() < 1e-6);
    }

    #[test]
    fn a_plan_and_its_mirror_image_tip_alike(mass in 50.0..2_000.0, y in 100.0..1_000.0, z in 300.0..2_500.0) {
        let with = |y: f64| {
            let mut plan = plan(bare());
            put(&mut plan, part("M1", "free-mass", mass, [800.0, 400.0, 500.0]), [2_000.0, y, z]);
            let balance = assess(&plan).answers.balance;
            balance.into_iter().find(|b| b.case == Case::Unladen).unwrap()
        };
        let (right, left) = (with(y), with(-y));
        close(right.truck.y_mm, -left.truck.y_mm, 1e-9);
        close(right.left_kg, left.right_kg, 1e-6);
        close(right.roll.unwrap().reduced_g, left.roll.unwrap().reduced_g, 1e-12);
    }
}

#[test]
fn nothing_on_the_road_has_no_threshold() {
    assert_eq!(rollover(1_000.0, 0.0, &[]), None);
    assert_eq!(rollover(0.0, 0.0, &[(1.0, 2_000.0)]), None);
    assert_eq!(highest_payload_mm(1_000.0, 1_500.0, 1_000.0, 900.0), None);
}
