//! What the moving truck is held against: the turn, the ramp and the bump that it must take.

use crate::source::Checker;
use serde::{Deserialize, Serialize};

/// The user's own figures; what is not given stands at what is customary.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Moving {
    /// Angle of the turn that is drawn, degrees.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub turn_deg: Option<f64>,
    /// The turn is to the left; to the right when not given.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub turn_left: bool,
    /// Radius within which the outermost corner of the truck must turn; the road law's, else the
    /// customary one, when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub turn_outer_mm: Option<f64>,
    /// Radius about the turn's centre that truck and trailer must leave free; the road law's, else
    /// none, when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub turn_inner_mm: Option<f64>,
    /// Largest turning circle between kerbs that the job allows, a diameter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kerb_circle_mm: Option<f64>,
    /// Largest swing of the tail.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tail_swing_mm: Option<f64>,
    /// Least approach angle, degrees.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub approach_deg: Option<f64>,
    /// Least departure angle, degrees.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub departure_deg: Option<f64>,
    /// Least breakover angle, degrees.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub breakover_deg: Option<f64>,
    /// Grade of the ramp that begins or ends under the coupled truck, percent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ramp_percent: Option<f64>,
    /// Height of the bump.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bump_height_mm: Option<f64>,
    /// Length of the bump along the road.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bump_length_mm: Option<f64>,
}

impl Moving {
    /// Radius to the outermost corner where nobody states one: 45 ft, the smallest design turn of
    /// the largest US design vehicles (AASHTO, from memory).
    pub const OUTER_MM: f64 = 13_716.0;
    /// Angle of the turn: into a side street.
    pub const TURN_DEG: f64 = 90.0;
    /// Swing of the tail (0.80 m for rigid vehicles in European type approval, from memory).
    pub const TAIL_SWING_MM: f64 = 800.0;
    /// Approach, breakover and departure angle, common practice: a ramp of 12 % met from the level.
    pub const LEAST_DEG: f64 = 7.0;
    /// Grade of a ramp, percent (the figure given beside SAE J701, read in an abstract).
    pub const RAMP_PERCENT: f64 = 11.0;
    /// Height of a speed hump, common practice.
    pub const BUMP_HEIGHT_MM: f64 = 100.0;
    /// Length of a speed hump (12 ft), common practice.
    pub const BUMP_LENGTH_MM: f64 = 3_657.6;

    /// Nothing of its own.
    #[must_use]
    pub fn is_usual(&self) -> bool {
        *self == Self::default()
    }

    /// Ranges of what a person may enter.
    pub(super) fn check(&self, c: &mut Checker) {
        c.range_if("turn_deg", self.turn_deg, 10.0, 360.0);
        c.range_if("turn_outer_mm", self.turn_outer_mm, 3_000.0, 60_000.0);
        c.range_if("turn_inner_mm", self.turn_inner_mm, 0.0, 60_000.0);
        c.range_if("kerb_circle_mm", self.kerb_circle_mm, 5_000.0, 100_000.0);
        c.range_if("tail_swing_mm", self.tail_swing_mm, 0.0, 5_000.0);
        c.range_if("approach_deg", self.approach_deg, 0.0, 60.0);
        c.range_if("departure_deg", self.departure_deg, 0.0, 60.0);
        c.range_if("breakover_deg", self.breakover_deg, 0.0, 90.0);
        c.range_if("ramp_percent", self.ramp_percent, 0.0, 50.0);
        c.range_if("bump_height_mm", self.bump_height_mm, 0.0, 1_000.0);
        c.range_if("bump_length_mm", self.bump_length_mm, 50.0, 50_000.0);
    }
}
