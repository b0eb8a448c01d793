//! What every axle group carries in each case, from the donor on the scale to the laden combination.

use super::{NONE, PageKind};
use crate::assessment::{Assessment, GroupLimits};
use crate::findings::Severity;
use crate::loads::{Case, CaseLoads};
use crate::quantity::{Units, mass};
use crate::report::page::{Column, Page, Table};

/// The page.
pub(super) static PAGE: PageKind = PageKind {
    id: "loads",
    title: "Loads",
    checks: &[
        "axle-rating",
        "tyre-rating",
        "suspension-rating",
        "e-axle-rating",
        "gvwr",
        "gcwr",
        "trailer-axles",
    ],
};

/// Builds it.
pub(super) fn build(assessment: &Assessment, units: Units) -> Page {
    let answers = &assessment.answers;
    let mut page = Page::new(&PAGE);
    if let Some(missing) = &answers.loads.missing {
        page.lead.push(format!("Not assessed: {missing}."));
    }
    let cases = &answers.loads.cases;
    if !cases.is_empty() {
        page.tables.push(table(cases, &answers.road.limits, units));
    }
    for case in cases {
        if let Some(missing) = &case.missing {
            let words = case.case.words();
            page.lead.push(format!("Not assessed, {words}: {missing}."));
        }
    }
    page
}

fn table(cases: &[CaseLoads], groups: &[GroupLimits], units: Units) -> Table {
    let mut table = Table::new("Loads, case by case", &[("Case", false), ("Truck", true)]);
    let mut column = |name: &str| {
        table.columns.push(Column {
            name: name.to_owned(),
            numeric: true,
        });
    };
    for group in groups {
        column(&group.name);
    }
    column("Left / right");
    column("Trailer axles");
    column("Gross");
    for case in cases {
        let mut cells = vec![
            case.case.words().to_owned(),
            mass(case.truck.mass_kg, units),
        ];
        for group in groups {
            let load = case.groups.iter().find(|g| g.id == group.id);
            cells.push(load.map_or_else(|| NONE.to_owned(), |g| mass(g.load_kg, units)));
        }
        let left: f64 = case.groups.iter().map(|g| g.left_kg).sum();
        let right: f64 = case.groups.iter().map(|g| g.right_kg).sum();
        cells.push(format!("{} / {}", mass(left, units), mass(right, units)));
        let trailer = case.trailer_axles_kg;
        cells.push(trailer.map_or_else(|| NONE.to_owned(), |kg| mass(kg, units)));
        cells.push(mass(case.gross_kg, units));
        table.row(severity(case, groups), cells);
    }
    let mut cells = vec!["lowest limit".to_owned(), NONE.to_owned()];
    for group in groups {
        let lowest = group.lowest();
        cells.push(lowest.map_or_else(|| "unknown".to_owned(), |limit| mass(limit.kg, units)));
    }
    cells.extend([NONE.to_owned(), NONE.to_owned(), NONE.to_owned()]);
    table.row(None, cells);
    table.note = Some(
        "A mark holds the axle groups of the finished truck against their lowest limit; trailer and gross weight have checks of their own."
            .to_owned(),
    );
    table
}

/// The worst axle group of a case of the finished truck.
fn severity(case: &CaseLoads, groups: &[GroupLimits]) -> Option<Severity> {
    if case.case < Case::Unladen {
        return None;
    }
    let of_group = |group: &crate::loads::GroupLoad| {
        let limits = groups.iter().find(|g| g.id == group.id);
        let lowest = limits.and_then(GroupLimits::lowest);
        Severity::of_margin(lowest.map(|l| l.kg - group.load_kg), group.thin_kg())
    };
    case.groups.iter().map(of_group).min()
}
