//! Tyres over jounce and lock, what rides on axles, hood, trailer nose and landing legs.

use super::yard::{
    assess, assess_with, bare, couple, library, part, plan, put, put_at, tractor, trailer,
};
use super::{gap, measures, must, sentences};
use axlewright_core::clearance::State;
use axlewright_core::findings::Severity;
use axlewright_core::part::{AxleBeam, Part};
use axlewright_core::plan::{Place, Plan};

const OPENING: &str = "opening of hood and cab";
const NOSE: &str = "swing of the trailer nose";
const LEGS: &str = "landing legs";

fn with(part: Part, at: [f64; 3]) -> Plan {
    let mut plan = plan(bare());
    put(&mut plan, part, at);
    plan
}

/// The rear tyre's front is at 4,500 at hub height.
#[test]
fn a_part_ahead_of_a_tyre_keeps_75_mm_at_rest() {
    let assessment = assess(&with(
        part("B1", "battery-pack", 1.0, [400.0, 300.0, 300.0]),
        [4_040.0, -900.0, 400.0],
    ));
    measures(
        must(&assessment, State::TyreAtRest, "B1", "tyre-axle-2-left"),
        60.0,
        75.0,
    );
    let said = sentences(&assessment, "tyre-gap");
    assert!(
        said[0].contains("B1 is too close to the left tyre of axle 2 by 15 mm"),
        "{said:?}"
    );
}

/// The tyre's crown is at 980 at rest and at 1,080 at full jounce.
#[test]
fn a_part_above_a_tyre_keeps_25_mm_at_full_jounce() {
    let assessment = assess(&with(
        part("B1", "battery-pack", 1.0, [400.0, 300.0, 300.0]),
        [4_800.0, 900.0, 1_100.0],
    ));
    measures(
        must(&assessment, State::TyreAtRest, "B1", "tyre-axle-2-right"),
        120.0,
        75.0,
    );
    measures(
        must(&assessment, State::TyreMoving, "B1", "tyre-axle-2-right"),
        20.0,
        25.0,
    );
    let said = sentences(&assessment, "tyre-sweep");
    assert!(
        said[0].contains("too close to the right tyre of axle 2 by 5 mm"),
        "{said:?}"
    );
}

/// The front tyre's inner rim reaches 500 behind the axle at hub height, 850 from the middle. Turned
/// by 40° about the tyre's centre (1,000 from the middle) that corner comes to
/// 1,000 − 500 sin 40° − 150 cos 40° = 563.7 from the middle.
#[test]
fn a_part_beside_a_steered_tyre_keeps_25_mm_at_full_lock() {
    let lock = 40.0_f64.to_radians();
    let corner = 1_000.0 - 500.0 * lock.sin() - 150.0 * lock.cos();
    // Its outer face 20 mm inside of that, beside where the corner comes to.
    let beside = part("Z1", "equipment-box", 1.0, [200.0, 60.0, 160.0]);
    let assessment = assess(&with(beside, [190.0, corner - 20.0 - 30.0, 400.0]));
    measures(
        must(&assessment, State::TyreMoving, "Z1", "tyre-axle-1-right"),
        20.0,
        25.0,
    );
    assert!(gap(&assessment, State::TyreAtRest, "Z1", "tyre-axle-1-right").is_none());
}

fn e_axle() -> Part {
    let mut beam = part("D1", "e-axle", 800.0, [600.0, 600.0, 400.0]);
    let empty: AxleBeam = toml::from_str("").unwrap();
    beam.axle = Some(empty);
    beam
}

/// An e-axle at axle 2 from 4,700 to 5,300, 300 to 700 high: over its travel 220 to 800.
fn riding(other: Part, at: [f64; 3]) -> Plan {
    let mut plan = plan(bare());
    let place = Place::Zone {
        id: "axle-2".to_owned(),
        from_front_mm: 400.0,
        y_mm: 0.0,
        z_mm: 300.0,
    };
    put_at(&mut plan, e_axle(), place);
    put(&mut plan, other, at);
    plan
}

#[test]
fn what_rides_on_an_axle_keeps_25_mm_at_full_jounce() {
    let above = part("Z1", "equipment-box", 1.0, [200.0, 200.0, 100.0]);
    let assessment = assess(&riding(above, [4_900.0, 0.0, 820.0]));
    let gap = must(&assessment, State::Travel, "D1", "Z1");
    measures(gap, 20.0, 25.0);
    assert_eq!(gap.why, "suspension travel");
    // At rest they are 120 mm apart; only the travel is held against them.
    assert!(super::gap(&assessment, State::Parts, "D1", "Z1").is_none());
}

