//! Who gives and who takes power along the route.

use super::figures::Figures;
use super::{DriveAnswer, NOTHING_DRIVEN, SIZE, page, tables};
use crate::assessment::Journey;
use crate::drawing::{Body, Line, Pen};
use crate::energy::Sample;
use crate::findings::Finding;
use crate::quantity::{Measure, Units};
use crate::report::pages::PageKind;
use crate::shared::Shared;

/// Its header.
pub(super) static PAGE: PageKind = PageKind {
    id: "drive-power",
    title: "Power",
    checks: &["power-short", "source-power"],
};

pub(super) fn answer(journey: &Journey, found: &[Shared<Finding>], units: Units) -> DriveAnswer {
    let mut page = page(&PAGE, found, units);
    let samples = &journey.run.samples;
    let column = |of: fn(&Sample) -> f64| samples.iter().map(of).collect();
    let mut figures = Figures::new(units);
    figures.add("Distance", Measure::Way, column(|s| s.x_m));
    let mut power = |name, of| figures.add(name, Measure::Power, column(of));
    let drives = power("Into the drives", |s| s.drive_w);
    let packs = power("Out of the packs", |s| s.pack_w);
    let source = journey
        .truck
        .source
        .is_some()
        .then(|| power("Out of the source", |s| s.source_w));
    let consumers = power("Accessories", |s| s.accessories_w);
    let resistor =
        (journey.truck.resistor_w > 0.0).then(|| power("Brake resistor", |s| s.resistor_w));
    let friction = power("Friction brakes", |s| s.brakes_w);
    if figures.is_empty() {
        page.lead.push(NOTHING_DRIVEN.to_owned());
        return DriveAnswer::plain(page);
    }
    page.tables
        .push(figures.table("Power along the route", "moments"));
    page.tables.extend(tables::source(journey, units));
    page.tables.extend(tables::tanks(journey, units));
    page.assumptions.push(
        "Packs and source together give what drives, accessories and brake resistor take; friction \
         brakes work at the wheels."
            .to_owned(),
    );
    let pulling = Line {
        filled: true,
        ..figures.line(drives, "drives", Pen::Plain)
    };
    let mut giving = vec![figures.line(packs, "packs", Pen::Plain)];
    giving.extend(source.map(|c| figures.line(c, "source", Pen::Heavy)));
    let giving_name = if source.is_some() {
        "Out of packs and source"
    } else {
        "Out of the packs, negative when they charge"
    };
    let mut braking = vec![figures.line(friction, "friction", Pen::Plain)];
    braking.extend(resistor.map(|c| figures.line(c, "resistor", Pen::Dashed)));
    let mut panels = vec![
        figures.panel(
            "Into the drives, negative when they brake",
            drives,
            vec![pulling],
        ),
        figures.panel(giving_name, packs, giving),
        figures.panel(
            "Accessories, fans and climate",
            consumers,
            vec![figures.line(consumers, "accessories", Pen::Heavy)],
        ),
        figures.panel("Brakes", friction, braking),
    ];
    for (panel, share) in panels.iter_mut().zip([1.3, 1.3, 0.8, 0.8]) {
        panel.share = share;
    }
    let title = format!("Power: {}", journey.route.name);
    let description = "Panels over the distance: power into the drives, out of packs and source, into \
                      accessories, into the brakes.";
    let body = Body::Lines {
        x: figures.axis(0),
        panels,
    };
    DriveAnswer::charted(page, title, description, (SIZE.0, SIZE.1 + 60.0), body)
}
