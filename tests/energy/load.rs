//! Load that stops put on: followed through the day, and held against what the truck may carry.

use axlewright_core::assessment::{Assessment, Journey};
use axlewright_core::findings::{Finding, Severity, of_journey};
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use axlewright_core::route::{Course, Route, Stop, Target};
use axlewright_core::shared::Shared;

fn plan(name: &str) -> Plan {
    let text = std::fs::read_to_string(format!("examples/{name}.json")).unwrap();
    Plan::from_json("plan", &text).unwrap()
}

/// Four kilometres with a stop after each of the first ones, by the load that is put on there.
fn road(loads_kg: &[f64]) -> Route {
    let mut route = Route::level(15.0, 4_000.0);
    let stop = |(index, load_kg): (usize, &f64)| Stop {
        load_kg: *load_kg,
        ..Stop::halt(1_000.0 * (index as f64 + 1.0), 30.0)
    };
    route.course = Course::Road {
        length_m: 4_000.0,
        targets: vec![Target {
            from_m: 0.0,
            speed_mps: 15.0,
        }],
        stops: loads_kg.iter().enumerate().map(stop).collect(),
    };
    route
}

fn drive(plan: &Plan, loads_kg: &[f64]) -> Journey {
    let assessment = Assessment::of(plan, &Library::shipped()).unwrap();
    Journey::of(assessment.answers, &road(loads_kg), &mut |_| true).unwrap()
}

fn of_load(journey: &Journey) -> Option<Shared<Finding>> {
    let mut found = of_journey(journey).into_iter();
    found.find(|f| f.check == "load-on-the-way")
}

/// What the plan's own check of payload says when all of it is aboard from the start.
fn as_planned(plan: &Plan) -> Severity {
    let assessment = Assessment::of(plan, &Library::shipped()).unwrap();
    let mut found = assessment.findings.into_iter();
    found.find(|f| f.check == "payload").unwrap().severity
}

/// Whatever the stops put on is judged as if the truck had set out with it: on the trailer, and on a truck
/// of one piece, a little below and a little above what is possible.
#[test]
fn load_put_on_at_a_stop_is_held_against_the_limits_as_if_planned() {
    for name in [
        "gullwharf-drayage",
        "quarry-road-tipper",
        "millbrook-parcel",
    ] {
        let mut start = plan(name);
        start.loads.target_payload_kg = None;
        let set =
            |plan: &mut Plan, kg: f64| match (&mut plan.loads.trailer, &mut plan.loads.payload) {
                (Some(trailer), _) => trailer.payload_kg = kg,
                (None, payload) => payload.as_mut().unwrap().mass_kg = kg,
            };
        set(&mut start, 500.0);
        let possible_kg = {
            let assessment = Assessment::of(&start, &Library::shipped()).unwrap();
            assessment.answers.capacity.unwrap().payload_kg()
        };
        assert!(possible_kg > 1_000.0, "{name}: {possible_kg}");
        for (more_kg, wanted) in [(-20.0, Severity::Holds), (20.0, Severity::Fails)] {
            let mut full = start.clone();
            set(&mut full, possible_kg + more_kg);
            assert_eq!(as_planned(&full), wanted, "{name}");
            let put_on_kg = possible_kg + more_kg - 500.0;
            let journey = drive(&start, &[put_on_kg, -put_on_kg]);
            let found = of_load(&journey).unwrap();
            assert_eq!(found.severity, wanted, "{name}: {found:?}");
            let most_kg = found.measured.unwrap().value;
            assert!((most_kg - possible_kg - more_kg).abs() < 1e-6);
        }
    }
}

/// By hand: 1,000 kg at the start, 5,000 kg on and 3,000 kg off in each of three trips of 4 km are 10,000 kg
/// after the first stop of the third, 9 km from the start.
#[test]
fn the_load_is_followed_through_all_trips_of_a_day() {
    let mut plan = plan("gullwharf-drayage");
    plan.loads.trailer.as_mut().unwrap().payload_kg = 1_000.0;
    plan.duty.trips_a_day = Some(3);
    let aboard = drive(&plan, &[5_000.0, -3_000.0]).aboard;
    assert!((aboard.start_kg - 1_000.0).abs() < 1e-9);
    assert!((aboard.most_kg - 10_000.0).abs() < 1e-9, "{aboard:?}");
    assert!((aboard.most_from_m.unwrap() - 9_000.0).abs() < 1e-6);
    // What is only taken off is never more than at the start.
    plan.duty.trips_a_day = None;
    let aboard = drive(&plan, &[-400.0, 300.0]).aboard;
    assert_eq!((aboard.most_kg, aboard.most_from_m), (1_000.0, None));
}

/// Where nobody says where payload lies nothing is known of its limits; without load there is nothing to ask.
#[test]
fn load_of_which_the_place_is_unknown_is_not_assessed() {
    let mut plan = plan("gullwharf-drayage");
    plan.loads.trailer = None;
    plan.loads.target_payload_kg = None;
    assert_eq!(of_load(&drive(&plan, &[0.0])), None);
    let found = of_load(&drive(&plan, &[800.0])).unwrap();
    assert_eq!(found.severity, Severity::NotAssessed, "{found:?}");
}
