//! What the assessment puts on the drawing, and drawings as sheets.

use crate::assessment::Assessment;
use crate::drawing::{
    self, AngleMark, AxleMark, FrameMark, Marks, Pointer, Style, TitleBlock, View,
};
use crate::findings::Severity;
use crate::frame::{FrameCase, SIDES, Section};
use crate::geometry::Point;
use crate::manoeuvre::follow;
use crate::quantity::{Measure, Units, length, mass, signed_mass};
use std::collections::BTreeMap;

/// Most pointers on one drawing; the worst come first, so the rest is in the list only.
const MOST_POINTERS: usize = 12;

/// Marks for the heaviest case; `chosen` is the finding that the reader looks at.
#[must_use]
pub fn marks(assessment: &Assessment, units: Units, chosen: Option<usize>) -> Marks {
    let answers = &assessment.answers;
    let chassis = &answers.vehicle.chassis;
    let mut axle_loads = Vec::new();
    let case = answers.heaviest();
    for of_case in case.iter().flat_map(|c| &c.groups) {
        // The worst case of each group, which need not be the heaviest case of the truck.
        let group = answers
            .loads
            .heaviest_of(&of_case.id)
            .map_or(of_case, |(_, group)| group);
        let limits = answers.road.limits.iter().find(|l| l.id == group.id);
        // What is up carries nothing and has no limit: no arrow on the drawing.
        if limits.is_some_and(|l| l.up) {
            continue;
        }
        let lowest = limits.and_then(|l| l.lowest());
        let margin = lowest.map(|limit| limit.kg - group.load_kg);
        axle_loads.push(AxleMark {
            id: group.id.clone(),
            name: limits.map_or_else(|| group.id.clone(), |l| l.name.clone()),
            x_mm: chassis
                .group_x_mm(&group.id, &answers.vehicle.raised)
                .unwrap_or(0.0),
            load: mass(group.load_kg, units),
            margin: match (lowest, margin) {
                (Some(limit), Some(kg)) => {
                    format!("{} to {}", signed_mass(kg, units), limit.kind.words())
                }
                _ => "limit unknown".to_owned(),
            },
            severity: Severity::of_margin(margin, group.thin_kg()),
        });
    }
    let cg = case.and_then(|c| Some(Point::new(c.truck.x_mm, c.truck.y_mm, c.truck.z_mm?)));
    let mut pointers = Vec::new();
    for (index, finding) in assessment.findings.iter().enumerate() {
        let shown = finding.severity <= Severity::Caution && pointers.len() < MOST_POINTERS;
        let Some(at) = finding.pointer.filter(|_| shown || chosen == Some(index)) else {
            continue;
        };
        pointers.push(Pointer {
            finding: index,
            severity: finding.severity,
            // The margin, as in the list: a low part with "+200 mm" would read as room to spare.
            text: finding
                .margin
                .map_or_else(|| finding.title.to_owned(), |amount| amount.signed(units)),
            from: at.from,
            to: at.to,
        });
    }
    let mut parts: BTreeMap<String, Severity> = BTreeMap::new();
    for finding in &assessment.findings {
        if finding.severity <= Severity::Caution {
            for tag in &finding.tags {
                let worst = parts.entry(tag.clone()).or_insert(finding.severity);
                *worst = (*worst).min(finding.severity);
            }
        }
    }
    Marks {
        axle_loads,
        cg,
        pointers,
        parts,
        angles: angles(assessment, units),
        turn: None,
        frame: None,
    }
}

/// Approach, breakover and departure, as far as they are known.
fn angles(assessment: &Assessment, units: Units) -> Vec<AngleMark> {
    let of = &assessment.answers.manoeuvre.angles;
    let three = [
        ("approach", &of.approach),
        ("breakover", &of.breakover),
        ("departure", &of.departure),
    ];
    let known = three
        .into_iter()
        .filter_map(|(name, a)| Some((name, a.as_ref().ok()?)));
    let marks = known.map(|(name, angle)| AngleMark {
        text: format!("{name} {}", Measure::Angle.text(angle.deg, units)),
        at: angle.at,
        tyre: angle.tyre,
        other: angle.other,
    });
    marks.collect()
}

