//! Part against part, and part against what stays.

use super::yard::{assess, bare, part, plan, put};
use super::{measures, must, sentences};
use axlewright_core::chassis::{Chassis, Hardware, Obstacle, ObstacleKind, Shape, Spot};
use axlewright_core::clearance::State;
use axlewright_core::part::{KeepAway, Kind, Part};
use axlewright_core::plan::Plan;

const SIZE: [f64; 3] = [400.0, 300.0, 400.0];

fn pack(id: &str) -> Part {
    part(id, "battery-pack", 100.0, SIZE)
}

/// Two packs left of the frame, the second this far behind the first.
fn apart(first: Part, second: Part, mm: f64) -> Plan {
    let mut plan = plan(bare());
    put(&mut plan, first, [2_000.0, -900.0, 400.0]);
    put(&mut plan, second, [2_400.0 + mm, -900.0, 400.0]);
    plan
}

#[test]
fn the_larger_of_two_demands_counts() {
    let (mut a, mut b) = (pack("B1"), pack("B2"));
    a.clearance.all_mm = 10.0;
    b.clearance.all_mm = 50.0;
    let assessment = assess(&apart(a, b, 66.0));
    let gap = must(&assessment, State::Parts, "B1", "B2");
    measures(gap, 66.0, 50.0);
    assert_eq!(gap.why, "asked by B2");
}

#[test]
fn only_the_side_that_faces_the_other_is_asked() {
    let (mut a, mut b) = (pack("B1"), pack("B2"));
    a.clearance.front_mm = Some(500.0);
    a.clearance.rear_mm = Some(80.0);
    b.clearance.rear_mm = Some(500.0);
    b.clearance.front_mm = Some(20.0);
    let assessment = assess(&apart(a, b, 66.0));
    measures(must(&assessment, State::Parts, "B1", "B2"), 66.0, 80.0);
    let said = sentences(&assessment, "part-gap");
    assert!(
        said[0].contains("B1 is too close to B2 by 14 mm: 66 mm, asked for 80 mm"),
        "{said:?}"
    );
}

#[test]
fn parts_with_room_are_said_to_be_free() {
    let mut a = pack("B1");
    a.clearance.all_mm = 25.0;
    let said = sentences(&assess(&apart(a, pack("B2"), 63.0)), "part-gap");
    assert!(
        said[0].contains("B1 and B2, free by 63 mm, asked for 25 mm"),
        "{said:?}"
    );
}

#[test]
fn parts_that_touch_are_said_to_touch() {
    let mut a = pack("B1");
    a.clearance.all_mm = 25.0;
    let said = sentences(&assess(&apart(a, pack("B2"), 0.0)), "part-gap");
    assert!(
        said[0].contains("B1 touches B2; 25 mm of room are asked for"),
        "{said:?}"
    );
}

#[test]
fn parts_that_overlap_are_said_to_reach_into_each_other() {
    let assessment = assess(&apart(pack("B1"), pack("B2"), -40.0));
    measures(must(&assessment, State::Parts, "B1", "B2"), -40.0, 0.0);
    let said = sentences(&assessment, "part-gap");
    assert!(said[0].contains("B1 reaches into B2 by 40 mm"), "{said:?}");
}

#[test]
fn a_kind_to_keep_away_from_asks_more_than_either_side() {
    let mut tank = part("T1", "gas-tank", 100.0, SIZE);
    tank.clearance.all_mm = 30.0;
    tank.keep_away = vec![KeepAway {
        kind: Kind::BatteryPack,
        mm: 150.0,
        why: "fire shield".to_owned(),
    }];
    let assessment = assess(&apart(pack("B1"), tank.clone(), 140.0));
    let gap = must(&assessment, State::Parts, "B1", "T1");
    measures(gap, 140.0, 150.0);
    assert_eq!(gap.why, "fire shield");
    // Another kind is asked for the side's demand only.
    let radiator = part("C1", "radiator", 100.0, SIZE);
    measures(
        must(
            &assess(&apart(radiator, tank, 100.0)),
            State::Parts,
            "C1",
            "T1",
        ),
        100.0,
        30.0,
    );
}

/// A quarter turn to the left takes the rear to the right: the rear's demand with it, and the centre
/// of gravity.
#[test]
fn after_a_quarter_turn_the_rear_asks_on_the_right() {
    let mut a = part("B1", "battery-pack", 100.0, [400.0, 400.0, 400.0]);
    a.clearance.rear_mm = Some(90.0);
    a.cg = Some(Spot {
        x_mm: 300.0,
        y_mm: 0.0,
        z_mm: 200.0,
    });
    let mut plan = plan(bare());
    put(&mut plan, a, [2_000.0, -1_000.0, 1_100.0]);
    put(&mut plan, pack("B2"), [2_460.0, -1_000.0, 1_100.0]);
    // To the right of B1, whose right face is at −800.
    put(
        &mut plan,
        pack("B3"),
        [2_000.0, -800.0 + 60.0 + 150.0, 1_100.0],
    );
    let assessment = assess(&plan);
    measures(must(&assessment, State::Parts, "B1", "B2"), 60.0, 90.0);
    measures(must(&assessment, State::Parts, "B1", "B3"), 60.0, 0.0);
    plan.placed[0].turn = 1;
    let assessment = assess(&plan);
    measures(must(&assessment, State::Parts, "B1", "B2"), 60.0, 0.0);
    measures(must(&assessment, State::Parts, "B1", "B3"), 60.0, 90.0);
    let cg = assessment.answers.vehicle.item("B1").unwrap().cg;
    super::yard::close(cg.x, 2_200.0, 1e-9);
    super::yard::close(cg.y, -900.0, 1e-9);
}

