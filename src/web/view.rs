//! Everything that the page shows: words as one value, and the drawings one by one as they are
//! asked for.

use super::bars::{self, Bar, Verdict};
use super::fields::{self, Field};
use super::session::Session;
use super::shaft_fields::of_shaft;
use crate::assessment::Assessment;
use crate::drawing::{self, Drawn, Marks, Style};
use crate::findings::{Amount, Finding, Severity, payload_possible};
use crate::plan::Plan;
use crate::quantity::{Units, mass};
use crate::report::{self, Caution, PageChoice};
use crate::shared::{Along, Shared};
use crate::source::Problem;
use crate::vehicle::Vehicle;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// What is drawn beside the truck.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(default)]
pub struct Show {
    /// Zones.
    pub zones: bool,
    /// Dimensions of the truck.
    pub dimensions: bool,
    /// Stripped hardware as ghosts.
    pub hardware: bool,
    /// Dimensions of the chosen part.
    pub part_dimensions: bool,
    /// Lines of approach, breakover and departure.
    pub angles: bool,
    /// Shear and bending of the rails under the side view.
    pub frame: bool,
}

/// What a reader chose.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(default)]
pub struct ViewOptions {
    /// Units.
    pub units: Units,
    /// Tag of the chosen part.
    pub selected: Option<String>,
    /// The chosen finding: the id of its check and its subject, with a space between.
    pub finding: Option<String>,
    /// Every finding with all that it says, for paper; else the chosen one alone has its words.
    pub whole: bool,
    /// What to draw.
    pub show: Show,
    /// A part is being carried.
    pub carrying: bool,
    /// Date for title blocks.
    pub date: String,
}

/// Names of the steps to go back and forth.
#[derive(Debug, PartialEq, Serialize)]
pub struct Steps {
    undo: Option<String>,
    redo: Option<String>,
}

/// A finding in a line; the drawing points it out by its place among the findings.
#[derive(Debug, PartialEq, Serialize)]
pub struct FindingView {
    id: &'static str,
    /// What it is about: with the check's id unique in a view.
    subject: String,
    title: &'static str,
    severity: Severity,
    margin: String,
    tags: Vec<String>,
    /// Which one of several: the parts concerned where they are few, else the group of axles, and what
    /// else tells it apart.
    about: String,
    /// All that it says. On the move only of the finding that is looked at: with two hundred
    /// findings their sentences would take more time than working them out.
    #[serde(skip_serializing_if = "Option::is_none")]
    said: Option<Said>,
}

/// What a finding says when it is opened.
#[derive(Debug, PartialEq, Serialize)]
pub(super) struct Said {
    sentence: String,
    measured: String,
    limit: String,
    source: String,
    assumptions: Vec<Cow<'static, str>>,
}

/// A part on the truck. Only the part that a reader looks at has its fields: they are most of the
/// words of a truck with many parts.
#[derive(Debug, PartialEq, Serialize)]
pub struct PlacedView {
    tag: String,
    part: String,
    name: String,
    kind: &'static str,
    kind_words: &'static str,
    mass: String,
    zone: Option<String>,
    zone_name: String,
    turn: u8,
    x_mm: f64,
    y_mm: f64,
    z_mm: f64,
    locked: bool,
    movable: bool,
    fields: Vec<Field>,
    /// Why its place cannot be set, where that is so.
    note: String,
}

/// Donor hardware.
#[derive(Debug, PartialEq, Serialize)]
pub struct HardwareView {
    id: String,
    name: String,
    mass: String,
    stripped: bool,
}

/// Payload in words.
#[derive(Debug, PartialEq, Serialize)]
pub struct PayloadView {
    text: String,
    rows: Vec<(String, String)>,
}

/// A zone in words.
#[derive(Debug, PartialEq, Serialize)]
pub struct ZoneView {
    id: String,
    name: String,
    used: String,
    limit: String,
    severity: Severity,
}

