//! What road law allows: every group of consecutive axles by its length, every limit of each axle group
//! side by side, sizes, the best places of fifth wheel and trailer axles, payload at each limit, and every
//! figure of the law with its source.

use super::{NONE, PageKind};
use crate::assessment::{Assessment, BestPositions, Bridge, Capacity, LimitKind};
use crate::findings::Severity;
use crate::law::Regime;
use crate::legality;
use crate::quantity::{Units, length, mass, signed_length, signed_mass};
use crate::report::page::{Page, Table};

/// The page.
pub(super) static PAGE: PageKind = PageKind {
    id: "law",
    title: "Road law",
    checks: &[
        "road-axle",
        "road-bridge",
        "road-gross",
        "road-allowance",
        "road-tyre-width",
        "road-driven-share",
        "road-steered-share",
        "road-length",
        "road-width",
        "road-height",
        "fifth-wheel-position",
        "trailer-axle-position",
        "payload",
    ],
};

/// Limits that the second table has columns for.
const KINDS: [LimitKind; 5] = [
    LimitKind::Gawr,
    LimitKind::Tyres,
    LimitKind::Suspension,
    LimitKind::EAxle,
    LimitKind::Law,
];

/// Builds it.
pub(super) fn build(assessment: &Assessment, units: Units) -> Page {
    let answers = &assessment.answers;
    let mut page = Page::new(&PAGE);
    if let Some(law) = &answers.vehicle.law {
        page.lead.push(match law.edition.as_str() {
            "" => format!("{}.", law.name),
            edition => format!("{} ({edition}).", law.name),
        });
        if !law.notes.is_empty() {
            page.assumptions.push(law.notes.clone());
        }
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
    if answers.loads.missing.is_none() && !answers.road.limits.is_empty() {
        page.tables.push(limit_table(assessment, units));
    }
    for check in [
        "road-gross",
        "road-allowance",
        "fifth-wheel-position",
        "trailer-axle-position",
    ] {
        page.say_findings(check, assessment, units);
    }
    if let Ok(best) = answers.best_positions() {
        page.tables.extend(best_table(&best, units));
    }
    if let Ok(capacity) = &answers.capacity {
        page.tables.extend(payload_table(capacity, units));
    }
    page.tables.extend(size_table(assessment, units));
    if let Some(law) = &answers.vehicle.law {
        page.tables.extend(figure_table(law, units));
    }
    page
}

fn unless_empty(table: Table) -> Option<Table> {
    (!table.rows.is_empty()).then_some(table)
}

fn best_table(best: &BestPositions, units: Units) -> Option<Table> {
    let columns = [
        ("Place", false),
        ("Fifth wheel ahead", true),
        ("Kingpin to axles", true),
        ("Payload", true),
        ("Stopped by", false),
    ];
    let mut table = Table::new("Largest payload that keeps every limit, by place", &columns);
    let or_none = |mm: Option<f64>| mm.map_or_else(|| NONE.to_owned(), |mm| length(mm, units));
    for (words, best) in best.rows() {
        let cells = vec![
            words.to_owned(),
            or_none(best.ahead_mm),
            or_none(best.kingpin_to_axles_mm),
            mass(best.payload_kg, units),
            best.stopped_by.join(", "),
        ];
        table.row(None, cells);
    }
    table.note = Some(
        "Ratings, tyres, road law with its groups of axles, least weight on the steered axle. Trailer swing and landing legs are checked on their own.".to_owned(),
    );
    unless_empty(table)
}

fn payload_table(capacity: &Capacity, units: Units) -> Option<Table> {
    let columns = [("Limit", false), ("Set by", false), ("Payload", true)];
    let mut table = Table::new(
        "Payload at which each limit is reached, as planned",
        &columns,
    );
    for row in &capacity.rows {
        let severity = if row.payload_kg < 0.0 {
            Severity::Fails
        } else {
            Severity::Holds
        };
        let payload = mass(row.payload_kg, units);
        table.row(
            Some(severity),
            vec![row.name.clone(), row.by.to_owned(), payload],
        );
    }
    for passed in &capacity.passed {
        let over = format!("{}, passed without any", passed.by);
        let cells = vec![passed.name.clone(), over, NONE.to_owned()];
        table.row(Some(Severity::Fails), cells);
    }
    unless_empty(table)
}

fn size_table(assessment: &Assessment, units: Units) -> Option<Table> {
    let columns = [
        ("Size", false),
        ("Is", true),
        ("Allowed", true),
        ("Margin", true),
    ];
    let mut table = Table::new("Lengths, widths, height", &columns);
    for size in legality::sizes(&assessment.answers.vehicle) {
        let margin = size.limit_mm - size.mm;
        let severity = Severity::of_margin(Some(margin + 0.5), 0.0);
        let cells = vec![
            format!("{}: {}", size.what, size.id.replace('_', " ")),
            length(size.mm, units),
            length(size.limit_mm, units),
            signed_length(margin, units),
        ];
        table.row(Some(severity), cells);
    }
    unless_empty(table)
}

fn figure_table(law: &Regime, units: Units) -> Option<Table> {
    let columns = [
        ("Figure", false),
        ("As printed", true),
        ("Here", true),
        ("Source", false),
    ];
    let mut table = Table::new("Figures of this law", &columns);
    let mut all = law.clone();
    all.walk(&mut |place, figure| {
        let Some(inside) = figure.inside(place.measure) else {
            return;
        };
        let source = figure
            .source
            .as_ref()
            .or(place.source)
            .unwrap_or(&law.source);
        let differs = if figure.may_differ {
            "; states may differ"
        } else {
            ""
        };
        let cells = vec![
            place.label.clone(),
            figure.words(),
            place.measure.text(inside, units),
            format!("{source}{differs}"),
        ];
        table.row(None, cells);
    });
    unless_empty(table)
}

fn bridge_table(groups: &[Bridge], units: Units) -> Table {
    let is_over = |bridge: &Bridge| bridge.severity() == Severity::Fails;
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
        table.row(Some(bridge.severity()), cells);
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
    let limits = &answers.road.limits;
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
