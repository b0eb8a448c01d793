//! Nonsense in: a clear word with its place, its value and what would do, or a right answer. Never a panic, never
//! a number that is none.

use super::rig;
use axlewright_core::assessment::{Assessment, Journey};
use axlewright_core::energy::{Conditions, End, Run, run};
use axlewright_core::findings;
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use axlewright_core::quantity::Units;
use axlewright_core::report;
use axlewright_core::route::{Course, Route, Stop, from_csv, shipped};
use proptest::prelude::*;
use serde_json::{Value, json};
use std::sync::LazyLock;

static LIBRARY: LazyLock<Library> = LazyLock::new(Library::shipped);
static EXAMPLES: LazyLock<Vec<Value>> = LazyLock::new(|| {
    [
        include_str!("../../examples/gullwharf-drayage.json"),
        include_str!("../../examples/prairie-loop.json"),
        include_str!("../../examples/harbour-hydrogen.json"),
        include_str!("../../examples/millbrook-parcel.json"),
    ]
    .map(|text| serde_json::from_str(text).unwrap())
    .to_vec()
});

fn cases(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

/// Numbers at the edges of what a person may write.
fn odd() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => prop::sample::select(vec![
            0.0, -0.0, 1.0, -1.0, 0.01, 0.5, 2.0, 5e-324, 1e-300, 1e-9, -60.0, 40.0, 100.0, 1e3, 5e3, 1e6, 1e308,
            -1e308,
        ]),
        4 => -1.0..2.0f64,
        2 => -100.0..1_000.0f64,
    ]
}

fn finite(run: &Run) -> Result<(), String> {
    let data = serde_json::to_value(run).unwrap();
    // Written as data, a number that is none becomes null; only what is optional may be.
    fn nulls(value: &Value, path: &str, found: &mut Vec<String>) {
        match value {
            Value::Null if !path.ends_with("slowest") && path != "/run_down" => {
                found.push(path.to_owned())
            }
            Value::Array(list) => list.iter().for_each(|v| nulls(v, path, found)),
            Value::Object(map) => map
                .iter()
                .for_each(|(k, v)| nulls(v, &format!("{path}/{k}"), found)),
            _ => {}
        }
    }
    let mut found = Vec::new();
    nulls(&data, "", &mut found);
    found.dedup();
    if found.is_empty() {
        Ok(())
    } else {
        Err(format!("not finite: {found:?}"))
    }
}

/// Everything that is told about a drive, or the words that say why there is none.
fn told(plan: &Value, route: &Route) -> Result<(), String> {
    let plan = match Plan::from_json("odd.json", &plan.to_string()) {
        Ok(plan) => plan,
        Err(problems) => {
            let words = problems.to_string();
            let whole = words.contains("odd.json") && words.contains('(');
            return if whole { Ok(()) } else { Err(words) };
        }
    };
    let Ok(assessment) = Assessment::of(&plan, &LIBRARY) else {
        return Ok(());
    };
    let mut asked = 0;
    let journey = Journey::of(assessment.answers, route, &mut |_| {
        asked += 1;
        asked < 20
    });
    let journey = match journey {
        Ok(journey) => journey,
        Err(missing) => {
            let said = missing.iter().all(|m| m.len() > 10 && !m.contains("NaN"));
            return if said {
                Ok(())
            } else {
                Err(format!("{missing:?}"))
            };
        }
    };
    finite(&journey.run)?;
    let found = findings::of_journey(&journey);
    for words in [
        report::journey_text(&journey, &[], &found, Units::Us),
        report::charge_text(
            journey.plugged.as_ref().map_err(String::as_str),
            Units::Metric,
        ),
    ] {
        if words.contains("NaN") || words.contains("inf ") || words.contains("-inf") {
            return Err(words);
        }
    }
    for finding in &found {
        for amount in [finding.measured, finding.limit, finding.margin]
            .into_iter()
            .flatten()
        {
            if !amount.value.is_finite() {
                return Err(format!("{}: {}", finding.check, amount.value));
            }
        }
    }
    for value in [
        journey.per_m_j,
        journey.range_m,
        journey.fuel_kg(),
        journey.left_j(),
        journey.wear.years,
    ] {
        if !value.is_finite() {
            return Err(format!("{value}"));
        }
    }
    Ok(())
}

const DUTY: [&str; 11] = [
    "trips_a_day",
    "days_a_year",
    "temperature_c",
    "headwind_mps",
    "drag_area_m2",
    "rolling",
    "reserve",
    "health",
    "hold_soc",
    "plug_hours",
    "route",
];

/// Numbers of the kinds of part that a drive asks.
const BLOCKS: [&str; 7] = [
    "battery",
    "motor",
    "power_source",
    "cooler",
    "load",
    "contents",
    "inlet",
];