/// Everything that the page shows in words; `told` writes it.
#[derive(Debug)]
pub struct View {
    pub(super) name: String,
    pub(super) notes: String,
    pub(super) chassis: String,
    pub(super) file: Steps,
    pub(super) verdict: Verdict,
    pub(super) bars: Vec<Bar>,
    pub(super) pages: Vec<PageChoice>,
    pub(super) findings: Vec<Shared<FindingView>>,
    pub(super) placed: Vec<Shared<PlacedView>>,
    pub(super) hardware: Shared<Vec<HardwareView>>,
    /// Fields of truck, loads, law and duty; none while a part is carried, which leaves them as they are.
    pub(super) controls: Option<Vec<Field>>,
    pub(super) payload: PayloadView,
    pub(super) zones: Vec<ZoneView>,
    pub(super) cautions: Vec<Caution>,
    pub(super) assumptions: Vec<&'static str>,
    pub(super) problems: Vec<Problem>,
}

/// A plan as a reader sees it: the words at once, drawings when they are asked for.
#[derive(Debug)]
pub struct Shown {
    /// Everything in words.
    pub words: View,
    assessment: Assessment,
    style: Style,
    marks: Marks,
}

impl Shown {
    /// What was worked out for it.
    #[must_use]
    pub const fn assessment(&self) -> &Assessment {
        &self.assessment
    }

    fn vehicle(&self) -> &Vehicle {
        &self.assessment.answers.vehicle
    }

    /// One drawing of it, as SVG text for the page's stage.
    #[must_use]
    pub fn drawing(&self, view: drawing::View) -> String {
        drawing::write_on_stage(&self.drawn(view, None))
    }

    /// One drawing of it; what looks alike is taken from the one before.
    #[must_use]
    pub fn drawn(&self, view: drawing::View, before: Option<&Drawn>) -> Drawn {
        let vehicle = &self.assessment.answers.vehicle;
        drawing::stage(vehicle, &self.marks, view, &self.style, before)
    }
}

/// Puts a plan and its assessment before a reader; words for what is the same as before are taken from
/// there.
pub(super) fn show(
    session: &Session,
    plan: &Plan,
    assessment: Assessment,
    options: &ViewOptions,
    before: Option<&Shown>,
) -> Shown {
    let before = before.filter(|b| b.style.units == options.units);
    let wanted = options.finding.as_deref();
    let chosen = wanted.and_then(|key| assessment.findings.iter().position(|f| f.has_key(key)));
    let mut marks = report::marks(&assessment, options.units, chosen);
    let frame = options.show.frame;
    marks.frame = frame.then(|| report::frame_mark(&assessment, options.units));
    Shown {
        words: words(session, plan, &assessment, options, chosen, before),
        marks,
        assessment,
        style: Style {
            units: options.units,
            selected: options.selected.clone(),
            zones: options.show.zones,
            dimensions: options.show.dimensions,
            part_dimensions: options.show.part_dimensions,
            hardware: options.show.hardware,
            angles: options.show.angles,
            frame,
            sheet: None,
            finding: chosen,
        },
    }
}

fn words(
    session: &Session,
    plan: &Plan,
    assessment: &Assessment,
    options: &ViewOptions,
    chosen: Option<usize>,
    before: Option<&Shown>,
) -> View {
    let units = options.units;
    let answers = &assessment.answers;
    let vehicle = &answers.vehicle;
    View {
        name: plan.name.clone(),
        notes: plan.notes.clone(),
        chassis: vehicle.chassis.name.clone(),
        file: Steps {
            undo: session.history.undo_name().map(str::to_owned),
            redo: session.history.redo_name().map(str::to_owned),
        },
        verdict: bars::verdict(assessment),
        bars: bars::bars(assessment, units),
        pages: report::page_choices(assessment),
        findings: finding_views(assessment, options, chosen, before),
        placed: placed_views(session, plan, assessment, options, before),
        hardware: match before.filter(|b| vehicle.stands_on(b.vehicle())) {
            Some(before) => before.words.hardware.clone(),
            None => hardware_views(vehicle, units).into(),
        },
        controls: (!options.carrying).then(|| fields::controls(session, plan, assessment, units)),
        payload: payload_view(assessment, units),
        zones: zone_views(assessment, units),
        cautions: report::cautions(vehicle),
        assumptions: report::ASSUMPTIONS.to_vec(),
        problems: vehicle.problems.clone(),
    }
}

