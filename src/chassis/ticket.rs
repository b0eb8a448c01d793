//! What the scale said about the donor.

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
    /// Height of the whole truck's centre of gravity above ground, when weighed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cg_z_mm: Option<f64>,
    /// How the weights and the height are known.
    pub source: Source,
}
