//! Whole plans on routes: what the examples do, and the hand figures of the three conversions.

use axlewright_core::assessment::{Assessment, Journey};
use axlewright_core::energy::{Resistance, held_speed_mps};
use axlewright_core::findings::{self, Severity};
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use axlewright_core::route::{SHIPPED, shipped};
use serde::Deserialize;
use std::path::Path;

#[derive(Deserialize)]
struct Cases {
    case: Vec<Case>,
}

#[derive(Deserialize)]
pub struct Case {
    plan: String,
    pub example: String,
    pub mass_kg: f64,
    pub drag_area_m2: f64,
    pub rolling: f64,
    driveline: f64,
    pub air_kg_m3: f64,
    pub continuous_kw: f64,
    pub peak_kw: f64,
    pub continuous_kmh: f64,
    pub peak_kmh: f64,
    pub wheel_kw_at_65_kmh: f64,
}

/// The hand figures of the three conversions.
pub fn by_hand() -> Vec<Case> {
    let cases: Cases = toml::from_str(include_str!("../cases/grades.toml")).unwrap();
    cases.case
}

/// The hand figures step by half a kilometre an hour.
const KMH: f64 = 0.5;

#[test]
fn speeds_on_six_per_cent_of_the_three_conversions() {
    for case in by_hand() {
        let truck = Resistance {
            mass_kg: case.mass_kg,
            rolling: case.rolling,
            drag_area_m2: case.drag_area_m2,
        };
        let held = |kw: f64| {
            let wheel_w = kw * 1e3 * case.driveline;
            3.6 * held_speed_mps(&truck, wheel_w, 0.06, case.air_kg_m3).unwrap()
        };
        let (lasting, peak) = (held(case.continuous_kw), held(case.peak_kw));
        assert!(
            (lasting - case.continuous_kmh).abs() < KMH,
            "{}: {lasting}",
            case.plan
        );
        assert!((peak - case.peak_kmh).abs() < KMH, "{}: {peak}", case.plan);
        let v = 65.0 / 3.6;
        let kw = truck.forces(v, 0.06, case.air_kg_m3, 0.0).sum_n() * v / 1e3;
        assert!(
            (kw - case.wheel_kw_at_65_kmh).abs() < 1.0,
            "{}: {kw}",
            case.plan
        );
    }
}

pub fn drive(example: &str, route: &str, change: impl Fn(&mut Plan)) -> Journey {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("examples")
        .join(example);
    let text = std::fs::read_to_string(path).unwrap();
    let mut plan = Plan::from_json(example, &text).unwrap();
    // One trip, and no bay unless the case asks for it.
    (plan.duty.trips_a_day, plan.duty.bay) = (None, None);
    change(&mut plan);
    let assessment = Assessment::of(&plan, &Library::shipped()).unwrap();
    Journey::of(assessment.answers, &shipped(route).unwrap(), &mut |_| true).unwrap()
}

/// Every plan on every route that is shipped: the ledger closes, and nothing is not finite.
#[test]
fn the_ledger_closes_for_every_plan_on_every_route() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut driven = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        if !name.ends_with(".json") || name.ends_with(".schema.json") {
            continue;
        }
        let text = std::fs::read_to_string(format!("examples/{name}")).unwrap();
        let plan = Plan::from_json(&name, &text).unwrap();
        for (route, _) in SHIPPED {
            let assessment = Assessment::of(&plan, &Library::shipped()).unwrap();
            let journey = Journey::of(assessment.answers, &shipped(route).unwrap(), &mut |_| true);
            let Ok(journey) = journey else { continue };
            let gap = journey.run.ledger.gap();
            assert!(gap < 1e-9, "{name} {route}: {gap}");
            assert!(
                journey.range_m.is_finite() && journey.per_m_j > 0.0,
                "{name} {route}"
            );
            driven += 1;
        }
    }
    assert!(driven >= 90, "{driven}");
}

/// A heavier truck goes less far, an older pack too, and cold costs.
#[test]
fn mass_age_and_cold_cost_range() {
    let range =
        |change: fn(&mut Plan)| drive("gullwharf-drayage.json", "harbour-shuttle", change).range_m;
    let new = range(|_| {});
    let heavy = range(|plan| {
        let trailer = plan.loads.trailer.as_mut().unwrap();
        trailer.payload_kg += 2_000.0;
    });
    let old = range(|plan| plan.duty.health = Some(0.8));
    let cold = range(|plan| plan.duty.temperature_c = Some(-20.0));
    assert!(
        heavy < new && old < new && cold < new,
        "{new} {heavy} {old} {cold}"
    );
    assert!((old / new - 0.8).abs() < 0.02, "{}", old / new);
}

/// Every example that has packs and a drive gives findings, each with a sentence and a source, and
/// nothing that is not finite.
#[test]
fn every_finding_of_a_drive_is_whole() {
    for example in [
        "gullwharf-drayage.json",
        "prairie-loop.json",
        "harbour-hydrogen.json",
        "millbrook-parcel.json",
    ] {
        let journey = drive(example, "harbour-shuttle", |_| {});
        let found = findings::of_journey(&journey);
        assert!(found.len() >= 9, "{example}: {}", found.len());
        for finding in &found {
            let sentence = finding.sentence.words(axlewright_core::quantity::Units::Us);
            assert!(
                sentence.ends_with('.') && !sentence.contains("unknown"),
                "{example}: {sentence}"
            );
            for amount in [finding.measured, finding.limit, finding.margin]
                .into_iter()
                .flatten()
            {
                assert!(amount.value.is_finite(), "{example}: {}", finding.check);
            }
        }
        assert!(
            found.iter().any(|f| f.severity == Severity::Holds),
            "{example}"
        );
    }
}
