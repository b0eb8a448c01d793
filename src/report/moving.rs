//! The truck moving, as data and as lines of text.

use crate::assessment::Assessment;
use crate::manoeuvre::{Angle, Pitch};
use crate::quantity::{Measure, Units, length};
use serde::Serialize;
use std::fmt::Write as _;

/// An angle of the ends and what limits it.
#[derive(Debug, Serialize)]
pub struct AngleRow {
    /// Degrees.
    pub deg: f64,
    /// The part or thing that limits it.
    pub limited_by: String,
}

/// Circles, angles, bump and ramp; `null` is not assessed, see the findings.
#[derive(Debug, Serialize)]
pub struct MovingRow {
    /// Turning centre behind the front axle.
    pub turning_centre_mm: Option<f64>,
    /// Wheelbase of a two-axle truck that needs as much steering.
    pub equivalent_wheelbase_mm: Option<f64>,
    /// Diameter between kerbs, full lock.
    pub kerb_circle_mm: Option<f64>,
    /// Diameter between walls, full lock.
    pub wall_circle_mm: Option<f64>,
    /// Outermost corner of the stated turn, a radius.
    pub stated_outer_mm: Option<f64>,
    /// Innermost point of the truck in it, a radius.
    pub stated_inner_mm: Option<f64>,
    /// Off-tracking in it, steady; `null` also when the trailer has no steady turn this tight.
    pub steady_off_tracking_mm: Option<f64>,
    /// The trailer has no steady turn this tight.
    pub needs_path: Option<bool>,
    /// Swing of the truck's tail when it begins.
    pub tail_swing_mm: Option<f64>,
    /// Approach.
    pub approach: Option<AngleRow>,
    /// Breakover.
    pub breakover: Option<AngleRow>,
    /// Departure.
    pub departure: Option<AngleRow>,
    /// Room over the bump, springs at rest.
    pub bump_at_rest_mm: Option<f64>,
    /// Room over the bump, springs at the stops.
    pub bump_at_stops_mm: Option<f64>,
    /// Least room between tractor and trailer where the ramp begins; `null` also when all is far off.
    pub ramp_dip_mm: Option<f64>,
    /// Least room over the ramp's crest.
    pub ramp_crest_mm: Option<f64>,
}

/// Puts it into data.
pub(super) fn moving(assessment: &Assessment) -> MovingRow {
    let of = &assessment.answers.manoeuvre;
    let lock = of.turning.as_ref().ok();
    let stated = of.stated.as_ref().ok();
    let angle = |angle: &Result<Angle, String>| {
        let angle = angle.as_ref().ok()?;
        Some(AngleRow {
            deg: angle.deg,
            limited_by: angle.by.clone(),
        })
    };
    let ramp = |pitch: Pitch| {
        let mut near = of.ramp.iter().flatten().flatten();
        near.find(|one| one.pitch == pitch)
            .map(|one| one.distance_mm)
    };
    MovingRow {
        turning_centre_mm: lock.map(|l| l.stance.centre_x_mm),
        equivalent_wheelbase_mm: lock.map(|l| l.stance.equivalent_mm),
        kerb_circle_mm: lock.map(|l| 2.0 * l.kerb_mm),
        wall_circle_mm: lock.map(|l| 2.0 * l.turn.outer_mm),
        stated_outer_mm: stated.map(|t| t.outer_mm),
        stated_inner_mm: stated.map(|t| t.inner_mm),
        steady_off_tracking_mm: stated.and_then(|t| t.steady.off_tracking_mm),
        needs_path: stated.map(|t| t.steady.needs_path),
        tail_swing_mm: stated.map(|t| t.tail_swing_mm),
        approach: angle(&of.angles.approach),
        breakover: angle(&of.angles.breakover),
        departure: angle(&of.angles.departure),
        bump_at_rest_mm: of.bump.as_ref().map(|b| b.at_rest_mm),
        bump_at_stops_mm: of.bump.as_ref().map(|b| b.at_stops_mm),
        ramp_dip_mm: ramp(Pitch::Dip),
        ramp_crest_mm: ramp(Pitch::Crest),
    }
}

/// The same as lines of text.
pub(super) fn lines(out: &mut String, assessment: &Assessment, units: Units) -> std::fmt::Result {
    let row = moving(assessment);
    writeln!(out, "\nMoving:")?;
    let mut line = |name: &str, mm: Option<f64>| match mm {
        Some(mm) => writeln!(out, "  {name:<44}{:>12}", length(mm, units)),
        None => Ok(()),
    };
    line("turning circle between kerbs", row.kerb_circle_mm)?;
    line("turning circle between walls", row.wall_circle_mm)?;
    line("stated turn, outermost radius", row.stated_outer_mm)?;
    line(
        "stated turn, innermost radius of the truck",
        row.stated_inner_mm,
    )?;
    line(
        "stated turn, off-tracking when steady",
        row.steady_off_tracking_mm,
    )?;
    line("stated turn, tail swing", row.tail_swing_mm)?;
    line("over the bump, at rest", row.bump_at_rest_mm)?;
    line("over the bump, springs at the stops", row.bump_at_stops_mm)?;
    line("trailer, where the ramp begins", row.ramp_dip_mm)?;
    line("trailer, over the ramp's crest", row.ramp_crest_mm)?;
    if row.needs_path == Some(true) {
        writeln!(
            out,
            "  The trailer has no steady turn this tight: see the path (draw --view turn)."
        )?;
    }
    for (name, angle) in [
        ("approach angle", row.approach),
        ("breakover angle", row.breakover),
        ("departure angle", row.departure),
    ] {
        if let Some(angle) = angle {
            let deg = Measure::Angle.text(angle.deg, units);
            writeln!(out, "  {name:<44}{deg:>12}  ({})", angle.limited_by)?;
        }
    }
    Ok(())
}
