//! What the drive came to.

use super::{DriveAnswer, page, tables, trips};
use crate::assessment::Journey;
use crate::findings::{Finding, Severity};
use crate::quantity::{Measure, Units};
use crate::report::consumption;
use crate::report::page::Table;
use crate::report::pages::PageKind;
use crate::shared::Shared;

/// Its header.
pub(super) static PAGE: PageKind = PageKind {
    id: "drive",
    title: "Drive",
    checks: &[],
};

pub(super) fn answer(journey: &Journey, found: &[Shared<Finding>], units: Units) -> DriveAnswer {
    let mut page = page(&PAGE, found, units);
    let worse = found.iter().filter(|f| f.severity < Severity::Holds);
    page.lead.extend(worse.map(|f| f.sentence.words(units)));
    let run = &journey.run;
    let name = format!("{}, {} a day", journey.route.name, trips(journey.trips));
    let mut table = Table::new(&name, &tables::HEADS);
    let show = |measure: Measure, value: f64| measure.text(value, units);
    let mut row = |name: &str, words: String| table.row(None, vec![name.to_owned(), words]);
    row(
        "Truck, trailer and load",
        show(Measure::Mass, journey.gross_kg),
    );
    row("Distance driven", show(Measure::Way, run.distance_m));
    row("Length of the route", show(Measure::Way, run.route_m));
    row("Time", show(Measure::Time, run.time_s));
    row("Energy used", consumption(journey, units));
    let kept = show(Measure::Share, journey.reserve);
    row(
        &format!("Range with {kept} kept"),
        show(Measure::Way, journey.range_m),
    );
    row("Charge at the start", show(Measure::Share, run.soc_start));
    row("Charge at the end", show(Measure::Share, run.soc_end));
    row("Lowest charge", show(Measure::Share, run.soc_least));
    if journey.truck.source.is_some() {
        row("Fuel burnt", show(Measure::Mass, journey.fuel_kg()));
        row(
            "Fuel aboard, usable",
            show(Measure::Mass, journey.truck.fuel_kg),
        );
    }
    page.tables.push(table);
    page.tables.push(tables::packs(journey, units));
    page.tables.extend(tables::track(journey, units));
    let (area, rolling, source) = &journey.resistance;
    page.assumptions.push(format!(
        "Drag area {area:.1} m², rolling resistance {rolling:.4} ({source}); load case: {}.",
        journey.case
    ));
    DriveAnswer::plain(page)
}
