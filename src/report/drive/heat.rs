//! Heat against what the radiators can give away, along the route.

use super::figures::Figures;
use super::{DriveAnswer, NOTHING_DRIVEN, SIZE, page, tables};
use crate::assessment::{CircuitHeat, Journey};
use crate::drawing::{Body, Panel, Pen};
use crate::findings::Finding;
use crate::quantity::{Measure, Units};
use crate::report::pages::PageKind;
use crate::shared::Shared;

/// Its header.
pub(super) static PAGE: PageKind = PageKind {
    id: "drive-heat",
    title: "Heat",
    checks: &["source-heat", "drive-heat"],
};

pub(super) fn answer(journey: &Journey, found: &[Shared<Finding>], units: Units) -> DriveAnswer {
    let mut page = page(&PAGE, found, units);
    let Some(heat) = journey.heat() else {
        if let Err(missing) = &journey.truck.cooling {
            let said = format!("Not assessed: {missing}.");
            if !page.lead.iter().any(|line| line.contains(missing.as_str())) {
                page.lead.push(said);
            }
        }
        return DriveAnswer::plain(page);
    };
    let mut figures = Figures::new(units);
    let places = journey.run.samples.iter().map(|s| s.x_m).collect();
    figures.add("Distance", Measure::Way, places);
    let mut panels = Vec::new();
    if let Some(source) = heat.source {
        let names = ["Source makes", "Source can give away", "Source coolant"];
        panels.push(circuit(
            &mut figures,
            source,
            names,
            "Generator or fuel cell",
            units,
        ));
    }
    let names = ["Drives make", "Drives can give away", "Drive coolant"];
    panels.push(circuit(
        &mut figures,
        heat.drive,
        names,
        "Motors and inverters",
        units,
    ));
    if figures.is_empty() {
        page.lead.push(NOTHING_DRIVEN.to_owned());
        return DriveAnswer::plain(page);
    }
    page.tables
        .push(figures.table("Heat along the route", "moments"));
    page.tables.extend(tables::cooling(journey, units));
    page.assumptions.push(
        "What can be given away: at that road speed, fans at full speed, coolant at its limit. Heat above \
         it for a while warms the coolant; heat above it for long takes power back."
            .to_owned(),
    );
    let outside = journey.route.weather.temperature_c;
    let title = format!(
        "Heat and what the radiators give away at {}: {}",
        Measure::Temperature.text(outside, units),
        journey.route.name
    );
    let description = "Panels over the distance: heat that is made, and the most that the radiators give \
                      away at that speed.";
    let body = Body::Lines {
        x: figures.axis(0),
        panels,
    };
    DriveAnswer::charted(page, title, description, SIZE, body)
}

fn circuit(
    figures: &mut Figures,
    heat: CircuitHeat,
    names: [&'static str; 3],
    title: &str,
    units: Units,
) -> Panel {
    let [made, most, coolant] = names;
    let made = figures.add(made, Measure::Power, heat.made_w);
    let most = figures.add(most, Measure::Power, heat.most_w);
    figures.add(coolant, Measure::Temperature, heat.coolant_c);
    let lines = vec![
        figures.line(made, "heat made", Pen::Plain),
        figures.line(most, "can be given away", Pen::Heavy),
    ];
    let limit = Measure::Temperature.text(heat.limit_c, units);
    figures.panel(&format!("{title}, coolant up to {limit}"), made, lines)
}
