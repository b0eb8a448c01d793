//! What a part asks for on its sides: at every pair of its solids, and of tyres, hood, nose and legs
//! as well. And what a tyre reaches between the angles that somebody would try.

use super::yard::{assess, bare, couple, part, plan, put, tractor};
use super::{gap, measures, must};
use axlewright_core::chassis::{AxleKind, Chassis, Shape};
use axlewright_core::clearance::State;
use axlewright_core::part::Part;
use axlewright_core::plan::Plan;

fn with(chassis: Chassis, part: Part, at: [f64; 3]) -> Plan {
    let mut plan = plan(chassis);
    put(&mut plan, part, at);
    plan
}

/// A block with a low foot behind it. The pack stands over the foot: 20 mm behind the block, which
/// asks 10; 150 mm above the foot, whose top asks 200.
#[test]
fn a_farther_pair_of_solids_that_misses_more_counts() {
    let mut legged = part("B1", "battery-pack", 1.0, [400.0, 300.0, 400.0]);
    legged.envelope.push(Shape::Box {
        from_mm: [400.0, -150.0, 0.0],
        to_mm: [800.0, 150.0, 100.0],
    });
    legged.clearance.all_mm = 10.0;
    legged.clearance.top_mm = Some(200.0);
    let mut plan = with(bare(), legged, [2_000.0, -900.0, 400.0]);
    let pack = part("B2", "battery-pack", 1.0, [300.0, 300.0, 100.0]);
    put(&mut plan, pack, [2_420.0, -900.0, 650.0]);
    measures(must(&assess(&plan), State::Parts, "B1", "B2"), 150.0, 200.0);
    // With nothing special asked above, the nearest pair is the worst.
    plan.parts[0].clearance.top_mm = None;
    measures(must(&assess(&plan), State::Parts, "B1", "B2"), 20.0, 10.0);
}

/// An overlap is named before a gap that misses more.
#[test]
fn an_overlap_comes_before_a_gap() {
    let mut legged = part("B1", "battery-pack", 1.0, [400.0, 300.0, 400.0]);
    legged.envelope.push(Shape::Box {
        from_mm: [400.0, -150.0, 0.0],
        to_mm: [800.0, 150.0, 100.0],
    });
    legged.clearance.top_mm = Some(500.0);
    let mut plan = with(bare(), legged, [2_000.0, -900.0, 400.0]);
    let pack = part("B2", "battery-pack", 1.0, [300.0, 300.0, 100.0]);
    put(&mut plan, pack, [2_370.0, -900.0, 650.0]);
    measures(must(&assess(&plan), State::Parts, "B1", "B2"), -30.0, 0.0);
}

/// The rear tyre's front is at 4,500.
#[test]
fn a_tyre_keeps_what_the_part_asks() {
    let mut pack = part("B1", "battery-pack", 1.0, [400.0, 300.0, 300.0]);
    pack.clearance.rear_mm = Some(120.0);
    let assessment = assess(&with(bare(), pack, [4_000.0, -900.0, 400.0]));
    for state in [State::TyreAtRest, State::TyreMoving] {
        let gap = must(&assessment, state, "B1", "tyre-axle-2-left");
        measures(gap, 100.0, 120.0);
        assert_eq!(gap.why, "asked by B1");
    }
}

/// However far: 400 mm asked, 300 there.
#[test]
fn a_demand_beyond_the_listed_hundred_is_not_out_of_reach() {
    let mut pack = part("B1", "battery-pack", 1.0, [400.0, 300.0, 300.0]);
    pack.clearance.rear_mm = Some(400.0);
    let assessment = assess(&with(bare(), pack, [3_800.0, -900.0, 400.0]));
    let gap = must(&assessment, State::TyreAtRest, "B1", "tyre-axle-2-left");
    measures(gap, 300.0, 400.0);
}

/// The hood sweeps from 1,300 to 2,400 ahead of the axle.
#[test]
fn hood_and_cab_keep_what_the_part_asks() {
    let mut front = part("C1", "radiator", 1.0, [100.0, 400.0, 300.0]);
    front.clearance.front_mm = Some(90.0);
    let assessment = assess(&with(bare(), front, [-1_240.0, 0.0, 600.0]));
    let opening = "opening of hood and cab";
    measures(must(&assessment, State::Opening, "C1", opening), 60.0, 90.0);
}

