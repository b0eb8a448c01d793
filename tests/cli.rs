//! The command line as a person or a script meets it: the program itself, what it prints, and its
//! exit code.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests"
)]

mod shipped;

#[path = "cli/drive.rs"]
mod drive;

use axlewright_core::findings::{CHECKS, JOURNEY_CHECKS};
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use serde_json::Value;
use shipped::{Ran, examples, run, run_on, scratch, short, text};
use std::path::Path;

fn json(ran: &Ran) -> Value {
    serde_json::from_str(&ran.out).unwrap_or_else(|e| panic!("{e}\n{}\n{}", ran.out, ran.err))
}

fn evaluated(path: &Path) -> Value {
    json(&run(&[
        "evaluate",
        path.to_str().unwrap(),
        "--format",
        "json",
    ]))
}

fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("{value} is not a number"))
}

fn sum<'a>(rows: impl IntoIterator<Item = &'a Value>, field: &str) -> f64 {
    rows.into_iter().map(|row| number(&row[field])).sum()
}

fn list(value: &Value) -> &[Value] {
    value
        .as_array()
        .unwrap_or_else(|| panic!("{value} is not a list"))
}

/// As near as two ways of adding the same numbers come.
#[track_caller]
fn agree(what: &str, one: f64, other: f64) {
    let far = (one - other).abs();
    assert!(
        far <= 1e-9 * one.abs().max(other.abs()).max(1.0),
        "{what}: {one} and {other}"
    );
}

#[test]
fn every_example_is_evaluated_in_words_and_as_data() {
    let mut codes = Vec::new();
    for path in examples() {
        let name = short(&path);
        let ran = run(&["evaluate", &name, "--format", "json"]);
        assert_eq!(ran.err, "", "{name}");
        let data = json(&ran);
        let fails = list(&data["findings"])
            .iter()
            .any(|f| f["severity"] == "fails");
        assert_eq!(ran.code, i32::from(fails), "{name}");
        codes.push(ran.code);

        for (units, ours, theirs) in [("metric", " kg", " lb"), ("us", " lb", " kg")] {
            let words = run(&["evaluate", &name, "--units", units]);
            assert_eq!((words.code, words.err.as_str()), (ran.code, ""), "{name}");
            assert!(words.out.contains("Verdict: "), "{name}");
            assert!(words.out.contains(data["name"].as_str().unwrap()), "{name}");
            assert!(words.out.contains(ours), "{name} in {units}");
            // Ratings are quoted as their papers state them; our own figures are not.
            let table: Vec<&str> = words.out.lines().filter(|l| l.contains(" of ")).collect();
            assert!(
                !table
                    .iter()
                    .any(|l| l.starts_with("  ") && l.contains(theirs) && !l.contains('[')),
                "{name} in {units}: {table:#?}"
            );
            let same = run(&["evaluate", &name, "--format", "text", "--units", units]);
            assert_eq!(
                words.out, same.out,
                "text is what a person gets without asking"
            );
        }
    }
    assert!(codes.contains(&0), "an example that holds");
    assert!(codes.contains(&1), "an example that fails");
}

#[test]
fn figures_are_the_same_in_both_units_and_only_the_words_change() {
    for path in examples() {
        let name = short(&path);
        let metric = evaluated(&path);
        let us = json(&run(&[
            "evaluate", &name, "--format", "json", "--units", "us",
        ]));
        for field in ["case", "mass_kg", "axles", "cases", "verdict", "payload"] {
            assert_eq!(metric[field], us[field], "{name}: {field}");
        }
        for (one, other) in list(&metric["findings"]).iter().zip(list(&us["findings"])) {
            for field in [
                "id", "subject", "severity", "measured", "limit", "margin", "unit",
            ] {
                assert_eq!(one[field], other[field], "{name}: {}", one["id"]);
            }
        }
    }
}