#[test]
fn what_rides_on_an_axle_keeps_25_mm_at_full_rebound() {
    let below = part("Z1", "equipment-box", 1.0, [200.0, 200.0, 100.0]);
    let assessment = assess(&riding(below, [4_900.0, 0.0, 110.0]));
    measures(must(&assessment, State::Travel, "D1", "Z1"), 10.0, 25.0);
}

#[test]
fn what_rides_on_an_axle_keeps_clear_of_the_chassis_too() {
    let far = part("Z1", "equipment-box", 1.0, [200.0, 200.0, 100.0]);
    let mut plan = riding(far, [2_000.0, 0.0, 500.0]);
    // Its sides at ±300; the lips of the rails begin at 350, at jounce between them.
    measures(
        must(&assess(&plan), State::Travel, "D1", "rail-left"),
        50.0,
        25.0,
    );
    plan.parts[0].clearance.all_mm = 60.0;
    measures(
        must(&assess(&plan), State::Travel, "D1", "rail-right"),
        50.0,
        60.0,
    );
}

/// A part that asks for more room than the e-axle gets it, however far beyond the listed hundred
/// millimetres: here 200 mm asked, 150 mm there.
#[test]
fn what_the_other_part_asks_of_a_moving_axle_counts_as_well() {
    let mut above = part("Z1", "equipment-box", 1.0, [200.0, 200.0, 100.0]);
    above.clearance.bottom_mm = Some(200.0);
    let assessment = assess(&riding(above, [4_900.0, 0.0, 950.0]));
    measures(must(&assessment, State::Travel, "D1", "Z1"), 150.0, 200.0);
}

/// Two axles that move: one down, the other up. Measured with the travel of both.
#[test]
fn two_axles_that_move_are_measured_with_the_travel_of_both() {
    let mut chassis = bare();
    let mut third = chassis.axles[1].clone();
    third.id = "axle-3".to_owned();
    third.x_mm = 5_700.0;
    chassis.axles.push(third);
    chassis.groups[1].axles.push("axle-3".to_owned());
    let mut plan = plan(chassis);
    let place = |axle: &str, z_mm: f64| Place::Zone {
        id: axle.to_owned(),
        from_front_mm: 400.0,
        y_mm: 0.0,
        z_mm,
    };
    put_at(&mut plan, e_axle(), place("axle-2", 300.0));
    let mut second = e_axle();
    second.id = "D2".to_owned();
    // From 5,200 on, over the first one's rear end at 5,300; 130 mm above it at rest.
    second.envelope = part("D2", "e-axle", 1.0, [600.0, 600.0, 100.0]).envelope;
    put_at(&mut plan, second, place("axle-3", 830.0));
    plan.placed[1].place = Place::Zone {
        id: "axle-3".to_owned(),
        from_front_mm: 200.0,
        y_mm: 0.0,
        z_mm: 830.0,
    };
    // First up by 100, second down by 80: 130 − 180 = −50.
    measures(must(&assess(&plan), State::Travel, "D1", "D2"), -50.0, 25.0);
}

/// The hood sweeps from 1,300 to 2,400 ahead of the axle.
#[test]
fn a_part_keeps_50_mm_from_what_the_hood_sweeps() {
    let front = part("C1", "radiator", 1.0, [100.0, 400.0, 300.0]);
    let assessment = assess(&with(front, [-1_270.0, 0.0, 600.0]));
    measures(must(&assessment, State::Opening, "C1", OPENING), 30.0, 50.0);
    let said = sentences(&assessment, "cab-opening");
    assert!(
        said[0].contains("too close to the opening of hood and cab by 20 mm"),
        "{said:?}"
    );
}

#[test]
fn a_hood_without_a_swept_space_is_not_assessed() {
    let mut chassis = bare();
    chassis.cab.opening.clear();
    let assessment = assess(&plan(chassis));
    let said: Vec<_> = assessment
        .findings
        .iter()
        .filter(|f| f.check == "cab-opening")
        .collect();
    assert_eq!(said.len(), 1);
    assert_eq!(said[0].severity, Severity::NotAssessed);
}

fn radius() -> f64 {
    // 914 ahead, 1,295 to the side: 1,585.0.
    (914.0_f64 * 914.0 + 1_295.0 * 1_295.0).sqrt()
}

fn pulling(part: Part, at: [f64; 3]) -> Plan {
    let mut plan = plan(tractor(5_000.0, 300.0));
    put(&mut plan, part, at);
    couple(&mut plan, 1_000.0);
    plan
}

