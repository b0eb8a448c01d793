//! Shear and bending of both frame rails in every load case, and what parts ask of their mounts.
//!
//! Method. Each rail is a beam that carries what rides on the springs and stands on the places where
//! the suspensions are fixed to it. Parts hang at their bracket rows, payload and body lie spread over
//! their length, the trailer presses on the fifth wheel. What the lists of the donor leave out of its
//! scale ticket, or put elsewhere, lies evenly over the front half and evenly over the rear half of the
//! rails, so that mass and moment are those of the scale. Axle loads come from the load answer; a load
//! between the rails or on both is divided by its distance to them, one outside hangs on its rail alone.
//!
//! Assumptions. Truck standing on level road; crossmembers carry the twist of loads beside the rails
//! (not assessed); a body or subframe presses on the rails as it weighs and does not stiffen them;
//! stress is bending alone, at the edge of the flange; no holes.

mod causes;
mod masses;
mod mounts;
mod rails;
mod section;
mod splice;

pub use causes::Cause;
pub use masses::bracket_rows;
pub use mounts::{CARGO_G, MountForces, PART_G, TANK_G, mount_forces};
pub use section::Section;
pub use splice::Splice;

use crate::numeric::{BeamPiece, Influence};
use crate::vehicle::{Case, Vehicle};
use masses::Masses;

/// By how much a rough road multiplies the standing loads, unless the plan says it: the lower of the
/// published 2 to 3 (Barton and Fieldhouse, *Automotive Chassis Engineering*, 4.3.2.1, read).
pub const DYNAMIC_FACTOR: f64 = 2.0;
/// How many times the standing stress the yield strength has to be, common practice.
pub const DESIGN_FACTOR: f64 = 3.0;
/// Share of the yield strength lost at a weld (a truck maker's bodybuilder instructions, 2012, 2.4.8,
/// read: reduce material values by about 15 %).
pub const WELD_LOSS: f64 = 0.15;

/// What a load case stands on, as the load answer has it.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// Which case.
    pub case: Case,
    /// Load of each axle of the chassis, front to rear, kg.
    pub axles_kg: Vec<f64>,
    /// Load on the fifth wheel, kg.
    pub kingpin_kg: f64,
}

/// Factors in force.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Factors {
    /// By how much a rough road multiplies the standing loads.
    pub dynamic: f64,
    /// How many times the standing stress the yield strength has to be.
    pub design: f64,
    /// Share of the yield strength lost at a weld.
    pub weld_loss: f64,
}

impl Factors {
    /// Standing moment that is allowed on a rail that resists `resist_nmm`, N·mm: by the design factor,
    /// and by yield itself on a rough road.
    #[must_use]
    pub fn allowed_nmm(&self, resist_nmm: f64) -> f64 {
        resist_nmm / self.design.max(self.dynamic)
    }
}

/// One rail in one load case; standing, without the dynamic factor.
#[derive(Clone, Debug, PartialEq)]
pub struct RailCase {
    /// From front to rear.
    pub pieces: Vec<BeamPiece>,
    /// Where the moment is largest, mm, and how large, N·mm, with its sign.
    pub peak: (f64, f64),
    /// Where the shear is largest, mm, and how large, N, with its sign.
    pub shear: (f64, f64),
    /// Where the rail is used most, mm, and the moment there, N·mm; `None` without a yield strength.
    pub most_used: Option<(f64, f64)>,
}

/// Both rails in one load case.
#[derive(Clone, Debug, PartialEq)]
pub struct FrameCase {
    /// Which case.
    pub case: Case,
    /// Left and right.
    pub rails: [RailCase; 2],
}

/// Where a rail is used most, over all cases.
#[derive(Clone, Debug, PartialEq)]
pub struct Worst {
    /// In which case.
    pub case: Case,
    /// 0 left, 1 right.
    pub side: usize,
    /// Where.
    pub x_mm: f64,
    /// Standing moment of that rail, N·mm.
    pub moment_nmm: f64,
    /// What the rail resists there, N·mm.
    pub resist_nmm: f64,
    /// Standing stress at the edge of the flange, MPa.
    pub stress_mpa: f64,
    /// Yield strength over standing stress.
    pub factor: f64,
    /// Share of what the rail resists that a rough road uses.
    pub used: f64,
    /// Index of the section.
    pub section: usize,
    /// What bends it there, largest first.
    pub causes: Vec<Cause>,
    /// What smaller causes add, N·mm.
    pub smaller_nmm: f64,
    /// What takes off, N·mm, with its own sign.
    pub against_nmm: f64,
}

