//! Plans as files.

use crate::shipped::{examples, text};
use axlewright_core::assessment::Assessment;
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use axlewright_core::quantity::Units;
use axlewright_core::report;
use axlewright_core::web::Session;
use serde_json::{Value, json};
use std::time::{Duration, Instant};

/// Long enough for a busy machine and an unoptimised build, short enough to call it quick.
const QUICK: Duration = Duration::from_secs(10);

fn example() -> Value {
    serde_json::from_str(&text(&examples()[0])).unwrap()
}

/// The words with which a plan is refused, on every way in; the session's plan stays.
#[track_caller]
pub(super) fn refused(input: &str) -> String {
    let begun = Instant::now();
    let problems = Plan::from_json("odd.json", input).expect_err("this cannot be used");
    assert!(begun.elapsed() < QUICK, "{:?}", begun.elapsed());
    let words = problems.to_string();
    assert!(words.starts_with("odd.json"), "{words}");
    let first = words.lines().next().unwrap();
    assert!(
        first.chars().count() < 1_200,
        "a message, not a book: {first}"
    );
    assert!(
        !words.chars().any(|c| c.is_control() && c != '\n'),
        "{words:?}"
    );

    let mut session = Session::new().unwrap();
    let before = session.plan().to_json();
    session.open("odd.json", input).expect_err("nor opened");
    assert_eq!(session.plan().to_json(), before);
    assert!(!session.undo(), "no step was made of it");
    words
}

#[track_caller]
fn refused_with(input: &str, words: &[&str]) {
    let said = refused(input);
    for word in words {
        assert!(said.contains(word), "\"{word}\" is not in: {said}");
    }
}

/// An example with one change.
fn changed(change: impl FnOnce(&mut Value)) -> String {
    let mut plan = example();
    change(&mut plan);
    plan.to_string()
}

#[test]
fn unknown_keys_are_named_with_their_path() {
    refused_with(
        &changed(|p| p["colour"] = json!("red")),
        &["colour", "is not a known key"],
    );
    let inner = changed(|p| p["placed"][1]["colour"] = json!(1));
    refused_with(&inner, &["placed[1]", "colour"]);
    let deep = changed(|p| {
        p["placed"][0]["place"] = json!({"free": {"x_mm": 0, "y_mm": 0, "z_mm": 0, "w_mm": 0}});
    });
    refused_with(&deep, &["placed[0].place.free", "w_mm"]);
    refused_with(
        &changed(|p| p["loads"]["luck_kg"] = json!(7)),
        &["loads", "luck_kg"],
    );
    refused_with(
        &changed(|p| p["chassis"] = json!({"tempalte": "x"})),
        &["chassis", "tempalte"],
    );
    let long = "k".repeat(1_000_000);
    refused_with(&changed(|p| p[&long] = json!(1)), &["kkkk"]);
    refused_with(
        &changed(|p| p["\u{1b}[31m"] = json!(1)),
        &["is not a known key"],
    );
}

#[test]
fn numbers_that_are_none_are_named_with_path_and_value() {
    let text = changed(|p| p["loads"]["driver_kg"] = json!("HERE"));
    for word in [
        "NaN",
        "Infinity",
        "-Infinity",
        "nan",
        "1.",
        "+5",
        "--5",
        "٣",
        "1e999",
        "-1e999",
    ] {
        refused_with(
            &text.replace("\"HERE\"", word),
            &[&format!("loads.driver_kg = {word}: ")],
        );
    }
    for word in ["0x10", "5kg", "1,5"] {
        refused_with(
            &text.replace("\"HERE\"", word),
            &["odd.json: loads", "line 1 column"],
        );
    }
    for word in ["\"heavy\"", "true", "[]", "{}"] {
        refused_with(
            &text.replace("\"HERE\"", word),
            &["loads.driver_kg", "where a number belongs"],
        );
    }
}

