//! Checks: one file each, names of their own, nothing counted twice, none that never speaks.

use crate::shipped::{examples, files, root, short, text};
use axlewright_core::assessment::Assessment;
use axlewright_core::findings::CHECKS;
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use std::collections::BTreeSet;

/// Checks that no example gives rise to, each with its reason.
const UNSEEN_CHECKS: [(&str, &str); 1] = [(
    "plan-problem",
    "speaks only of names that do not exist; examples name what exists",
)];

#[test]
fn every_check_is_one_file_with_a_header_and_an_id_of_its_own() {
    let ids: BTreeSet<&str> = CHECKS.iter().map(|check| check.id).collect();
    assert_eq!(ids.len(), CHECKS.len(), "an id is used twice");
    let titles: BTreeSet<&str> = CHECKS.iter().map(|check| check.title).collect();
    assert_eq!(titles.len(), CHECKS.len(), "a title is used twice");
    let mut seen = BTreeSet::new();
    for path in files("src/findings/checks", ".rs") {
        let source = text(&path);
        let Some(rest) = source.split("id: \"").nth(1) else {
            continue;
        };
        let id = rest.split('"').next().unwrap();
        let file = short(&path);
        assert_eq!(
            source.matches("id: \"").count(),
            1,
            "{file}: one check a file"
        );
        let check = CHECKS.iter().find(|check| check.id == id);
        let check = check.unwrap_or_else(|| panic!("{id} is not in the list"));
        let question = source.lines().next().unwrap();
        assert!(
            question.starts_with("//! ") && question.ends_with('?'),
            "{file}: its question first"
        );
        assert!(
            check.question.ends_with('?'),
            "{id}: a check answers a question"
        );
        for (what, words) in [
            ("title", check.title),
            ("method", check.method),
            ("source", check.source),
            ("applies", check.applies),
        ] {
            assert!(words.len() > 2, "{id}: {what}");
        }
        seen.insert(id.to_owned());
    }
    assert_eq!(seen.len(), CHECKS.len(), "every check has its file");
}

#[test]
fn no_two_findings_count_the_same_thing_and_every_check_is_seen() {
    let library = Library::shipped();
    let mut seen: BTreeSet<&str> = BTreeSet::new();
    for path in examples() {
        let name = short(&path);
        let plan = Plan::from_json(&name, &text(&path)).unwrap_or_else(|p| panic!("{p}"));
        let assessment = Assessment::of(&plan, &library).unwrap();
        let mut pairs = BTreeSet::new();
        for finding in &assessment.findings {
            seen.insert(finding.check);
            let pair = (finding.subject.clone(), finding.check);
            assert!(pairs.insert(pair.clone()), "{name}: {pair:?} stands twice");
        }
    }
    let excused: BTreeSet<&str> = UNSEEN_CHECKS.iter().map(|(id, _)| *id).collect();
    let unseen: BTreeSet<&str> = CHECKS
        .iter()
        .map(|c| c.id)
        .filter(|id| !seen.contains(id))
        .collect();
    assert_eq!(unseen, excused, "checks that no example gives rise to");
}

/// The findings of an example after a change, by check and severity.
fn raised(example: &str, change: impl FnOnce(&mut serde_json::Value)) -> BTreeSet<String> {
    let mut plan = serde_json::from_str(&text(&root().join("examples").join(example))).unwrap();
    change(&mut plan);
    let plan = Plan::from_json(example, &plan.to_string()).unwrap_or_else(|p| panic!("{p}"));
    let assessment = Assessment::of(&plan, &Library::shipped()).unwrap();
    assessment
        .findings
        .iter()
        .map(|f| format!("{} {:?}", f.check, f.severity))
        .collect()
}

#[test]
fn a_check_that_no_example_raises_speaks_up_when_it_should() {
    let unknown = raised("gullwharf-drayage.json", |p| {
        p["placed"][0]["part"] = serde_json::json!("NO-PART");
    });
    assert!(unknown.contains("plan-problem Fails"), "{unknown:?}");
}
