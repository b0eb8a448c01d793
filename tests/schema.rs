//! The schemas beside the files say what the program reads, and every shipped file keeps to them.
//!
//! `AXLEWRIGHT_BLESS=1 cargo test --test schema` writes them anew after a change of the types.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests"
)]

mod shipped;

use serde_json::Value;
use shipped::{examples, files, root, run, short, text};
use std::path::Path;

/// Which schema stands where.
const CHECKED_IN: [(&str, &str); 4] = [
    ("chassis", "chassis-templates/chassis.schema.json"),
    ("trailer", "chassis-templates/trailer.schema.json"),
    ("part", "parts-catalogue/part.schema.json"),
    ("plan", "examples/plan.schema.json"),
];

fn generated(of: &str) -> String {
    let ran = run(&["schema", of]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    ran.out
}

fn validator(of: &str) -> jsonschema::Validator {
    let schema: Value = serde_json::from_str(&generated(of)).unwrap();
    jsonschema::meta::validate(&schema).unwrap_or_else(|e| panic!("{of}: {e}"));
    jsonschema::validator_for(&schema).unwrap_or_else(|e| panic!("{of}: {e}"))
}

fn keeps_to(validator: &jsonschema::Validator, name: &str, value: &Value) {
    let errors: Vec<String> = validator
        .iter_errors(value)
        .map(|e| format!("{name}: {}: {e}", e.instance_path()))
        .collect();
    assert!(errors.is_empty(), "{}", errors.join("\n"));
}

fn from_toml(path: &Path) -> Value {
    let table: toml::Table = text(path).parse().unwrap();
    serde_json::to_value(table).unwrap()
}

#[test]
fn schemas_beside_the_files_are_those_of_the_types() {
    for (of, place) in CHECKED_IN {
        let now = generated(of);
        let path = root().join(place);
        if std::env::var_os("AXLEWRIGHT_BLESS").is_some() {
            std::fs::write(&path, &now).unwrap();
        }
        let then = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(
            now == then,
            "{place} is not what the types say; AXLEWRIGHT_BLESS=1 cargo test --test schema \
             writes it anew"
        );
    }
}

#[test]
fn every_schema_refuses_unknown_keys_and_nonsense() {
    for of in ["chassis", "trailer", "part", "plan", "law"] {
        let validator = validator(of);
        assert!(
            !validator.is_valid(&serde_json::json!({})),
            "{of}: something is required"
        );
        assert!(!validator.is_valid(&serde_json::json!([])), "{of}");
    }
    let mut plan: Value = serde_json::from_str(&text(&examples()[0])).unwrap();
    let validator = validator("plan");
    assert!(validator.is_valid(&plan));
    plan["placed"][0]["colour"] = "red".into();
    assert!(!validator.is_valid(&plan), "an unknown key deep inside");
}

#[test]
fn every_shipped_plan_keeps_to_the_schema() {
    let validator = validator("plan");
    for path in examples() {
        keeps_to(
            &validator,
            &short(&path),
            &serde_json::from_str(&text(&path)).unwrap(),
        );
    }
    let migrated = root().join("tests/frozen/plan-1.migrated.json");
    keeps_to(
        &validator,
        &short(&migrated),
        &serde_json::from_str(&text(&migrated)).unwrap(),
    );
}

#[test]
fn every_shipped_chassis_and_trailer_keeps_to_its_schema() {
    let (chassis, trailer) = (validator("chassis"), validator("trailer"));
    let paths = files("chassis-templates", ".toml");
    assert!(paths.len() >= 7, "{} files", paths.len());
    for path in paths {
        let value = from_toml(&path);
        let is_trailer = value.get("kingpin_to_axles_mm").is_some();
        keeps_to(
            if is_trailer { &trailer } else { &chassis },
            &short(&path),
            &value,
        );
    }
}

#[test]
fn every_shipped_family_of_parts_keeps_to_its_schema() {
    let validator = validator("part");
    let paths = files("parts-catalogue", ".toml");
    assert!(paths.len() >= 5, "{} files", paths.len());
    for path in paths {
        keeps_to(&validator, &short(&path), &from_toml(&path));
    }
}

#[test]
fn every_shipped_law_keeps_to_its_schema() {
    let validator = validator("law");
    let paths = files("src/law", ".toml");
    assert!(!paths.is_empty());
    for path in paths {
        keeps_to(&validator, &short(&path), &from_toml(&path));
    }
}