#[test]
fn data_has_mass_axles_and_findings_at_the_top() {
    for path in examples() {
        let name = short(&path);
        let data = evaluated(&path);
        assert!(number(&data["mass_kg"]) > 1_000.0, "{name}");
        let axles = list(&data["axles"]);
        assert!(axles.len() >= 2, "{name}");
        for axle in axles {
            assert!(axle["id"].is_string(), "{name}");
            let (load, limit) = (number(&axle["load_kg"]), number(&axle["limit_kg"]));
            agree(&name, number(&axle["margin_kg"]), limit - load);
        }
        let findings = list(&data["findings"]);
        assert!(!findings.is_empty(), "{name}");
        let severities = ["fails", "caution", "not-assessed", "holds"];
        let mut before = 0;
        for finding in findings {
            let id = finding["id"].as_str().unwrap();
            assert!(CHECKS.iter().any(|c| c.id == id), "{name}: {id}");
            let rank = severities.iter().position(|s| finding["severity"] == *s);
            let rank = rank.unwrap_or_else(|| panic!("{name}: {finding}"));
            assert!(
                rank >= before,
                "{name}: worst first, but {id} is {}",
                finding["severity"]
            );
            before = rank;
            assert!(
                !finding["source"].as_str().unwrap().is_empty(),
                "{name}: {id}"
            );
            assert!(
                !finding["sentence"].as_str().unwrap().is_empty(),
                "{name}: {id}"
            );
            for field in ["measured", "limit", "margin"] {
                assert!(finding.get(field).is_some(), "{name}: {id} has no {field}");
            }
            if finding["margin"].is_null() {
                continue;
            }
            let margin = number(&finding["margin"]);
            let room = number(&finding["limit"]) - number(&finding["measured"]);
            assert!(
                (margin.abs() - room.abs()).abs() < 1e-6,
                "{name}: {finding}"
            );
            if finding["severity"] == "fails" {
                assert!(margin < 1e-6, "{name}: fails with room to spare: {finding}");
            }
        }
    }
}

#[test]
fn axle_loads_add_up_to_the_mass_that_they_carry() {
    for path in examples() {
        let data = evaluated(&path);
        let name = short(&path);
        let mut last = None;
        for case in list(&data["cases"]) {
            let what = format!("{name}, {}", case["case"]);
            assert!(case["missing"].is_null(), "{what}: {}", case["missing"]);
            let truck = number(&case["truck"]["mass_kg"]);
            let kingpin = case["kingpin_kg"].as_f64().unwrap_or(0.0);
            let trailer = case["trailer_axles_kg"].as_f64().unwrap_or(0.0);
            assert_eq!(
                case["case"] == "coupled",
                case["kingpin_kg"].is_number(),
                "{what}"
            );
            let axles = list(&case["axles"]);
            agree(&what, sum(axles, "load_kg"), truck + kingpin);
            agree(
                &what,
                sum(list(&case["groups"]), "load_kg"),
                truck + kingpin,
            );
            agree(&what, number(&case["gross_kg"]), truck + kingpin + trailer);
            for row in axles.iter().chain(list(&case["groups"])) {
                let sides = number(&row["left_kg"]) + number(&row["right_kg"]);
                agree(
                    &format!("{what}, {}", row["id"]),
                    number(&row["load_kg"]),
                    sides,
                );
            }
            let sprung = number(&case["sprung"]["mass_kg"]);
            agree(&what, sprung + number(&case["unsprung_kg"]), truck);
            last = Some(case);
        }
        let heaviest = last.expect("a case");
        assert_eq!(data["case"], heaviest["case"], "{name}");
        agree(
            &name,
            number(&data["mass_kg"]),
            sum(list(&data["axles"]), "load_kg"),
        );
        for (top, axle) in list(&data["axles"]).iter().zip(list(&heaviest["axles"])) {
            assert_eq!(
                top["load_kg"], axle["load_kg"],
                "{name}: the heaviest case is on top"
            );
        }
    }
}

