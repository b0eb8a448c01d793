//! *Published* and *hand*: every row of `tests/published/law/bridge.toml`.

use super::row::{FT, LB, law, standing};
use super::{assess, read};
use axlewright_core::legality::{
    Allowed, BridgeGroup, Rule, bridge_groups, gross_limit_kg, road_axles, table_lb,
};
use axlewright_core::report;
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    table: Vec<Cells>,
    vehicle: Vec<Standing>,
    limits: Limits,
    left_out: Vec<LeftOut>,
    scenarios: Scenarios,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Known {
    Read,
    RuleRead,
    Derived,
    Memory,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Cells {
    id: String,
    source: String,
    known: Known,
    #[serde(default)]
    note: String,
    axles: Vec<u32>,
    length_ft: Vec<f64>,
    lb: Vec<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Standing {
    id: String,
    title: String,
    source: String,
    known: Known,
    note: String,
    at_ft: Vec<f64>,
    lb: Vec<f64>,
    groups: Vec<Wanted>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Wanted {
    group: String,
    length_ft: f64,
    allowed_lb: f64,
    actual_lb: f64,
    over_lb: f64,
    rule: String,
}

#[derive(Deserialize)]
struct Limits {
    source: String,
    #[serde(flatten)]
    row: BTreeMap<String, toml::Table>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LeftOut {
    id: String,
    why: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Scenarios {
    known: Known,
    within_ft: f64,
    within_lb: f64,
    plan: Vec<ByHand>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ByHand {
    file: String,
    groups: Vec<HandGroup>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct HandGroup {
    group: String,
    length_ft: f64,
    table_lb: f64,
    allowed_lb: f64,
    actual_lb: f64,
}

fn file() -> File {
    let text = include_str!("../published/law/bridge.toml");
    toml::from_str(text).unwrap_or_else(|e| panic!("{e}"))
}

fn named<'a>(mut groups: impl Iterator<Item = &'a BridgeGroup>, name: &str) -> &'a BridgeGroup {
    groups
        .find(|g| format!("{}-{}", g.numbers.0, g.numbers.1) == name)
        .unwrap_or_else(|| panic!("no group {name}"))
}

#[track_caller]
fn close(what: &str, found: f64, wanted: f64, within: f64) {
    assert!(
        (found - wanted).abs() <= within,
        "{what}: found {found}, wanted {wanted} within {within}"
    );
}

#[test]
fn every_published_cell_of_the_table_comes_out() {
    let law = law();
    let mut cells = 0;
    let mut misses = Vec::new();
    for row in file().table {
        assert_eq!(row.axles.len(), row.length_ft.len(), "{}", row.id);
        assert_eq!(row.axles.len(), row.lb.len(), "{}", row.id);
        for ((axles, ft), lb) in row.axles.iter().zip(&row.length_ft).zip(&row.lb) {
            cells += 1;
            let found = table_lb(&law, *axles, *ft);
            if found != Some(*lb) {
                let id = &row.id;
                misses.push(format!(
                    "{id}: {axles} axles, {ft} ft: {found:?}, {lb} wanted"
                ));
            }
        }
    }
    assert!(cells >= 70, "{cells} cells");
    assert!(misses.is_empty(), "\n{}", misses.join("\n"));
}

#[test]
fn every_published_vehicle_comes_out() {
    for row in file().vehicle {
        let vehicle = standing(&row.at_ft, false);
        let loads: Vec<f64> = row.lb.iter().map(|lb| lb * LB).collect();
        let groups = bridge_groups(&vehicle, &loads);
        let count = row.at_ft.len();
        assert_eq!(groups.len(), count * (count - 1) / 2, "{}", row.id);
        for wanted in &row.groups {
            let what = format!("{} ({}), {}", row.id, row.title, wanted.group);
            let found = named(groups.iter(), &wanted.group);
            close(&what, found.length_mm() / FT, wanted.length_ft, 1e-9);
            close(&what, found.allowed_kg / LB, wanted.allowed_lb, 1e-6);
            close(&what, found.actual_kg / LB, wanted.actual_lb, 1e-6);
            let over = (-found.margin_kg() / LB).max(0.0);
            close(&what, over, wanted.over_lb, 1e-6);
            assert_eq!(found.rule.words(), wanted.rule, "{what}");
            assert_eq!(
                found.passes_at_mm.is_some(),
                wanted.over_lb > 0.0,
                "{what}: how far to spread"
            );
        }
    }
}

#[test]
#[expect(clippy::cast_possible_truncation, reason = "whole pounds")]
fn the_other_limits_are_those_of_the_law() {
    let law = law();
    let file = file();
    let row = |id: &str| &file.limits.row[id];
    let number = |id: &str, key: &str| row(id)[key].as_integer().unwrap();
    let list = |id: &str, key: &str| row(id)[key].as_array().unwrap().clone();
    let lb = |kg: f64| (kg / LB).round() as i64;
    let axles = |spread_in: f64| {
        let vehicle = standing(&[0.0, 20.0, 20.0 + spread_in / 12.0], false);
        let axles = road_axles(&vehicle);
        Allowed::to(&vehicle).unwrap().group_kg(&axles[1..], 0.0)
    };
    let whole = |claimed| gross_limit_kg(&standing(&[0.0, 20.0], claimed)).unwrap();
    let vehicle = standing(&[0.0, 20.0], false);
    let single = Allowed::to(&vehicle)
        .unwrap()
        .one_kg(&road_axles(&vehicle)[0]);
    assert_eq!(lb(single.unwrap().0), number("UL-1", "single_lb"));
    assert_eq!(lb(axles(50.0).unwrap().0), number("UL-1", "tandem_lb"));
    assert_eq!(lb(whole(false)), number("UL-1", "gross_lb"));

    let classes = list("UL-2", "class");
    for (spread, class) in list("UL-2", "spread_in").iter().zip(&classes) {
        let spread = f64::from(i32::try_from(spread.as_integer().unwrap()).unwrap());
        let found = match axles(spread).unwrap() {
            (kg, Rule::Single) if lb(kg) == 20_000 => "single",
            (kg, Rule::Tandem) if lb(kg) == 34_000 => "tandem",
            (_, Rule::Table) => "singles",
            other => panic!("{other:?}"),
        };
        assert_eq!(Some(found), class.as_str(), "{spread} in");
    }

    let legal = list("UL-3", "legal");
    for (gross, legal) in list("UL-3", "gross_lb").iter().zip(&legal) {
        let within = gross.as_integer().unwrap() <= lb(whole(true));
        assert_eq!(Some(within), legal.as_bool(), "{gross} lb");
    }

    assert_eq!(
        lb(whole(true) - whole(false)),
        number("UL-4", "allowance_lb")
    );

    // Not even a claim helps.
    for claimed in [false, true] {
        let mut plan = read(row("UL-5")["plan"].as_str().unwrap());
        plan.law.allowance = claimed;
        let vehicle = assess(&plan).answers.vehicle;
        assert_eq!(
            lb(gross_limit_kg(&vehicle).unwrap()),
            number("UL-5", "gross_lb")
        );
    }

    let floor = law.tyre_width.clone().unwrap();
    let pounds = |figure: Option<f64>| figure.map(|v| v as i64);
    assert_eq!(
        pounds(floor.floor.lb_per_in),
        Some(number("UL-9", "tyre_lb_per_in_min"))
    );
    assert_eq!(
        pounds(floor.steer_axle_floor.lb),
        Some(number("UL-9", "steer_axle_min_lb"))
    );
}

#[test]
fn our_plans_agree_with_the_hand_calculation() {
    let scenarios = file().scenarios;
    assert!(matches!(scenarios.known, Known::Derived));
    for plan in scenarios.plan {
        let assessment = assess(&read(&plan.file));
        let bridge = assessment.answers.bridge.as_ref().unwrap();
        let data = report::evaluation(&assessment, axlewright_core::quantity::Units::Metric);
        for wanted in &plan.groups {
            let what = format!("{}, {}", plan.file, wanted.group);
            let found = named(bridge.iter().map(|b| &b.group), &wanted.group);
            close(
                &what,
                found.length_mm() / FT,
                wanted.length_ft,
                scenarios.within_ft,
            );
            close(&what, found.table_kg / LB, wanted.table_lb, 1e-6);
            close(&what, found.allowed_kg / LB, wanted.allowed_lb, 1e-6);
            close(
                &what,
                found.actual_kg / LB,
                wanted.actual_lb,
                scenarios.within_lb,
            );
            let row = data.bridge.iter().find(|r| r.group == wanted.group);
            let row = row.unwrap_or_else(|| panic!("{what}: not in the data"));
            close(&what, row.margin_kg, row.allowed_kg - row.actual_kg, 1e-9);
            close(&what, row.actual_kg, found.actual_kg, 0.0);
        }
    }
}

#[test]
fn every_row_says_how_it_is_known_and_every_row_left_out_says_why() {
    let file = file();
    let mut ids = BTreeSet::new();
    for row in &file.table {
        assert!(ids.insert(row.id.clone()) && row.source.len() > 4);
        assert!(!matches!(row.known, Known::Memory) || !row.note.is_empty());
    }
    for row in &file.vehicle {
        assert!(ids.insert(row.id.clone()) && row.source.len() > 4 && row.note.len() > 4);
        assert!(matches!(
            row.known,
            Known::Read | Known::RuleRead | Known::Derived | Known::Memory
        ));
    }
    assert!(file.limits.source.len() > 4);
    for (id, row) in &file.limits.row {
        assert!(
            ids.insert(id.clone()) && row.contains_key("known"),
            "{id}: how is it known?"
        );
    }
    for row in &file.left_out {
        assert!(ids.insert(row.id.clone()) && row.why.len() > 20);
    }
}
