//! The US bridge formula: published cells and examples (`tests/published/law/bridge.toml`), our plans by
//! hand, what must hold for any row of axles, and payload against a scan.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)] // tests

#[path = "law/eu.rs"]
mod eu;
#[path = "law/near.rs"]
mod near;
#[path = "law/own.rs"]
mod own;
#[path = "law/position.rs"]
mod position;
#[path = "law/published.rs"]
mod published;
#[path = "law/row.rs"]
mod row;
mod shipped;
#[path = "loads/yard.rs"]
mod yard;

use axlewright_core::assessment::Assessment;
use axlewright_core::findings::{Finding, Severity};
use axlewright_core::law::Raised;
use axlewright_core::legality::{Rule, bridge_groups, table_lb};
use axlewright_core::library::Library;
use axlewright_core::plan::{LawChoice, Plan};
use proptest::prelude::*;
use row::{FT, LB, law, standing};
use std::path::Path;

fn read(name: &str) -> Plan {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("examples")
        .join(name);
    Plan::from_json(name, &std::fs::read_to_string(path).unwrap()).unwrap()
}

fn assess(plan: &Plan) -> Assessment {
    Assessment::of(plan, &Library::shipped()).unwrap()
}

fn carry(plan: &mut Plan, kg: f64) {
    plan.loads.trailer.as_mut().unwrap().payload_kg = kg;
}

fn of_check<'a>(assessment: &'a Assessment, check: &str) -> Vec<&'a Finding> {
    let findings = assessment.findings.iter();
    findings
        .map(AsRef::as_ref)
        .filter(|f: &&Finding| f.check == check)
        .collect()
}

const SHORT: &str = "wrong/gullwharf-short-bridge.json";

/// The other two say what follows: too much payload, and no slider position that helps.
#[test]
fn a_heavy_box_on_a_short_chassis_fails_by_the_bridge_formula_alone() {
    let assessment = assess(&read(SHORT));
    let fails = assessment.findings.iter();
    let fails: Vec<(&str, &str)> = fails
        .filter(|f| f.severity == Severity::Fails)
        .map(|f| (f.check, f.subject.as_str()))
        .collect();
    assert_eq!(
        fails,
        [
            ("payload", "payload"),
            ("road-bridge", "axles 2 to 5"),
            ("road-bridge", "axles 1 to 5"),
            ("fifth-wheel-position", "fifth wheel"),
        ]
    );
    let worst = of_check(&assessment, "road-bridge")[0];
    assert_eq!(worst.tags, ["axle-2", "axle-3", "trailer-1", "trailer-2"]);
    let pointer = worst.pointer.unwrap();
    assert!(pointer.from.z == 0.0 && pointer.to.z == 0.0 && pointer.to.x > pointer.from.x);
    let capacity = assessment.answers.capacity.as_ref().unwrap();
    let governing = capacity.governing().unwrap();
    assert_eq!(
        (governing.name.as_str(), governing.by),
        ("axles 2 to 5", "bridge formula")
    );
}

/// The sentence says how far apart the outer axles would pass: there they do, a millimetre less they
/// do not.
#[test]
fn the_spread_that_is_named_is_the_least_that_passes() {
    let spread = |more_mm: f64| {
        let mut library = Library::shipped();
        let trailer = library.trailers.get_mut("container-20").unwrap();
        trailer.kingpin_to_axles_mm += more_mm;
        Assessment::of(&read(SHORT), &library).unwrap()
    };
    let now = spread(0.0);
    for bridge in now.answers.bridge.as_ref().unwrap() {
        let Some((apart, more)) = bridge.group.spread_mm() else {
            continue;
        };
        assert!((bridge.group.length_mm() + more - apart).abs() < 1e-9);
        let after = |more: f64| {
            let groups = spread(more).answers.bridge.unwrap();
            let same = groups
                .into_iter()
                .find(|b| b.group.numbers == bridge.group.numbers);
            same.unwrap().group.margin_kg()
        };
        assert!(after(more + 1e-6) >= 0.0, "{:?}", bridge.group);
        assert!(after(more - 1.0) < 0.0, "{:?}", bridge.group);
    }
    let named = now.answers.bridge.unwrap();
    assert_eq!(
        named
            .iter()
            .filter(|b| b.group.passes_at_mm.is_some())
            .count(),
        2
    );
}

