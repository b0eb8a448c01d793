//! *Hand.* What the checks of loads say: both when something is wrong and when it is not, and that
//! nothing is judged on figures that cannot be.

use super::yard::{
    assess, assess_with, bare, close, finding, library, part, plan, put, put_at, said, tractor,
    trailer, without_axle,
};
use axlewright_core::assessment::Assessment;
use axlewright_core::chassis::{Chassis, Hardware, Spot};
use axlewright_core::findings::Severity;
use axlewright_core::part::Part;
use axlewright_core::plan::{Payload, PayloadPlace, Place, Plan};
use axlewright_core::quantity::Units;
use axlewright_core::report::{evaluation, text};

fn with_engine(mass_kg: f64, x_mm: f64) -> Plan {
    let mut chassis = bare();
    for (id, name, mass_kg, x_mm) in [
        ("engine", "Engine with gearbox", mass_kg, x_mm),
        ("horn", "Horn", 1.0, 4_000.0),
    ] {
        chassis.hardware.push(Hardware {
            id: id.to_owned(),
            name: name.to_owned(),
            mass_kg,
            mass_sigma_kg: 0.0,
            cg: Spot::new(x_mm, 0.0, 900.0),
            unsprung_axle: None,
            drive_axle: false,
            strip_by_default: true,
            envelope: Vec::new(),
        });
    }
    let mut plan = plan(chassis);
    plan.changes.stripped = vec!["engine".to_owned(), "horn".to_owned()];
    plan
}

/// So much over the rear axle, and such a payload there.
fn rear_heavy(chassis: Chassis, kg: f64, payload_kg: f64) -> Plan {
    let mut plan = plan(chassis);
    put(
        &mut plan,
        part("Z1", "free-mass", kg, [200.0, 200.0, 200.0]),
        [4_900.0, 0.0, 1_100.0],
    );
    if payload_kg > 0.0 {
        plan.loads.payload = Some(Payload {
            mass_kg: payload_kg,
            at: PayloadPlace::Cg(Spot::new(5_000.0, 0.0, 1_800.0)),
        });
    }
    plan
}

/// The front axle carries 3,000 kg in all of these; what is over the rear axle sets its share.
#[test]
fn steer_share_is_stricter_without_payload() {
    for (chassis, kg, payload_kg, share, severity) in [
        // 30 % empty, 22.1 % laden: enough in both.
        (bare(), 4_000.0, 3_600.0, 3.0 / 13.6, Severity::Holds),
        // 23.1 % empty: enough to steer, and light on a wet road.
        (bare(), 7_000.0, 0.0, 3.0 / 13.0, Severity::Caution),
        (
            tractor(5_000.0, 0.0),
            7_000.0,
            0.0,
            3.0 / 13.0,
            Severity::Caution,
        ),
        (bare(), 7_000.0, 3_000.0, 3.0 / 16.0, Severity::Fails),
        (bare(), 10_000.0, 0.0, 3.0 / 16.0, Severity::Fails),
    ] {
        let assessment = assess(&rear_heavy(chassis, kg, payload_kg));
        let steer = finding(&assessment, "steer-share", "steer");
        assert_eq!(steer.severity, severity, "{kg} {payload_kg}");
        close(steer.measured.unwrap().value, share, 1e-9);
    }
}

/// More was stripped than the truck weighs: said once, with the items, and nothing else is judged.
#[test]
fn a_strip_out_heavier_than_the_truck_is_said_once_and_judges_nothing() {
    let assessment = Assessment::of(&with_engine(7_000.0, 1_000.0), &library(trailer())).unwrap();
    let naming: Vec<_> = assessment
        .findings
        .iter()
        .filter(|f| {
            f.sentence
                .words(Units::Metric)
                .contains("Engine with gearbox")
        })
        .collect();
    assert_eq!(naming.len(), 1, "{:#?}", said(&assessment));
    assert_eq!(naming[0].check, "plan-problem");
    for check in [
        "axle-lift-off",
        "axle-rating",
        "gvwr",
        "payload",
        "steer-share",
        "side-balance",
    ] {
        for found in assessment.findings.iter().filter(|f| f.check == check) {
            assert_eq!(found.severity, Severity::NotAssessed, "{check}");
        }
        assert!(
            assessment.findings.iter().any(|f| f.check == check),
            "{check}"
        );
    }
}

/// 4,000 kg over the front axle come off, of which it carried 3,000.
#[test]
fn a_strip_out_below_nothing_on_one_axle_names_what_stood_there() {
    let assessment = assess(&with_engine(4_000.0, 0.0));
    let failing: Vec<_> = assessment
        .findings
        .iter()
        .filter(|f| f.severity == Severity::Fails)
        .collect();
    assert_eq!(failing.len(), 1, "{:#?}", said(&assessment));
    assert_eq!(failing[0].check, "axle-lift-off");
    let words = failing[0].sentence.words(Units::Metric);
    assert!(words.contains("Engine with gearbox"), "{words}");
    for check in ["axle-rating", "payload", "steer-share", "side-balance"] {
        for found in assessment.findings.iter().filter(|f| f.check == check) {
            assert_eq!(found.severity, Severity::NotAssessed, "{check}");
        }
    }
    // The truck's whole mass is right all the same.
    assert_eq!(
        finding(&assessment, "gvwr", "truck").severity,
        Severity::Holds
    );
}

#[test]
fn every_axle_on_the_road_is_said_too() {
    let assessment = assess(&plan(bare()));
    let fine: Vec<_> = assessment
        .findings
        .iter()
        .filter(|f| f.check == "axle-lift-off")
        .collect();
    assert_eq!(fine.len(), 1);
    assert_eq!(fine[0].severity, Severity::Holds);
    close(fine[0].measured.unwrap().value, 3_000.0, 1e-9);
}

