//! A donor chassis as a truck maker delivers it: plain data, written by a person as TOML.
//!
//! Lengths in millimetres, masses in kilograms. Axes: x rearward from the front axle centre, y to
//! the right, z up from the ground at design (laden) height. Positions in a template are those of
//! the unmodified chassis; a wheelbase change is applied by [`stretched`](Chassis::stretched).

mod axle;
mod check;
mod hardware;
mod shape;
mod stretch;
mod ticket;
mod trailer;
mod zone;

pub use axle::{Axle, AxleKind, Group, Share, Suspension, SuspensionKind, Tyres};
pub use hardware::{Hardware, Kept, Obstacle, ObstacleKind};
pub use shape::{Shape, Spot};
pub use ticket::{AxleTicket, ScaleTicket};
pub use trailer::{AxleSlider, LandingLegs, Trailer};
pub use zone::{Zone, ZoneLimit};

use crate::source::Source;
use serde::{Deserialize, Serialize};

/// What the chassis is built to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Class {
    /// Pulls a semi-trailer on a fifth wheel.
    Tractor,
    /// Carries a body.
    Rigid,
}

/// A donor chassis.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Chassis {
    /// File format of a chassis; 1 today.
    pub format: u32,
    /// Identifier, unique in the library.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// What it is built to do.
    pub class: Class,
    /// Where the figures come from.
    pub source: Source,
    /// Remarks for people.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// Lengths, widths and heights.
    pub dimensions: Dimensions,
    /// Section of one frame rail.
    pub rail: Rail,
    /// Ratings of the whole vehicle.
    pub ratings: Ratings,
    /// Cab and hood.
    pub cab: Cab,
    /// Fifth wheel, on a tractor.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fifth_wheel: Option<FifthWheel>,
    /// Body, on a rigid truck.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub body: Option<Body>,
    /// Axles from front to rear.
    #[serde(rename = "axle")]
    pub axles: Vec<Axle>,
    /// Axle groups from front to rear; each axle stands in exactly one.
    #[serde(rename = "group")]
    pub groups: Vec<Group>,
    /// Mass limits of the zones; a zone that is not named has none.
    #[serde(default, rename = "zone", skip_serializing_if = "Vec::is_empty")]
    pub zone_limits: Vec<ZoneLimit>,
    /// Things that stay where they are.
    #[serde(default, rename = "obstacle", skip_serializing_if = "Vec::is_empty")]
    pub obstacles: Vec<Obstacle>,
    /// Donor hardware that may be taken off.
    #[serde(default, rename = "hardware", skip_serializing_if = "Vec::is_empty")]
    pub hardware: Vec<Hardware>,
    /// What stays, with estimated masses: divides the scale weight, never adds to it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub kept: Vec<Kept>,
    /// Weights read at the scale; without it no load can be assessed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ticket: Option<ScaleTicket>,
    /// Where a driver sits.
    pub driver_seat: Spot,
}

/// Main dimensions, ISO 612 and trade terms, in millimetres.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Dimensions {
    /// WB: front axle to the centre of the driven axle or tandem.
    pub wheelbase_mm: f64,
    /// BA: bumper to front axle centre.
    pub bumper_to_axle_mm: f64,
    /// Underside of the bumper above ground, laden; without it the approach angle is not assessed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bumper_bottom_mm: Option<f64>,
    /// BBC: bumper to back of cab.
    pub bumper_to_back_of_cab_mm: f64,
    /// AF: centre of the driven axle or tandem to the end of the frame.
    pub after_frame_mm: f64,
    /// Overall width without mirrors.
    pub overall_width_mm: f64,
    /// Outer width over both rails.
    pub frame_width_mm: f64,
    /// Top of frame above ground, laden (design height).
    pub frame_top_laden_mm: f64,
    /// Top of frame above ground, unladen, at the rear axle.
    pub frame_top_unladen_mm: f64,
}

