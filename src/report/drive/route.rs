//! Speed, height, grade and state of charge along the route.

use super::figures::Figures;
use super::{DriveAnswer, NOTHING_DRIVEN, page};
use crate::assessment::Journey;
use crate::drawing::{Body, Chart, Line, Pen};
use crate::findings::Finding;
use crate::quantity::{Measure, Units};
use crate::report::pages::PageKind;
use crate::shared::Shared;

/// Four panels need more height than the other charts' two.
const TALL: (f64, f64) = (900.0, 430.0);
/// Size of the strip beside the truck, pixels.
const STRIP: (f64, f64) = (600.0, 120.0);

/// Its header.
pub(super) static PAGE: PageKind = PageKind {
    id: "drive-route",
    title: "Along the route",
    checks: &["route-completed", "reserve", "speed-on-grade"],
};

pub(super) fn answer(journey: &Journey, found: &[Shared<Finding>], units: Units) -> DriveAnswer {
    let mut page = page(&PAGE, found, units);
    let samples = &journey.run.samples;
    let column = |of: fn(&crate::energy::Sample) -> f64| samples.iter().map(of).collect();
    let mut figures = Figures::new(units);
    figures.add("Distance", Measure::Way, column(|s| s.x_m));
    figures.add("Time", Measure::Time, column(|s| s.t_s));
    let wish = figures.add(
        "Speed allowed",
        Measure::RoadSpeed,
        column(|s| s.wanted_mps),
    );
    let speed = figures.add("Speed reached", Measure::RoadSpeed, column(|s| s.v_mps));
    let height = figures.add(
        "Height over the start",
        Measure::Height,
        journey.heights_m(),
    );
    let grade = figures.add("Grade", Measure::Share, column(|s| s.grade));
    let soc = figures.add("State of charge", Measure::Share, column(|s| s.soc));
    if figures.is_empty() {
        page.lead.push(NOTHING_DRIVEN.to_owned());
        return DriveAnswer::plain(page);
    }
    page.tables
        .push(figures.table("Along the route", "moments"));
    let lines = vec![
        figures.line(wish, "allowed", Pen::Dashed),
        figures.line(speed, "reached", Pen::Heavy),
    ];
    let speeds = figures.panel("Speed", speed, lines);
    let ground = Line {
        filled: true,
        ..figures.line(height, "road", Pen::Plain)
    };
    let heights = figures.panel("Height over the start", height, vec![ground]);
    let slope = vec![figures.line(grade, "uphill over 0", Pen::Plain)];
    let grades = figures.panel("Grade", grade, slope);
    let charge = vec![figures.line(soc, "packs", Pen::Heavy)];
    let mut charges = figures.panel("State of charge", soc, charge);
    charges.reaches = vec![0.0, 100.0];
    let title = format!("Speed, height, grade and charge: {}", journey.route.name);
    let description = "Four panels over the distance: the speed that is allowed and the speed that is \
                      reached, the height of the road over its start, its grade, the state of charge.";
    let body = Body::Lines {
        x: figures.axis(0),
        panels: vec![speeds, heights, grades, charges],
    };
    DriveAnswer::charted(page, title, description, TALL, body)
}

/// A small picture of the route and the charge, to stand beside the truck; `None` when nothing was driven.
#[must_use]
pub fn drive_strip(journey: &Journey, units: Units) -> Option<Chart> {
    let run = &journey.run;
    let mut figures = Figures::new(units);
    figures.add(
        "Distance",
        Measure::Way,
        run.samples.iter().map(|s| s.x_m).collect(),
    );
    let soc = run.samples.iter().map(|s| s.soc).collect();
    let soc = figures.add("State of charge", Measure::Share, soc);
    let height = figures.add(
        "Height over the start",
        Measure::Height,
        journey.heights_m(),
    );
    if figures.is_empty() {
        return None;
    }
    let left = format!("{} at the end", Measure::Share.text(run.soc_end, units));
    let mut charge = figures.panel(
        "State of charge",
        soc,
        vec![figures.line(soc, &left, Pen::Heavy)],
    );
    charge.reaches = vec![0.0, 100.0];
    let up = journey.route.profile.climb_m().0;
    let climbs = format!("climbs {} in all", Measure::Height.text(up, units));
    let ground = Line {
        filled: true,
        ..figures.line(height, &climbs, Pen::Plain)
    };
    Some(Chart {
        id: "drive-strip",
        title: format!("Charge and height: {}", journey.route.name),
        description: format!(
            "State of charge over the height of the road: {} at the start, {left}.",
            Measure::Share.text(run.soc_start, units)
        ),
        size: STRIP,
        strip: true,
        body: Body::Lines {
            x: figures.axis(0),
            panels: vec![
                charge,
                figures.panel("Height over the start", height, vec![ground]),
            ],
        },
    })
}
