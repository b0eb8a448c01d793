//! What road law allows: every group of consecutive axles by its length, and every limit of each axle
//! group side by side.

use super::{NONE, PageKind};
use crate::assessment::{Assessment, Bridge, LimitKind};
use crate::findings::Severity;
use crate::quantity::{Units, length, mass, signed_length, signed_mass};
use crate::report::page::{Page, Table};

/// The page.
pub(super) static PAGE: PageKind = PageKind {
    id: "law",
    title: "Road law",
    checks: &["road-axle", "road-bridge", "road-gross"],
    build,
};

/// Limits that the second table has columns for.
const KINDS: [LimitKind; 5] = [
    LimitKind::Gawr,
    LimitKind::Tyres,
    LimitKind::Suspension,
    LimitKind::EAxle,
    LimitKind::Law,
];

fn build(assessment: &Assessment, units: Units) -> Page {
    let answers = &assessment.answers;
    let mut page = Page::new(&PAGE);
    if let Some(law) = &answers.vehicle.law {
        page.lead.push(format!("{} ({}).", law.name, law.edition));
        page.assumptions.push(law.notes.clone());
    }
    match &answers.bridge {
        Err(missing) => page.lead.push(format!("Not assessed: {missing}.")),
        Ok(groups) => {
            page.say_findings("road-bridge", assessment, units);
            if !groups.is_empty() {
                page.tables.push(bridge_table(groups, units));
            }
        }
    }
    if answers.loads.missing.is_none() && !answers.limits.is_empty() {
        page.tables.push(limit_table(assessment, units));
    }
    page
}

fn bridge_table(groups: &[Bridge], units: Units) -> Table {
    let is_over = |bridge: &Bridge| bridge.group.margin_kg() < -1e-6;
    let any_over = groups.iter().any(is_over);
    let mut columns = vec![
        ("Group", false),
        ("Length", true),
        ("Weighs", true),
        ("Allowed", true),
        ("Margin", true),
        ("Set by", false),
        ("Case", false),
    ];
    if any_over {
        columns.push(("To pass, longer by", true));
    }
    let mut table = Table::new(
        "Groups of consecutive axles, each in its heaviest case",
        &columns,
    );
    for bridge in groups {
        let group = &bridge.group;
        let (from, to) = group.numbers;
        let mut cells = vec![
            format!("axles {from} to {to}"),
            length(group.length_mm(), units),
            mass(group.actual_kg, units),
            mass(group.allowed_kg, units),
            signed_mass(group.margin_kg(), units),
            group.rule.words().to_owned(),
            bridge.case.words().to_owned(),
        ];
        if any_over {
            cells.push(match group.spread_mm() {
                Some((_, more)) => signed_length(more, units),
                None if is_over(bridge) => "no length helps".to_owned(),
                None => NONE.to_owned(),
            });
        }
        let severity = Severity::of_margin(Some(group.margin_kg()), 0.0);
        table.row(Some(severity), cells);
    }
    let mut note = "Axles are numbered from the front through truck and trailer.".to_owned();
    if any_over {
        note.push_str(" How far a group would have to spread leaves its other limits aside.");
    }
    table.note = Some(note);
    table
}

fn limit_table(assessment: &Assessment, units: Units) -> Table {
    let answers = &assessment.answers;
    let limits = &answers.limits;
    let shown: Vec<LimitKind> = KINDS
        .into_iter()
        .filter(|kind| {
            let named = |kinds: &[LimitKind]| kinds.contains(kind);
            limits
                .iter()
                .any(|group| group.of(*kind).is_some() || named(&group.missing))
        })
        .collect();
    let mut columns = vec![("Axle group", false), ("Carries at most", true)];
    columns.extend(shown.iter().map(|kind| (kind.words(), true)));
    columns.extend([("Margin to the lowest", true), ("Lowest", false)]);
    let mut table = Table::new("Limits of each axle group", &columns);
    for group in limits {
        let heaviest = answers.loads.heaviest_of(&group.id);
        let load = heaviest.map(|(_, load)| load);
        let lowest = group.lowest();
        let margin = load.zip(lowest).map(|(load, l)| l.kg - load.load_kg);
        let none = || NONE.to_owned();
        let mut cells = vec![
            group.name.clone(),
            load.map_or_else(none, |load| mass(load.load_kg, units)),
        ];
        cells.extend(shown.iter().map(|kind| match group.of(*kind) {
            Some(limit) => mass(limit.kg, units),
            None if group.missing.contains(kind) => "unknown".to_owned(),
            None => none(),
        }));
        cells.push(margin.map_or_else(none, |kg| signed_mass(kg, units)));
        cells.push(lowest.map_or_else(none, |limit| limit.kind.words().to_owned()));
        let thin = load.map_or(0.0, crate::loads::GroupLoad::thin_kg);
        // What is up has no limit to keep, so there is nothing to mark.
        let mark = (!group.up).then(|| Severity::of_margin(margin, thin));
        table.row(mark, cells);
    }
    table
}