proptest! {
    #![proptest_config(cases(150))]

    #[test]
    fn a_duty_of_odd_numbers_is_driven_or_refused(
        which in 0..4usize,
        odds in prop::collection::vec((0..DUTY.len(), odd()), 1..6),
    ) {
        let mut plan = EXAMPLES[which].clone();
        if plan["duty"].is_null() {
            plan["duty"] = json!({});
        }
        for (field, value) in odds {
            plan["duty"][DUTY[field]] = json!(value);
        }
        let told = told(&plan, &shipped("hill-climb").unwrap());
        prop_assert!(told.is_ok(), "{} {:?}", plan["duty"], told);
    }

    #[test]
    fn parts_of_odd_numbers_are_driven_or_refused(
        which in 0..4usize,
        odds in prop::collection::vec((0..64usize, 0..8usize, odd()), 1..5),
    ) {
        let mut plan = EXAMPLES[which].clone();
        let mut changed = Vec::new();
        for (at, field, value) in odds {
            let places: Vec<usize> = (0..plan["placed"].as_array().unwrap().len())
                .filter(|i| {
                    let id = plan["placed"][i]["part"].as_str().unwrap();
                    let part = LIBRARY.parts.get(id).map(|p| serde_json::to_value(p).unwrap());
                    part.is_some_and(|p| BLOCKS.iter().any(|b| !p[*b].is_null()))
                })
                .collect();
            if places.is_empty() {
                break;
            }
            let place = places[at % places.len()];
            let id = plan["placed"][place]["part"].as_str().unwrap().to_owned();
            let mut part = serde_json::to_value(&LIBRARY.parts[&id]).unwrap();
            for block in BLOCKS {
                let Some(map) = part[block].as_object_mut() else { continue };
                let numbers: Vec<String> =
                    map.iter().filter(|(_, v)| v.is_number()).map(|(k, _)| k.clone()).collect();
                if let Some(name) = numbers.get(field % numbers.len().max(1)) {
                    changed.push(format!("{id}.{block}.{name} = {value}"));
                    map[name] = json!(value);
                }
            }
            let own = format!("odd-{}", changed.len());
            part["id"] = json!(own);
            if plan["parts"].is_null() {
                plan["parts"] = json!([]);
            }
            plan["parts"].as_array_mut().unwrap().push(part);
            plan["placed"][place]["part"] = json!(own);
        }
        let told = told(&plan, &shipped("hill-climb").unwrap());
        prop_assert!(told.is_ok(), "{changed:?} {told:?}");
    }

    #[test]
    fn a_table_of_odd_numbers_is_driven_or_refused(
        columns in prop::collection::vec(0..13usize, 1..5),
        rows in prop::collection::vec(prop::collection::vec((odd(), 0..12u8), 5), 0..30),
        rising in any::<bool>(),
    ) {
        const NAMES: [&str; 13] = [
            "time_s", "distance_m", "distance_km", "distance_mi", "speed_mps", "speed_kmh", "speed_mph",
            "grade_pct", "elevation_m", "elevation_ft", "stop_s", "", "time_s",
        ];
        let mut text = columns.iter().map(|c| NAMES[*c]).collect::<Vec<_>>().join(",") + "\n";
        for (index, row) in rows.iter().enumerate() {
            let cells = columns.iter().zip(row).enumerate().map(|(at, (_, (value, form)))| match form {
                _ if at == 0 && rising => format!("{}", index * 7),
                0 => "NaN".to_owned(),
                1 => String::new(),
                2 => format!("{value:e}"),
                3 => "inf".to_owned(),
                _ => format!("{value}"),
            });
            text += &(cells.collect::<Vec<_>>().join(",") + "\n");
        }
        table(&text)?;
    }

    #[test]
    fn any_text_is_no_road(text in "(?s)(time_s|distance_m|speed_mps|#|,|\n|-|.){0,60}") {
        table(&text)?;
    }
}

fn table(text: &str) -> Result<(), TestCaseError> {
    match from_csv("odd.csv", text, 20.0) {
        Err(problems) => {
            prop_assert!(!problems.0.is_empty() && problems.0.len() <= 20);
            prop_assert!(
                problems
                    .0
                    .iter()
                    .all(|p| p.file == "odd.csv" && !p.hint.is_empty()),
                "{problems}"
            );
        }
        Ok(route) => {
            prop_assert!(route.length_m().is_finite());
            let mut asked = 0;
            let done = run(&rig::tractor(), &route, &Conditions::default(), &mut |_| {
                asked += 1;
                asked < 20
            });
            let found = finite(&done);
            prop_assert!(found.is_ok(), "{text:?} {:?}", found);
        }
    }
    Ok(())
}

