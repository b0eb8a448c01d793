//! Balance and driveshafts as data for other programs.

use crate::assessment::{Assessment, CaseBalance};
use crate::driveline::{Shaft, ShaftState};
use crate::loads::{Case, Centre};
use crate::stability::Rollover;
use serde::Serialize;

/// Balance and roll-over threshold in one case.
#[derive(Debug, Serialize)]
pub struct BalanceRow {
    /// Which case.
    pub case: Case,
    /// Truck with what it carries itself, at its ride height in this case.
    pub truck: Centre,
    /// All wheels on the left.
    pub left_kg: f64,
    /// All wheels on the right.
    pub right_kg: f64,
    /// Part of the truck's axle loads on its steered axles.
    pub steer_share: Option<f64>,
    /// Roll-over threshold and tilt-table angle; of the combination when coupled.
    pub rollover: Option<Rollover>,
    /// What is missing for them.
    pub missing: Option<String>,
    /// Highest centre of gravity of the payload that keeps the reduced threshold at 0.35 g.
    pub payload_cg_z_max_mm: Option<f64>,
    /// The diesel donor, loaded in the same way.
    pub donor: Option<DonorRow>,
}

/// The diesel donor in a case.
#[derive(Debug, Serialize)]
pub struct DonorRow {
    /// Truck with what it carries itself, at its ride height in this case.
    pub truck: Centre,
    /// Roll-over threshold and tilt-table angle.
    pub rollover: Option<Rollover>,
}

/// A driveshaft.
#[derive(Debug, Serialize)]
pub struct ShaftRow {
    /// Mark on the drawing; of a shaft between two axles, their ids.
    pub tag: String,
    /// What drives it.
    pub from: String,
    /// Which axle it drives.
    pub to_axle: String,
    /// How many pieces it is made of.
    pub pieces: usize,
    /// How many it needs by speed and length.
    pub pieces_needed: Option<u32>,
    /// Lengths, inclinations and joint angles in each state, degrees and mm.
    pub states: Vec<ShaftState>,
    /// Length that the slip has to give and take.
    pub plunge_mm: f64,
    /// Slip of the shaft.
    pub slip_mm: Option<f64>,
    /// At the motor's highest speed in top gear.
    pub most_rpm: Option<f64>,
    /// At the truck's highest road speed.
    pub road_rpm: Option<f64>,
    /// Road speed at the motor's highest speed in top gear.
    pub most_kmh: Option<f64>,
    /// Speed at which the longest piece bends away.
    pub critical_rpm: Option<f64>,
    /// Speed up to which it may be used.
    pub safe_rpm: Option<f64>,
    /// Motor's largest torque in its lowest gear.
    pub torque_nm: Option<f64>,
    /// Rating of the tube.
    pub tube_nm: Option<f64>,
    /// Rating of the joints.
    pub joint_nm: Option<f64>,
    /// What is missing for speed, torque or critical speed.
    pub missing: Vec<String>,
}

pub(super) fn balance(assessment: &Assessment) -> Vec<BalanceRow> {
    assessment.answers.balance.iter().map(balance_row).collect()
}

fn balance_row(one: &CaseBalance) -> BalanceRow {
    BalanceRow {
        case: one.case,
        truck: one.truck,
        left_kg: one.left_kg,
        right_kg: one.right_kg,
        steer_share: one.steer_share,
        rollover: one.roll.as_ref().ok().copied(),
        missing: one.roll.as_ref().err().cloned(),
        payload_cg_z_max_mm: one.payload_z_max_mm,
        donor: one.donor.as_ref().map(|d| DonorRow {
            truck: d.truck,
            rollover: d.roll.as_ref().ok().copied(),
        }),
    }
}

pub(super) fn shafts(assessment: &Assessment) -> Vec<ShaftRow> {
    let shafts = assessment.answers.driveline.shafts.iter();
    shafts.map(shaft_row).collect()
}

fn shaft_row(shaft: &Shaft) -> ShaftRow {
    let speed = shaft.speed.as_ref().ok();
    let whirl = shaft.whirl.as_ref().ok();
    let missing = [
        shaft.speed.as_ref().err(),
        shaft.torque_nm.as_ref().err(),
        shaft.whirl.as_ref().err(),
    ];
    ShaftRow {
        tag: shaft.tag.clone(),
        from: shaft.from.clone(),
        to_axle: shaft.to_axle.clone(),
        pieces: shaft.states[0].pieces.len(),
        pieces_needed: shaft.pieces_needed(),
        states: shaft.states.to_vec(),
        plunge_mm: shaft.plunge_mm,
        slip_mm: shaft.tube.plunge_mm,
        most_rpm: speed.map(|s| s.most_rpm),
        road_rpm: speed.and_then(|s| s.road_rpm),
        most_kmh: speed.and_then(|s| s.most_kmh),
        critical_rpm: whirl.map(|w| w.critical_rpm),
        safe_rpm: whirl.map(|w| w.safe_rpm),
        torque_nm: shaft.torque_nm.as_ref().ok().copied(),
        tube_nm: shaft.tube.rating_nm,
        joint_nm: shaft.tube.joint_nm,
        missing: missing.into_iter().flatten().cloned().collect(),
    }
}
