//! A wheelbase change: where the rails are joined, and what bends them there.

use super::section::weakest_at;
use super::{FrameCase, Section};
use crate::vehicle::{Case, Vehicle};

/// The splice of a changed wheelbase.
#[derive(Clone, Debug, PartialEq)]
pub struct Splice {
    /// Where the rails are joined on the finished truck, mm: both ends of the piece that was put in, or
    /// the one joint where a piece was taken out.
    pub joints_mm: Vec<f64>,
    /// The joint with the largest moment over all cases.
    pub worst_mm: f64,
    /// In which case.
    pub case: Case,
    /// 0 left, 1 right.
    pub side: usize,
    /// Standing moment there, N·mm.
    pub moment_nmm: f64,
    /// That moment as a part of the largest of any rail in any case.
    pub of_peak: f64,
    /// Where that largest moment is.
    pub peak_mm: f64,
    /// Yield strength, less what the weld takes, over standing stress; `None` without a yield strength.
    pub factor: Option<f64>,
    /// A joint lies where a suspension is fixed to the rails: between the first and the last mount of
    /// this axle.
    pub at_axle: Option<String>,
}

/// Joints of the finished rails, front to rear; none without a change.
pub(super) fn joints(vehicle: &Vehicle) -> Vec<f64> {
    let (by, cut) = (vehicle.stretch_mm, vehicle.splice_x_mm);
    if by.abs() < 0.5 {
        Vec::new()
    } else if by > 0.0 {
        vec![cut, cut + by]
    } else {
        vec![cut]
    }
}

pub(super) fn splice(
    vehicle: &Vehicle,
    joints: &[f64],
    sections: &[Section],
    cases: &[FrameCase],
) -> Option<Splice> {
    let mut worst: Option<(f64, Case, usize, f64)> = None;
    let mut peak = (0.0, 0.0_f64);
    for case in cases {
        for (side, rail) in case.rails.iter().enumerate() {
            if rail.peak.1.abs() > peak.1.abs() {
                peak = rail.peak;
            }
            for x in joints {
                let piece = rail
                    .pieces
                    .iter()
                    .find(|p| p.from_mm <= *x && *x <= p.to_mm);
                let moment = piece.map_or(0.0, |p| p.moment_at(*x));
                if worst.is_none_or(|w| moment.abs() > w.3.abs()) {
                    worst = Some((*x, case.case, side, moment));
                }
            }
        }
    }
    let (worst_mm, case, side, moment_nmm) = worst?;
    Some(Splice {
        joints_mm: joints.to_vec(),
        worst_mm,
        case,
        side,
        moment_nmm,
        of_peak: if peak.1.abs() > 0.0 {
            moment_nmm.abs() / peak.1.abs()
        } else {
            0.0
        },
        peak_mm: peak.0,
        factor: weakest_at(sections, worst_mm)
            .filter(|_| moment_nmm.abs() > 0.0)
            .map(|(_, resist)| resist / moment_nmm.abs()),
        at_axle: at_axle(vehicle, joints),
    })
}

fn at_axle(vehicle: &Vehicle, joints: &[f64]) -> Option<String> {
    let axles = vehicle.chassis.axles.iter();
    let held = axles.filter(|axle| {
        let mounts = &axle.suspension.mounts_mm;
        let (Some(first), Some(last)) = (mounts.first(), mounts.last()) else {
            return false;
        };
        let inside = |x: &f64| *x >= axle.x_mm + first && *x <= axle.x_mm + last;
        joints.iter().any(inside)
    });
    held.map(|axle| axle.id.clone()).next()
}
