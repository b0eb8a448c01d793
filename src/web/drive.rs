//! A drive for the page: what it came to in a few rows, its findings, and its pages with charts.

use super::session::{Session, slug};
use super::view::{FindingView, finding_view, said};
use crate::assessment::{Assessment, Journey};
use crate::drawing::draw_chart;
use crate::findings::{self, Severity, payload_possible};
use crate::plan::Refusal;
use crate::quantity::{Measure, Units};
use crate::report::{self, Page};
use crate::route::{Route, SHIPPED, USUAL, USUAL_MPS, from_csv, from_gpx, shipped};
use crate::source::Problems;
use serde::Serialize;
use std::collections::BTreeMap;

/// Routes that a person added to those that are shipped.
#[derive(Debug, Default)]
pub struct Routes {
    own: BTreeMap<String, Route>,
}

/// A route to choose.
#[derive(Debug, Serialize)]
pub struct RouteChoice {
    id: String,
    name: String,
}

/// A drive as the page shows it.
#[derive(Debug, Serialize)]
pub struct DriveView {
    route: String,
    name: String,
    severity: Severity,
    headline: String,
    rows: Vec<(String, String)>,
    findings: Vec<FindingView>,
    #[serde(skip_serializing_if = "Option::is_none")]
    strip: Option<String>,
    pages: Vec<Page>,
}

impl Routes {
    /// Adds a route from a table (`.csv`) or a recorded track (`.gpx`); its id is made from the file's name.
    ///
    /// # Errors
    /// Problems with file, row, value and what would be accepted.
    pub fn add(&mut self, file: &str, text: &str) -> Result<RouteChoice, Problems> {
        let track = text
            .trim_start_matches('\u{feff}')
            .trim_start()
            .starts_with('<');
        let read = if track { from_gpx } else { from_csv };
        let mut route = read(file, text, USUAL_MPS)?;
        route.id = format!("own-{}", slug(file));
        if route.name.is_empty() {
            file.clone_into(&mut route.name);
        }
        let choice = RouteChoice {
            id: route.id.clone(),
            name: route.name.clone(),
        };
        self.own.insert(route.id.clone(), route);
        Ok(choice)
    }

    /// Every route by name.
    #[must_use]
    pub fn list(&self) -> Vec<RouteChoice> {
        let choice = |id: &str, name: &str| RouteChoice {
            id: id.to_owned(),
            name: name.to_owned(),
        };
        let shipped = SHIPPED.iter().map(|(id, name)| choice(id, name));
        let own = self.own.values().map(|r| choice(&r.id, &r.name));
        shipped.chain(own).collect()
    }

    fn get(&self, id: &str) -> Result<Route, Problems> {
        self.own
            .get(id)
            .map_or_else(|| shipped(id), |route| Ok(route.clone()))
    }
}

impl Session {
    /// Drives the plan's route; `go_on` hears how far it is and may stop it.
    ///
    /// # Errors
    /// What is missing, in words.
    pub fn drive(
        &self,
        routes: &Routes,
        units: Units,
        go_on: &mut dyn FnMut(f64) -> bool,
    ) -> Result<DriveView, Refusal> {
        let plan = self.plan();
        let id = plan.duty.route.as_deref().unwrap_or(USUAL);
        let route = routes
            .get(id)
            .map_err(|problems| Refusal(problems.to_string()))?;
        let assessment =
            Assessment::of(plan, self.library()).map_err(|p| Refusal(p.to_string()))?;
        let journey = Journey::of(assessment.answers, &route, go_on)
            .map_err(|missing| Refusal(format!("Not assessed: {}", missing.join("; "))))?;
        let found = findings::of_journey(&journey);
        let severity = found.iter().map(|f| f.severity).min();
        let worst = found.iter().min_by_key(|f| f.severity);
        let unknown = found
            .iter()
            .filter(|f| f.severity == Severity::NotAssessed)
            .count();
        let driven = match unknown {
            0 => "the day is driven".to_owned(),
            count => format!("the day is driven; {count} not assessed"),
        };
        Ok(DriveView {
            route: id.to_owned(),
            name: journey.route.name.clone(),
            severity: severity.unwrap_or(Severity::NotAssessed),
            headline: worst
                .filter(|f| f.severity < Severity::NotAssessed)
                .map_or(driven, |f| f.sentence.words(units)),
            rows: rows(&journey, units),
            findings: found
                .iter()
                .map(|f| {
                    let said = said(f, units);
                    finding_view(None, f, Some(said), &journey.answers.vehicle, units)
                })
                .collect(),
            strip: report::drive_strip(&journey, units)
                .as_ref()
                .map(draw_chart),
            pages: report::drive_pages(&journey, &found, units),
        })
    }
}

/// What a person asks first.
fn rows(journey: &Journey, units: Units) -> Vec<(String, String)> {
    let show = |measure: Measure, value: f64| measure.text(value, units);
    let run = &journey.run;
    let mut rows: Vec<(String, String)> = Vec::new();
    let mut row = |name: &str, words: String| rows.push((name.to_owned(), words));
    let kept = show(Measure::Share, journey.reserve);
    row(
        "Range",
        format!("{} with {kept} kept", show(Measure::Way, journey.range_m)),
    );
    row("Energy", report::consumption(journey, units));
    let way = show(Measure::Way, run.distance_m);
    row(
        "Driven",
        format!("{way} in {}", show(Measure::Time, run.time_s)),
    );
    row("Left at the end", show(Measure::Share, run.soc_end));
    if journey.truck.source.is_some() {
        let fuel = show(Measure::Mass, journey.fuel_kg());
        row(
            "Fuel burnt",
            format!("{fuel} of {}", show(Measure::Mass, journey.truck.fuel_kg)),
        );
    }
    match &journey.plugged {
        Ok(plugged) => {
            let quick = show(Measure::Time, plugged.quick.time_s);
            row("10 to 80 %", format!("{quick} by {}", plugged.feed.by));
            row("Full again", show(Measure::Time, plugged.night.time_s));
        }
        Err(missing) => row("Charging", format!("not assessed: {missing}")),
    }
    if let Ok(capacity) = &journey.answers.capacity {
        let words = payload_possible(capacity).words(units);
        row(
            "Payload",
            words.strip_prefix("Payload ").unwrap_or(&words).to_owned(),
        );
    }
    rows
}
