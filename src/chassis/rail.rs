//! The frame rails: their section, and the plates and liners that stiffen them.

use crate::source::{Checker, Source};
use serde::{Deserialize, Serialize};

/// Section of one frame rail: a channel, open side inward.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Rail {
    /// Height of the channel.
    pub depth_mm: f64,
    /// Width of the flanges; of the smaller one where they differ.
    pub flange_mm: f64,
    /// Thickness of web and flanges.
    pub wall_mm: f64,
    /// Yield strength in megapascal; unknown is not assessed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub yield_mpa: Option<f64>,
    /// Section modulus of one rail as its maker publishes it, mm³; worked out from the channel when
    /// not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub section_modulus_mm3: Option<f64>,
    /// x where the rails begin.
    pub front_x_mm: f64,
}

impl Rail {
    /// Density of steel, kg/m³ (common handbook value).
    pub const STEEL_KG_PER_M3: f64 = 7850.0;
    /// What round corners leave of a square-cornered channel's section modulus (a European truck
    /// maker's guidelines for bodybuilders, heavy range, 2019, section 3.1, read).
    pub const ROUND_CORNERS: f64 = 0.95;

    /// The channel alone.
    #[must_use]
    pub const fn profile(&self) -> Profile {
        Profile::Channel {
            depth_mm: self.depth_mm,
            flange_mm: self.flange_mm,
            wall_mm: self.wall_mm,
        }
    }

    /// Second moment of area of one rail, mm⁴: as published, else from the channel, corners rounded.
    #[must_use]
    pub fn inertia_mm4(&self) -> f64 {
        match self.section_modulus_mm3 {
            Some(z) => z * self.depth_mm / 2.0,
            None => self.profile().inertia_mm4() * Self::ROUND_CORNERS,
        }
    }

    /// Mass of both rails per metre of length, from the section, in kg/m.
    #[must_use]
    pub fn both_kg_per_m(&self) -> f64 {
        2.0 * self.profile().area_mm2() * 1e-6 * Self::STEEL_KG_PER_M3
    }

    pub(super) fn check(&self, c: &mut Checker) {
        c.range("depth_mm", self.depth_mm, 80.0, 500.0);
        c.range("flange_mm", self.flange_mm, 20.0, 200.0);
        c.range("wall_mm", self.wall_mm, 2.0, 30.0);
        c.range_if("yield_mpa", self.yield_mpa, 150.0, 1_500.0);
        c.range_if(
            "section_modulus_mm3",
            self.section_modulus_mm3,
            1e3,
            5_000_000.0,
        );
        c.range("front_x_mm", self.front_x_mm, -3_000.0, 1_000.0);
    }
}

/// Section of a rail or of what stiffens it, symmetrical about the rail's half height.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Profile {
    /// A channel: a liner inside the rail, or an outer channel around it.
    Channel {
        /// Height.
        depth_mm: f64,
        /// Width of the flanges.
        flange_mm: f64,
        /// Thickness.
        wall_mm: f64,
    },
    /// An upright plate on the web, at half height.
    Plate {
        /// Height.
        depth_mm: f64,
        /// Thickness.
        wall_mm: f64,
    },
}

impl Profile {
    /// Height, mm.
    #[must_use]
    pub const fn depth_mm(&self) -> f64 {
        match self {
            Self::Channel { depth_mm, .. } | Self::Plate { depth_mm, .. } => *depth_mm,
        }
    }

    /// Area with square corners, mm².
    #[must_use]
    pub fn area_mm2(&self) -> f64 {
        match *self {
            Self::Channel {
                depth_mm: d,
                flange_mm: b,
                wall_mm: t,
            } => d * t + 2.0 * (b - t) * t,
            Self::Plate {
                depth_mm: d,
                wall_mm: t,
            } => d * t,
        }
    }

    /// Second moment of area about the half height with square corners, mm⁴: the outer rectangle less
    /// the inner one (handbook formula).
    #[must_use]
    pub fn inertia_mm4(&self) -> f64 {
        match *self {
            Self::Channel {
                depth_mm: d,
                flange_mm: b,
                wall_mm: t,
            } => (b * d.powi(3) - (b - t).max(0.0) * (d - 2.0 * t).max(0.0).powi(3)) / 12.0,
            Self::Plate {
                depth_mm: d,
                wall_mm: t,
            } => t * d.powi(3) / 12.0,
        }
    }

    /// Section modulus with square corners, mm³; round corners leave 5 to 6.5 % less.
    #[must_use]
    pub fn square_modulus_mm3(&self) -> f64 {
        2.0 * self.inertia_mm4() / self.depth_mm()
    }
}

/// A plate or liner on both rails, along a part of their length.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Reinforcement {
    /// Name for people.
    pub name: String,
    /// Where it begins, behind the front axle.
    pub from_x_mm: f64,
    /// Where it ends.
    pub to_x_mm: f64,
    /// Its section.
    pub profile: Profile,
    /// Its own yield strength in megapascal; the rail's when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub yield_mpa: Option<f64>,
    /// Where the figures come from.
    #[serde(default)]
    pub source: Source,
}

impl Reinforcement {
    pub(crate) fn check(&self, c: &mut Checker) {
        c.text("name", &self.name, 120);
        c.range("from_x_mm", self.from_x_mm, -3_000.0, 20_000.0);
        let from = self.from_x_mm.max(-3_000.0);
        c.range("to_x_mm", self.to_x_mm, from, 20_000.0);
        c.range_if("yield_mpa", self.yield_mpa, 150.0, 1_500.0);
        c.under("profile", |c| match self.profile {
            Profile::Channel {
                depth_mm,
                flange_mm,
                wall_mm,
            } => {
                c.range("channel.depth_mm", depth_mm, 50.0, 500.0);
                c.range("channel.flange_mm", flange_mm, 10.0, 200.0);
                c.range("channel.wall_mm", wall_mm, 1.0, 30.0);
            }
            Profile::Plate { depth_mm, wall_mm } => {
                c.range("plate.depth_mm", depth_mm, 20.0, 500.0);
                c.range("plate.wall_mm", wall_mm, 1.0, 40.0);
            }
        });
    }

    /// What becomes of it when the rails are cut and drawn apart (or together) by `by_mm`: the piece
    /// that is put in has none of it.
    pub(super) fn stretched(&self, by_mm: f64, splice_x_mm: f64) -> Vec<Self> {
        let piece = |from: f64, to: f64| {
            (to > from).then(|| Self {
                from_x_mm: from,
                to_x_mm: to,
                ..self.clone()
            })
        };
        let ahead = piece(self.from_x_mm, self.to_x_mm.min(splice_x_mm));
        let cut = splice_x_mm.max(splice_x_mm - by_mm);
        let behind = piece(self.from_x_mm.max(cut) + by_mm, self.to_x_mm + by_mm);
        ahead.into_iter().chain(behind).collect()
    }
}
