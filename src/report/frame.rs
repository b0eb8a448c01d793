//! The frame as data for other programs and as text. Forces in newton, moments in newton metre.

use crate::assessment::Answers;
use crate::frame::{Cause, Frame, MountForces, RailCase, SIDES};
use crate::loads::Case;
use crate::quantity::{Measure, Units, length};
use serde::Serialize;
use std::fmt::Write as _;

/// The frame.
#[derive(Debug, Serialize)]
pub struct FrameRow {
    /// Why nothing could be worked out, if so.
    pub missing: Option<String>,
    /// Factor on standing loads for a rough road.
    pub dynamic_factor: Option<f64>,
    /// Yield strength over standing stress that is wanted.
    pub design_factor: Option<f64>,
    /// Sprung mass of the donor that its lists leave out.
    pub unlisted_kg: Option<f64>,
    /// Sections of one rail, front to rear.
    pub sections: Vec<SectionRow>,
    /// Every case of the finished truck, standing.
    pub cases: Vec<RailRow>,
    /// Where a rail is used most.
    pub worst: Option<WorstRow>,
    /// Joint of a changed wheelbase.
    pub splice: Option<SpliceRow>,
    /// Forces on the mounts of parts.
    pub mounts: Vec<MountRow>,
}

/// A stretch of rail.
#[derive(Debug, Serialize)]
pub struct SectionRow {
    pub from_mm: f64,
    pub to_mm: f64,
    pub modulus_mm3: f64,
    pub square_modulus_mm3: f64,
    pub resist_nm: Option<f64>,
    pub reinforced: Vec<String>,
    pub welded: bool,
}

/// One rail in one case.
#[derive(Debug, Serialize)]
pub struct RailRow {
    pub case: Case,
    pub rail: &'static str,
    pub peak_x_mm: f64,
    pub peak_nm: f64,
    pub shear_x_mm: f64,
    pub shear_n: f64,
    pub used_most_x_mm: Option<f64>,
}

/// Where a rail is used most.
#[derive(Debug, Serialize)]
pub struct WorstRow {
    pub case: Case,
    pub rail: &'static str,
    pub x_mm: f64,
    pub moment_nm: f64,
    pub stress_mpa: f64,
    pub resist_nm: f64,
    pub factor: f64,
    pub used: f64,
    pub causes: Vec<(String, f64)>,
}

/// The joint with the largest moment.
#[derive(Debug, Serialize)]
pub struct SpliceRow {
    pub joints_mm: Vec<f64>,
    pub worst_mm: f64,
    pub case: Case,
    pub moment_nm: f64,
    pub of_peak: f64,
    pub factor: Option<f64>,
}

/// Forces on the mounts of one part.
#[derive(Debug, Serialize)]
pub struct MountRow {
    pub tag: String,
    pub mass_kg: f64,
    pub vertical_g: f64,
    pub longitudinal_g: f64,
    pub lateral_g: f64,
    pub vertical_n: f64,
    pub longitudinal_n: f64,
    pub lateral_n: f64,
    pub rating_n: Option<f64>,
    pub own_design: bool,
    pub source: String,
}

/// Newton millimetres in a newton metre.
const NMM: f64 = 1_000.0;

/// Puts the frame into data.
pub(super) fn row(answers: &Answers) -> FrameRow {
    let (frame, missing) = match &answers.frame {
        Ok(frame) => (Some(frame), None),
        Err(missing) => (None, Some(missing.clone())),
    };
    let factor = |pick: fn(&Frame) -> f64| frame.map(pick);
    FrameRow {
        missing,
        dynamic_factor: factor(|f| f.factors.dynamic),
        design_factor: factor(|f| f.factors.design),
        unlisted_kg: factor(|f| f.unlisted.0),
        sections: frame.map_or_else(Vec::new, sections),
        cases: frame.map_or_else(Vec::new, cases),
        worst: frame.and_then(worst),
        splice: frame.and_then(|f| f.splice.as_ref()).map(|s| SpliceRow {
            joints_mm: s.joints_mm.clone(),
            worst_mm: s.worst_mm,
            case: s.case,
            moment_nm: s.moment_nmm / NMM,
            of_peak: s.of_peak,
            factor: s.factor,
        }),
        mounts: answers.mounts.iter().map(|m| mount(m)).collect(),
    }
}