#[test]
fn many_plans_give_one_line_each_and_a_broken_one_does_not_stop_them() {
    let plans: Vec<String> = examples()
        .iter()
        .map(|path| {
            serde_json::from_str::<Value>(&text(path))
                .unwrap()
                .to_string()
        })
        .collect();
    let mut input = Vec::new();
    for (index, plan) in plans.iter().enumerate() {
        input.extend(plan.bytes().chain(*b"\n"));
        if index == 1 {
            input.extend(b"{\"format\": 2, \"name\":\n\n");
            input.extend(b"\xff\xfe not text\n");
            input.extend(
                plan.replace("\"template\":\"", "\"template\":\"no-")
                    .bytes(),
            );
            input.push(b'\n');
        }
    }
    let ran = run_on(&["evaluate", "-"], &input);
    assert_eq!(ran.code, 2, "{}", ran.err);
    let results: Vec<Value> = ran
        .out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert_eq!(results.len(), plans.len() + 3);
    // An empty line is no plan, but it counts as a line.
    for (at, line) in [(2, "line 3"), (3, "line 5"), (4, "line 6")] {
        let error = results[at]["error"].as_str().unwrap();
        assert!(error.starts_with(line), "{error}");
    }
    assert!(
        results[4]["error"]
            .as_str()
            .unwrap()
            .contains("chassis.template = no-")
    );
    let good = results[..2].iter().chain(&results[5..]);
    for (path, result) in examples().iter().zip(good) {
        assert_eq!(*result, evaluated(path), "{}", short(path));
    }

    let whole = plans.join("\n");
    let ran = run_on(&["evaluate", "-"], whole.as_bytes());
    assert_eq!(
        (ran.code, ran.out.lines().count()),
        (1, plans.len()),
        "no line break at the end"
    );
    let ran = run_on(&["evaluate", "-"], b"");
    assert_eq!(
        (ran.code, ran.out.as_str()),
        (0, ""),
        "nothing asked, nothing answered"
    );
}

#[test]
fn input_that_cannot_be_used_ends_with_two_and_names_file_path_and_value() {
    let folder = scratch("cli-unusable");
    let good = text(&examples()[0]);
    let case = |name: &str, bytes: &[u8], says: &[&str]| {
        let path = folder.join(name);
        std::fs::write(&path, bytes).unwrap();
        let path = path.to_str().unwrap();
        let out = folder.join("never.svg");
        for words in [
            vec!["evaluate", path],
            vec!["draw", path, "-o", out.to_str().unwrap()],
        ] {
            let ran = run(&words);
            assert_eq!(
                (ran.code, ran.out.as_str()),
                (2, ""),
                "{words:?}: {}",
                ran.err
            );
            for word in says.iter().chain(&[name]) {
                assert!(ran.err.contains(word), "{word} is not in {}", ran.err);
            }
            assert!(!ran.err.contains("panicked"), "{}", ran.err);
        }
        assert!(!out.exists(), "nothing is written for {name}");
    };
    case("empty.json", b"", &["empty"]);
    case(
        "latin.json",
        b"{\"format\": 2, \"name\": \"Caf\xe9\"}",
        &["UTF-8"],
    );
    let utf16: Vec<u8> = good.encode_utf16().flat_map(u16::to_le_bytes).collect();
    case(
        "wide.json",
        &[b"\xff\xfe", utf16.as_slice()].concat(),
        &["UTF-8"],
    );
    case(
        "newer.json",
        br#"{"format": 99}"#,
        &["format = 99", "1 to 2"],
    );
    let elsewhere = good.replacen("\"template\": \"", "\"template\": \"no-such-", 1);
    case(
        "template.json",
        elsewhere.as_bytes(),
        &["chassis.template = no-such-", "daycab-6x4"],
    );
    let heavy = r#"{"format": 2, "name": "x", "chassis": {"template": "daycab-6x4"},
        "loads": {"driver_kg": -80}}"#;
    case(
        "driver.json",
        heavy.as_bytes(),
        &["loads.driver_kg = -80", "0 to 1000"],
    );

    let ran = run(&["evaluate", "no-such-file.json"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.starts_with("no-such-file.json: "), "{}", ran.err);
    let ran = run(&["evaluate", "examples"]);
    assert_eq!(ran.code, 2, "a folder is not a plan");
}

