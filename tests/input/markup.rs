//! Names that a hostile or merely playful person gives: they are words, never markup.

use crate::shipped::{examples, files, run, scratch, text};
use axlewright_core::assessment::Assessment;
use axlewright_core::drawing::View;
use axlewright_core::library::Library;
use axlewright_core::plan::{Edit, Plan};
use axlewright_core::quantity::Units;
use axlewright_core::report;
use axlewright_core::web::{Session, ViewOptions};
use serde_json::{Value, json};

const NAMES: [&str; 12] = [
    "<script>alert(1)</script>",
    "</text></svg><script>alert(1)</script>",
    "\" onload=\"alert(1)",
    "' onload='alert(1)",
    "Bell & Sons < Ltd >",
    "&lt;script&gt; &amp; &#60; &unknown;",
    "]]><!-- --><![CDATA[",
    "\u{202e}gnihtemos\u{202c} \u{200f}\u{200e}\u{2066}x\u{2069}",
    "Ünïcödé 卡车 грузовик شاحنة 🚚",
    "\u{fffe}\u{ffff}",
    "line\nbreak\tand tab",
    "${alert(1)} {{7*7}} \\u003cscript\\u003e",
];

/// Draws everything with this text wherever a plan takes text, and reads it back.
fn survives(name: &str) {
    let mut plan: Value = serde_json::from_str(&text(&examples()[0])).unwrap();
    plan["name"] = json!(name);
    plan["notes"] = json!(name);
    let shape = json!({"box": {"from_mm": [0, -200, 0], "to_mm": [400, 200, 300]}});
    plan["parts"] = json!([{"id": "OWN", "name": name, "kind": "free-mass", "mass_kg": 90,
        "envelope": [shape], "mounting": name,
        "keep_away": [{"kind": "battery-pack", "mm": 4000, "why": name}],
        "source": {"basis": "estimate", "document": name}}]);
    plan["placed"]
        .as_array_mut()
        .unwrap()
        .push(json!({"tag": "OWN", "part": "OWN",
        "place": {"free": {"x_mm": 3000, "y_mm": 0, "z_mm": 1200}}}));
    let plan = Plan::from_json("named.json", &plan.to_string()).unwrap_or_else(|p| panic!("{p}"));
    assert_eq!(
        Plan::from_json("again", &plan.to_json()).unwrap(),
        plan,
        "{name}"
    );

    let library = Library::shipped();
    let assessment = Assessment::of(&plan, &library).unwrap();
    for view in View::ALL {
        let svg = report::sheet(&assessment, view, name.to_owned(), Units::Us);
        sound(name, &svg);
    }
    let data = serde_json::to_string(&report::evaluation(&assessment, Units::Metric)).unwrap();
    let data: Value = serde_json::from_str(&data).unwrap();
    assert_eq!(data["name"], json!(name));
    assert!(!report::text(&assessment, Units::Metric).is_empty());

    let mut session = Session::new().unwrap();
    session.open("named.json", &plan.to_json()).unwrap();
    let shown = session.view(&ViewOptions::default()).unwrap();
    for view in View::ALL {
        sound(name, &shown.drawing(view));
    }
    let file = session.file_name();
    let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || "-.".contains(c);
    assert!(file.chars().all(plain) && file.ends_with(".json"), "{file}");
}

/// The drawing is well formed and holds nothing that runs.
fn sound(name: &str, svg: &str) {
    let drawing = roxmltree::Document::parse(svg).unwrap_or_else(|e| panic!("{name:?}: {e}"));
    for node in drawing.descendants().filter(|n| n.is_element()) {
        let tag = node.tag_name().name();
        assert!(
            !["script", "foreignObject", "image", "a"].contains(&tag),
            "{name:?}: <{tag}>"
        );
        for attribute in node.attributes() {
            assert!(
                !attribute.name().starts_with("on"),
                "{name:?}: {}",
                attribute.name()
            );
        }
    }
}

#[test]
fn names_stay_words_in_drawings_and_data() {
    for name in NAMES {
        survives(name);
    }
    survives(&"W".repeat(120));
    survives(&"卡".repeat(120));
}

#[test]
fn a_name_is_shown_as_it_was_given() {
    let mut session = Session::new().unwrap();
    session
        .apply(&Edit::Rename {
            name: "Bell & <Sons>".to_owned(),
        })
        .unwrap();
    let assessment = Assessment::of(session.plan(), session.library()).unwrap();
    let svg = report::sheet(&assessment, View::Side, String::new(), Units::Metric);
    let drawing = roxmltree::Document::parse(&svg).unwrap();
    let shown = drawing
        .descendants()
        .any(|n| n.text().is_some_and(|t| t.contains("Bell & <Sons>")));
    assert!(shown, "the title block says it");
}

#[test]
fn control_letters_are_refused_where_a_name_is_read() {
    let plan = text(&examples()[0]);
    for odd in ["\\u0000", "\\u001b[31m", "\\u0007", "\\u0085", "\\r"] {
        let named = plan.replacen("\"name\": \"", &format!("\"name\": \"{odd}"), 1);
        let said = Plan::from_json("odd.json", &named).unwrap_err().to_string();
        assert!(
            said.starts_with("odd.json: name = ") && said.contains("control"),
            "{said}"
        );
        assert!(!said.chars().any(char::is_control), "{said:?}");
    }
    let half = plan.replacen("\"name\": \"", "\"name\": \"\\ud800", 1);
    assert!(
        Plan::from_json("odd.json", &half)
            .unwrap_err()
            .to_string()
            .contains("name")
    );
}

#[test]
fn names_of_a_chassis_and_its_pieces_stay_words_too() {
    let path = files("chassis-templates", "daycab-6x4.toml").remove(0);
    let original = text(&path);
    for name in NAMES {
        let quoted = serde_json::to_string(name).unwrap();
        let renamed: Vec<String> = original
            .lines()
            .map(|line| match line.split_once(" = ") {
                Some(("name", _)) => format!("name = {quoted}"),
                _ => line.to_owned(),
            })
            .collect();
        let mut library = Library::shipped();
        library
            .add_toml("named.toml", &renamed.join("\n"))
            .unwrap_or_else(|p| panic!("{p}"));
        let mut plan = Plan::on(&library.chassis["daycab-6x4"]);
        plan.name = name.to_owned();
        let assessment = Assessment::of(&plan, &library).unwrap();
        for view in View::ALL {
            sound(
                name,
                &report::sheet(&assessment, view, String::new(), Units::Metric),
            );
        }
        serde_json::to_string(&report::evaluation(&assessment, Units::Metric)).unwrap();
    }
}

#[test]
fn the_command_line_draws_them_as_well() {
    let folder = scratch("input-markup");
    for (index, name) in NAMES.iter().enumerate() {
        let mut plan: Value = serde_json::from_str(&text(&examples()[0])).unwrap();
        plan["name"] = json!(name);
        let path = folder.join("named.json");
        std::fs::write(&path, plan.to_string()).unwrap();
        let out = folder.join(format!("{index}.svg"));
        let ran = run(&["draw", path.to_str().unwrap(), "-o", out.to_str().unwrap()]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{name:?}");
        sound(name, &text(&out));
        let ran = run(&["evaluate", path.to_str().unwrap(), "--format", "json"]);
        let data: Value = serde_json::from_str(&ran.out).unwrap();
        assert_eq!(data["name"], json!(name));
    }
}