#[test]
fn a_part_behind_the_cab_keeps_clear_of_the_circle_of_the_nose() {
    let front = 4_700.0 - radius();
    let at = |mm: f64| {
        let narrow = part("C2", "chiller", 1.0, [400.0, 0.0, 400.0]);
        assess(&pulling(narrow, [front - mm - 400.0, 0.0, 1_300.0]))
    };
    measures(must(&at(95.0), State::Swing, "C2", NOSE), 95.0, 102.0);
    assert!(sentences(&at(95.0), "trailer-swing")[0].contains("by 7 mm"));
    measures(must(&at(-159.0), State::Swing, "C2", NOSE), -159.0, 102.0);
}

/// Beside the centre line the circle is farther: a corner 600 to the side and 1,500 ahead of the
/// kingpin is √(1500² + 600²) − 1585 = 30.5 mm from it, not 1500 − 1585 inside.
#[test]
fn room_to_the_nose_is_measured_to_the_circle_and_not_fore_and_aft() {
    let aside = part("V1", "inverter", 1.0, [300.0, 200.0, 300.0]);
    let assessment = assess(&pulling(aside, [4_700.0 - 1_500.0 - 300.0, 700.0, 1_300.0]));
    let wanted = (1_500.0_f64 * 1_500.0 + 600.0 * 600.0).sqrt() - radius();
    measures(must(&assessment, State::Swing, "V1", NOSE), wanted, 102.0);
}

#[test]
fn below_the_nose_nothing_swings() {
    let low = part("Z1", "equipment-box", 1.0, [400.0, 200.0, 90.0]);
    let assessment = assess(&pulling(low, [3_500.0, 0.0, 1_005.0]));
    measures(
        must(&assessment, State::Swing, "Z1", NOSE),
        1_200.0 - 1_095.0,
        102.0,
    );
}

/// A trailer that turns by 10° only: its corners, at 54.8° from straight ahead, come no nearer to
/// the centre line than 44.8°, so that ahead of the kingpin they reach 1585 cos 44.8° = 1,125 and
/// not 1,585. A part on the centre line 1,300 ahead is free.
#[test]
fn a_trailer_that_turns_little_leaves_the_middle_free() {
    let mut chassis = tractor(5_000.0, 300.0);
    chassis.fifth_wheel.as_mut().unwrap().articulation_deg = 10.0;
    let mut plan = plan(chassis);
    let ahead = part("C2", "chiller", 1.0, [400.0, 0.0, 400.0]);
    put(&mut plan, ahead, [4_700.0 - 1_300.0 - 400.0, 0.0, 1_300.0]);
    couple(&mut plan, 1_000.0);
    let corner = (1_295.0_f64).atan2(914.0) - 10.0_f64.to_radians();
    let reach = radius() * corner.cos();
    let assessment = assess(&plan);
    // The polygon about the arcs may be larger than them by 2 mm.
    let found = must(&assessment, State::Swing, "C2", NOSE).distance_mm;
    super::yard::close(found, 1_300.0 - reach, 2.0);
}

#[test]
fn without_a_trailer_swing_and_legs_are_not_assessed() {
    let assessment = assess(&plan(tractor(5_000.0, 300.0)));
    for check in ["trailer-swing", "landing-legs"] {
        let said: Vec<_> = assessment
            .findings
            .iter()
            .filter(|f| f.check == check)
            .collect();
        assert_eq!(said.len(), 1, "{check}");
        assert_eq!(said[0].severity, Severity::NotAssessed, "{check}");
    }
}

/// The legs come to 2,700 behind the kingpin at 4,700. A box to 7,300 and 200 to the side is
/// √(2600² + 200²) = 2,607.7 from it.
#[test]
fn the_rear_end_keeps_clear_of_the_landing_legs() {
    let rear = part("Z1", "equipment-box", 1.0, [400.0, 400.0, 300.0]);
    let assessment = assess(&pulling(rear, [6_900.0, 0.0, 500.0]));
    let wanted = 2_700.0 - (2_600.0_f64 * 2_600.0 + 200.0 * 200.0).sqrt();
    measures(must(&assessment, State::Legs, "Z1", LEGS), wanted, 100.0);
    assert!(
        sentences(&assessment, "landing-legs")[0].contains("too close to the landing legs by 8 mm")
    );
}

#[test]
fn legs_pass_over_what_is_low_enough() {
    let low = part("Z1", "equipment-box", 1.0, [400.0, 400.0, 200.0]);
    let mut trailer = trailer();
    trailer.legs.bottom_z_mm = 800.0;
    let assessment = assess_with(&pulling(low, [6_900.0, 0.0, 500.0]), &library(trailer));
    assert!(gap(&assessment, State::Legs, "Z1", LEGS).is_none());
}
