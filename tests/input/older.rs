//! Plans of older formats, frozen as they were written; the samples are never edited.

use crate::shipped::{root, run, short, text};
use axlewright_core::plan::Plan;
use axlewright_core::web::Session;

#[test]
fn a_plan_of_the_first_format_becomes_the_frozen_plan_of_today() {
    let old = text(&root().join("tests/frozen/plan-1.json"));
    let today = text(&root().join("tests/frozen/plan-1.migrated.json"));
    let plan = Plan::from_json("plan-1.json", &old).unwrap_or_else(|p| panic!("{p}"));
    assert_eq!(plan.to_json(), today);
    assert_eq!(
        Plan::from_json("today", &today).unwrap_or_else(|p| panic!("{p}")),
        plan
    );
    let mut session = Session::new().unwrap();
    session.open("plan-1.json", &old).unwrap();
    assert_eq!(session.plan().to_json(), today);
}

#[test]
fn both_are_evaluated_alike() {
    let evaluate = |name: &str| {
        let path = root().join("tests/frozen").join(name);
        let ran = run(&["evaluate", &short(&path), "--format", "json"]);
        assert!(ran.code < 2, "{}", ran.err);
        ran.out
    };
    assert_eq!(evaluate("plan-1.json"), evaluate("plan-1.migrated.json"));
}

#[test]
fn the_first_format_is_held_to_its_own_keys() {
    let old = text(&root().join("tests/frozen/plan-1.json"));
    let newer_key = old.replacen("\"wheelbase_mm\"", "\"changes\"", 1);
    assert_ne!(newer_key, old);
    let said = Plan::from_json("odd.json", &newer_key)
        .unwrap_err()
        .to_string();
    assert!(
        said.contains("changes") && said.contains("is not a known key"),
        "{said}"
    );
    let far = old.replacen("\"x_mm\": ", "\"x_mm\": 1e308, \"was\": ", 1);
    let said = Plan::from_json("odd.json", &far).unwrap_err().to_string();
    assert!(said.contains("placed[0]") && said.contains("was"), "{said}");
}