fn hardware_views(vehicle: &Vehicle, units: Units) -> Vec<HardwareView> {
    let views = vehicle.donor.hardware.iter().map(|item| HardwareView {
        id: item.id.clone(),
        name: item.name.clone(),
        mass: mass(item.mass_kg, units),
        stripped: vehicle.stripped.contains(&item.id),
    });
    views.collect()
}

fn finding_views(
    assessment: &Assessment,
    options: &ViewOptions,
    chosen: Option<usize>,
    before: Option<&Shown>,
) -> Vec<Shared<FindingView>> {
    let vehicle = &assessment.answers.vehicle;
    // What a finding is about is told by names of parts and groups.
    let names_stay = |b: &&Shown| {
        let tags = vehicle.each_item().map(|item| &item.tag);
        let same = tags.eq(b.vehicle().each_item().map(|item| &item.tag));
        same && vehicle.stands_on(b.vehicle())
    };
    let before = before.filter(names_stay);
    let known = before.map_or(&[][..], |b| &b.words.findings);
    let then = before.map_or(&[][..], |b| &b.assessment.findings);
    let mut then = Along::new(then);
    let mut at = 0;
    let views = assessment
        .findings
        .iter()
        .enumerate()
        .map(|(index, finding)| {
            let tells = options.whole || chosen == Some(index);
            if let Some((_, passed)) = then.next(|old| finding.is(old)) {
                at += passed.len() + 1;
                let known = known
                    .get(at - 1)
                    .filter(|view| view.said.is_none() && !tells);
                if let Some(view) = known {
                    return view.clone();
                }
            }
            let said = tells.then(|| said(finding, options.units));
            finding_view(finding, said, vehicle, options.units).into()
        });
    views.collect()
}

pub(super) fn finding_view(
    finding: &Finding,
    said: Option<Said>,
    vehicle: &Vehicle,
    units: Units,
) -> FindingView {
    FindingView {
        id: finding.check,
        subject: finding.subject.clone(),
        title: finding.title,
        severity: finding.severity,
        margin: finding.margin.map_or_else(String::new, |a| a.signed(units)),
        tags: finding.tags.clone(),
        about: about(finding, vehicle),
        said,
    }
}

/// All that a finding says.
pub(super) fn said(finding: &Finding, units: Units) -> Said {
    let text = |amount: Option<Amount>| amount.map_or_else(String::new, |a| a.text(units));
    Said {
        sentence: finding.sentence.words(units),
        measured: text(finding.measured),
        limit: text(finding.limit),
        source: finding.source.to_string(),
        assumptions: finding.assumptions.clone(),
    }
}

/// More names than this are no help in a line.
const FEW_NAMES: usize = 3;

fn about(finding: &Finding, vehicle: &Vehicle) -> String {
    let group = |id: &String| vehicle.chassis.groups.iter().find(|g| g.id == *id);
    let name = |id: &String| {
        let part = vehicle.item(id).map(|item| item.tag.as_str());
        part.or_else(|| group(id).map(|g| g.name.as_str()))
    };
    let mut names: Vec<&str> = finding.tags.iter().filter_map(name).collect();
    names.extend(Some(finding.which.as_str()).filter(|words| !words.is_empty()));
    match (names.len(), name(&finding.subject)) {
        (1..=FEW_NAMES, _) => names.join(", "),
        (0, Some(name)) => name.to_owned(),
        // Such as "axles 2 to 5".
        (0, None) if finding.subject.starts_with("axles ") => finding.subject.clone(),
        _ => String::new(),
    }
}

