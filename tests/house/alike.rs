//! Findings as a reader sees them in the list: no two of one plan read alike.

use crate::shipped::{examples, short, text};
use axlewright_core::quantity::Units;
use axlewright_core::web::{Session, ViewOptions};
use serde_json::Value;
use std::collections::BTreeMap;

/// Pairs of findings of which a reader cannot tell which is which: closed in the list they show title
/// and what they are about, open their sentence too.
fn alike(findings: &Value) -> Vec<String> {
    let word = |finding: &Value, key: &str| finding[key].as_str().unwrap().to_owned();
    let mut closed: BTreeMap<(String, String), String> = BTreeMap::new();
    let mut opened: BTreeMap<(String, String), String> = BTreeMap::new();
    let mut out = Vec::new();
    for finding in findings.as_array().unwrap() {
        let subject = word(finding, "subject");
        let title = word(finding, "title");
        let about = word(finding, "about");
        let sentence = word(&finding["said"], "sentence");
        let line = (title.clone(), about.clone());
        if let Some(other) = closed.insert(line, subject.clone()) {
            out.push(format!("{title} | {about} | {subject} and {other}"));
        }
        if let Some(other) = opened.insert((title, sentence.clone()), subject.clone()) {
            out.push(format!("{sentence} | {subject} and {other}"));
        }
    }
    out
}

#[test]
fn no_two_findings_of_a_plan_read_alike() {
    let mut found = Vec::new();
    let mut compared = 0;
    for path in examples() {
        let name = short(&path);
        let mut session = Session::new().unwrap();
        session.open_plan(&name, &text(&path)).unwrap();
        for units in [Units::Metric, Units::Us] {
            let options = ViewOptions {
                units,
                whole: true,
                ..ViewOptions::default()
            };
            let shown = session.view(&options).unwrap();
            let view = serde_json::to_value(&shown.words).unwrap();
            compared += view["findings"].as_array().unwrap().len();
            let lines = alike(&view["findings"]);
            found.extend(lines.into_iter().map(|line| format!("{name}: {line}")));
        }
    }
    assert!(compared > 1_000, "{compared} findings compared");
    assert!(found.is_empty(), "{}", found.join("\n"));
}
