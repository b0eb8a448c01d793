//! *Properties*: on whatever road, what came in went out, and nothing is lost backwards.

use super::cases::trucks;
use axlewright_core::assessment::{Assessment, Journey};
use axlewright_core::energy::{self, Conditions, Driver, End, Run, Truck, run};
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use axlewright_core::route::{Course, Profile, Route, SHIPPED, Stop, Target, Weather, shipped};
use proptest::prelude::*;
use std::path::Path;

/// The ledger closes, and every loss is one: heat of packs, motors, axles and brakes is never negative. The
/// first alone would also hold if a loss were worked out as what is left.
fn sound(run: &Run) -> Result<(), String> {
    let ledger = &run.ledger;
    let moved = ledger.wheel_out_j + ledger.accessories_j + ledger.brakes_j + ledger.pack_heat_j;
    let must = |holds: bool, what: &str, value: f64| {
        let answer = format!(
            "{what}: {value:e}; {:?} after {} m",
            run.end, run.distance_m
        );
        if holds { Ok(()) } else { Err(answer) }
    };
    must(ledger.gap() < 1e-9, "the ledger's gap", ledger.gap())?;
    for (name, loss) in [
        ("packs", ledger.pack_heat_j),
        ("drives", ledger.drive_loss_j),
        ("axles", ledger.axle_loss_j),
        ("shifting", ledger.shift_j),
        ("rolling", ledger.rolling_j),
        ("brakes", ledger.brakes_j),
        ("accessories", ledger.accessories_j),
        ("resistor", ledger.resistor_j),
        ("fuel", ledger.fuel_j),
        ("source", ledger.source_j),
        ("fuel over source", ledger.fuel_j - ledger.source_j),
    ] {
        let lost = loss.is_finite() && loss >= -1e-9 * moved.max(1.0);
        must(lost, name, loss)?;
    }
    for value in [
        run.distance_m,
        run.time_s,
        ledger.air_j,
        ledger.climb_j,
        ledger.motion_j,
    ] {
        must(value.is_finite(), "not finite", value)?;
    }
    for soc in [run.soc_start, run.soc_end, run.soc_least] {
        must((0.0..=1.0).contains(&soc), "state of charge", soc)?;
    }
    must(run.soc_least <= run.soc_end, "least charge", run.soc_least)?;
    must(
        run.distance_m <= run.route_m + 0.5,
        "beyond the end",
        run.distance_m - run.route_m,
    )?;
    for pair in run.samples.windows(2) {
        let [a, b] = pair else { continue };
        let on = b.t_s >= a.t_s && b.x_m >= a.x_m && b.v_mps >= 0.0;
        must(on, "time, place and speed", b.t_s)?;
    }
    Ok(())
}

fn examples() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut found = Vec::new();
    for folder in [root.clone(), root.join("wrong")] {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if name.ends_with(".json") && !name.contains("schema") {
                found.push((name, std::fs::read_to_string(path).unwrap()));
            }
        }
    }
    found.sort();
    found
}

/// Every example on every shipped route. A plan that cannot be driven says what is missing.
#[test]
fn the_ledger_closes_for_every_plan_on_every_route() {
    let library = Library::shipped();
    let (mut driven, mut silent) = (0, Vec::new());
    for (name, text) in examples() {
        let plan = Plan::from_json(&name, &text).unwrap();
        for (id, _) in SHIPPED {
            let answers = Assessment::of(&plan, &library).unwrap().answers;
            match Journey::of(answers, &shipped(id).unwrap(), &mut |_| true) {
                Ok(journey) => {
                    driven += 1;
                    sound(&journey.run).unwrap_or_else(|wrong| panic!("{name} {id}: {wrong}"));
                }
                Err(missing) => {
                    assert!(missing.iter().all(|m| m.len() > 10), "{name}: {missing:?}");
                    silent.push(name.clone());
                }
            }
        }
    }
    silent.dedup();
    assert!(driven >= 24 * SHIPPED.len(), "{driven}, not: {silent:?}");
}

