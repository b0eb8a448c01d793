//! Whatever comes in, nothing panics: random bytes, and examples with something odd in them.

use crate::shipped::{examples, files, text};
use axlewright_core::assessment::Assessment;
use axlewright_core::drawing::View;
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use axlewright_core::quantity::Units;
use axlewright_core::report;
use axlewright_core::web::{Session, ViewOptions};
use proptest::prelude::*;
use serde_json::{Value, json};
use std::sync::LazyLock;

static LIBRARY: LazyLock<Library> = LazyLock::new(Library::shipped);
static PLANS: LazyLock<Vec<String>> =
    LazyLock::new(|| examples().iter().map(|path| text(path)).collect());
static TABLES: LazyLock<Vec<String>> = LazyLock::new(|| {
    let folders = ["chassis-templates", "parts-catalogue", "src/law"];
    folders
        .iter()
        .flat_map(|f| files(f, ".toml"))
        .map(|path| text(&path))
        .collect()
});

fn cases(count: u32) -> ProptestConfig {
    // A count from outside goes first, for a long run.
    let cases = std::env::var("PROPTEST_CASES")
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(count);
    ProptestConfig {
        cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

/// Everything that follows from a plan, and what must hold of it however odd it is.
fn go_through(plan: &Plan) {
    let again = Plan::from_json("again", &plan.to_json()).expect("what was read can be written");
    assert_eq!(again.to_json(), plan.to_json());
    let Ok(assessment) = Assessment::of(plan, &LIBRARY) else {
        return;
    };
    let data = serde_json::to_value(report::evaluation(&assessment, Units::Us)).unwrap();
    for case in data["cases"].as_array().unwrap() {
        if !case["missing"].is_null() {
            continue;
        }
        let sum: f64 = case["axles"]
            .as_array()
            .unwrap()
            .iter()
            .map(|a| a["load_kg"].as_f64().expect("finite"))
            .sum();
        let carried = case["truck"]["mass_kg"].as_f64().expect("finite")
            + case["kingpin_kg"].as_f64().unwrap_or(0.0);
        assert!(
            (sum - carried).abs() <= 1e-6 * carried.abs().max(1e3),
            "{sum} and {carried}"
        );
    }
    assert!(!report::text(&assessment, Units::Metric).is_empty());
    for view in View::ALL {
        let svg = report::sheet(&assessment, view, String::new(), Units::Metric);
        roxmltree::Document::parse(&svg).expect("a drawing");
        assert!(
            !svg.contains("NaN") && !svg.contains("inf\""),
            "a number that is none"
        );
    }
    let mut session = Session::new().unwrap();
    session
        .open("odd", &plan.to_json())
        .expect("it can be drawn, so it can be opened");
    let options = ViewOptions {
        selected: plan.placed.first().map(|p| p.tag.clone()),
        ..ViewOptions::default()
    };
    let shown = session.view(&options).unwrap();
    serde_json::to_string(&shown.words).unwrap();
    for view in View::ALL {
        assert!(shown.drawing(view).ends_with("</svg>"));
    }
}

/// Every value inside, counted as it is met.
fn visit(value: &mut Value, at: &mut usize, change: &mut dyn FnMut(&mut Value)) {
    if *at == 0 {
        *at = usize::MAX;
        change(value);
        return;
    }
    *at -= 1;
    match value {
        Value::Array(list) => {
            for inner in list {
                if *at == usize::MAX {
                    return;
                }
                visit(inner, at, change);
            }
        }
        Value::Object(map) => {
            for (_, inner) in map.iter_mut() {
                if *at == usize::MAX {
                    return;
                }
                visit(inner, at, change);
            }
        }
        _ => {}
    }
}

fn count(value: &Value) -> usize {
    1 + match value {
        Value::Array(list) => list.iter().map(count).sum(),
        Value::Object(map) => map.values().map(count).sum(),
        _ => 0,
    }
}

fn odd_value() -> impl Strategy<Value = Value> {
    prop_oneof![
        4 => (-3_000.0..15_000.0f64).prop_map(|v| json!(v)),
        2 => prop::sample::select(vec![0.0, -0.0, 1.0, 0.5, 1e-300, -1.0, 40_000.0, -40_000.0, 1e308, 5e-324])
            .prop_map(|v| json!(v)),
        1 => (0u8..6).prop_map(|v| json!(v)),
        2 => prop::sample::select(vec!["axle-2", "axle-3", "B1", "D1", "engine", "between-rails",
            "daycab-6x4", "box-4x2", "lift-6x2", "vocational-6x4", "van-53", "PK-S118", "DR-CM3", "EA-16", "", "<b>"])
            .prop_map(|v| json!(v)),
        1 => prop::sample::select(vec![json!(null), json!([]), json!({}), json!(true)]),
    ]
}

proptest! {
    #![proptest_config(cases(256))]

    #[test]
    fn random_bytes_are_refused_and_never_a_panic(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let text = String::from_utf8_lossy(&bytes);
        prop_assert!(Plan::from_json("random", &text).is_err());
        prop_assert!(Library::default().add_toml("random", &text).is_err());
    }

    #[test]
    fn random_words_of_the_grammar_are_no_panic_either(
        words in prop::collection::vec(prop::sample::select(vec![
            "{", "}", "[", "]", ":", ",", "\"format\"", "2", "1", "\"name\"", "\"x\"", "null", "NaN",
            "\"chassis\"", "\"template\"", "\"placed\"", "\"", "\\u", "=", "\n", "family", "[[part]]",
            "'''", "\"\"\"", "1e999", "-", ".", "#", "é",
        ]), 0..60),
    ) {
        let text = words.concat();
        let _ = Plan::from_json("words", &text);
        let _ = Library::default().add_toml("words", &text);
    }

    #[test]
    fn torn_and_patched_files_are_no_panic(
        which in any::<prop::sample::Index>(),
        cuts in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>(), 0u8..3), 1..6),
    ) {
        let torn = |text: &str| {
            let mut bytes = text.as_bytes().to_vec();
            for (at, byte, how) in &cuts {
                if bytes.is_empty() {
                    break;
                }
                let at = at.index(bytes.len());
                match how {
                    0 => bytes[at] = *byte,
                    1 => { bytes.remove(at); }
                    _ => bytes.truncate(at.max(1)),
                }
            }
            String::from_utf8_lossy(&bytes).into_owned()
        };
        let plan = torn(&PLANS[which.index(PLANS.len())]);
        if let Ok(plan) = Plan::from_json("torn", &plan) {
            let _ = Assessment::of(&plan, &LIBRARY);
        }
        let _ = Library::default().add_toml("torn", &torn(&TABLES[which.index(TABLES.len())]));
    }
}