/// Marks of the turn view: the turn is followed here, because somebody asked.
#[must_use]
pub fn turn_marks(assessment: &Assessment) -> Marks {
    let answers = &assessment.answers;
    Marks {
        turn: Some(follow(&answers.vehicle, &answers.manoeuvre).map(Box::new)),
        ..Marks::default()
    }
}

/// Shear and bending of the rail that is used most, for the side view; without a yield strength, of the
/// one with the largest moment.
#[must_use]
pub fn frame_mark(assessment: &Assessment, units: Units) -> FrameMark {
    let frame = match &assessment.answers.frame {
        Ok(frame) => frame,
        Err(missing) => {
            return FrameMark {
                heading: format!("Frame not assessed: {missing}"),
                ..FrameMark::default()
            };
        }
    };
    let rails = frame.cases.iter().flat_map(|c| [(c, 0), (c, 1)]);
    let chosen = rails.reduce(|a, b| {
        let peak = |(case, side): (&FrameCase, usize)| case.rails[side].peak.1.abs();
        let worst = |(case, side): (&FrameCase, usize)| {
            let worst = frame.worst.as_ref();
            worst.is_some_and(|w| (w.case, w.side) == (case.case, side))
        };
        let better = worst(b) || (!worst(a) && peak(b) > peak(a));
        if better { b } else { a }
    });
    let Some((case, side)) = chosen else {
        return FrameMark::default();
    };
    let (rail, other) = (&case.rails[side], &case.rails[1 - side]);
    let factors = &frame.factors;
    let times = factors.dynamic;
    let factor = Measure::Factor.text(times, units);
    let allowed = |s: &Section| {
        let moment = factors.allowed_nmm(s.resist_nmm?) * times;
        Some((s.from_mm, s.to_mm, moment))
    };
    let allowed: Vec<_> = frame.sections.iter().filter_map(allowed).collect();
    let least = allowed.iter().map(|a| a.2).reduce(f64::min);
    let at = |measure: Measure, (x, value): (f64, f64)| {
        let value = measure.text(value * times, units);
        (x, format!("{value} at {}", length(x, units)))
    };
    FrameMark {
        heading: format!(
            "Bending of the {} rail, {}, times {factor} for a rough road; dashed: the {} rail",
            SIDES[side],
            case.case.words(),
            SIDES[1 - side]
        ),
        shear_heading: "Shear of the same rails".to_owned(),
        pieces: rail.pieces.clone(),
        other: other.pieces.clone(),
        times,
        allowed,
        allowed_words: least.map_or_else(
            || "allowed: not assessed".to_owned(),
            |m| format!("allowed {}", Measure::Moment.text(m, units)),
        ),
        peak: at(Measure::Moment, rail.peak),
        shear_peak: at(Measure::Force, rail.shear),
        joints: frame
            .splice
            .as_ref()
            .map_or_else(Vec::new, |s| s.joints_mm.clone()),
    }
}

/// A drawing sheet with border and title block.
#[must_use]
pub fn sheet(assessment: &Assessment, view: View, date: String, units: Units) -> String {
    sheet_with(assessment, view, date, units, false)
}

/// [`sheet`], with shear and bending under the side view when `frame` asks for it.
#[must_use]
pub fn sheet_with(
    assessment: &Assessment,
    view: View,
    date: String,
    units: Units,
    frame: bool,
) -> String {
    let vehicle = &assessment.answers.vehicle;
    let number = match view {
        View::Side => "1 of 3",
        View::Plan => "2 of 3",
        View::Rear => "3 of 3",
        View::Turn => "1 of 1",
    };
    let block = TitleBlock {
        name: vehicle.name.clone(),
        date,
        author: String::new(),
        sheet: number.to_owned(),
    };
    let style = Style {
        units,
        sheet: Some(block),
        part_dimensions: false,
        frame,
        ..Style::default()
    };
    let mut marks = match view {
        View::Turn => turn_marks(assessment),
        _ => marks(assessment, units, None),
    };
    marks.frame = frame.then(|| frame_mark(assessment, units));
    drawing::draw(vehicle, &marks, view, &style)
}