impl Dimensions {
    /// x of the foremost point of the bumper (negative).
    #[must_use]
    pub fn bumper_x_mm(&self) -> f64 {
        -self.bumper_to_axle_mm
    }
    /// x of the back of the cab.
    #[must_use]
    pub fn back_of_cab_x_mm(&self) -> f64 {
        self.bumper_to_back_of_cab_mm - self.bumper_to_axle_mm
    }
    /// CA: back of cab to the centre of the driven axle or tandem.
    #[must_use]
    pub fn cab_to_axle_mm(&self) -> f64 {
        self.wheelbase_mm - self.back_of_cab_x_mm()
    }
    /// x of the end of the frame.
    #[must_use]
    pub fn frame_end_x_mm(&self) -> f64 {
        self.wheelbase_mm + self.after_frame_mm
    }
    /// Overall length, bumper to the end of the frame.
    #[must_use]
    pub fn overall_length_mm(&self) -> f64 {
        self.bumper_to_axle_mm + self.frame_end_x_mm()
    }
}

/// Section of one frame rail: a channel, open side inward.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Rail {
    /// Height of the channel.
    pub depth_mm: f64,
    /// Width of the flanges.
    pub flange_mm: f64,
    /// Thickness of web and flanges.
    pub wall_mm: f64,
    /// Yield strength in megapascal.
    pub yield_mpa: f64,
    /// x where the rails begin.
    pub front_x_mm: f64,
}

impl Rail {
    /// Density of steel, kg/m³ (common handbook value).
    pub const STEEL_KG_PER_M3: f64 = 7850.0;

    /// Mass of both rails per metre of length, from the section, in kg/m.
    #[must_use]
    pub fn both_kg_per_m(&self) -> f64 {
        let area_mm2 =
            self.depth_mm * self.wall_mm + 2.0 * (self.flange_mm - self.wall_mm) * self.wall_mm;
        2.0 * area_mm2 * 1e-6 * Self::STEEL_KG_PER_M3
    }
}

/// Ratings of the whole vehicle, in kilograms.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Ratings {
    /// GVWR: gross vehicle weight rating.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gvwr_kg: Option<f64>,
    /// GCWR: gross combination weight rating.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gcwr_kg: Option<f64>,
}

/// How the cab opens for service.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum CabKind {
    /// Behind a hood that tilts forward.
    Conventional,
    /// Over the engine; the whole cab tilts forward.
    CabOver,
}

/// Cab and hood.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Cab {
    /// Conventional or cab-over.
    pub kind: CabKind,
    /// x of the front of the cab shell (behind the hood on a conventional cab).
    pub front_x_mm: f64,
    /// Width of the shell.
    pub width_mm: f64,
    /// Underside of the shell above ground.
    pub floor_z_mm: f64,
    /// Roof above ground.
    pub roof_z_mm: f64,
    /// Top of the hood above ground at the windscreen; the hood's nose is lower.
    pub hood_top_z_mm: f64,
    /// x behind the entry steps; side-mounted parts start here.
    pub steps_end_x_mm: f64,
    /// How far behind itself the cab moves on its own suspension, with the shop's allowance.
    pub motion_clearance_mm: f64,
    /// Space that the hood or the tilting cab sweeps when it opens, beyond its closed place.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub opening: Vec<Shape>,
}

/// Fifth wheel of a tractor.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct FifthWheel {
    /// How far the kingpin stands ahead of the centre of the driven axle or tandem.
    pub ahead_mm: f64,
    /// Smallest such distance that the slider allows.
    pub ahead_min_mm: f64,
    /// Largest such distance that the slider allows.
    pub ahead_max_mm: f64,
    /// From notch to notch of the slider, counted from the smallest distance; any place where not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step_mm: Option<f64>,
    /// Height of the plate above ground, laden.
    pub top_z_mm: f64,
    /// Vertical load rating.
    pub rating_kg: f64,
    /// Mass that moves with the slider.
    pub mass_kg: f64,
    /// Largest angle between tractor and trailer that has to be possible, degrees.
    pub articulation_deg: f64,
}

/// Body of a rigid truck.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Body {
    /// Name for people.
    pub name: String,
    /// x of the inside of the front wall.
    pub front_x_mm: f64,
    /// x of the rear end.
    pub rear_x_mm: f64,
    /// Outer width.
    pub width_mm: f64,
    /// Underside of the floor structure above ground.
    pub floor_z_mm: f64,
    /// Top above ground.
    pub top_z_mm: f64,
    /// Clearance that parts must keep below the floor.
    pub clearance_mm: f64,
}
