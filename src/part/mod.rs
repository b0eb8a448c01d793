//! Parts that an electric driveline is made of: plain data, one TOML file for each family.
//!
//! A part's own axes: x from its front face rearward, y from its middle to the right, z from its
//! underside upward, before it is turned. Only this module and the drawing's symbols may ask what
//! kind a part is; everybody else asks for what it has (a mass, a body, contents, a port).

mod behaviour;
mod check;
mod kind;

pub use behaviour::{
    AxleBeam, Battery, Charger, Chemistry, Contents, Converter, Cooler, Fuel, HotSurface, Inlet,
    Load, Motor, Mounts, Port, ShaftTube, SourceUnit,
};
pub use kind::Kind;

use crate::chassis::{Shape, Spot};
use crate::geometry::{Aabb, Solid};
use crate::source::Source;
use serde::{Deserialize, Serialize};

/// A family of parts, as one file of the catalogue.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Family {
    /// File format of a parts file; 1 today.
    pub format: u32,
    /// Name of the family for people.
    pub family: String,
    /// The parts.
    #[serde(rename = "part")]
    pub parts: Vec<Part>,
}

/// Free space that a part needs on each side, in millimetres, before it is turned.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Sides {
    /// On every side that is not named.
    #[serde(default)]
    pub all_mm: f64,
    /// Ahead.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub front_mm: Option<f64>,
    /// Behind.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rear_mm: Option<f64>,
    /// To the left.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left_mm: Option<f64>,
    /// To the right.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub right_mm: Option<f64>,
    /// Above.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub top_mm: Option<f64>,
    /// Below.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bottom_mm: Option<f64>,
}

/// A distance to be kept from every part of one kind.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct KeepAway {
    /// Kind of the other part.
    pub kind: Kind,
    /// Distance.
    pub mm: f64,
    /// Why, in a few words.
    pub why: String,
}

/// One part of the catalogue, or one of the user's own.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// Identifier, unique in the library.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// What it is.
    pub kind: Kind,
    /// Mass; for a tank without its contents.
    pub mass_kg: f64,
    /// One standard deviation of the mass.
    #[serde(default)]
    pub mass_sigma_kg: f64,
    /// Centre of gravity in the part's own axes; the middle of the envelope when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cg: Option<Spot>,
    /// Solids that it occupies.
    pub envelope: Vec<Shape>,
    /// Free space that it needs.
    #[serde(default)]
    pub clearance: Sides,
    /// Distances to kinds of part.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub keep_away: Vec<KeepAway>,
    /// Zones in which it may stand; empty means any.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub zones: Vec<String>,
    /// How it is fixed, for the shop.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub mounting: String,
    /// Brackets and bolts that hold it on the rails, as far as they are known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mounts: Option<Mounts>,
    /// Bends or lies along others (cables, hoses, brackets): has mass but no clearance check.
    #[serde(default)]
    pub soft: bool,
    /// Must not stand ahead of the front axle (gas and fuel; see the finding's source).
    #[serde(default)]
    pub behind_front_axle: bool,
    /// Where the figures come from.
    #[serde(default)]
    pub source: Source,
    /// Fluid or gas inside.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub contents: Option<Contents>,
    /// Battery data.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub battery: Option<Battery>,
    /// Traction motor data, gears included.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub motor: Option<Motor>,
    /// It is an axle and carries wheels.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub axle: Option<AxleBeam>,
    /// Where a driveshaft is flanged on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub output: Option<Port>,
    /// It is a driveshaft.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shaft: Option<ShaftTube>,
    /// Makes electricity aboard.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub power_source: Option<SourceUnit>,
    /// Changes one voltage to another, or direct to alternating current.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub converter: Option<Converter>,
    /// Charges from the grid.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub charger: Option<Charger>,
    /// Takes the charging plug.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub inlet: Option<Inlet>,
    /// Gives heat away.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cooler: Option<Cooler>,
    /// Draws electric power.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub load: Option<Load>,
    /// Gets hot outside.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hot: Option<HotSurface>,
}

impl Part {
    /// The envelope as solids, in the part's own axes.
    #[must_use]
    pub fn solids(&self) -> Vec<Solid> {
        self.envelope.iter().map(Shape::solid).collect()
    }

    /// Box around the envelope, in the part's own axes; a point at the origin when it has none.
    #[must_use]
    pub fn bounds(&self) -> Aabb {
        let mut all: Option<Aabb> = None;
        for solid in self.solids() {
            let one = solid.aabb();
            all = Some(all.map_or(one, |sum| sum.union(&one)));
        }
        all.unwrap_or_default()
    }

    /// Centre of gravity in the part's own axes.
    #[must_use]
    pub fn centre_of_gravity(&self) -> Spot {
        self.cg.unwrap_or_else(|| self.bounds().centre().into())
    }
}
