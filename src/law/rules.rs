//! The kinds of rule that a law is made of.

use super::Figure;
use crate::source::{Checker, Source};
use serde::{Deserialize, Serialize};

/// What a rule speaks of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Of {
    /// The truck or tractor.
    MotorVehicle,
    /// The trailer.
    Trailer,
    /// Truck and trailer together.
    Combination,
}

/// Which distance sorts axles into a step.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Measured {
    /// From the first axle to the last.
    FirstToLast,
    /// The least between neighbours.
    #[default]
    Between,
}

/// What axles of a step count as.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Class {
    /// One single axle.
    SingleAxle,
    /// A tandem.
    #[default]
    Tandem,
    /// A tridem.
    Tridem,
}

/// One step of a table by axle distance. It begins where the step before ends.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// Distances less than this.
    #[serde(default, skip_serializing_if = "Figure::is_blank")]
    pub below: Figure,
    /// Distances up to and with this. Without either, every distance.
    #[serde(default, skip_serializing_if = "Figure::is_blank")]
    pub to: Figure,
    /// What the axles count as.
    #[serde(default)]
    pub counts_as: Class,
    /// What they may weigh together.
    #[serde(default, skip_serializing_if = "Figure::is_blank")]
    pub limit: Figure,
    /// What they may weigh when every driven axle has twin tyres and air suspension.
    #[serde(default, skip_serializing_if = "Figure::is_blank")]
    pub road_friendly: Figure,
}

/// Axles that stand so close that the law limits them together.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Group {
    /// Name for people, such as "tandem of a trailer".
    pub name: String,
    /// On what; axles of truck and trailer alike where left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<Of>,
    /// How many axles; any number from two on where left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub axles: Option<u32>,
    /// Which distance counts.
    #[serde(default)]
    pub measured: Measured,
    /// Who says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<Source>,
    /// Steps by distance, shortest first.
    pub step: Vec<Step>,
}

/// Slack for lengths that come out of millimetres: far below what anybody measures.
const SLACK_MM: f64 = 2.5e-5;

impl Step {
    fn holds(&self, mm: f64) -> bool {
        self.below.mm().is_none_or(|end| mm < end - SLACK_MM)
            && self.to.mm().is_none_or(|end| mm <= end + SLACK_MM)
    }

    fn end_mm(&self) -> f64 {
        let end = self.below.mm().or(self.to.mm());
        end.unwrap_or(f64::INFINITY)
    }
}

impl Group {
    /// The step in which this distance falls.
    #[must_use]
    pub fn step(&self, mm: f64) -> Option<&Step> {
        self.step.iter().find(|step| step.holds(mm))
    }

    /// Steps must not fall: more room never allows less.
    pub(super) fn check(&self, c: &mut Checker) {
        c.text("name", &self.name, 120);
        for (index, pair) in self.step.windows(2).enumerate() {
            let [one, next] = pair else { continue };
            let at = format!("step[{}]", index + 1);
            if next.end_mm() < one.end_mm() {
                let hint = "shortest distance first";
                c.problem(&at, next.end_mm(), "ends before the step ahead of it", hint);
            }
            if let (Some(less), Some(more)) = (one.limit.kg(), next.limit.kg())
                && more < less - 1e-6
            {
                let hint = "more room never allows less";
                c.problem(
                    &at,
                    next.limit.words(),
                    "is less than for axles that stand closer",
                    hint,
                );
            }
        }
    }
}

/// A gross weight and whom it is for.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Gross {
    /// Name for people; "gross weight" where left out.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Truck alone or combination; either where left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<Of>,
    /// Number of axles of the truck on the road.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub truck_axles: Option<u32>,
    /// Number of axles of the trailer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trailer_axles: Option<u32>,
    /// Least number of axles in all.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub axles_from: Option<u32>,
    /// Least number of steered axles.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub steered_from: Option<u32>,
    /// The trailer's axles stand farther apart than this.
    #[serde(default, skip_serializing_if = "Figure::is_blank")]
    pub trailer_above: Figure,
    /// Every driven axle has twin tyres and air suspension.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub road_friendly: bool,
    /// Containers in intermodal transport.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub intermodal: bool,
    /// The limit.
    #[serde(default, skip_serializing_if = "Figure::is_blank")]
    pub limit: Figure,
}

/// Limits by the width of the tyres: each axle may carry so much for each unit of the width of all its
/// tyres together.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct TyreWidth {
    /// On steered axles.
    #[serde(default, skip_serializing_if = "Figure::is_blank")]
    pub steered: Figure,
    /// On the others.
    #[serde(default, skip_serializing_if = "Figure::is_blank")]
    pub others: Figure,
    /// Federal floor: states may not set less for axles that are not steered.
    #[serde(default, skip_serializing_if = "Figure::is_blank")]
    pub floor: Figure,
    /// Federal floor: states may not set less for the steer axle, or its rating if that is lower.
    #[serde(default, skip_serializing_if = "Figure::is_blank")]
    pub steer_axle_floor: Figure,
}

/// A least part of a weight.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Share {
    /// The part, 0 to 1.
    pub least: f64,
    /// Who says so.
    pub source: Source,
}

macro_rules! sizes {
    ($($(#[$doc:meta])* $field:ident, $label:literal;)*) => {
        /// Lengths, width, height and radii; what is left out is not limited by this law.
        #[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
        #[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
        #[serde(deny_unknown_fields)]
        pub struct Sizes { $(
            $(#[$doc])*
            #[serde(default, skip_serializing_if = "Figure::is_blank")]
            pub $field: Figure,
        )* }

        impl Sizes {
            /// Every size with its key and its name.
            pub(super) fn each(&mut self) -> Vec<(&'static str, &'static str, &mut Figure)> {
                vec![$((stringify!($field), $label, &mut self.$field),)*]
            }
        }
    };
}

sizes! {
    /// Overall width.
    width, "Width";
    /// Overall width of bodies with thick insulated walls.
    width_conditioned, "Width, insulated body";
    /// Overall height.
    height, "Height";
    /// Length of a truck without trailer.
    motor_vehicle, "Length, truck";
    /// Length of a tractor with semi-trailer.
    articulated, "Length, tractor and trailer";
    /// Length of a truck with drawbar trailer.
    road_train, "Length, drawbar combination";
    /// Length of a semi-trailer.
    trailer, "Length, trailer";
    /// Kingpin to the rear end of the trailer.
    kingpin_to_rear, "Kingpin to rear end";
    /// Kingpin to the trailer's rearmost axle.
    kingpin_to_rear_axle, "Kingpin to rearmost axle";
    /// Kingpin to any point of the trailer's front.
    kingpin_to_front, "Kingpin to front corner";
    /// Radius that the outermost point may reach in a full circle.
    turning_outer, "Turning circle, outer radius";
    /// Radius that the innermost point must stay outside of.
    turning_inner, "Turning circle, inner radius";
    /// Least distance from a truck's rear axle to the first of a drawbar trailer.
    axle_gap, "Truck to drawbar trailer, axles (least)";
    /// Loading length of a drawbar combination.
    loading_length, "Loading length, drawbar combination";
    /// Front of the loading space to the rear, drawbar combination.
    loading_to_rear, "Loading space to rear, drawbar combination";
}
