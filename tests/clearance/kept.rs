//! Donor axles that are kept, and a chassis that a new wheelbase has moved together.

use super::yard::{assess, bare, finding, part, plan, put, put_at};
use super::{gap, measures, must, sentences};
use axlewright_core::chassis::{AxleKind, Chassis, Hardware, Obstacle, ObstacleKind, Shape, Spot};
use axlewright_core::clearance::State;
use axlewright_core::findings::Severity;
use axlewright_core::part::{AxleBeam, Part};
use axlewright_core::plan::{Place, Plan};
use axlewright_core::quantity::Units;

/// The rear axle of the donor: 4,750 to 5,250, 300 to 700 high; over its travel 220 to 800.
fn with_axle() -> Chassis {
    let mut chassis = bare();
    chassis.hardware.push(Hardware {
        id: "axle".to_owned(),
        name: "Rear axle".to_owned(),
        mass_kg: 400.0,
        mass_sigma_kg: 0.0,
        cg: Spot {
            x_mm: 5_000.0,
            y_mm: 0.0,
            z_mm: 500.0,
        },
        unsprung_axle: Some("axle-2".to_owned()),
        drive_axle: true,
        strip_by_default: true,
        envelope: vec![Shape::Box {
            from_mm: [4_750.0, -200.0, 300.0],
            to_mm: [5_250.0, 200.0, 700.0],
        }],
    });
    chassis
}

fn small() -> Part {
    part("Z1", "equipment-box", 1.0, [200.0, 200.0, 100.0])
}

fn over_the_axle(z_mm: f64) -> Plan {
    let mut plan = plan(with_axle());
    put(&mut plan, small(), [4_900.0, 0.0, z_mm]);
    plan
}

#[test]
fn a_part_inside_a_kept_axle_is_seen() {
    let assessment = assess(&over_the_axle(450.0));
    assert!(must(&assessment, State::Travel, "Z1", "axle").distance_mm < -100.0);
    let said = sentences(&assessment, "suspension-travel");
    assert!(
        said[0].contains("Z1 reaches into the rear axle"),
        "{said:?}"
    );
}

#[test]
fn a_kept_axle_keeps_25_mm_over_its_travel_or_what_the_part_asks() {
    let mut plan = over_the_axle(820.0);
    measures(
        must(&assess(&plan), State::Travel, "Z1", "axle"),
        20.0,
        25.0,
    );
    plan.parts[0].clearance.bottom_mm = Some(60.0);
    measures(
        must(&assess(&plan), State::Travel, "Z1", "axle"),
        20.0,
        60.0,
    );
    let mut below = over_the_axle(110.0);
    measures(
        must(&assess(&below), State::Travel, "Z1", "axle"),
        10.0,
        25.0,
    );
    below.changes.stripped = vec!["axle".to_owned()];
    assert!(gap(&assess(&below), State::Travel, "Z1", "axle").is_none());
}

/// An e-axle at a third axle and the kept second: one may be up while the other is down.
#[test]
fn a_kept_axle_and_an_e_axle_are_measured_with_the_travel_of_both() {
    let mut chassis = with_axle();
    let mut third = chassis.axles[1].clone();
    third.id = "axle-3".to_owned();
    third.x_mm = 5_700.0;
    chassis.axles.push(third);
    chassis.groups[1].axles.push("axle-3".to_owned());
    let mut plan = plan(chassis);
    let mut beam = part("D1", "e-axle", 1.0, [600.0, 600.0, 100.0]);
    let empty: AxleBeam = toml::from_str("").unwrap();
    beam.axle = Some(empty);
    let place = Place::Zone {
        id: "axle-3".to_owned(),
        from_front_mm: 200.0,
        y_mm: 0.0,
        z_mm: 830.0,
    };
    put_at(&mut plan, beam, place);
    // It begins at 5,200, over the kept one's rear end at 5,250, 130 mm above it at rest; the kept
    // one up by 100 and this one down by 80: 130 − 180 = −50.
    measures(
        must(&assess(&plan), State::Travel, "D1", "axle"),
        -50.0,
        25.0,
    );
}