#[test]
fn a_plan_that_names_what_does_not_exist_is_unusable_as_well() {
    let folder = scratch("cli-names");
    let good: Value = serde_json::from_str(&text(&examples()[0])).unwrap();
    type Change = fn(&mut Value);
    let changes: [(&str, Change, &str); 5] = [
        (
            "part",
            |p| p["placed"][0]["part"] = "NO-PART".into(),
            "placed[0].part = NO-PART",
        ),
        (
            "zone",
            |p| {
                p["placed"][0]["place"] = serde_json::json!({"zone": {"id": "attic",
                "from_front_mm": 0.0, "y_mm": 0.0, "z_mm": 500.0}})
            },
            "placed[0].place.zone.id = attic",
        ),
        (
            "law",
            |p| p["law"]["regime"] = "moon".into(),
            "law.regime = moon",
        ),
        (
            "strip",
            |p| p["changes"]["stripped"][0] = "sail".into(),
            "changes.stripped[0] = sail",
        ),
        (
            "trailer",
            |p| p["loads"]["trailer"] = serde_json::json!({"id": "barge", "payload_kg": 1.0}),
            "loads.trailer.id = barge",
        ),
    ];
    for (name, change, says) in changes {
        let mut plan = good.clone();
        change(&mut plan);
        let path = folder.join(format!("{name}.json"));
        std::fs::write(&path, plan.to_string()).unwrap();
        let ran = run(&["evaluate", path.to_str().unwrap()]);
        assert_eq!(ran.code, 2, "{name}: {}", ran.out);
        assert!(ran.err.contains(says), "{name}: {}", ran.err);
        assert!(ran.err.contains(&format!("{name}.json: ")), "{}", ran.err);
    }
}

#[test]
fn every_view_of_every_example_is_drawn_in_both_units() {
    let folder = scratch("cli-drawn");
    for path in examples() {
        let name = short(&path);
        for view in ["side", "plan", "rear"] {
            let mut before = String::new();
            for units in ["metric", "us"] {
                let out = folder.join(format!("{view}-{units}.svg"));
                let to = out.to_str().unwrap();
                let words = ["draw", &name, "--view", view, "-o", to, "--units", units];
                let ran = run(&[&words[..], &["--date", "2026-02-03 <&>"]].concat());
                assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{name}");
                let svg = text(&out);
                let drawing = roxmltree::Document::parse(&svg)
                    .unwrap_or_else(|e| panic!("{name}, {view}: {e}"));
                assert_eq!(drawing.root_element().tag_name().name(), "svg");
                assert!(
                    svg.contains("2026-02-03 &lt;&amp;&gt;"),
                    "the date is the caller's"
                );
                assert!(svg.contains("not for certification"), "{name}, {view}");
                assert_ne!(svg, before, "{name}, {view}: units change the figures");
                before = svg;
            }
        }
    }
    let first = short(&examples()[0]);
    let nowhere = folder.join("no-such-folder").join("a.svg");
    let ran = run(&["draw", &first, "-o", nowhere.to_str().unwrap()]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("a.svg"), "{}", ran.err);
}

#[test]
fn lists_name_everything_in_the_library() {
    let library = Library::shipped();
    let templates = run(&["templates"]);
    assert_eq!((templates.code, templates.err.as_str()), (0, ""));
    let ids = library
        .chassis
        .keys()
        .chain(library.trailers.keys())
        .chain(library.laws.keys());
    for id in ids {
        assert!(templates.out.contains(id), "{id}");
    }
    let parts = run(&["parts"]);
    assert_eq!((parts.code, parts.err.as_str()), (0, ""));
    assert_eq!(parts.out.lines().count(), library.parts.len());
    for (part, line) in library.parts.values().zip(parts.out.lines()) {
        assert!(
            line.starts_with(&part.id) && line.ends_with(&part.name),
            "{line}"
        );
        assert!(line.contains(" kg"), "{line}");
    }
}

