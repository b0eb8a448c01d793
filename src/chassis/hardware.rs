//! Donor hardware that may be taken off, and obstacles that stay.

use super::{Shape, Spot};
use serde::{Deserialize, Serialize};

/// One piece of donor hardware that a strip-out may remove.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Hardware {
    /// Identifier, unique in the chassis.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Mass as it was aboard at the scale, with its fluids.
    pub mass_kg: f64,
    /// One standard deviation of the mass.
    #[serde(default)]
    pub mass_sigma_kg: f64,
    /// Centre of gravity.
    pub cg: Spot,
    /// Rides on an axle and not on the springs: which axle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unsprung_axle: Option<String>,
    /// It is the drive axle itself, which an e-axle replaces.
    #[serde(default)]
    pub drive_axle: bool,
    /// Removed in a new plan unless the user keeps it.
    #[serde(default = "yes")]
    pub strip_by_default: bool,
    /// Space it takes; empty for what has no shape of its own, such as fuel in a tank.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub envelope: Vec<Shape>,
}

const fn yes() -> bool {
    true
}

/// Something that stays on the truck, with its estimated mass.
///
/// The scale ticket says what the whole truck weighs; this list only says how that weight divides:
/// what moves with a splice, and (while no height was measured) how high it sits.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Kept {
    /// Name for people.
    pub name: String,
    /// Estimated mass.
    pub mass_kg: f64,
    /// Centre of gravity.
    pub cg: Spot,
    /// Rides on the axles and not on the springs: the axles' own unsprung masses hold it already.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub unsprung: bool,
    /// From and to, along the truck, for what is long: rails, body.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spread_mm: Option<[f64; 2]>,
}

/// Kinds of fixed obstacle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum ObstacleKind {
    /// Ties the rails together.
    Crossmember,
    /// Compressed-air reservoir.
    AirTank,
    /// Steering gear and linkage.
    SteeringGear,
    /// Spring hanger, torque-rod bracket.
    SuspensionBracket,
    /// Entry step.
    Step,
    /// Fifth wheel plate and its mounting; slides with the fifth wheel.
    FifthWheel,
    /// Anything else that stays.
    Other,
}

/// A thing on the chassis that stays and that parts must keep clear of.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Obstacle {
    /// Identifier, unique in the chassis.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Kind, for the drawing.
    pub kind: ObstacleKind,
    /// Space it takes.
    pub envelope: Vec<Shape>,
    /// Clearance that parts must keep from it.
    pub clearance_mm: f64,
}