#[test]
fn numbers_out_of_range_are_named_with_path_value_and_range() {
    type Change = fn(&mut Value, f64);
    let fields: [(&str, Change); 7] = [
        ("loads.driver_kg", |p, v| p["loads"]["driver_kg"] = json!(v)),
        ("loads.trailer.payload_kg", |p, v| {
            p["loads"]["trailer"] = json!({"id": "van-53", "payload_kg": v});
        }),
        ("loads.payload.mass_kg", |p, v| {
            let at = json!({"cg": {"x_mm": 1, "y_mm": 0, "z_mm": 1}});
            p["loads"]["payload"] = json!({"mass_kg": v, "at": at});
        }),
        ("parts[0].mass_kg", |p, v| {
            let shape = json!({"box": {"from_mm": [0, 0, 0], "to_mm": [1, 1, 1]}});
            p["parts"] = json!([{"id": "X", "name": "x", "kind": "free-mass", "mass_kg": v,
                "envelope": [shape]}]);
        }),
        ("placed[0].fill", |p, v| p["placed"][0]["fill"] = json!(v)),
        ("placed[0].place.free.x_mm", |p, v| {
            p["placed"][0]["place"] = json!({"free": {"x_mm": v, "y_mm": 0, "z_mm": 0}});
        }),
        ("changes.wheelbase_mm", |p, v| {
            p["changes"]["wheelbase_mm"] = json!(v)
        }),
    ];
    for (path, change) in fields {
        for (value, shown) in [(1e308, "1e308"), (-1e308, "-1e308"), (-1e9, "-1000000000")] {
            let said = refused(&changed(|p| change(p, value)));
            let shown = format!("{path} = {shown}: is outside the allowed range (");
            assert!(said.contains(&shown), "{shown} is not in: {said}");
        }
    }
    refused_with(
        &changed(|p| p["loads"]["driver_kg"] = json!(-5)),
        &["= -5:", "0 to 1000"],
    );
    refused_with(
        &changed(|p| p["placed"][0]["turn"] = json!(7)),
        &["placed[0].turn = 7", "0 to 3"],
    );
    refused_with(
        &changed(|p| p["placed"][0]["turn"] = json!(-1)),
        &["placed[0].turn", "-1"],
    );
    refused_with(
        &changed(|p| p["placed"][0]["turn"] = json!(1e3)),
        &["placed[0].turn", "1000"],
    );
}

#[test]
fn everything_wrong_is_said_at_once() {
    let said = refused(&changed(|p| {
        p["loads"]["driver_kg"] = json!(-5);
        p["placed"][0]["fill"] = json!(2);
        p["changes"]["wheelbase_mm"] = json!(1);
    }));
    assert_eq!(said.lines().count(), 3, "{said}");
}

#[test]
fn a_hundred_thousand_parts_are_refused_quickly() {
    let many = |count: usize, one: &dyn Fn(usize) -> Value| -> Value {
        (0..count).map(one).collect::<Vec<_>>().into()
    };
    let placed = |n: usize| {
        json!({"tag": format!("B{n}"), "part": "X",
            "place": {"free": {"x_mm": 0, "y_mm": 0, "z_mm": 0}}})
    };
    let input = changed(|p| p["placed"] = many(100_000, &placed));
    refused_with(&input, &["placed = 100000", "at most 2000"]);
    let same = changed(|p| p["placed"] = many(100_000, &|_| placed(1)));
    refused_with(&same, &["placed = 100000", "at most 2000"]);
    for list in ["stripped", "raised"] {
        let ids = many(100_000, &|n| json!(format!("item-{n}")));
        let input = changed(|p| p["changes"][list] = ids);
        refused_with(&input, &[&format!("changes.{list} = 100000"), "at most"]);
    }
    let shaft =
        |n: usize| json!({"tag": format!("D{n}"), "part": "X", "from": "B", "to_axle": "a"});
    let input = changed(|p| p["shafts"] = many(100_000, &shaft));
    refused_with(&input, &["shafts = 100000", "at most 20"]);
    let own = |n: usize| json!({"id": format!("X{n}"), "name": "x", "kind": "free-mass", "mass_kg": 1, "envelope": []});
    let input = changed(|p| p["parts"] = many(100_000, &own));
    refused_with(&input, &["parts = 100000", "at most 500"]);
}

#[test]
fn as_many_parts_as_are_allowed_are_worked_out_even_on_one_heap() {
    let placed: Vec<Value> = (0..Plan::MOST_PARTS)
        .map(|n| {
            json!({"tag": format!("B{n}"), "part": "HV-JB",
                "place": {"free": {"x_mm": 100 * (n % 70), "y_mm": 0, "z_mm": 1500 + n}}})
        })
        .collect();
    let input = changed(|p| {
        p["placed"] = placed.into();
        p["shafts"] = json!([]);
    });
    let plan = Plan::from_json("many.json", &input).unwrap();
    let begun = Instant::now();
    let assessment = Assessment::of(&plan, &Library::shipped()).unwrap();
    assert!(begun.elapsed() < 6 * QUICK, "{:?}", begun.elapsed());
    let evaluation = report::evaluation(&assessment, Units::Metric);
    let mass = evaluation.mass_kg.unwrap();
    let each = Library::shipped().parts["HV-JB"].mass_kg;
    assert!(mass > each * Plan::MOST_PARTS as f64, "{mass}");
}