#[test]
fn a_group_that_no_length_helps_says_so() {
    let vehicle = standing(&[0.0, 20.0, 24.0, 60.0, 64.0], false);
    let loads = [20_000.0, 16_000.0, 16_000.0, 16_000.0, 16_000.0].map(|lb| lb * LB);
    let groups = bridge_groups(&vehicle, &loads);
    let all = groups.iter().find(|g| g.numbers == (1, 5)).unwrap();
    assert_eq!((all.rule, all.passes_at_mm), (Rule::Gross, None));
    assert!(all.margin_kg() < 0.0 && all.held_elsewhere);
}

/// The exception lets 68,000 lb pass at 36 ft, where the table asks for 39.
#[test]
fn the_spread_of_two_tandems_knows_the_exception() {
    let vehicle = standing(&[0.0, 16.0, 20.0, 47.0, 51.0], false);
    let loads = [12_000.0, 17_000.0, 17_000.0, 17_000.0, 17_000.0].map(|lb| lb * LB);
    let groups = bridge_groups(&vehicle, &loads);
    let inner = groups.iter().find(|g| g.numbers == (2, 5)).unwrap();
    let (apart, _) = inner.spread_mm().unwrap();
    assert!((36.0 * FT..36.0 * FT + 1.0).contains(&apart), "{apart}");
}

#[test]
fn raised_axles_do_not_count() {
    let mut plan = read("lakeside-lift-axle.json");
    let numbers = |plan: &Plan| {
        let groups = assess(plan).answers.bridge.unwrap();
        let outer = groups.iter().find(|b| b.group.numbers == (1, 5)).unwrap();
        (groups.len(), outer.group.axles.len())
    };
    assert!(plan.changes.raised.is_empty());
    assert_eq!(numbers(&plan), (10, 5));
    let library = Library::shipped();
    let lift = library.chassis["lift-6x2"].axles.iter();
    let lift = lift.filter(|a| a.kind == axlewright_core::chassis::AxleKind::Lift);
    plan.changes.raised = lift.map(|a| a.id.clone()).collect();
    assert_eq!(numbers(&plan), (6, 4));
}

/// A lift axle and the driven one behind it are two groups of the chassis but one tandem of the law:
/// only the bridge groups see them together.
#[test]
fn two_groups_of_the_chassis_can_be_one_tandem_of_the_law() {
    let mut plan = read("lakeside-lift-axle.json");
    carry(&mut plan, 19_500.0);
    let assessment = assess(&plan);
    let bridge = of_check(&assessment, "road-bridge");
    assert_eq!(
        (bridge[0].severity, bridge[0].subject.as_str()),
        (Severity::Fails, "axles 2 to 3")
    );
    let single = of_check(&assessment, "road-axle");
    assert!(single.iter().all(|f| f.severity != Severity::Fails));
}

#[test]
fn without_a_law_or_loads_nothing_is_assessed_and_without_a_formula_nothing_is_said() {
    let mut plan = read("gullwharf-drayage.json");
    plan.law = LawChoice::default();
    let assessment = assess(&plan);
    let found = of_check(&assessment, "road-bridge");
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].severity, Severity::NotAssessed);

    let mut chassis = yard::bare();
    chassis.ticket = None;
    let mut plan = yard::plan(chassis);
    plan.law.regime = Some("us-interstate".to_owned());
    let assessment = assess(&plan);
    let found = of_check(&assessment, "road-bridge");
    assert_eq!(found[0].severity, Severity::NotAssessed);

    let mut library = Library::shipped();
    library.laws.get_mut("us-interstate").unwrap().bridge = None;
    let plan = read("gullwharf-drayage.json");
    let assessment = Assessment::of(&plan, &library).unwrap();
    assert!(of_check(&assessment, "road-bridge").is_empty());
    let groups = assessment.answers.bridge.unwrap();
    assert_eq!(groups.len(), 2, "the two tandems are left");
    assert!(groups.iter().all(|b| b.group.held_elsewhere));
}

