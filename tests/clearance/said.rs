//! What is said when all is well, what is low, and what the drawing is told about parts.

use super::sentences;
use super::yard::{assess, bare, finding, part, plan, put, put_at, without_axle};
use axlewright_core::assessment::Assessment;
use axlewright_core::findings::Severity;
use axlewright_core::part::{AxleBeam, Part};
use axlewright_core::plan::{Place, Plan};
use axlewright_core::quantity::Units;
use axlewright_core::report::marks;

const SIZE: [f64; 3] = [400.0, 300.0, 400.0];

fn at(z: f64) -> Plan {
    let mut plan = plan(bare());
    put(
        &mut plan,
        part("Z1", "equipment-box", 1.0, SIZE),
        [2_000.0, -800.0, z],
    );
    plan
}

fn e_axle() -> Part {
    let mut beam = part("D1", "e-axle", 800.0, [600.0, 600.0, 400.0]);
    let empty: AxleBeam = toml::from_str("").unwrap();
    beam.axle = Some(empty);
    beam
}

fn at_axle(z_mm: f64) -> Plan {
    let mut plan = without_axle();
    let place = Place::Zone {
        id: "axle-2".to_owned(),
        from_front_mm: 400.0,
        y_mm: 0.0,
        z_mm,
    };
    put_at(&mut plan, e_axle(), place);
    plan
}

#[test]
fn what_is_usual_above_the_road_and_the_least_of_it_are_both_said() {
    for z in [249.0, 260.0, 310.0] {
        assert_eq!(
            sentences(&assess(&at(z)), "ground-clearance"),
            [format!(
                "Z1 is {z} mm above the road, laden; 300 mm is usual, 250 mm the least."
            )]
        );
    }
}

#[test]
fn an_e_axle_has_ground_clearance_of_its_own() {
    for (z, wanted) in [
        (149.0, Severity::Fails),
        (150.0, Severity::Caution),
        (199.0, Severity::Caution),
        (200.0, Severity::Holds),
    ] {
        let assessment = assess(&at_axle(z));
        let found = finding(&assessment, "ground-clearance", "D1");
        assert_eq!(found.severity, wanted, "at {z}");
        assert_eq!(
            found.sentence.words(Units::Metric),
            format!(
                "D1 is {z} mm above the road under an axle, laden; 200 mm is usual, 150 mm the least."
            )
        );
    }
}

fn of<'a>(assessment: &'a Assessment, check: &str) -> Vec<(&'a str, Severity)> {
    let found = assessment.findings.iter().filter(|f| f.check == check);
    found.map(|f| (f.subject.as_str(), f.severity)).collect()
}

/// A check that has something to look at says so when all is well, once.
#[test]
fn checks_of_places_say_that_they_hold() {
    let mut plan = at_axle(300.0);
    let mut tank = part("T1", "gas-tank", 1.0, SIZE);
    tank.behind_front_axle = true;
    tank.zones = vec!["saddle-left".to_owned()];
    let place = Place::Zone {
        id: "saddle-left".to_owned(),
        from_front_mm: 100.0,
        y_mm: -800.0,
        z_mm: 400.0,
    };
    put_at(&mut plan, tank, place);
    let assessment = assess(&plan);
    for (check, subject) in [
        ("axle-lift-off", "truck"),
        ("zone-fit", "zones"),
        ("zone-choice", "zones"),
        ("gas-ahead-of-axle", "tanks"),
        ("double-axle", "e-axles"),
    ] {
        assert_eq!(
            of(&assessment, check),
            [(subject, Severity::Holds)],
            "{check}"
        );
    }
}

/// And nothing where there is nothing to look at.
#[test]
fn checks_of_places_say_nothing_about_what_is_not_there() {
    let assessment = assess(&plan(bare()));
    let checks = [
        "zone-fit",
        "zone-choice",
        "gas-ahead-of-axle",
        "double-axle",
        "suspension-travel",
        "moved-chassis",
    ];
    for check in checks {
        assert_eq!(of(&assessment, check), [], "{check}");
    }
}

/// Every finding about a part that is not well points at it: both ends on the part's box or one of
/// them on what it is held against.
#[test]
fn findings_about_one_part_point_at_it() {
    let mut plan = plan(bare());
    let mut tank = part("T1", "gas-tank", 1.0, SIZE);
    tank.behind_front_axle = true;
    tank.zones = vec!["saddle-left".to_owned()];
    let place = Place::Zone {
        id: "saddle-right".to_owned(),
        from_front_mm: -3_000.0,
        y_mm: 1_300.0,
        z_mm: 400.0,
    };
    put_at(&mut plan, tank, place);
    put(
        &mut plan,
        part("Z1", "equipment-box", 1.0, SIZE),
        [6_300.0, 0.0, 500.0],
    );
    let assessment = assess(&plan);
    let wanted = [
        ("zone-fit", "T1"),
        ("zone-choice", "T1"),
        ("overall-width", "T1"),
        ("front-and-rear-end", "T1.bumper"),
        ("front-and-rear-end", "Z1.rear end"),
        ("gas-ahead-of-axle", "T1"),
    ];
    for (check, subject) in wanted {
        let found = finding(&assessment, check, subject);
        assert!(found.severity <= Severity::Caution, "{check}");
        let tag = subject.split('.').next().unwrap();
        assert_eq!(found.tags, [tag], "{check}");
        let pointer = found
            .pointer
            .unwrap_or_else(|| panic!("{check} points nowhere"));
        let part = assessment.answers.vehicle.item(tag).unwrap();
        let outside = |p| axlewright_core::geometry::Aabb::new(p, p).gap(&part.bounds);
        assert!(outside(pointer.from) < 1e-9, "{check}: {pointer:?}");
        if let Some(by) = found.measured.filter(|_| check != "overall-width") {
            let long = (pointer.to - pointer.from).length();
            assert!(
                (long - by.value.abs()).abs() < 1e-9,
                "{check}: {long}, {by:?}"
            );
        }
    }
}

/// Twenty low parts: the drawing shows a dozen pointers, and marks every part.
#[test]
fn every_failing_part_is_marked_on_the_drawing_however_many_there_are() {
    let mut plan = plan(bare());
    for i in 0..20 {
        let tag = format!("Z{i}");
        let low = part(&tag, "equipment-box", 1.0, [20.0, 20.0, 20.0]);
        put(&mut plan, low, [1_500.0 + 130.0 * f64::from(i), 0.0, 200.0]);
    }
    let ok = part("Y1", "equipment-box", 1.0, SIZE);
    put(&mut plan, ok, [2_000.0, -800.0, 400.0]);
    let marks = marks(&assess(&plan), Units::Metric, None);
    assert_eq!(marks.pointers.len(), 12);
    for i in 0..20 {
        assert_eq!(
            marks.parts.get(&format!("Z{i}")),
            Some(&Severity::Fails),
            "Z{i}"
        );
    }
    assert_eq!(marks.parts.get("Y1"), None);
}