fn placed_views(
    session: &Session,
    plan: &Plan,
    assessment: &Assessment,
    options: &ViewOptions,
    before: Option<&Shown>,
) -> Vec<Shared<PlacedView>> {
    let units = options.units;
    let vehicle = &assessment.answers.vehicle;
    let shafts = &assessment.answers.driveline.shafts;
    // The chosen part, and one that is being carried onto the truck.
    let looked_at = |tag: &str| {
        options.selected.as_deref() == Some(tag) || session.plan().placed_by_tag(tag).is_none()
    };
    let before = before.filter(|b| vehicle.stands_on(b.vehicle()));
    let views = vehicle.items.iter().enumerate().map(|(index, item)| {
        let placed = item.placed.as_ref();
        let known = before.filter(|b| vehicle.keeps_item(index, b.vehicle()) && placed.is_some());
        let known = known.map(|b| &b.words.placed[index]);
        if let Some(view) = known.filter(|v| v.fields.is_empty() && !looked_at(&item.tag)) {
            return view.clone();
        }
        let zone = item.zone.as_deref().and_then(|id| vehicle.zone(id));
        PlacedView {
            tag: item.tag.clone(),
            part: item.part.id.clone(),
            name: item.part.name.clone(),
            kind: item.part.kind.key(),
            kind_words: item.part.kind.words(),
            mass: mass(item.planned_kg(), units),
            zone: item.zone.clone(),
            zone_name: zone.map_or_else(|| "free".to_owned(), |z| z.name.clone()),
            turn: item.turn,
            x_mm: item.origin.x,
            y_mm: item.origin.y,
            z_mm: item.origin.z,
            locked: placed.is_some_and(|p| p.locked),
            movable: placed.is_some_and(|p| !p.locked),
            fields: match (placed, shafts.iter().find(|s| s.tag == item.tag)) {
                (Some(placed), _) if looked_at(&placed.tag) => {
                    fields::of_part(vehicle, item, placed, units)
                }
                (None, Some(shaft)) => of_shaft(session, plan, vehicle, shaft, units),
                _ => Vec::new(),
            },
            note: shaft_note(plan, &item.tag),
        }
        .into()
    });
    views.collect()
}

/// A driveshaft stands where its ends are.
fn shaft_note(plan: &Plan, tag: &str) -> String {
    let run = plan.shafts.iter().find(|run| run.tag == tag);
    run.map_or_else(String::new, |run| {
        format!(
            "Runs from {} to {} and follows both: its place and length come from them. Move {} instead.",
            run.from,
            run.to_axle.replace('-', " "),
            run.from
        )
    })
}

fn payload_view(assessment: &Assessment, units: Units) -> PayloadView {
    match &assessment.answers.capacity {
        Err(missing) => PayloadView {
            text: format!("Payload not assessed: {missing}"),
            rows: Vec::new(),
        },
        Ok(capacity) => PayloadView {
            text: payload_possible(capacity).words(units),
            rows: report::payload_rows(capacity, units),
        },
    }
}

fn zone_views(assessment: &Assessment, units: Units) -> Vec<ZoneView> {
    let used = assessment
        .answers
        .clearances
        .extents
        .zones
        .iter()
        .map(|zone| ZoneView {
            id: zone.id.clone(),
            name: zone.name.clone(),
            used: mass(zone.mass_kg, units),
            limit: zone
                .limit_kg
                .map_or_else(|| "no limit stated".to_owned(), |kg| mass(kg, units)),
            severity: match zone.limit_kg {
                Some(limit) if zone.mass_kg > limit => Severity::Fails,
                Some(_) => Severity::Holds,
                None => Severity::NotAssessed,
            },
        });
    used.collect()
}
