//! Pages of answers: one file each, names of their own, tables without holes, nothing unescaped.

use crate::shipped::{examples, files, short, text};
use axlewright_core::assessment::Assessment;
use axlewright_core::findings::explain;
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use axlewright_core::quantity::Units;
use axlewright_core::report::{PAGES, page};
use std::collections::BTreeSet;

#[test]
fn every_page_is_one_file_with_an_id_and_a_title_of_its_own() {
    let ids: BTreeSet<&str> = PAGES.iter().map(|page| page.id).collect();
    assert_eq!(ids.len(), PAGES.len(), "an id is used twice");
    let titles: BTreeSet<&str> = PAGES.iter().map(|page| page.title).collect();
    assert_eq!(titles.len(), PAGES.len(), "a title is used twice");
    let mut seen = BTreeSet::new();
    for path in files("src/report/pages", ".rs") {
        let file = short(&path);
        if file.ends_with("/mod.rs") {
            continue;
        }
        let source = text(&path);
        let mut found = source.split("id: \"").skip(1);
        let id = found.next().and_then(|rest| rest.split('"').next());
        assert_eq!(found.count(), 0, "{file}: one page a file");
        let id = id.unwrap_or_else(|| panic!("{file}: no page"));
        assert!(ids.contains(id), "{file}: {id} is not in the list");
        seen.insert(id.to_owned());
    }
    assert_eq!(seen.len(), PAGES.len(), "every page has its file");
    for kind in PAGES {
        let short = kind.title.chars().count() <= 16;
        assert!(short, "{}: its title stands on a small button", kind.id);
        for check in kind.checks {
            assert!(explain(check).is_some(), "{}: no check {check}", kind.id);
        }
    }
}

#[test]
fn pages_of_every_example_have_full_rows_and_say_something() {
    let library = Library::shipped();
    for path in examples() {
        let name = short(&path);
        let plan = Plan::from_json(&name, &text(&path)).unwrap_or_else(|p| panic!("{p}"));
        let assessment = Assessment::of(&plan, &library).unwrap();
        for kind in PAGES {
            let what = format!("{name}, {}", kind.id);
            let built = page(kind.id, &assessment, Units::Metric).unwrap();
            assert_eq!((built.id, built.title), (kind.id, kind.title), "{what}");
            assert!(
                !built.lead.is_empty() || !built.tables.is_empty() || built.picture.is_some(),
                "{what}: an empty page"
            );
            // What it comes to is read before the tables, not instead of them.
            let most = if name.contains("/wrong/") || name.contains("five-faults") {
                12
            } else {
                8
            };
            assert!(built.lead.len() <= most, "{what}: {:#?}", built.lead);
            for table in &built.tables {
                let what = format!("{what}, {}", table.title);
                assert!(!table.rows.is_empty(), "{what}: no rows");
                for row in &table.rows {
                    assert_eq!(row.cells.len(), table.columns.len(), "{what}: {row:?}");
                    for cell in &row.cells {
                        let odd = cell.is_empty() || cell.contains("NaN") || cell.contains("inf");
                        assert!(!odd, "{what}: {row:?}");
                    }
                }
            }
            // Both units say the same with other figures.
            let us = page(kind.id, &assessment, Units::Us).unwrap();
            let lines = |p: &axlewright_core::report::Page| -> Vec<usize> {
                p.tables.iter().map(|t| t.rows.len()).collect()
            };
            assert_eq!(lines(&us), lines(&built), "{what}");
            let words = us
                .tables
                .iter()
                .flat_map(|t| &t.rows)
                .flat_map(|r| &r.cells);
            for cell in words.chain(&us.lead) {
                let metric = cell
                    .split([' ', '('])
                    .any(|word| ["kg", "mm"].contains(&word));
                assert!(!metric, "{what}: {cell}");
            }
        }
    }
    assert_eq!(page("no-such-page", &first(&library), Units::Us), None);
}

fn first(library: &Library) -> Assessment {
    let path = &examples()[0];
    let plan = Plan::from_json("plan", &text(path)).unwrap();
    Assessment::of(&plan, library).unwrap()
}

#[test]
fn what_is_missing_stands_on_the_page() {
    let library = Library::shipped();
    let path = &examples()[0];
    let mut plan = Plan::from_json("plan", &text(path)).unwrap();
    plan.law.regime = None;
    let assessment = Assessment::of(&plan, &library).unwrap();
    let law = page("law", &assessment, Units::Metric).unwrap();
    assert!(
        law.lead
            .iter()
            .any(|line| line == "Not assessed: the plan names no road law."),
        "{:?}",
        law.lead
    );
}
