//! Pull against speed, and what holds the truck back on its grades.

use super::figures::Figures;
use super::{DriveAnswer, SIZE, page, tables};
use crate::assessment::Journey;
use crate::drawing::{Body, Pen};
use crate::findings::Finding;
use crate::quantity::{Measure, Units, grouped};
use crate::report::pages::PageKind;
use crate::shared::Shared;

/// Headings of what holds back, one for each grade that can be shown.
const ROADS: [&str; 4] = [
    "Resistance on the level",
    "Resistance on a 3 % grade",
    "Resistance on a 6 % grade",
    "Resistance on the steepest",
];

/// Its header.
pub(super) static PAGE: PageKind = PageKind {
    id: "drive-pull",
    title: "Pull",
    checks: &["launch-grade", "speed-on-grade"],
};

pub(super) fn answer(journey: &Journey, found: &[Shared<Finding>], units: Units) -> DriveAnswer {
    let mut page = page(&PAGE, found, units);
    let pull = journey.pull();
    let rows = pull.v_mps.len();
    let mut figures = Figures::new(units);
    figures.add("Speed", Measure::RoadSpeed, pull.v_mps);
    let mut force = |name, values| figures.add(name, Measure::Force, values);
    let peak = force("Peak pull", pull.peak_n);
    let steady = force("Continuous pull", pull.continuous_n);
    let grip = force("Grip", vec![pull.grip_n; rows]);
    let mut roads = Vec::new();
    for ((grade, values), name) in pull.roads.into_iter().zip(ROADS) {
        roads.push((grade, force(name, values)));
    }
    let mut table = figures.table("Pull against speed", "speeds");
    if let [_, _, _, (steepest, _)] = roads[..] {
        let words = Measure::Share.text(steepest, units);
        let note = table.note.take().unwrap_or_default();
        table.note = Some(
            format!("{note} The steepest grade here is {words}.")
                .trim()
                .to_owned(),
        );
    }
    page.tables.push(table);
    page.tables.push(tables::abilities(journey, units));
    page.assumptions.push(
        "Packs half full, at the temperature at which they start; steady speed, no wind."
            .to_owned(),
    );
    let mut lines: Vec<_> = roads
        .iter()
        .map(|(grade, column)| {
            let name = if *grade > 0.0 {
                format!(
                    "{} % grade",
                    grouped(Measure::Share.shown(*grade, units), 0)
                )
            } else {
                "level road".to_owned()
            };
            figures.line(*column, &name, Pen::Thin)
        })
        .collect();
    lines.push(figures.line(grip, "grip, wet road", Pen::Dotted));
    lines.push(figures.line(steady, "continuous pull", Pen::Dashed));
    lines.push(figures.line(peak, "peak pull", Pen::Heavy));
    let panel = figures.panel("Force at the wheels", peak, lines);
    let title = "Pull against speed, and what grades ask for".to_owned();
    let description = "Peak and continuous pull over the speed, the limit of grip, and the \
                      force that the road asks for on the level and on grades.";
    let body = Body::Lines {
        x: figures.axis(0),
        panels: vec![panel],
    };
    DriveAnswer::charted(page, title, description, SIZE, body)
}