/// The allowance raises the gross weight only, unless the law's file says otherwise.
#[test]
fn what_the_allowance_raises_is_a_datum() {
    let with = |limits: Vec<Raised>, claimed: bool| {
        let mut library = Library::shipped();
        let law = library.laws.get_mut("us-interstate").unwrap();
        law.allowances[0].raises = limits;
        let mut plan = read("gullwharf-drayage.json");
        plan.law.allowance = claimed;
        let assessment = Assessment::of(&plan, &library).unwrap();
        let groups = assessment.answers.bridge.unwrap();
        let lb = |numbers: (u32, u32)| {
            let group = groups.iter().find(|b| b.group.numbers == numbers).unwrap();
            (group.group.allowed_kg / LB).round()
        };
        let gross = axlewright_core::legality::gross_limit_kg(&assessment.answers.vehicle);
        let gross = (gross.unwrap() / LB).round();
        [lb((2, 5)), lb((2, 3)), lb((1, 5)), gross]
    };
    let plain = [66_000.0, 34_000.0, 78_500.0, 80_000.0];
    let gross = [66_000.0, 34_000.0, 78_500.0, 82_000.0];
    let shipped = Library::shipped().laws["us-interstate"].clone();
    assert_eq!(shipped.allowances[0].raises, [Raised::Gross]);
    assert_eq!(with(vec![Raised::Gross], true), gross);
    assert_eq!(with(vec![], true), plain);
    assert_eq!(with(vec![Raised::Gross], false), plain);
    let all = vec![
        Raised::Gross,
        Raised::SingleAxle,
        Raised::Tandem,
        Raised::Bridge,
    ];
    assert_eq!(with(all, true), [68_000.0, 36_000.0, 80_500.0, 82_000.0]);
    let bridge = vec![Raised::Bridge];
    // Without more gross weight the outer group stays at 80,000 lb.
    assert_eq!(with(bridge, true), [68_000.0, 34_000.0, 80_000.0, 80_000.0]);
}

/// The largest payload is the largest that a scan finds free of failing load and law checks.
#[test]
fn payload_by_formula_agrees_with_a_scan() {
    const CHECKS: [&str; 9] = [
        "axle-rating",
        "tyre-rating",
        "suspension-rating",
        "e-axle-rating",
        "road-axle",
        "road-bridge",
        "road-gross",
        "trailer-axles",
        "gcwr",
    ];
    for name in [SHORT, "lakeside-lift-axle.json", "prairie-loop.json"] {
        let mut plan = read(name);
        let answers = assess(&plan).answers;
        let by_formula = answers.capacity.unwrap().payload_kg();
        let mut passes = |kg: f64| {
            carry(&mut plan, kg);
            let fails = assess(&plan).findings.into_iter();
            let mut fails = fails.filter(|f| f.severity == Severity::Fails);
            !fails.any(|f| CHECKS.contains(&f.check))
        };
        // Steps of 500 kg first: whatever passes below must pass all the way.
        let mut scanned = 0.0;
        while passes(scanned + 500.0) {
            scanned += 500.0;
        }
        while passes(scanned + 10.0) {
            scanned += 10.0;
        }
        let short = by_formula - scanned;
        assert!(
            (0.0..10.0).contains(&short),
            "{name}: {by_formula} by formula, {scanned} scanned"
        );
    }
}