/// What rides on one axle moves together and may touch, but not be in one place.
#[test]
fn an_e_axle_and_what_is_kept_on_its_axle_may_touch_and_no_more() {
    let mut chassis = with_axle();
    chassis.hardware[0].id = "shaft".to_owned();
    chassis.hardware[0].drive_axle = false;
    let mut plan = plan(chassis);
    let mut beam = part("D1", "e-axle", 1.0, [300.0, 300.0, 300.0]);
    let empty: AxleBeam = toml::from_str("").unwrap();
    beam.axle = Some(empty);
    let place = |from_front_mm: f64| Place::Zone {
        id: "axle-2".to_owned(),
        from_front_mm,
        y_mm: 0.0,
        z_mm: 400.0,
    };
    // The zone begins at 4,300.
    put_at(&mut plan, beam, place(150.0));
    measures(must(&assess(&plan), State::Travel, "D1", "shaft"), 0.0, 0.0);
    plan.placed[0].place = place(190.0);
    measures(
        must(&assess(&plan), State::Travel, "D1", "shaft"),
        -40.0,
        0.0,
    );
}

/// What is not known is not passed: of the bare chassis only the tyres have a shape.
#[test]
fn an_axle_without_a_shape_is_not_assessed() {
    let mut plan = over_the_axle(2_000.0);
    let found = assess(&plan);
    let found = finding(&found, "suspension-travel", "what rides on the axles");
    assert_eq!(found.severity, Severity::NotAssessed);
    let said = found.sentence.words(Units::Metric);
    assert!(said.contains("no shape of axle 1 but the tyres"), "{said}");
    // Without the axle its place is empty.
    plan.changes.stripped = vec!["axle".to_owned()];
    let said = sentences(&assess(&plan), "suspension-travel");
    assert!(
        said[0].contains("no shape of axle 1 but the tyres"),
        "{said:?}"
    );
}

fn obstacle(from_mm: [f64; 3], to_mm: [f64; 3]) -> Obstacle {
    Obstacle {
        id: "box".to_owned(),
        name: "Low box".to_owned(),
        kind: ObstacleKind::Other,
        envelope: vec![Shape::Box { from_mm, to_mm }],
        clearance_mm: 0.0,
    }
}

fn cut(mut chassis: Chassis, obstacle: Obstacle, wheelbase_mm: f64) -> Plan {
    chassis.obstacles.push(obstacle);
    let mut plan = plan(chassis);
    plan.changes.wheelbase_mm = Some(wheelbase_mm);
    plan
}

/// The rails are cut at 2,850; the box before it stays, the rear tyre comes from 4,500 to 2,620.
#[test]
fn a_tyre_that_a_shorter_wheelbase_brings_to_a_fixed_thing_is_seen() {
    let low = || obstacle([2_000.0, -1_000.0, 300.0], [2_600.0, -800.0, 700.0]);
    let assessment = assess(&cut(bare(), low(), 3_120.0));
    measures(
        must(&assessment, State::Moved, "tyre-axle-2-left", "box"),
        20.0,
        25.0,
    );
    let found = finding(&assessment, "moved-chassis", "tyre-axle-2-left.box");
    assert_eq!(found.severity, Severity::Fails);
    // Longer, it only goes away; as delivered, nothing has moved and nothing is said.
    let longer = assess(&cut(bare(), low(), 5_500.0));
    assert!(gap(&longer, State::Moved, "tyre-axle-2-left", "box").is_none());
    assert_eq!(sentences(&longer, "moved-chassis").len(), 1);
    let as_delivered = assess(&cut(bare(), low(), 5_000.0));
    assert!(sentences(&as_delivered, "moved-chassis").is_empty());
}

/// 2,850 + 20 = 2,870 is where the kept axle's front comes to; only at jounce is it at the height of
/// the box.
#[test]
fn a_kept_axle_that_a_shorter_wheelbase_brings_to_a_fixed_thing_is_seen() {
    let low = obstacle([2_250.0, -100.0, 720.0], [2_850.0, 100.0, 790.0]);
    let assessment = assess(&cut(with_axle(), low, 3_120.0));
    measures(must(&assessment, State::Moved, "axle", "box"), 20.0, 25.0);
}