fn sections(frame: &Frame) -> Vec<SectionRow> {
    let rows = frame.sections.iter().map(|s| SectionRow {
        from_mm: s.from_mm,
        to_mm: s.to_mm,
        modulus_mm3: s.modulus_mm3,
        square_modulus_mm3: s.square_mm3,
        resist_nm: s.resist_nmm.map(|m| m / NMM),
        reinforced: s.reinforced.clone(),
        welded: s.welded,
    });
    rows.collect()
}

fn cases(frame: &Frame) -> Vec<RailRow> {
    let mut rows = Vec::new();
    for case in &frame.cases {
        for (rail, name) in case.rails.iter().zip(SIDES) {
            rows.push(RailRow {
                case: case.case,
                rail: name,
                peak_x_mm: rail.peak.0,
                peak_nm: rail.peak.1 / NMM,
                shear_x_mm: rail.shear.0,
                shear_n: rail.shear.1,
                used_most_x_mm: rail.most_used.map(|m| m.0),
            });
        }
    }
    rows
}

fn worst(frame: &Frame) -> Option<WorstRow> {
    let worst = frame.worst.as_ref()?;
    let cause = |c: &Cause| (c.words.clone(), c.moment_nmm / NMM);
    Some(WorstRow {
        case: worst.case,
        rail: SIDES[worst.side.min(1)],
        x_mm: worst.x_mm,
        moment_nm: worst.moment_nmm / NMM,
        stress_mpa: worst.stress_mpa,
        resist_nm: worst.resist_nmm / NMM,
        factor: worst.factor,
        used: worst.used,
        causes: worst.causes.iter().map(cause).collect(),
    })
}

fn mount(m: &MountForces) -> MountRow {
    MountRow {
        tag: m.tag.clone(),
        mass_kg: m.mass_kg,
        vertical_g: m.g[0],
        longitudinal_g: m.g[1],
        lateral_g: m.g[2],
        vertical_n: m.force_n[0],
        longitudinal_n: m.force_n[1],
        lateral_n: m.force_n[2],
        rating_n: m.rating_n,
        own_design: m.own_design,
        source: m.source.to_string(),
    }
}

/// The frame for a person at a terminal.
pub(super) fn text(out: &mut String, answers: &Answers, units: Units) -> std::fmt::Result {
    let frame = match &answers.frame {
        Ok(frame) => frame,
        Err(missing) => return writeln!(out, "\nFrame not assessed: {missing}."),
    };
    writeln!(
        out,
        "\nFrame, one rail, standing (peak moment, peak shear):"
    )?;
    for case in &frame.cases {
        for (rail, name) in case.rails.iter().zip(SIDES) {
            let name = format!("{}, {name}", case.case.words());
            writeln!(out, "  {name:<32}{}", peaks(rail, units))?;
        }
    }
    for s in &frame.sections {
        let ends = format!("{} to {}", length(s.from_mm, units), length(s.to_mm, units));
        let modulus = Measure::Modulus.text(s.modulus_mm3, units);
        let square = Measure::Modulus.text(s.square_mm3, units);
        let resist = s.resist_nmm.map_or_else(
            || "RBM not assessed: yield strength unknown".to_owned(),
            |m| format!("RBM {}", Measure::Moment.text(m, units)),
        );
        let mut notes = s.reinforced.join(", ");
        if s.welded {
            notes.push_str(if notes.is_empty() { "weld" } else { ", weld" });
        }
        writeln!(
            out,
            "  {ends:<32}{modulus} ({square} with square corners)  {resist}  {notes}"
        )?;
    }
    Ok(())
}

fn peaks(rail: &RailCase, units: Units) -> String {
    format!(
        "{:>14} at {:>10}   {:>12} at {:>10}",
        Measure::Moment.text(rail.peak.1, units),
        length(rail.peak.0, units),
        Measure::Force.text(rail.shear.1, units),
        length(rail.shear.0, units)
    )
}
