//! What a plan's duty says: charging bay, tanks, strategy, gas, loads on the way.

use super::plans::drive;
use axlewright_core::assessment::{Assessment, Journey};
use axlewright_core::findings::{self, Severity};
use axlewright_core::library::Library;
use axlewright_core::plan::{self, Bay, BaySide, Plan};
use axlewright_core::route::shipped;

/// The cable of a post, by hand: straight on its own side, around the nose on the other; without a bay
/// nothing is judged.
#[test]
fn a_cable_is_measured_to_the_inlet() {
    let bay = |side, off_mm| Bay {
        side,
        along_mm: 3_000.0,
        off_mm,
        height_mm: 1_000.0,
        reach_mm: 3_500.0,
    };
    let with = |side, off_mm| {
        drive("gullwharf-drayage.json", "harbour-shuttle", |plan| {
            plan.duty.bay = Some(bay(side, off_mm));
        })
    };
    let plain = drive("gullwharf-drayage.json", "harbour-shuttle", |_| {});
    let verdict = |journey: &Journey| {
        let found = findings::of_journey(journey);
        found
            .iter()
            .find(|f| f.check == "charge-reach")
            .unwrap()
            .severity
    };
    assert_eq!(verdict(&plain), Severity::NotAssessed);
    let inlet = plain.answers.vehicle.item("H3").unwrap();
    let (at, half) = (
        inlet.bounds.centre(),
        plain.answers.vehicle.chassis.dimensions.overall_width_mm / 2.0,
    );
    let (own, other) = if at.y < 0.0 {
        (BaySide::Left, BaySide::Right)
    } else {
        (BaySide::Right, BaySide::Left)
    };
    let near = with(own, 800.0);
    let cable = &near.cables.as_ref().unwrap()[0];
    let outer = at.y.abs() + inlet.bounds.size().y / 2.0;
    let straight =
        ((at.x - 3_000.0).powi(2) + (half + 800.0 - outer).powi(2) + (at.z - 1_000.0).powi(2))
            .sqrt();
    assert!(
        (cable.needed_mm - 1.15 * straight).abs() < 1e-6 && !cable.around,
        "{cable:?}"
    );
    let far = with(other, 800.0);
    let around = &far.cables.as_ref().unwrap()[0];
    assert!(
        around.around && around.needed_mm > cable.needed_mm + 2.0 * half,
        "{around:?}"
    );
    assert_eq!(verdict(&far), Severity::Fails);
}

/// A tank that is said to hold more than its volume can is found, and not driven with.
#[test]
fn a_tank_that_cannot_be_is_found() {
    let mut library = Library::shipped();
    let part = library.parts.get("TK-H2-B4").unwrap().clone();
    let verdict = |library: &Library| {
        let text = std::fs::read_to_string("examples/harbour-hydrogen.json").unwrap();
        let plan = Plan::from_json("harbour-hydrogen.json", &text).unwrap();
        let assessment = Assessment::of(&plan, library).unwrap();
        let route = shipped("cruise-55").unwrap();
        let journey = Journey::of(assessment.answers, &route, &mut |_| true).unwrap();
        let found = findings::of_journey(&journey);
        let finding = found.iter().find(|f| f.check == "tank-mass").unwrap();
        (finding.severity, journey.truck.fuel_kg)
    };
    let (good, kg) = verdict(&library);
    assert_eq!(good, Severity::Holds);
    let mut with = |full_kg: f64, water_l: Option<f64>| {
        let mut part = part.clone();
        let contents = part.contents.as_mut().unwrap();
        (contents.full_kg, contents.water_l) = (full_kg, water_l);
        library.parts.insert(part.id.clone(), part);
        verdict(&library)
    };
    let (bad, held) = with(55.0, Some(996.0));
    assert_eq!(bad, Severity::Fails);
    assert!((held / kg - 1.0).abs() < 0.01, "{held} {kg}");
    assert_eq!(with(55.0, None).0, Severity::NotAssessed);
}

/// On and off between two states of charge, as the plan says; natural gas as a mixture is heavier.
#[test]
fn the_plan_chooses_strategy_and_gas() {
    use axlewright_core::energy::Strategy;
    let journey = drive("prairie-loop.json", "level-65mph", |plan| {
        plan.duty.strategy = Some(plan::Strategy::OnOff);
        (plan.duty.start_soc, plan.duty.stop_soc) = (Some(0.45), Some(0.7));
        plan.duty.gas = Some(plan::GasMix {
            ethane: 0.06,
            nitrogen: 0.01,
            ..plan::GasMix::default()
        });
    });
    let switch = Strategy::Switch {
        start: 0.45,
        stop: 0.7,
    };
    assert_eq!(journey.conditions.strategy, switch);
    assert!(journey.run.source_starts >= 1 && journey.run.ledger.gap() < 1e-9);
    let tank = &journey.truck.tanks[0].1;
    let methane = drive("prairie-loop.json", "harbour-shuttle", |_| {})
        .truck
        .tanks[0]
        .1;
    let heavier = tank.holds_kg.unwrap() / methane.holds_kg.unwrap();
    assert!((1.04..1.10).contains(&heavier), "{heavier}");
    assert!(tank.mj_per_kg < methane.mj_per_kg);
}

/// A route that takes off more than is carried is not driven.
#[test]
fn a_route_must_not_take_off_more_than_is_carried() {
    let text = std::fs::read_to_string("examples/gullwharf-drayage.json").unwrap();
    let mut plan = Plan::from_json("plan", &text).unwrap();
    plan.loads.trailer.as_mut().unwrap().payload_kg = 3_000.0;
    plan.duty.trips_a_day = None;
    let assessment = Assessment::of(&plan, &Library::shipped()).unwrap();
    let route = shipped("upland-relay").unwrap();
    let missing = Journey::of(assessment.answers, &route, &mut |_| true).unwrap_err();
    assert!(
        missing[0].contains("4000 kg") && missing[0].contains("3000 kg"),
        "{missing:?}"
    );
}
