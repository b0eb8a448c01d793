//! What the assessment puts on the drawing, and drawings as sheets.

use crate::assessment::Assessment;
use crate::drawing::{self, AngleMark, AxleMark, Marks, Pointer, Style, TitleBlock, View};
use crate::findings::Severity;
use crate::geometry::Point;
use crate::manoeuvre::follow;
use crate::quantity::{Measure, Units, mass, signed_mass};
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
        let limits = answers.limits.iter().find(|l| l.id == group.id);
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

/// A drawing sheet with border and title block.
#[must_use]
pub fn sheet(assessment: &Assessment, view: View, date: String, units: Units) -> String {
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
        ..Style::default()
    };
    let marks = match view {
        View::Turn => turn_marks(assessment),
        _ => marks(assessment, units, None),
    };
    drawing::draw(vehicle, &marks, view, &style)
}
