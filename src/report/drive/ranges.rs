//! Range by temperature, new and at the end of life.

use super::page;
use crate::assessment::{Journey, RangeAt, Reach};
use crate::plan::Duty;
use crate::quantity::{Measure, Units, grouped};
use crate::report::journey::way;
use crate::report::page::{Page, Table};
use crate::report::pages::{NONE, PageKind};

/// Its header. It is worked out only when somebody asks for it.
pub static RANGES: PageKind = PageKind {
    id: "drive-ranges",
    title: "Range table",
    checks: &[],
};

/// The page.
#[must_use]
pub fn ranges_page(journey: &Journey, ranges: &[RangeAt], units: Units) -> Page {
    let mut page = page(&RANGES, &[], units);
    let (metres, unit) = way(units);
    let air = format!("Air outside, {}", Measure::Temperature.unit(units));
    let columns = [
        (air.as_str(), true),
        (&format!("New, {unit}"), true),
        (&format!("End of life, {unit}"), true),
        (&format!("New, packs as cold as the air, {unit}"), true),
        (&format!("Energy when new, kWh/{unit}"), true),
        (&format!("Of it cab and pack heating, kWh/{unit}"), true),
        (&format!("The same, packs as cold, kWh/{unit}"), true),
    ];
    let kept = Measure::Share.text(journey.reserve, units);
    let title = format!("Range with {kept} kept: {}", journey.once.name);
    let mut table = Table::new(&title, &columns);
    let each = |joule: f64| grouped(joule / 3.6e6 * metres, 2);
    let heat = |reach: &Reach| each(reach.climate_j + reach.heater_j);
    for row in ranges {
        let outside = Measure::Temperature.text(row.temperature_c, units);
        let states = [
            ("new", &row.new),
            ("at the end of life", &row.end_of_life),
            ("packs as cold as the air", &row.soaked),
        ];
        for (state, reach) in states {
            if let Err(why) = reach {
                let line = format!("At {outside}, {state}, not assessed: {why}.");
                page.lead.push(line);
            }
        }
        let cell = |reach: &Result<Reach, String>, words: &dyn Fn(&Reach) -> String| {
            reach.as_ref().map_or_else(|_| NONE.to_owned(), words)
        };
        let range = |reach: &Reach| Measure::Way.number(reach.range_m, units);
        table.row(
            None,
            vec![
                Measure::Temperature.number(row.temperature_c, units),
                cell(&row.new, &range),
                cell(&row.end_of_life, &range),
                cell(&row.soaked, &range),
                cell(&row.new, &|reach| each(reach.per_m_j)),
                cell(&row.new, &heat),
                cell(&row.soaked, &heat),
            ],
        );
    }
    page.tables.push(table);
    let worn = Measure::Share.text(Duty::END_HEALTH, units);
    page.assumptions.push(format!(
        "New: packs with all of their energy, kept warm at the plug. End of life: {worn} of the packs' energy, \
         the source at its own end of life. Packs as cold as the air: a night without a plug, or in the heat."
    ));
    page.assumptions.push(
        "The route is driven once in each state; the range is what packs and fuel then hold above the \
         reserve, over what a length of that route took."
            .to_owned(),
    );
    let cell = journey.truck.bank.cell;
    let shares: Vec<String> = cell
        .energy_by_c
        .iter()
        .map(|(c, share)| {
            let share = Measure::Share.text(*share, units);
            format!("{share} at {}", Measure::Temperature.text(*c, units))
        })
        .collect();
    page.assumptions.push(format!(
        "Of the energy of {} cells can be drawn (common practice): {}.",
        cell.chemistry.words(),
        shares.join(", ")
    ));
    page
}
