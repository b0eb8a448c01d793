//! The trailer's box as it turns about its kingpin, behind and beside the circle of its nose.

use super::yard::{assess, bare, couple, part, plan, put, tractor};
use super::{gap, measures, must, sentences};
use axlewright_core::assessment::Assessment;
use axlewright_core::clearance::State;
use axlewright_core::geometry::{Point, Solid, separation_of_sets};

const NOSE: &str = "swing of the trailer nose";
const BOX: &str = "turning trailer";

/// A part on a tractor whose kingpin stands at 4,700 with the trailer of the tests: floor at 1,200,
/// 2,590 wide, circle of 1,585.
fn pulling(size: [f64; 3], at: [f64; 3]) -> Assessment {
    let mut plan = plan(tractor(5_000.0, 300.0));
    put(&mut plan, part("Z1", "equipment-box", 1.0, size), at);
    couple(&mut plan, 1_000.0);
    assess(&plan)
}

#[test]
fn a_part_inside_the_trailer_behind_the_circle_of_its_nose_is_seen() {
    // The circle ends at 6,285. 200 mm of the part stand above the floor.
    let assessment = pulling([150.0, 200.0, 300.0], [6_300.0, 0.0, 1_100.0]);
    measures(must(&assessment, State::Swing, "Z1", BOX), -200.0, 102.0);
    let said = sentences(&assessment, "trailer-swing");
    assert!(
        said[0].contains("Z1 reaches into the turning trailer by 200 mm"),
        "{said:?}"
    );
}

#[test]
fn a_part_below_the_floor_keeps_its_distance_there_too() {
    let assessment = pulling([150.0, 200.0, 100.0], [6_300.0, 0.0, 1_010.0]);
    measures(must(&assessment, State::Swing, "Z1", BOX), 90.0, 102.0);
}

/// At a right angle the trailer's side stands half a width, 1,295, ahead of the kingpin: at 3,405.
/// A corner at 1,250 to the side and 1,290 ahead is 1,796 from the kingpin, beyond the nose's 1,585.
#[test]
fn a_part_in_the_way_of_the_side_of_the_turned_trailer_is_seen() {
    let assessment = pulling([30.0, 50.0, 400.0], [3_410.0, 1_225.0, 1_300.0]);
    assert!(must(&assessment, State::Swing, "Z1", BOX).distance_mm < -20.0);
    // 12 mm ahead of that side it is free of the box but too near.
    let assessment = pulling([30.0, 50.0, 400.0], [3_363.0, 1_225.0, 1_300.0]);
    measures(must(&assessment, State::Swing, "Z1", BOX), 12.0, 102.0);
}

/// Ahead on the centre line the nose's circle comes first, and gives its name.
#[test]
fn ahead_of_the_kingpin_the_nose_is_named() {
    let assessment = pulling([100.0, 100.0, 400.0], [2_980.0, 0.0, 1_300.0]);
    assert!(gap(&assessment, State::Swing, "Z1", NOSE).is_some());
    assert!(gap(&assessment, State::Swing, "Z1", BOX).is_none());
}

/// *Second road.* The box of the trailer, turned in steps to either side: no point of it lies
/// outside what the program says it sweeps, whatever the articulation.
#[test]
fn what_is_swept_holds_the_box_at_every_angle() {
    for articulation in [10.0, 30.0, 54.0, 58.0, 75.0, 90.0, 100.0, 120.0] {
        let mut chassis = tractor(5_000.0, 300.0);
        chassis.fifth_wheel.as_mut().unwrap().articulation_deg = articulation;
        let mut plan = plan(chassis);
        couple(&mut plan, 1_000.0);
        let assessment = assess(&plan);
        let coupled = assessment.answers.vehicle.trailer.as_ref().unwrap();
        let mut swept = coupled.nose_sweep();
        swept.extend(coupled.box_sweep());
        let (pin, flat) = (coupled.kingpin, coupled.box_ahead());
        for step in -20..=20 {
            let angle = f64::to_radians(articulation) * f64::from(step) / 20.0;
            let (s, c) = angle.sin_cos();
            for i in 0..=16 {
                // Denser towards the nose: fourth powers.
                let along = (f64::from(i) / 16.0).powi(3);
                for y in [
                    flat.min.y,
                    flat.min.y / 2.0,
                    0.0,
                    flat.max.y / 3.0,
                    flat.max.y,
                ] {
                    let x = flat.min.x + along * (flat.max.x - flat.min.x) - pin.x;
                    let at = Point::new(pin.x + c * x - s * y, s * x + c * y, 2_000.0);
                    let found = separation_of_sets(&[Solid::Hull(vec![at])], &swept).unwrap();
                    assert!(
                        found.distance_mm < 1e-6,
                        "{articulation}°, turned {angle}: {at:?} is {} outside",
                        found.distance_mm
                    );
                }
            }
        }
    }
}

/// A trailer that turns by 10° only: its side comes 1,295 / cos 10° = 1,315 beside the kingpin.
#[test]
fn a_trailer_that_turns_little_leaves_room_beside_it() {
    let mut chassis = tractor(5_000.0, 300.0);
    chassis.fifth_wheel.as_mut().unwrap().articulation_deg = 10.0;
    let mut plan = plan(chassis);
    let beside = part("Z1", "equipment-box", 1.0, [1.0, 100.0, 400.0]);
    put(&mut plan, beside, [4_699.5, 1_490.0, 1_300.0]);
    couple(&mut plan, 1_000.0);
    let assessment = assess(&plan);
    let found = gap(&assessment, State::Swing, "Z1", NOSE)
        .or_else(|| gap(&assessment, State::Swing, "Z1", BOX));
    // Across the side, and less what the polygon about its arc is larger.
    let side = 1_295.0 / 10.0_f64.to_radians().cos();
    let wanted = (1_440.0 - side) * 10.0_f64.to_radians().cos();
    super::yard::close(found.unwrap().distance_mm, wanted, 3.0);
}

/// A truck without a fifth wheel has nothing to say about trailers.
#[test]
fn a_rigid_truck_says_nothing_about_swing_and_legs() {
    let assessment = assess(&plan(bare()));
    for check in ["trailer-swing", "landing-legs"] {
        assert!(sentences(&assessment, check).is_empty(), "{check}");
    }
}