/// The frame of a finished truck.
#[derive(Clone, Debug, PartialEq)]
pub struct Frame {
    /// Factors in force.
    pub factors: Factors,
    /// Sections of one rail, front to rear.
    pub sections: Vec<Section>,
    /// Load cases of the finished truck.
    pub cases: Vec<FrameCase>,
    /// Where a rail is used most; `None` without a yield strength.
    pub worst: Option<Worst>,
    /// The splice, where the wheelbase was changed.
    pub splice: Option<Splice>,
    /// Sprung mass of the donor that its lists leave out, kg, and the moment of what they leave out or
    /// put elsewhere, kg·mm about the front axle.
    pub unlisted: (f64, f64),
    /// Axles whose mounts on the rails are not known: they push at the axle's centre.
    pub unknown_mounts: Vec<String>,
}

/// Names of the rails, left and right.
pub const SIDES: [&str; 2] = ["left", "right"];

/// Works out the frame in these load cases.
///
/// # Errors
/// What is missing, or why the loads do not balance.
pub fn frame(
    vehicle: &Vehicle,
    influence: &Influence,
    standing: &[Standing],
) -> Result<Frame, String> {
    let choice = &vehicle.frame;
    let factors = Factors {
        dynamic: choice.dynamic_factor.unwrap_or(DYNAMIC_FACTOR),
        design: choice.design_factor.unwrap_or(DESIGN_FACTOR),
        weld_loss: choice.weld_loss.unwrap_or(WELD_LOSS),
    };
    let joints = splice::joints(vehicle);
    let sections = section::sections(vehicle, &joints, factors.weld_loss);
    let masses = Masses::of(vehicle, &sections);
    let mut cases = Vec::with_capacity(standing.len());
    for stand in standing {
        cases.push(FrameCase {
            case: stand.case,
            rails: rails::rails(vehicle, influence, &masses, &sections, stand)?,
        });
    }
    let worst = worst(
        vehicle,
        influence,
        &masses,
        &sections,
        &factors,
        (standing, &cases),
    );
    Ok(Frame {
        splice: splice::splice(vehicle, &joints, &sections, &cases),
        worst,
        factors,
        sections,
        cases,
        unlisted: masses.unlisted,
        unknown_mounts: rails::unknown_mounts(vehicle),
    })
}

fn worst(
    vehicle: &Vehicle,
    influence: &Influence,
    masses: &Masses,
    sections: &[Section],
    factors: &Factors,
    (standing, cases): (&[Standing], &[FrameCase]),
) -> Option<Worst> {
    let mut worst: Option<Worst> = None;
    let mut of_case = None;
    for (index, case) in cases.iter().enumerate() {
        for (side, rail) in case.rails.iter().enumerate() {
            let Some((x, moment)) = rail.most_used else {
                continue;
            };
            let Some((section, resist)) = section::weakest_at(sections, x) else {
                continue;
            };
            let factor = resist / moment.abs();
            if worst.as_ref().is_some_and(|w| w.factor <= factor) {
                continue;
            }
            of_case = Some(index);
            worst = Some(Worst {
                case: case.case,
                side,
                x_mm: x,
                moment_nmm: moment,
                resist_nmm: resist,
                stress_mpa: moment.abs() / sections[section].modulus_mm3,
                factor,
                used: factors.dynamic / factor,
                section,
                causes: Vec::new(),
                smaller_nmm: 0.0,
                against_nmm: 0.0,
            });
        }
    }
    if let (Some(worst), Some(index)) = (&mut worst, of_case) {
        let at = (worst.x_mm, worst.side);
        let stand = &standing[index];
        (worst.causes, worst.smaller_nmm, worst.against_nmm) =
            causes::causes(vehicle, influence, masses, stand, at);
    }
    worst
}