fn road() -> impl Strategy<Value = Route> {
    let speeds = prop::collection::vec((0.0..1.0f64, 0.5..35.0f64), 1..6);
    let stops = prop::collection::vec((0.0..1.0f64, 0.0..400.0f64), 0..6);
    let grades = prop::collection::vec((0.0..1.0f64, -0.14..0.14f64), 0..8);
    let air = (-30.0..50.0f64, -20.0..20.0f64, 0.0..4_000.0f64);
    (50.0..15_000.0f64, speeds, stops, grades, air).prop_map(
        |(length_m, mut speeds, mut stops, mut grades, air)| {
            for list in [&mut speeds, &mut stops, &mut grades] {
                list.sort_by(|a, b| a.0.total_cmp(&b.0));
            }
            if let Some(first) = speeds.first_mut() {
                first.0 = 0.0;
            }
            let mut route = Route::level(1.0, length_m);
            let target = |&(at, speed_mps): &(f64, f64)| Target {
                from_m: at * length_m,
                speed_mps,
            };
            let stop = |&(at, dwell_s): &(f64, f64)| Stop::halt(at * length_m, dwell_s);
            route.course = Course::Road {
                length_m,
                targets: speeds.iter().map(target).collect(),
                stops: stops.iter().map(stop).collect(),
            };
            let places = grades.iter().map(|(at, g)| (at * length_m, *g)).collect();
            route.profile = Profile::of_grades(places).unwrap();
            route.weather = Weather {
                temperature_c: air.0,
                headwind_mps: air.1,
                altitude_m: air.2,
            };
            route
        },
    )
}

fn trace() -> impl Strategy<Value = Route> {
    let speed = prop_oneof![3 => 0.0..30.0f64, 1 => Just(0.0)];
    (
        0.2..5.0f64,
        prop::collection::vec(speed, 2..120),
        -0.1..0.1f64,
    )
        .prop_map(|(step_s, speeds_mps, grade)| {
            let mut route = Route::level(1.0, 1.0);
            route.course = Course::Trace { step_s, speeds_mps };
            route.profile = Profile::steady(grade);
            route
        })
}

fn conditions() -> impl Strategy<Value = Conditions> {
    let strategy = prop_oneof![
        (0.2..0.9f64).prop_map(|hold| energy::Strategy::Follow { hold }),
        (0.2..0.5f64, 0.5..0.9f64)
            .prop_map(|(start, stop)| energy::Strategy::Switch { start, stop }),
        Just(energy::Strategy::Off),
    ];
    let driver = (0.05..3.0f64, 0.05..3.0f64);
    (0.05..1.0f64, driver, 0.1..1.0f64, -25.0..55.0f64, strategy).prop_map(
        |(step_s, (accelerate, brake), soc, pack_c, strategy)| Conditions {
            step_s,
            driver: Driver { accelerate, brake },
            soc: Some(soc),
            pack_c,
            strategy,
            ..Conditions::default()
        },
    )
}

/// The trucks of the second road, lighter or heavier, with grip or on ice, with a resistor or none.
fn truck() -> impl Strategy<Value = Truck> {
    (0..3usize, 0.3..1.5f64, 0.02..0.8f64, 0.0..100e3f64).prop_map(
        |(which, load, grip, resistor)| {
            let mut truck = trucks().swap_remove(which);
            truck.resistance.mass_kg *= load;
            truck.grip = grip;
            truck.resistor_w = resistor;
            truck
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_ledger_closes_on_any_road(
        truck in truck(),
        route in prop_oneof![road(), trace()],
        conditions in conditions(),
    ) {
        let done = run(&truck, &route, &conditions, &mut |_| true);
        prop_assert!(done.end != End::Cancelled);
        let found = sound(&done);
        prop_assert!(found.is_ok(), "{:?}", found);
    }
}
