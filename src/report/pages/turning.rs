//! How the truck moves: circles, the path of a turn, angles of its ends, ramp and bump.

use super::{NONE, PageKind};
use crate::assessment::Assessment;
use crate::drawing::{self, Style, View};
use crate::findings::Severity;
use crate::manoeuvre::{Angle, Manoeuvre, Pitch, Turn, Turning};
use crate::quantity::{Measure, Units, length};
use crate::report::marks::turn_marks;
use crate::report::page::{Page, Table};

/// The page.
pub(super) static PAGE: PageKind = PageKind {
    id: "turning",
    title: "Turning",
    checks: &[
        "turning-circle",
        "swept-circle",
        "tail-swing",
        "approach-angle",
        "breakover-angle",
        "departure-angle",
        "bump-clearance",
        "trailer-ramp",
    ],
};

/// What follows from the path and not from a check.
const OF_THE_PATH: &str = "The path: the front axle's middle follows a straight line, an arc and a straight line; the truck and the trailer are drawn after it as tractrices, without tyre slip.";

/// Builds it.
pub(super) fn build(assessment: &Assessment, units: Units) -> Page {
    let answers = &assessment.answers;
    let moving = &answers.manoeuvre;
    let mut page = Page::new(&PAGE);
    for check in PAGE.checks {
        let worse = assessment
            .findings
            .iter()
            .filter(|f| f.check == *check && f.severity < Severity::Holds);
        page.lead.extend(worse.map(|f| f.sentence.words(units)));
    }
    if let (Ok(lock), Ok(stated)) = (&moving.turning, &moving.stated) {
        page.tables.push(circles(lock, stated, units));
    }
    let marks = turn_marks(assessment);
    if let Some(Ok(sweep)) = &marks.turn {
        page.tables.push(path(sweep, units));
        page.assumptions.push(OF_THE_PATH.to_owned());
    }
    page.tables.push(angles(assessment, moving, units));
    let style = Style {
        units,
        ..Style::default()
    };
    page.picture = Some(drawing::draw(&answers.vehicle, &marks, View::Turn, &style));
    page
}

fn deg(value: f64) -> String {
    Measure::Angle.text(value, Units::Metric)
}

/// Full lock beside the stated turn.
fn circles(lock: &Turning, stated: &Turn, units: Units) -> Table {
    let mut table = Table::new(
        "Circles, as radii",
        &[("", false), ("Full lock", true), ("Stated turn", true)],
    );
    let none = || NONE.to_owned();
    let mm = |value: f64| length(value, units);
    let maybe = |value: Option<f64>| value.map_or_else(none, mm);
    let (full, turn) = (&lock.turn, stated);
    let mut row = |name: &str, a: String, b: String| table.row(None, vec![name.to_owned(), a, b]);
    let wheels = format!("{} / {}", deg(lock.inner_deg), deg(lock.outer_deg));
    row("Inner / outer wheel", wheels, none());
    row("Outer front wheel, tread middle", mm(lock.wheel_mm), none());
    row("Kerb to kerb", mm(lock.kerb_mm), none());
    row("Wall to wall", mm(full.outer_mm), mm(turn.outer_mm));
    row(
        "Innermost point of the truck",
        mm(full.inner_mm),
        mm(turn.inner_mm),
    );
    row(
        "Front axle, middle",
        mm(full.steady.front_mm),
        mm(turn.steady.front_mm),
    );
    if turn.steady.kingpin_mm.is_some() {
        let trailer = |t: &Turn| match t.steady.trailer_mm {
            Some(value) => mm(value),
            None => "needs the path".to_owned(),
        };
        row(
            "Kingpin",
            maybe(full.steady.kingpin_mm),
            maybe(turn.steady.kingpin_mm),
        );
        row("Trailer axles, steady turn", trailer(full), trailer(turn));
    }
    let inside = |t: &Turn| match t.steady.off_tracking_mm {
        Some(value) => mm(value),
        None => "needs the path".to_owned(),
    };
    row("Off-tracking, steady turn", inside(full), inside(turn));
    row("Tail swing", mm(full.tail_swing_mm), mm(turn.tail_swing_mm));
    let stance = &lock.stance;
    table.note = Some(format!(
        "Turning centre {} behind the front axle; equivalent wheelbase {}.",
        mm(stance.centre_x_mm),
        mm(stance.equivalent_mm)
    ));
    table
}

/// The path that the picture shows.
fn path(sweep: &crate::manoeuvre::Sweep, units: Units) -> Table {
    let side = if sweep.to_left { "left" } else { "right" };
    let title = format!("Followed: {:.0}° to the {side}", sweep.angle_deg);
    let mut table = Table::new(&title, &[("", false), ("Figure", true)]);
    let mm = |value: f64| length(value, units);
    let mut row = |name: &str, words: String| table.row(None, vec![name.to_owned(), words]);
    row("Outermost point", mm(sweep.outer_mm));
    row("Innermost point", mm(sweep.inner_mm));
    row("Swept width", mm(sweep.width_mm()));
    row("Largest off-tracking", mm(sweep.off_tracking_mm));
    row("Tail of the truck swings out", mm(sweep.truck_tail_mm));
    if sweep.trailer.is_some() {
        row("Tail of the trailer swings out", mm(sweep.trailer_tail_mm));
        row("Largest articulation", deg(sweep.articulation_deg));
    }
    let mut note =
        "Radii from the centre of the front axle's arc; 0 is a body over that centre.".to_owned();
    if sweep.jackknifes {
        note.push_str(" The turn could not be finished: the articulation that the tractor permits is used up.");
    }
    table.note = Some(note);
    table
}

/// Angles, bump and ramp, and what limits each.
fn angles(assessment: &Assessment, moving: &Manoeuvre, units: Units) -> Table {
    let mut table = Table::new(
        "Ends, crest, bump and ramp",
        &[("", false), ("Found", true), ("Limited by", false)],
    );
    let severity = |check: &str| {
        let of = assessment.findings.iter().filter(|f| f.check == check);
        of.map(|f| f.severity).min()
    };
    let of = &moving.angles;
    let three: [(&str, &str, &Result<Angle, String>); 3] = [
        ("Approach angle", "approach-angle", &of.approach),
        ("Breakover angle", "breakover-angle", &of.breakover),
        ("Departure angle", "departure-angle", &of.departure),
    ];
    for (name, check, angle) in three {
        let (found, by) = match angle {
            Ok(angle) => (deg(angle.deg), angle.by.clone()),
            Err(missing) => (NONE.to_owned(), format!("not assessed: {missing}")),
        };
        table.row(severity(check), vec![name.to_owned(), found, by]);
    }
    if let Some(over) = &moving.bump {
        let worst = severity("bump-clearance");
        let high = length(over.height_mm, units);
        for (name, mm) in [
            ("at rest", over.at_rest_mm),
            ("springs at the stops", over.at_stops_mm),
        ] {
            let name = format!("Over a bump of {high}, {name}");
            table.row(worst, vec![name, length(mm, units), over.by.clone()]);
        }
    }
    for (pitch, name) in [
        (Pitch::Dip, "Trailer, where the ramp begins"),
        (Pitch::Crest, "Trailer, over the ramp's crest"),
    ] {
        let mut near = moving.ramp.iter().flatten().flatten();
        if let Some(one) = near.find(|one| one.pitch == pitch) {
            let worst = severity("trailer-ramp");
            let free = length(one.distance_mm, units);
            table.row(worst, vec![name.to_owned(), free, one.name.clone()]);
        }
    }
    table
}
