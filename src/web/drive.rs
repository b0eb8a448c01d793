//! A drive for the page: what it came to in a few rows, its findings, its pages with charts one by one as
//! they are looked at, and the tables that take several drives.

use super::fields::Field;
use super::session::{Session, slug};
use super::view::{FindingView, finding_view, said};
use crate::assessment::{Answers, Goal, Journey, RangeAt, Sizes, ranges, sizes};
use crate::drawing::draw_chart;
use crate::findings::{self, Finding, Severity, payload_possible};
use crate::library::Library;
use crate::plan::{Plan, Refusal};
use crate::quantity::{Measure, Units};
use crate::report::{self, Page, PageChoice};
use crate::route::{Route, SHIPPED, USUAL, USUAL_MPS, from_csv, from_gpx, shipped};
use crate::shared::Shared;
use crate::source::Problems;
use crate::vehicle::Vehicle;
use serde::{Deserialize, Serialize};
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
    pages: Vec<PageChoice>,
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

/// The drive that was driven last, kept so that what is looked at later need not be driven again.
#[derive(Debug)]
pub struct Driven {
    plan: Plan,
    id: String,
    journey: Journey,
    found: Vec<Shared<Finding>>,
    ranges: Option<Vec<RangeAt>>,
    sizes: Option<Sizes>,
}

impl Driven {
    /// True when it is a drive of this plan.
    #[must_use]
    pub fn is_of(&self, plan: &Plan) -> bool {
        self.plan == *plan
    }

    /// What it came to.
    #[must_use]
    pub fn view(&self, units: Units) -> DriveView {
        let (journey, found) = (&self.journey, &self.found);
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
        DriveView {
            route: self.id.clone(),
            name: journey.route.name.clone(),
            severity: severity.unwrap_or(Severity::NotAssessed),
            headline: worst
                .filter(|f| f.severity < Severity::NotAssessed)
                .map_or(driven, |f| f.sentence.words(units)),
            rows: rows(journey, units),
            findings: found
                .iter()
                .map(|f| {
                    let said = said(f, units);
                    finding_view(f, Some(said), &journey.answers.vehicle, units)
                })
                .collect(),
            strip: report::drive_strip(journey, units).as_ref().map(draw_chart),
            pages: report::drive_choices(found),
        }
    }

    /// One of its pages, built now.
    ///
    /// # Errors
    /// There is no such page.
    pub fn page(&self, id: &str, units: Units) -> Result<Page, Refusal> {
        report::drive_page(id, &self.journey, &self.found, units)
            .ok_or_else(|| Refusal(format!("there is no page \"{id}\" of a drive")))
    }

    /// The table of ranges: drives twelve times, once for all units.
    pub fn ranges(&mut self, units: Units, go_on: &mut dyn FnMut(f64) -> bool) -> Page {
        let journey = &self.journey;
        let ranges = self.ranges.get_or_insert_with(|| ranges(journey, go_on));
        report::ranges_page(journey, ranges, units)
    }

    /// The table of packs: drives some ten times for each pack of the library, once for all units.
    pub fn sizes(
        &mut self,
        library: &Library,
        goal: Goal,
        units: Units,
        go_on: &mut dyn FnMut(f64) -> bool,
    ) -> Page {
        let journey = &self.journey;
        let kept = self.sizes.take().filter(|sizes| sizes.goal == goal);
        let sizes = kept.unwrap_or_else(|| sizes(journey, library.each_part(), goal, go_on));
        report::sizes_page(journey, self.sizes.insert(sizes), units)
    }
}

/// What was typed as the range that packs are wanted for, in the units of the moment.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default)]
pub struct Wanted {
    typed: String,
    units: Units,
}

impl Wanted {
    /// What was typed in these units.
    #[must_use]
    pub fn typed(typed: &str, units: Units) -> Self {
        let typed = typed.to_owned();
        Self { typed, units }
    }

    /// What it stands for: nothing typed is the day.
    ///
    /// # Errors
    /// Field, value and what is allowed, in words.
    pub fn goal(&self) -> Result<Goal, Refusal> {
        let typed = self.typed.trim();
        if typed.is_empty() {
            return Ok(Goal::Day);
        }
        let read = Measure::Way.parse(typed, self.units);
        let range_m = read.map_err(|why| Refusal(format!("{WANTED}: {why}")))?;
        let [least, most] = Goal::RANGE_M;
        if (least..=most).contains(&range_m) {
            return Ok(Goal::Range(range_m));
        }
        let show = |m: f64| Measure::Way.text(m, self.units);
        Err(Refusal(format!(
            "{WANTED}: {} is outside the allowed range ({} to {})",
            show(range_m),
            show(least),
            show(most)
        )))
    }

    /// Its field, in the units that the reader has now; what cannot be used stays as it was typed.
    #[must_use]
    pub fn field(&self, units: Units) -> Field {
        let [least, most] = Goal::RANGE_M;
        let shown = |value| Field::number("wanted", WANTED, Measure::Way, value, units);
        let field = match self.goal() {
            Ok(Goal::Range(m)) => shown(Some(m)),
            Ok(Goal::Day) => shown(None),
            Err(refusal) => shown(None).refusing(&self.typed, refusal),
        };
        field
            .within(Measure::Way, least, most, units)
            .hinting("empty: the day, as the duty below says")
    }
}

/// The name of that field.
const WANTED: &str = "Range to reach";

impl Session {
    /// Drives the plan's route; `go_on` hears how far it is and may stop it.
    ///
    /// # Errors
    /// What is missing, in words.
    pub fn drive(
        &self,
        routes: &Routes,
        go_on: &mut dyn FnMut(f64) -> bool,
    ) -> Result<Driven, Refusal> {
        let plan = self.plan();
        let id = plan.duty.route.as_deref().unwrap_or(USUAL);
        let route = routes
            .get(id)
            .map_err(|problems| Refusal(problems.to_string()))?;
        let vehicle = Vehicle::resolve(plan, self.library()).map_err(|p| Refusal(p.to_string()))?;
        let journey = Journey::of(Answers::of(vehicle), &route, go_on)
            .map_err(|missing| Refusal(format!("Not assessed: {}", missing.join("; "))))?;
        Ok(Driven {
            plan: plan.clone(),
            id: id.to_owned(),
            found: findings::of_journey(&journey),
            journey,
            ranges: None,
            sizes: None,
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