fn e_axle(id: &str) -> Part {
    let mut beam = part(id, "e-axle", 800.0, [900.0, 1_000.0, 500.0]);
    beam.axle = Some(
        toml::from_str("rating_kg = 12000\nkeeps_hubs = true\nflange_width_mm = 1000").unwrap(),
    );
    beam
}

/// An e-axle in the middle of its axle's place (700 mm behind the zone's front), and one that is not.
#[test]
fn an_e_axle_stands_on_its_axles_centre() {
    for (from_front_mm, y_mm, severity) in [
        (250.0, 0.0, Severity::Holds),
        (253.0, 2.0, Severity::Holds),
        (290.0, 0.0, Severity::Fails),
        (250.0, -30.0, Severity::Fails),
    ] {
        let mut plan = without_axle();
        let id = "axle-2".to_owned();
        let place = Place::Zone {
            id,
            from_front_mm,
            y_mm,
            z_mm: 250.0,
        };
        put_at(&mut plan, e_axle("D1"), place);
        let assessment = assess(&plan);
        let found = finding(&assessment, "e-axle-centre", "D1");
        assert_eq!(found.severity, severity, "{from_front_mm} {y_mm}");
        let doubled = finding(&assessment, "double-axle", "e-axles");
        assert_eq!(doubled.severity, Severity::Holds);
    }
}

/// The front axle is 500 kg over its rating before any payload, and payload over the rear axle does
/// not change that: none is possible, and every place that names a payload says so.
#[test]
fn a_limit_that_is_passed_without_payload_leaves_none() {
    let mut chassis = bare();
    chassis.axles[0].gawr_kg = Some(2_500.0);
    let mut plan = plan(chassis);
    plan.loads.payload = Some(Payload {
        mass_kg: 1_000.0,
        at: PayloadPlace::Cg(Spot::new(5_000.0, 0.0, 1_800.0)),
    });
    let assessment = assess_with(&plan, &library(trailer()));
    let capacity = assessment.answers.capacity.as_ref().unwrap();
    close(capacity.payload_kg(), 0.0, 1e-9);
    let found = finding(&assessment, "payload", "payload");
    assert_eq!(found.severity, Severity::Fails);
    let words = found.sentence.words(Units::Metric);
    assert!(words.contains("No payload is possible"), "{words}");
    assert!(
        words.contains("front axle") && words.contains("500 kg"),
        "{words}"
    );
    close(found.margin.unwrap().value, -500.0, 1e-9);
    let data = evaluation(&assessment, Units::Metric).payload.unwrap();
    close(data.max_kg, 0.0, 1e-9);
    assert!(
        data.governed_by.contains("front axle"),
        "{}",
        data.governed_by
    );
    let printed = text(&assessment, Units::Metric);
    assert!(printed.contains("No payload is possible"), "{printed}");
}

/// The rear axle is over before any payload, and payload makes it worse: the same words.
#[test]
fn a_limit_that_payload_makes_worse_leaves_none_either() {
    let mut chassis = bare();
    chassis.axles[1].gawr_kg = Some(2_900.0);
    let mut plan = plan(chassis);
    plan.loads.payload = Some(Payload {
        mass_kg: 0.0,
        at: PayloadPlace::Cg(Spot::new(5_000.0, 0.0, 1_800.0)),
    });
    let assessment = assess(&plan);
    let words = finding(&assessment, "payload", "payload")
        .sentence
        .words(Units::Metric);
    assert!(words.contains("No payload is possible"), "{words}");
    assert!(words.contains("100 kg over its axle rating"), "{words}");
}

/// 200 kg 0.5 m to the right and as much payload 0.5 m to the left: the truck leans when empty, and
/// the sides are equal again when it is laden. Both count; the worse one is said.
#[test]
fn sides_are_judged_with_and_without_payload() {
    let mut plan = plan(bare());
    put(
        &mut plan,
        part("Z1", "free-mass", 200.0, [200.0, 200.0, 200.0]),
        [4_900.0, 500.0, 1_100.0],
    );
    plan.loads.payload = Some(Payload {
        mass_kg: 1_000.0,
        at: PayloadPlace::Cg(Spot::new(5_000.0, -700.0, 1_800.0)),
    });
    let found = assess(&plan);
    let rear = finding(&found, "side-balance", "rear");
    // 200 · 500 less 1,000 · 700, over a track of 1,800 and 4,200 kg.
    close(
        rear.measured.unwrap().value,
        2.0 * 600_000.0 / 1_800.0 / 4_200.0,
        1e-9,
    );
    assert!(rear.sentence.words(Units::Metric).contains("(laden)"));
}

/// Payload a metre behind the rear axle takes a fifth of itself off the front axle, which has 3,000 kg:
/// at 4,500 kg it has a fifth of the truck left, the least for steering, and at 15,000 kg nothing.
#[test]
fn payload_ends_where_it_lifts_an_axle() {
    let mut plan = plan(bare());
    plan.loads.payload = Some(Payload {
        mass_kg: 1_000.0,
        at: PayloadPlace::Cg(Spot::new(6_000.0, 0.0, 1_800.0)),
    });
    let assessment = assess(&plan);
    let capacity = assessment.answers.capacity.as_ref().unwrap();
    close(capacity.payload_kg(), 4_500.0, 1e-6);
    let lifts = capacity.rows.iter().find(|row| row.by == "lifts off");
    close(lifts.unwrap().payload_kg, 15_000.0, 1e-6);
    let found = finding(&assessment, "payload", "payload");
    assert_eq!(found.severity, Severity::Holds);
    let words = found.sentence.words(Units::Metric);
    assert!(words.contains("steered axle (least share)"), "{words}");
}