#[test]
fn moving_mass_never_changes_what_all_axles_carry_together() {
    let outer = |plan: &Plan| {
        let answers = assess(plan).answers;
        let groups = answers.bridge.unwrap();
        let all = groups.iter().find(|b| b.group.numbers == (1, 5)).unwrap();
        let gross = answers.loads.heaviest().unwrap().gross_kg;
        assert!((all.group.actual_kg - gross).abs() < 1e-6);
        all.group.actual_kg
    };
    let plan = read("gullwharf-drayage.json");
    let before = outer(&plan);
    for step in 0..8 {
        let mut moved = plan.clone();
        moved.changes.fifth_wheel_ahead_mm = Some(f64::from(step) * 80.0);
        moved.loads.trailer.as_mut().unwrap().load_cg = Some(0.3 + 0.05 * f64::from(step));
        let place = &mut moved.placed[step as usize].place;
        if let axlewright_core::plan::Place::Zone { from_front_mm, .. } = place {
            *from_front_mm += 137.0 * f64::from(step);
        }
        assert!((outer(&moved) - before).abs() < 1e-6, "step {step}");
    }
}

proptest! {
    #[test]
    fn more_length_never_lowers_the_table(axles in 2u32..12, ft in 1.0..70.0f64, more in 0.0..20.0f64) {
        let law = law();
        let (now, then) = (table_lb(&law, axles, ft), table_lb(&law, axles, ft + more));
        prop_assert!(then.unwrap() >= now.unwrap(), "{axles} axles, {ft} ft and {more} more");
    }

    #[test]
    fn one_more_axle_over_the_same_length_never_lowers_the_table(axles in 2u32..12, ft in 1.0..70.0f64) {
        let law = law();
        let (now, then) = (table_lb(&law, axles, ft), table_lb(&law, axles + 1, ft));
        prop_assert!(then.unwrap() >= now.unwrap(), "{axles} axles, {ft} ft");
    }

    /// Nor does more room between two axles of a vehicle, for any group; except that a tandem pulled
    /// apart beyond 96 in is none any more, and the exception for two tandems goes with it.
    #[test]
    fn more_room_between_two_axles_never_lowers_what_a_group_may_weigh(
        gaps in proptest::collection::vec(1.0..30.0f64, 1..7), which in 0usize..7, more in 0.0..12.0f64,
    ) {
        let at = |gaps: &[f64]| {
            let ends = gaps.iter().scan(0.0, |x, gap| { *x += gap; Some(*x) });
            std::iter::once(0.0).chain(ends).collect::<Vec<f64>>()
        };
        let mut wider = gaps.clone();
        wider[which % gaps.len()] += more;
        let loads = vec![5_000.0; gaps.len() + 1];
        let now = bridge_groups(&standing(&at(&gaps), false), &loads);
        let then = bridge_groups(&standing(&at(&wider), false), &loads);
        prop_assert_eq!(now.len(), then.len());
        for (now, then) in now.iter().zip(&then) {
            let lost_the_exception = now.rule == Rule::TandemPair && then.rule != Rule::TandemPair;
            prop_assert!(then.allowed_kg >= now.allowed_kg - 1e-6 || lost_the_exception, "{now:?} {then:?}");
        }
    }

    /// Lengths come in millimetres; a tie must not be lost in their last digits.
    #[test]
    fn ties_go_down_whatever_the_place(start_mm in 0.0..9_000.0f64, feet in 9u32..40) {
        let feet = 2 * (feet / 2) + 1;
        let from = start_mm / FT;
        let end = f64::from(feet) + from;
        let groups = bridge_groups(&standing(&[from, from + 4.0, end], false), &[1.0; 3]);
        let all = groups.iter().find(|g| g.numbers == (1, 3)).unwrap();
        // W = 500 (1.5 L + 72): an odd foot ends in 250 lb too much.
        let lb = 750.0 * f64::from(feet) + 36_000.0 - 250.0;
        prop_assert!((all.allowed_kg / LB - lb.min(60_000.0)).abs() < 1e-6, "{} ft", feet);
    }
}