#[test]
fn soft_parts_may_lie_along_others() {
    let mut cable = pack("W1");
    cable.soft = true;
    let assessment = assess(&apart(pack("B1"), cable, -100.0));
    assert!(
        assessment
            .answers
            .clearances
            .gaps
            .iter()
            .all(|g| g.first.name() != "W1")
    );
}

/// Both rails: outside 430 from the middle, 740 to 1,000 high. Parts hang on them, so touching is
/// meant; cutting into them is not.
#[test]
fn parts_may_touch_the_rails_but_not_reach_into_them() {
    let at = |y: f64| {
        let mut plan = plan(bare());
        put(&mut plan, pack("B1"), [2_000.0, y, 700.0]);
        assess(&plan)
    };
    let hung = at(-430.0 - 150.0);
    measures(must(&hung, State::Fixed, "B1", "rail-left"), 0.0, 0.0);
    assert!(
        sentences(&hung, "frame-gap")
            .iter()
            .all(|s| !s.contains("reaches into"))
    );
    // The web is 8 mm thick: 5 mm into it.
    let cut = at(-425.0 - 150.0);
    measures(must(&cut, State::Fixed, "B1", "rail-left"), -5.0, 0.0);
    let said = sentences(&cut, "frame-gap");
    assert!(
        said[0].contains("B1 reaches into the left frame rail by 5 mm"),
        "{said:?}"
    );
}

fn with_obstacle() -> Chassis {
    let mut chassis = bare();
    chassis.obstacles.push(Obstacle {
        id: "air".to_owned(),
        name: "Air tank".to_owned(),
        kind: ObstacleKind::AirTank,
        envelope: vec![Shape::Cylinder {
            from_mm: [2_500.0, -900.0, 600.0],
            to_mm: [3_300.0, -900.0, 600.0],
            diameter_mm: 300.0,
        }],
        clearance_mm: 20.0,
    });
    chassis
}

#[test]
fn an_obstacle_asks_its_own_clearance_unless_the_part_asks_more() {
    let mut plan = plan(with_obstacle());
    put(&mut plan, pack("B1"), [2_090.0, -900.0, 400.0]);
    let gap = assess(&plan);
    measures(must(&gap, State::Fixed, "B1", "air"), 10.0, 20.0);
    assert!(sentences(&gap, "frame-gap")[0].contains("too close to the air tank by 10 mm"));
    plan.parts[0].clearance.rear_mm = Some(60.0);
    measures(must(&assess(&plan), State::Fixed, "B1", "air"), 10.0, 60.0);
}

#[test]
fn kept_hardware_is_in_the_way_and_stripped_hardware_is_not() {
    let mut chassis = bare();
    chassis.hardware.push(Hardware {
        id: "tank".to_owned(),
        name: "Fuel tank".to_owned(),
        mass_kg: 70.0,
        mass_sigma_kg: 0.0,
        cg: Spot {
            x_mm: 2_500.0,
            y_mm: -900.0,
            z_mm: 600.0,
        },
        unsprung_axle: None,
        drive_axle: false,
        strip_by_default: true,
        envelope: vec![Shape::Box {
            from_mm: [2_300.0, -1_050.0, 400.0],
            to_mm: [3_000.0, -750.0, 800.0],
        }],
    });
    let mut plan = plan(chassis);
    put(&mut plan, pack("B1"), [2_000.0, -900.0, 400.0]);
    measures(
        must(&assess(&plan), State::Fixed, "B1", "tank"),
        -100.0,
        0.0,
    );
    plan.changes.stripped = vec!["tank".to_owned()];
    assert!(super::gap(&assess(&plan), State::Fixed, "B1", "tank").is_none());
}

/// The shell asks 25 mm, the cab's own movement 75: two findings about one gap of 20 mm.
#[test]
fn a_part_behind_the_cab_keeps_the_shell_and_its_movement_clear() {
    let mut plan = plan(bare());
    put(&mut plan, pack("B1"), [1_220.0, 0.0, 1_300.0]);
    let assessment = assess(&plan);
    measures(must(&assessment, State::Fixed, "B1", "cab"), 20.0, 25.0);
    let said = sentences(&assessment, "behind-cab");
    assert!(
        said[0].contains("B1 stands 20 mm behind the cab; the cab needs 75 mm"),
        "{said:?}"
    );
}