#[test]
fn nose_and_legs_keep_what_the_part_asks() {
    let radius = (914.0_f64 * 914.0 + 1_295.0 * 1_295.0).sqrt();
    let mut chiller = part("C2", "chiller", 1.0, [400.0, 0.0, 400.0]);
    chiller.clearance.rear_mm = Some(150.0);
    let at = [4_700.0 - radius - 120.0 - 400.0, 0.0, 1_300.0];
    let mut plan = with(tractor(5_000.0, 300.0), chiller, at);
    let mut rear = part("Z1", "equipment-box", 1.0, [400.0, 0.0, 100.0]);
    rear.clearance.rear_mm = Some(180.0);
    // Its end 130 mm from the legs' 7,400.
    put(&mut plan, rear, [6_870.0, 0.0, 500.0]);
    couple(&mut plan, 1_000.0);
    let assessment = assess(&plan);
    let nose = "swing of the trailer nose";
    measures(must(&assessment, State::Swing, "C2", nose), 120.0, 150.0);
    measures(
        must(&assessment, State::Legs, "Z1", "landing legs"),
        130.0,
        180.0,
    );
}

/// Raised, the tyre's crown stands at its stop, 980 + 100; it goes no higher.
#[test]
fn a_raised_tyre_is_lifted_once() {
    let mut chassis = bare();
    chassis.axles[1].kind = AxleKind::Lift;
    let box_ = part("Z1", "equipment-box", 1.0, [400.0, 300.0, 300.0]);
    let mut plan = with(chassis, box_, [4_800.0, 900.0, 1_110.0]);
    plan.changes.raised = vec!["axle-2".to_owned()];
    let assessment = assess(&plan);
    measures(
        must(&assessment, State::TyreAtRest, "Z1", "tyre-axle-2-right"),
        30.0,
        75.0,
    );
    measures(
        must(&assessment, State::TyreMoving, "Z1", "tyre-axle-2-right"),
        30.0,
        25.0,
    );
}

/// A tyre that hangs at full rebound, 80 mm down, comes to what is low before it: the part's edge at
/// 150 mm above ground is √(400² …) from the lowered hub. Worked out from the hub at 480 − 80.
#[test]
fn a_hanging_tyre_is_held_against_what_is_low() {
    let low = part("Z1", "equipment-box", 1.0, [200.0, 300.0, 50.0]);
    // Its rear upper edge at x = 4,600, z = 150.
    let assessment = assess(&with(bare(), low, [4_400.0, -900.0, 100.0]));
    let from = |hub: f64| (400.0_f64.powi(2) + (hub - 150.0).powi(2)).sqrt() - 500.0;
    measures(
        must(&assessment, State::TyreAtRest, "Z1", "tyre-axle-2-left"),
        from(480.0),
        75.0,
    );
    measures(
        must(&assessment, State::TyreMoving, "Z1", "tyre-axle-2-left"),
        from(400.0),
        25.0,
    );
}

/// The front tyre's corner is √(500² + 150²) = 522.0 from the steering axis, 16.7° beside the tyre's
/// plane. A thin post 24 mm outside its circle, 2.2° beyond where the corner stands with the wheel
/// straight ahead: of seven steps over the lock, the nearest leaves 44 mm there.
#[test]
fn between_two_angles_a_tyre_is_seen_too() {
    let corner = 500.0_f64.hypot(150.0);
    let angle = (150.0_f64 / 500.0).atan() + 2.2_f64.to_radians();
    let (x, y) = ((corner + 24.0) * angle.cos(), (corner + 24.0) * angle.sin());
    let post = part("Z1", "equipment-box", 1.0, [0.01, 0.01, 10.0]);
    let assessment = assess(&with(bare(), post, [x, 1_000.0 + y, 475.0]));
    let found = must(&assessment, State::TyreMoving, "Z1", "tyre-axle-1-right");
    // Never more than it is, and by no more than 0.1 mm less.
    assert!(
        found.distance_mm <= 24.001 && found.distance_mm > 23.88,
        "{found:?}"
    );
    assert!(gap(&assessment, State::TyreAtRest, "Z1", "tyre-axle-1-right").is_some());
}
