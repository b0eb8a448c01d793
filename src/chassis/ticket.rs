//! What the scale said about the donor.

use crate::numeric;
use crate::source::Source;
use serde::{Deserialize, Serialize};

/// Load of one axle group at the scale.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct AxleTicket {
    /// The group that stood on the scale.
    pub group: String,
    /// Both sides together.
    pub load_kg: f64,
    /// Left wheel end (or ends), if the sides were weighed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left_kg: Option<f64>,
    /// Right wheel end (or ends), if the sides were weighed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub right_kg: Option<f64>,
}

/// A scale ticket: weights at each group, and what was aboard.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct ScaleTicket {
    /// Loads, one entry for each group.
    pub axle: Vec<AxleTicket>,
    /// What was aboard: fluids, tools, driver.
    pub aboard: String,
    /// Smallest step that the scale prints.
    pub resolution_kg: f64,
    /// Height of the whole truck's centre of gravity above ground, when weighed. Without it the height
    /// is worked out from `lift`, where that was done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cg_z_mm: Option<f64>,
    /// One axle weighed a second time with its wheels raised, for the height.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lift: Option<LiftWeighing>,
    /// How the weights and the height are known.
    pub source: Source,
}

/// An axle group of a two-group truck weighed level and again raised, springs blocked.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct LiftWeighing {
    /// Its load on level ground.
    pub level_kg: f64,
    /// Its load when raised.
    pub raised_kg: f64,
    /// How far its wheels were raised.
    pub raised_mm: f64,
    /// Distance between the raised wheels and those that stayed down, on level ground.
    pub wheelbase_mm: f64,
    /// Static loaded radius of the tyres.
    pub loaded_radius_mm: f64,
}

impl LiftWeighing {
    /// Height of the centre of gravity above ground of a truck of this mass.
    ///
    /// The weight that leaves the raised axle is what the height shifts along the truck: with
    /// sin α = raised / wheelbase, z = (level − raised) / mass · wheelbase / tan α above the wheel
    /// axis (a van maker's guideline for body builders, section 3.5). `None` when nothing was raised.
    #[must_use]
    pub fn cg_z_mm(&self, mass_kg: f64) -> Option<f64> {
        let along = numeric::sqrt(self.wheelbase_mm.powi(2) - self.raised_mm.powi(2));
        if self.raised_mm <= 0.0 || along <= 0.0 || mass_kg <= 0.0 {
            return None;
        }
        let gone = (self.level_kg - self.raised_kg) / mass_kg;
        Some(gone * self.wheelbase_mm * along / self.raised_mm + self.loaded_radius_mm)
    }
}

impl ScaleTicket {
    /// What the whole truck weighed.
    #[must_use]
    pub fn mass_kg(&self) -> f64 {
        self.axle.iter().map(|load| load.load_kg).sum()
    }

    /// Height of the whole truck's centre of gravity: as stated, else from the second weighing.
    #[must_use]
    pub fn height_mm(&self) -> Option<f64> {
        let lifted = || self.lift.and_then(|lift| lift.cg_z_mm(self.mass_kg()));
        self.cg_z_mm.or_else(lifted)
    }
}
