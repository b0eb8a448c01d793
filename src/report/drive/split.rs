//! Where the energy went.

use super::{DriveAnswer, SIZE, page};
use crate::assessment::Journey;
use crate::drawing::{Axis, Bar, Body, Tint};
use crate::findings::Finding;
use crate::quantity::{Measure, Units, grouped};
use crate::report::journey::{entries, way};
use crate::report::page::Table;
use crate::report::pages::PageKind;

/// Entries that are work on the road; the fifth is the accessories, the rest are losses.
const ROAD: usize = 4;

/// Its header.
pub(super) static PAGE: PageKind = PageKind {
    id: "drive-energy",
    title: "Where it went",
    checks: &[],
};

pub(super) fn answer(journey: &Journey, found: &[Finding], units: Units) -> DriveAnswer {
    let mut page = page(&PAGE, found, units);
    let run = &journey.run;
    let all = run.ledger.came_in_j();
    let (metres, mile) = way(units);
    let per = format!("kWh/{mile}");
    let columns = [
        ("", false),
        ("kWh", true),
        ("Share", true),
        (per.as_str(), true),
    ];
    let mut table = Table::new("Where the energy went", &columns);
    let mut bars = Vec::new();
    let whole = all.abs().max(1.0);
    for (i, (name, joule)) in entries(&run.ledger).into_iter().enumerate() {
        let energy = Measure::Energy.number(joule, units);
        let share = Measure::Share.text(joule / whole, units);
        let each = joule / 3.6e6 / run.distance_m.max(1.0) * metres;
        table.row(
            None,
            vec![
                name.to_owned(),
                energy.clone(),
                share.clone(),
                grouped(each, 3),
            ],
        );
        if joule.abs() > 1e-3 * whole {
            bars.push(Bar {
                name: name.to_owned(),
                value: Measure::Energy.shown(joule, units),
                words: format!("{energy} kWh, {share}"),
                tint: match i {
                    0..ROAD => Tint::Dark,
                    ROAD => Tint::Dots,
                    _ => Tint::Rising,
                },
            });
        }
    }
    table.note = Some(format!(
        "Shares of the {} that came out of cells and source. Climbing counts from the start's height; \
         motion is what still moves at the end.",
        Measure::Energy.text(all, units)
    ));
    page.tables.push(table);
    if bars.is_empty() {
        page.lead.push(super::NOTHING_DRIVEN.to_owned());
        return DriveAnswer::plain(page);
    }
    let title = format!("Where the energy went: {}", journey.route.name);
    let description = "One bar for each: the road, the accessories, the losses.";
    let body = Body::Bars {
        axis: Axis::new("Energy", Measure::Energy.unit(units)),
        bars,
        key: vec![
            ("work on the road", Tint::Dark),
            ("accessories", Tint::Dots),
            ("losses", Tint::Rising),
        ],
    };
    DriveAnswer::charted(page, title, description, SIZE, body)
}