#[test]
fn two_hundred_levels_are_refused_wherever_they_stand() {
    for (open, close) in [("[", "]"), ("{\"a\":", "}")] {
        for levels in [200, 100_000] {
            let deep = format!("{}1{}", open.repeat(levels), close.repeat(levels));
            refused(&deep);
            for field in [
                "name",
                "notes",
                "format",
                "placed",
                "chassis",
                "unheard-of",
                "loads",
            ] {
                let text = changed(|p| p[field] = json!("HERE"));
                refused(&text.replace("\"HERE\"", &deep));
            }
            refused(&open.repeat(levels));
        }
    }
}

#[test]
fn formats_that_are_not_known_are_refused_by_number() {
    refused_with(
        &changed(|p| p["format"] = json!(99)),
        &["format = 99", "newer planner"],
    );
    refused_with(&changed(|p| p["format"] = json!(0)), &["format = 0"]);
    for odd in [json!(-1), json!(2.5), json!("2"), json!([2]), json!(1e300)] {
        refused_with(&changed(|p| p["format"] = odd.clone()), &["format = "]);
    }
    let none = changed(|p| {
        p.as_object_mut().unwrap().remove("format");
    });
    refused_with(&none, &["format", "missing"]);
}

#[test]
fn files_that_are_no_plan_are_refused() {
    refused_with("", &["is empty"]);
    refused_with(" \n\t ", &["is empty"]);
    refused_with("{}", &["format", "missing"]);
    refused("null");
    refused("[]");
    refused("{");
    refused("{\"format\": 2");
    refused("<?xml version=\"1.0\"?><plan/>");
    refused(&text(&crate::shipped::root().join("src/drawing/svg.rs")));
    refused("\u{0}\u{0}\u{0}");
    let plan = example().to_string();
    refused_with(&format!("{plan} x"), &["trailing"]);
    refused_with(&format!("{plan}{plan}"), &["trailing"]);
    refused(&plan[..plan.len() - 1]);
}

#[test]
fn a_byte_order_mark_does_no_harm() {
    let plan = example().to_string();
    let marked = format!("\u{feff}{plan}");
    let read = Plan::from_json("marked.json", &marked).unwrap();
    assert_eq!(read, Plan::from_json("plain.json", &plan).unwrap());
    let mut session = Session::new().unwrap();
    session.open("marked.json", &marked).unwrap();
    assert_eq!(session.plan(), &read);
}

#[test]
fn marks_and_keys_that_stand_twice_are_refused() {
    let twice = changed(|p| {
        let first = p["placed"][0].clone();
        p["placed"].as_array_mut().unwrap().push(first);
    });
    let tag = example()["placed"][0]["tag"].as_str().unwrap().to_owned();
    refused_with(&twice, &["placed", &tag, "is used twice"]);
    let text = example().to_string();
    for key in ["name", "format", "placed", "loads"] {
        let again = format!("{{\"{key}\": {}, {}", example()[key], &text[1..]);
        refused_with(&again, &[key, "stands twice"]);
    }
    let inner = text.replacen("\"tag\":", "\"tag\":\"Z9\",\"tag\":", 1);
    refused_with(&inner, &["placed[0]", "tag", "stands twice"]);
    let stripped = changed(|p| p["changes"]["stripped"] = json!(["engine", "engine"]));
    refused_with(&stripped, &["changes.stripped = engine", "twice"]);
}

#[test]
fn a_huge_file_is_refused_by_its_size() {
    let notes = "x".repeat(Plan::MOST_BYTES);
    refused_with(
        &changed(|p| p["notes"] = json!(notes)),
        &["bytes long", "at most"],
    );
    let blank = " ".repeat(Plan::MOST_BYTES + 1);
    Plan::from_json("odd.json", &blank).unwrap_err();
    let long = "x".repeat(1_000_000);
    refused_with(
        &changed(|p| p["notes"] = json!(long)),
        &["notes", "at most 20000 characters"],
    );
    refused_with(
        &changed(|p| p["name"] = json!(long)),
        &["name", "at most 200 characters"],
    );
    refused_with(
        &changed(|p| p["placed"][0]["tag"] = json!(long)),
        &["placed[0].tag", "1 to 64"],
    );
}

#[test]
fn a_template_that_does_not_exist_leaves_the_plan_on_screen() {
    let input = changed(|p| p["chassis"] = json!({"template": "no-such-truck"}));
    // A half-finished plan can be read; what cannot be drawn does not replace what is.
    Plan::from_json("odd.json", &input).unwrap();
    let mut session = Session::new().unwrap();
    let before = session.plan().to_json();
    let said = session.open("odd.json", &input).unwrap_err().to_string();
    for word in ["odd.json: chassis.template = no-such-truck", "daycab-6x4"] {
        assert!(said.contains(word), "{said}");
    }
    assert_eq!(session.plan().to_json(), before);
    assert!(session.start("no-such-truck").is_err() && session.example("no-such-plan").is_err());
    assert_eq!(session.plan().to_json(), before);
}