/// 20 mm ahead of the tyre on the donor: how the maker built it.
#[test]
fn what_the_donor_has_no_nearer_is_the_makers() {
    let low = || obstacle([4_000.0, -1_000.0, 300.0], [4_480.0, -800.0, 700.0]);
    // Behind the cut: it moves along.
    let assessment = assess(&cut(bare(), low(), 4_500.0));
    assert!(gap(&assessment, State::Moved, "tyre-axle-2-left", "box").is_none());
    // Ahead of the cut: nearer than it was.
    let mut plan = cut(bare(), low(), 4_990.0);
    plan.changes.splice_x_mm = Some(4_400.0);
    measures(
        must(&assess(&plan), State::Moved, "tyre-axle-2-left", "box"),
        10.0,
        25.0,
    );
}

/// The same shape as data of the axle itself: an axle that is listed nowhere as coming off.
fn with_housing() -> Chassis {
    let mut chassis = bare();
    let shape = with_axle().hardware.remove(0).envelope;
    chassis.axles[1].envelope = shape;
    chassis
}

#[test]
fn an_axle_that_stays_is_measured_over_its_travel() {
    let mut plan = plan(with_housing());
    put(&mut plan, small(), [4_900.0, 0.0, 820.0]);
    measures(
        must(&assess(&plan), State::Travel, "Z1", "beam-axle-2"),
        20.0,
        25.0,
    );
    let said = sentences(&assess(&plan), "suspension-travel");
    assert!(
        said[0].contains("Z1 is too close to the housing of axle 2"),
        "{said:?}"
    );
    assert!(
        said[1].contains("no shape of axle 1 but the tyres"),
        "{said:?}"
    );
}

/// A raised axle is measured from where it comes down to: raising it takes no room and gives none.
#[test]
fn a_raised_axle_is_measured_over_the_same_travel() {
    let mut chassis = with_housing();
    chassis.axles[1].kind = AxleKind::Lift;
    let mut third = bare().axles[1].clone();
    third.id = "axle-3".to_owned();
    third.x_mm = 6_300.0;
    chassis.axles.push(third);
    chassis.groups[1].axles.push("axle-3".to_owned());
    let mut down = plan(chassis);
    put(&mut down, small(), [4_900.0, 0.0, 820.0]);
    let mut up = down.clone();
    up.changes.raised = vec!["axle-2".to_owned()];
    assert!(assess(&up).answers.vehicle.is_raised("axle-2"));
    for plan in [down, up] {
        measures(
            must(&assess(&plan), State::Travel, "Z1", "beam-axle-2"),
            20.0,
            25.0,
        );
    }
}

#[test]
fn an_axle_that_stays_moves_with_the_wheelbase() {
    // 2,870 is where the front of the housing comes to; the box stands 20 mm ahead of it.
    let low = obstacle([2_250.0, -100.0, 720.0], [2_850.0, 100.0, 790.0]);
    let assessment = assess(&cut(with_housing(), low, 3_120.0));
    measures(
        must(&assessment, State::Moved, "beam-axle-2", "box"),
        20.0,
        25.0,
    );
}

/// An e-axle where the chassis file says that the donor's axle stays fails; where it does not say that
/// one comes off, nobody knows.
#[test]
fn an_e_axle_needs_an_axle_that_comes_off() {
    let standing = |chassis: Chassis| {
        let mut plan = plan(chassis);
        let mut beam = part("D1", "e-axle", 1.0, [300.0, 300.0, 300.0]);
        let empty: AxleBeam = toml::from_str("").unwrap();
        beam.axle = Some(empty);
        let place = Place::Zone {
            id: "axle-2".to_owned(),
            from_front_mm: 550.0,
            y_mm: 0.0,
            z_mm: 400.0,
        };
        put_at(&mut plan, beam, place);
        plan
    };
    let judged = |plan: &Plan, subject: &str| {
        let assessment = assess(plan);
        finding(&assessment, "double-axle", subject).severity
    };
    assert_eq!(judged(&standing(with_housing()), "D1"), Severity::Fails);
    assert_eq!(judged(&standing(bare()), "D1"), Severity::NotAssessed);
    let mut off = standing(with_axle());
    assert_eq!(judged(&off, "D1"), Severity::Fails);
    off.changes.stripped = vec!["axle".to_owned()];
    assert_eq!(judged(&off, "e-axles"), Severity::Holds);
}
