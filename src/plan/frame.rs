//! What a plan says about the strength of the frame.

use crate::chassis::Reinforcement;
use crate::source::Checker;
use serde::{Deserialize, Serialize};

/// Factors, accelerations and reinforcements that a user sets; what is not given is common practice.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct FrameChoice {
    /// By how much a rough road multiplies the standing loads.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dynamic_factor: Option<f64>,
    /// How many times the standing stress the yield strength has to be.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub design_factor: Option<f64>,
    /// Share of the yield strength that welding takes at a splice; 0 for rails in one piece.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weld_loss: Option<f64>,
    /// Acceleration of parts up and down that their mounts have to hold, g.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub vertical_g: Option<f64>,
    /// The same along the truck, g.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub longitudinal_g: Option<f64>,
    /// The same across the truck, g.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lateral_g: Option<f64>,
    /// Plates and liners that the shop adds, at their places on the finished truck.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub reinforcements: Vec<Reinforcement>,
}

impl FrameChoice {
    /// Whether nothing is set.
    #[must_use]
    pub fn is_default(&self) -> bool {
        *self == Self::default()
    }

    pub(super) fn check(&self, c: &mut Checker) {
        c.range_if("dynamic_factor", self.dynamic_factor, 1.0, 10.0);
        c.range_if("design_factor", self.design_factor, 1.0, 20.0);
        c.range_if("weld_loss", self.weld_loss, 0.0, 0.9);
        c.range_if("vertical_g", self.vertical_g, 0.0, 50.0);
        c.range_if("longitudinal_g", self.longitudinal_g, 0.0, 50.0);
        c.range_if("lateral_g", self.lateral_g, 0.0, 50.0);
        c.count("reinforcements", self.reinforcements.len(), 20);
        c.each("reinforcements", &self.reinforcements, |c, r| r.check(c));
    }
}