proptest! {
    #![proptest_config(cases(48))]

    #[test]
    fn examples_with_odd_values_are_refused_or_worked_out(
        which in any::<prop::sample::Index>(),
        changes in prop::collection::vec((any::<prop::sample::Index>(), odd_value()), 1..5),
    ) {
        let mut plan: Value = serde_json::from_str(&PLANS[which.index(PLANS.len())]).unwrap();
        for (at, odd) in changes {
            let mut at = at.index(count(&plan));
            visit(&mut plan, &mut at, &mut |value| *value = odd.clone());
        }
        if let Ok(plan) = Plan::from_json("odd", &plan.to_string()) {
            go_through(&plan);
        }
    }

    #[test]
    fn trucks_with_odd_numbers_are_refused_or_worked_out(
        which in any::<prop::sample::Index>(),
        changes in prop::collection::vec((any::<prop::sample::Index>(), odd_value()), 1..4),
    ) {
        let mut plan: Value = serde_json::from_str(&PLANS[which.index(PLANS.len())]).unwrap();
        let id = plan["chassis"]["template"].as_str().unwrap();
        let mut truck = serde_json::to_value(&LIBRARY.chassis[id]).unwrap();
        for (at, odd) in changes {
            let mut at = at.index(count(&truck));
            visit(&mut truck, &mut at, &mut |value| *value = odd.clone());
        }
        plan["chassis"] = json!({ "inline": truck });
        if let Ok(plan) = Plan::from_json("odd", &plan.to_string()) {
            go_through(&plan);
        }
    }
}