/// What was tried by name: each with its place, value and what would do.
#[test]
fn nonsense_of_a_road_is_answered_with_place_value_and_range() {
    for (text, words) in [
        (
            "distance_m,grade_pct\n0,0\n100,40\n",
            ["row 2, grade_pct = 40", "-35 to 35"],
        ),
        (
            "distance_m,stop_s\n0,0\n100,-5\n",
            ["row 2, stop_s = -5", "0 to 1000000"],
        ),
        (
            "distance_m,speed_kmh\n0,50\n200,50\n150,50\n",
            ["row 3, distance_m = 150", "more than 200"],
        ),
        (
            "time_s,speed_kmh\n0,50\n2,50\n1,50\n",
            ["row 3, time_s = 1", "more than 2"],
        ),
        (
            "time_s,speed_kmh\n0,50\n1,1e308\n",
            ["row 2, speed_kmh = 1e308", "0 to 180"],
        ),
        (
            "time_s,speed_kmh\n0,50\n1,NaN\n",
            ["row 2, speed_kmh = NaN", "0 to 180"],
        ),
        (
            "time_s,speed_kmh,speed_mph\n0,50,20\n1,50,20\n",
            ["header = speed_mph", "once"],
        ),
        (
            "time_s,time_s,speed_mph\n0,0,20\n1,1,20\n",
            ["header = time_s", "once"],
        ),
    ] {
        let problems = from_csv("odd.csv", text, 20.0).unwrap_err().to_string();
        assert!(
            problems.contains("odd.csv") && words.iter().all(|w| problems.contains(w)),
            "{text:?}: {problems}"
        );
    }
}

/// A plan whose donor weighs nothing, and one for a cold that no pack is made for.
#[test]
fn a_truck_of_no_mass_and_a_cold_of_sixty_degrees_are_refused() {
    let mut plan = EXAMPLES[0].clone();
    let id = plan["chassis"]["template"].as_str().unwrap().to_owned();
    let mut chassis = serde_json::to_value(&LIBRARY.chassis[&id]).unwrap();
    for axle in chassis["ticket"]["axle"].as_array_mut().unwrap() {
        for name in ["load_kg", "left_kg", "right_kg"] {
            if axle[name].is_number() {
                axle[name] = json!(0.0);
            }
        }
    }
    plan["chassis"] = json!({ "inline": chassis });
    plan["loads"]["trailer"] = Value::Null;
    plan["placed"] = json!([]);
    let whole = EXAMPLES[0]["placed"].clone();
    for placed in [json!([]), whole] {
        plan["placed"] = placed;
        let plan = Plan::from_json("odd.json", &plan.to_string()).map_err(|p| p.to_string());
        let refused = match &plan {
            Err(words) => words.clone(),
            Ok(plan) => match Assessment::of(plan, &LIBRARY) {
                Err(problem) => problem.to_string(),
                Ok(done) => {
                    match Journey::of(done.answers, &shipped("level-80").unwrap(), &mut |_| true) {
                        Err(missing) => missing.join("; "),
                        Ok(journey) => format!("driven with {} kg", journey.gross_kg),
                    }
                }
            },
        };
        assert!(
            refused.contains("kg") && !refused.starts_with("driven"),
            "{refused}"
        );
    }
    let mut cold = EXAMPLES[0].clone();
    cold["duty"]["temperature_c"] = json!(-60.0);
    let words = Plan::from_json("odd.json", &cold.to_string())
        .unwrap_err()
        .to_string();
    for word in ["odd.json", "duty.temperature_c", "-60", "-30"] {
        assert!(words.contains(word), "{words}");
    }
}

/// A road of nothing but halts ends where steps end, and can be stopped on the way.
#[test]
fn endless_halts_end_and_can_be_stopped() {
    let mut route = Route::level(20.0, 10_000.0);
    let stops = (1..=900).map(|i| Stop::halt(10.0 * f64::from(i), 1e6));
    route.course = match route.course {
        Course::Road {
            length_m, targets, ..
        } => Course::Road {
            length_m,
            targets,
            stops: stops.collect(),
        },
        trace => trace,
    };
    let mut asked = 0;
    let stopped = run(&rig::tractor(), &route, &Conditions::default(), &mut |_| {
        asked += 1;
        asked < 4
    });
    assert_eq!(stopped.end, End::Cancelled);
    assert!(stopped.steps < 20_000, "{}", stopped.steps);
    let mut truck = rig::tractor();
    truck.accessories.driving_w = 0.0;
    let ended = run(&truck, &route, &Conditions::default(), &mut |_| true);
    assert!(matches!(ended.end, End::Stranded { .. }) && ended.steps <= 20_000_000);
}

/// A table of a million lines is one trip's route; fifty times over it would fill the memory.
#[test]
fn a_day_of_fifty_long_tables_is_refused() {
    let lines: String = (0..1_000_000)
        .map(|i| format!("{i},{}\n", i % 20))
        .collect();
    let route = from_csv("long.csv", &format!("time_s,speed_mps\n{lines}"), 20.0).unwrap();
    let mut plan = EXAMPLES[0].clone();
    plan["duty"]["trips_a_day"] = json!(50);
    let plan = Plan::from_json("odd.json", &plan.to_string()).unwrap();
    let answers = Assessment::of(&plan, &LIBRARY).unwrap().answers;
    let missing = Journey::of(answers, &route, &mut |_| true)
        .unwrap_err()
        .join("; ");
    for word in ["50 trips", "1000000 points", "8000000"] {
        assert!(missing.contains(word), "{missing}");
    }
}