#[test]
fn every_schema_is_printed() {
    for of in ["chassis", "part", "plan", "trailer", "law"] {
        let ran = run(&["schema", of]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{of}");
        let schema = json(&ran);
        assert!(
            schema["$schema"]
                .as_str()
                .unwrap()
                .starts_with("https://json-schema.org/")
        );
        assert_eq!(
            schema["additionalProperties"], false,
            "{of}: unknown keys are refused"
        );
    }
    assert_eq!(run(&["schema", "moon"]).code, 2);
}

#[test]
fn a_new_plan_on_every_chassis_can_be_evaluated_at_once() {
    let folder = scratch("cli-new");
    for id in Library::shipped().chassis.keys() {
        let ran = run(&["new", "--chassis", id]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{id}");
        let plan = Plan::from_json(id, &ran.out).unwrap_or_else(|p| panic!("{p}"));
        assert_eq!(plan.to_json(), ran.out, "{id}: written as it is read");
        let path = folder.join(format!("{id}.json"));
        std::fs::write(&path, &ran.out).unwrap();
        let data = evaluated(&path);
        assert!(number(&data["mass_kg"]) > 1_000.0, "{id}");
    }
    let ran = run(&["new", "--chassis", "no-such-truck"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(
        ran.err.contains("no-such-truck") && ran.err.contains("daycab-6x4"),
        "{}",
        ran.err
    );
}

#[test]
fn every_check_explains_itself() {
    let all = run(&["explain"]);
    let heading = 1;
    assert_eq!(
        (all.code, all.out.lines().count()),
        (0, CHECKS.len() + heading + JOURNEY_CHECKS.len())
    );
    for check in JOURNEY_CHECKS {
        let ran = run(&["explain", check.id]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{}", check.id);
        assert!(ran.out.contains(check.question), "{}", check.id);
    }
    for check in CHECKS {
        assert!(
            all.out.contains(check.id) && all.out.contains(check.title),
            "{}",
            check.id
        );
        let ran = run(&["explain", check.id]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{}", check.id);
        for word in [
            check.id,
            check.title,
            check.question,
            check.method,
            check.source,
        ] {
            assert!(ran.out.contains(word), "{}: {word}", check.id);
        }
    }
    let ran = run(&["explain", "no-such-check"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(
        ran.err.contains("no-such-check") && ran.err.contains("axle-rating"),
        "{}",
        ran.err
    );
}

#[test]
fn files_given_beside_the_plan_add_to_the_library_or_say_why_not() {
    let folder = scratch("cli-with");
    let source = text(&shipped::root().join("parts-catalogue/battery-packs.toml"));
    let id = source
        .lines()
        .find(|l| l.starts_with("id "))
        .unwrap()
        .split('"')
        .nth(1)
        .unwrap();
    let ours = folder.join("ours.toml");
    std::fs::write(&ours, source.replacen(id, "OUR-PACK", 1)).unwrap();
    let ran = run(&["parts", "--with", ours.to_str().unwrap()]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.out.contains("OUR-PACK"));
    assert!(!run(&["parts"]).out.contains("OUR-PACK"));

    let broken = folder.join("broken.toml");
    let mass = source.lines().find(|l| l.starts_with("mass_kg ")).unwrap();
    std::fs::write(&broken, source.replacen(mass, "mass_kg = -5", 1)).unwrap();
    let ran = run(&["parts", "--with", broken.to_str().unwrap()]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    for word in ["broken.toml: part[0].mass_kg = -5: ", "0 to 20000"] {
        assert!(ran.err.contains(word), "{}", ran.err);
    }
}

#[test]
fn commands_that_do_not_exist_end_with_two_and_help_with_nothing_wrong() {
    assert_eq!(run(&["fly"]).code, 2);
    assert_eq!(run(&["evaluate"]).code, 2);
    assert_eq!(run(&["evaluate", "x.json", "--units", "furlongs"]).code, 2);
    assert_eq!(run(&["--help"]).code, 0);
    assert!(run(&["--version"]).out.starts_with("axlewright "));
    assert_eq!(run(&[] as &[&str]).code, 2);
}
