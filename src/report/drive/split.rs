//! Where the energy went.

use super::{DriveAnswer, SIZE, page};
use crate::assessment::Journey;
use crate::drawing::{Axis, Bar, Body, Tint};
use crate::findings::Finding;
use crate::quantity::{Measure, Units, grouped};
use crate::report::journey::{entries, way};
use crate::report::page::Table;
use crate::report::pages::PageKind;
use crate::shared::Shared;

/// Entries that are work on the road; the fifth is the accessories, the rest are losses.
const ROAD: usize = 4;

/// Its header.
pub(super) static PAGE: PageKind = PageKind {
    id: "drive-energy",
    title: "Where it went",
    checks: &[],
};

pub(super) fn answer(journey: &Journey, found: &[Shared<Finding>], units: Units) -> DriveAnswer {
    let mut page = page(&PAGE, found, units);
    page.tables.extend(split(journey, units));
    let ledger = &journey.run.ledger;
    let whole = ledger.came_in_j().abs().max(1.0);
    let bar = |(i, (name, joule)): (usize, (&str, f64))| {
        let energy = Measure::Energy.text(joule, units);
        let share = Measure::Share.text(joule / whole, units);
        let bar = Bar {
            name: name.to_owned(),
            value: Measure::Energy.shown(joule, units),
            words: format!("{energy}, {share}"),
            tint: match i {
                0..ROAD => Tint::Dark,
                ROAD => Tint::Dots,
                _ => Tint::Rising,
            },
        };
        (joule.abs() > 1e-3 * whole).then_some(bar)
    };
    let entries = entries(ledger).into_iter().enumerate();
    let bars: Vec<Bar> = entries.filter_map(bar).collect();
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

/// Where the energy went, and what of it went into cab, packs and brakes.
pub(in crate::report) fn split(journey: &Journey, units: Units) -> [Table; 2] {
    let run = &journey.run;
    let ledger = &run.ledger;
    let all = ledger.came_in_j();
    let (metres, mile) = way(units);
    let per = format!("Energy, kWh/{mile}");
    let columns = |first| {
        [
            (first, false),
            ("Energy, kWh", true),
            ("Share, %", true),
            (per.as_str(), true),
        ]
    };
    let row = |name: &str, joule: f64| {
        vec![
            name.to_owned(),
            Measure::Energy.number(joule, units),
            Measure::Share.number(joule / all.abs().max(1.0), units),
            grouped(joule / 3.6e6 / run.distance_m.max(1.0) * metres, 3),
        ]
    };
    let mut went = Table::new("Where the energy went", &columns("Into"));
    for (name, joule) in entries(ledger) {
        went.row(None, row(name, joule));
    }
    went.note = Some(format!(
        "Shares of the {} that came out of cells, source and plugs on the way. Climbing counts from the \
         start's height; motion is what still moves at the end.",
        Measure::Energy.text(all, units)
    ));
    let mut of_it = Table::new("Of the accessories, and of the braking", &columns("Of it"));
    for (name, joule) in [
        ("cab climate", run.climate_j),
        ("heating the packs", run.heater_j),
        ("fans and chiller", run.fans_j),
        ("braked by the motors, at the wheels", ledger.wheel_back_j),
        ("braked by friction", ledger.brakes_j),
    ] {
        of_it.row(None, row(name, joule));
    }
    of_it.note = Some(
        "The motors brake within their torque, what packs and resistor take and the grip, and fade out from \
         14 to 7 km/h; friction does the rest."
            .to_owned(),
    );
    [went, of_it]
}
