//! Charging: power and state of charge against minutes.

use super::figures::Figures;
use super::{DriveAnswer, SIZE, page, tables};
use crate::assessment::Journey;
use crate::drawing::{Body, Line, Panel, Pen};
use crate::energy::{Charge, Moment};
use crate::findings::Finding;
use crate::quantity::{Measure, Units};
use crate::report::pages::PageKind;
use crate::shared::Shared;

/// Its header.
pub(super) static PAGE: PageKind = PageKind {
    id: "drive-charge",
    title: "Charging",
    checks: &[
        "charge-time",
        "charge-on-the-way",
        "charge-reach",
        "voltage-match",
    ],
};

pub(super) fn answer(journey: &Journey, found: &[Shared<Finding>], units: Units) -> DriveAnswer {
    let mut page = page(&PAGE, found, units);
    page.tables.extend(tables::stops(journey, units));
    let plugged = match &journey.plugged {
        Ok(plugged) => plugged,
        Err(missing) => {
            if !page.lead.iter().any(|line| line.contains(missing.as_str())) {
                page.lead.push(format!("Not assessed: {missing}."));
            }
            return DriveAnswer::plain(page);
        }
    };
    page.tables.extend(tables::plug(plugged, units));
    let charges = [
        ("from the day's end", Pen::Heavy, &plugged.night),
        ("10 to 80 %", Pen::Dashed, &plugged.quick),
    ];
    let mut powers: Option<Panel> = None;
    let mut states: Option<Panel> = None;
    let mut axis = None;
    for (name, pen, charge) in charges
        .into_iter()
        .filter(|(_, _, c)| !c.moments.is_empty())
    {
        let (figures, power, soc) = figures(charge, units);
        page.tables
            .push(figures.table(&format!("By {}, {name}", plugged.feed.by), "moments"));
        add(
            &mut powers,
            &figures,
            "Power into the packs",
            power,
            name,
            pen,
        );
        add(&mut states, &figures, "State of charge", soc, name, pen);
        axis = Some(figures.axis(0));
    }
    let (Some(powers), Some(mut states), Some(x)) = (powers, states, axis) else {
        page.lead
            .push("The packs are full: there is nothing to charge.".to_owned());
        return DriveAnswer::plain(page);
    };
    states.reaches = vec![0.0, 100.0];
    let title = format!("Charging by {}", plugged.feed.by);
    let description = "Power into the packs and their state of charge over the minutes at the plug, from the \
                      end of the day and from 10 to 80 %.";
    let body = Body::Lines {
        x,
        panels: vec![powers, states],
    };
    DriveAnswer::charted(page, title, description, SIZE, body)
}

fn figures(charge: &Charge, units: Units) -> (Figures, usize, usize) {
    let column = |of: fn(&Moment) -> f64| charge.moments.iter().map(of).collect();
    let mut figures = Figures::new(units);
    figures.add("Time", Measure::Time, column(|m| m.t_s));
    let power = figures.add(
        "Power into the packs",
        Measure::Power,
        column(Moment::power_w),
    );
    let soc = figures.add("State of charge", Measure::Share, column(|m| m.soc));
    figures.add("Voltage, V", Measure::Count, column(|m| m.volts));
    figures.add("Current, A", Measure::Count, column(|m| m.amps));
    (figures, power, soc)
}

/// Adds a line to a panel that may not be there yet.
fn add(
    panel: &mut Option<Panel>,
    figures: &Figures,
    title: &str,
    column: usize,
    name: &str,
    pen: Pen,
) {
    let line: Line = figures.line(column, name, pen);
    match panel {
        Some(panel) => panel.lines.push(line),
        None => *panel = Some(figures.panel(title, column, vec![line])),
    }
}
