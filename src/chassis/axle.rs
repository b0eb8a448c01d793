//! Axles, tyres, suspension, and how the axles of a group share what the group carries.

use super::Shape;
use crate::part::ShaftTube;
use crate::source::Checker;
use serde::{Deserialize, Serialize};

/// What an axle does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum AxleKind {
    /// Steered.
    Steer,
    /// Driven.
    Drive,
    /// Carries behind the driven axle, always down.
    Tag,
    /// Carries ahead of the driven axle, always down.
    Pusher,
    /// Can be raised.
    Lift,
}

/// Tyres of one axle.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Tyres {
    /// Size as moulded on the tyre.
    pub size: String,
    /// Twin tyres on each side.
    pub dual: bool,
    /// Static loaded radius.
    pub loaded_radius_mm: f64,
    /// Overall diameter.
    pub diameter_mm: f64,
    /// Section width of one tyre.
    pub width_mm: f64,
    /// Distance between the centres of twin tyres; 0 on single tyres.
    #[serde(default)]
    pub dual_spacing_mm: f64,
    /// Load rating of all tyres of the axle together; unknown is not assessed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rating_axle_kg: Option<f64>,
}

/// Kind of springing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum SuspensionKind {
    /// Leaf springs.
    Leaf,
    /// Air springs with a levelling valve: ride height does not change with load.
    Air,
    /// Rubber or walking beam.
    Beam,
}

/// Suspension of one axle.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Suspension {
    /// Kind of springing.
    pub kind: SuspensionKind,
    /// Vertical rate of the axle (both sides), newton per millimetre.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rate_n_per_mm: Option<f64>,
    /// Wheel travel upward from design height until the stop.
    pub jounce_mm: f64,
    /// Wheel travel downward from design height.
    pub rebound_mm: f64,
    /// Load rating; unknown is not assessed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rating_kg: Option<f64>,
    /// Where it is fixed to the rails, from the axle's centre, rear positive: both spring hangers, or
    /// the hanger of the trailing arm and the air spring. Empty: not known.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub mounts_mm: Vec<f64>,
}

/// One axle of the truck.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Axle {
    /// Identifier: `axle-1`, `axle-2`, … from the front.
    pub id: String,
    /// What it does.
    pub kind: AxleKind,
    /// Position of its centre.
    pub x_mm: f64,
    /// GAWR: gross axle weight rating.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gawr_kg: Option<f64>,
    /// Track: distance between the wheel centres, or the centres of the twin pairs.
    pub track_mm: f64,
    /// Mass that does not ride on the springs: axle, hubs, brakes, wheels, tyres.
    pub unsprung_kg: f64,
    /// Height of the unsprung mass's centre above ground.
    pub unsprung_z_mm: f64,
    /// Largest steering angle of the inner wheel, degrees; 0 when not steered.
    #[serde(default)]
    pub steer_angle_deg: f64,
    /// Largest steering angle of the outer wheel, degrees, where its stop is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub steer_outer_deg: Option<f64>,
    /// Middle of the wheel outside of its steering pivot, at the ground.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub steer_offset_mm: Option<f64>,
    /// Where a driveshaft reaches the axle: x and z of the input yoke's centre.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub input_x_mm: Option<f64>,
    /// Height of the input yoke's centre above ground.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub input_z_mm: Option<f64>,
    /// How far the input's axis falls rearward, degrees: positive when the yoke points up.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub input_down_deg: Option<f64>,
    /// Ratio of the final drive.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ratio: Option<f64>,
    /// The shaft that brings it its torque from the driven axle ahead.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub inter_axle: Option<InterAxle>,
    /// Room that the axle itself takes (beam or housing, tie rod, the shaft to the next axle), tyres left
    /// out, of an axle that stays on the truck. One that may come off is listed under the hardware, with
    /// its shape. Empty: not known, and then what stands in its way is not assessed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub envelope: Vec<Shape>,
    /// Tyres.
    pub tyres: Tyres,
    /// Suspension.
    pub suspension: Suspension,
}

/// The shaft between two driven axles, as the truck maker fitted it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct InterAxle {
    /// The axle ahead, through which the torque comes.
    pub from_axle: String,
    /// x of the joint at the axle ahead.
    pub from_x_mm: f64,
    /// Height of that joint above ground.
    pub from_z_mm: f64,
    /// How far the output's axis falls rearward, degrees.
    pub from_down_deg: f64,
    /// x of the joint at this axle.
    pub to_x_mm: f64,
    /// Height of that joint above ground.
    pub to_z_mm: f64,
    /// How far the input's axis falls rearward, degrees.
    pub to_down_deg: f64,
    /// The shaft itself.
    #[serde(default)]
    pub shaft: ShaftTube,
}

impl InterAxle {
    fn check(&self, c: &mut Checker) {
        c.id("from_axle", &self.from_axle);
        c.range("from_x_mm", self.from_x_mm, -2_000.0, 20_000.0);
        c.range("from_z_mm", self.from_z_mm, 0.0, 2_000.0);
        c.range("from_down_deg", self.from_down_deg, -20.0, 20.0);
        c.range(
            "to_x_mm",
            self.to_x_mm,
            self.from_x_mm.max(-2_000.0),
            20_000.0,
        );
        c.range("to_z_mm", self.to_z_mm, 0.0, 2_000.0);
        c.range("to_down_deg", self.to_down_deg, -20.0, 20.0);
        c.under("shaft", |c| self.shaft.check(c));
    }
}

/// How the axles of a group share the group's load.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Share {
    /// Each axle the same: balancing beam, connected air bags.
    Equal,
    /// Stated fractions, front to rear, adding to 1.
    Split(Vec<f64>),
    /// The group carries this much whatever the load: a lift axle at set air pressure.
    FixedKg(f64),
    /// By the rates of the axles' springs.
    Springs,
}

/// Axles that a rating and a rule treat as one support.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Group {
    /// Identifier.
    pub id: String,
    /// Name for people, such as "steer axle" or "drive tandem".
    pub name: String,
    /// Axles, front to rear.
    pub axles: Vec<String>,
    /// How they share.
    pub share: Share,
    /// Rating of the group; without it the sum of the axles' ratings holds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gawr_kg: Option<f64>,
    /// Where springs that the axles share are fixed to the rails, from the middle of the axles, rear
    /// positive: the saddle of walking beams. It goes before the axles' own mounts.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub mounts_mm: Vec<f64>,
}

/// Most places at which one suspension may be fixed to the rails.
const MOST_MOUNTS: usize = 4;

/// Places of mounts must be near their axles, and no two of them the same.
pub(super) fn check_mounts(c: &mut Checker, mounts_mm: &[f64]) {
    c.count("mounts_mm", mounts_mm.len(), MOST_MOUNTS);
    for (index, x) in mounts_mm.iter().enumerate() {
        c.range(&format!("mounts_mm[{index}]"), *x, -2_000.0, 2_000.0);
    }
    if mounts_mm.windows(2).any(|pair| pair[1] - pair[0] < 10.0) {
        let what = "is not in order from front to rear";
        c.problem("mounts_mm", format!("{mounts_mm:?}"), what, "10 mm apart");
    }
}

impl Axle {
    /// Ranges that a real axle keeps.
    pub(super) fn check(&self, c: &mut Checker) {
        c.id("id", &self.id);
        c.range("x_mm", self.x_mm, -2_000.0, 20_000.0);
        c.range_if("gawr_kg", self.gawr_kg, 100.0, 40_000.0);
        c.range("track_mm", self.track_mm, 500.0, 3_000.0);
        c.range("unsprung_kg", self.unsprung_kg, 0.0, 5_000.0);
        c.range("unsprung_z_mm", self.unsprung_z_mm, 0.0, 2_000.0);
        c.range("steer_angle_deg", self.steer_angle_deg, 0.0, 60.0);
        c.range_if("steer_outer_deg", self.steer_outer_deg, 1.0, 60.0);
        c.range_if("steer_offset_mm", self.steer_offset_mm, -500.0, 500.0);
        c.range_if("input_x_mm", self.input_x_mm, -2_000.0, 20_000.0);
        c.range_if("input_z_mm", self.input_z_mm, 0.0, 2_000.0);
        c.range_if("input_down_deg", self.input_down_deg, -20.0, 20.0);
        c.range_if("ratio", self.ratio, 0.5, 60.0);
        if let Some(shaft) = &self.inter_axle {
            c.under("inter_axle", |c| shaft.check(c));
        }
        c.count("envelope", self.envelope.len(), 20);
        c.each("envelope", &self.envelope, |c, shape| shape.check(c));
        c.under("tyres", |c| {
            let t = &self.tyres;
            c.text("size", &t.size, 40);
            c.range("loaded_radius_mm", t.loaded_radius_mm, 150.0, 1_000.0);
            c.range("diameter_mm", t.diameter_mm, 300.0, 2_000.0);
            c.range("width_mm", t.width_mm, 50.0, 700.0);
            c.range("dual_spacing_mm", t.dual_spacing_mm, 0.0, 600.0);
            c.range_if("rating_axle_kg", t.rating_axle_kg, 100.0, 40_000.0);
        });
        c.under("suspension", |c| {
            let s = &self.suspension;
            c.range_if("rate_n_per_mm", s.rate_n_per_mm, 1.0, 20_000.0);
            c.range("jounce_mm", s.jounce_mm, 0.0, 400.0);
            c.range("rebound_mm", s.rebound_mm, 0.0, 400.0);
            c.range_if("rating_kg", s.rating_kg, 100.0, 40_000.0);
            check_mounts(c, &s.mounts_mm);
        });
    }

    /// Its id as people say it: "axle 2".
    #[must_use]
    pub fn words(&self) -> String {
        self.id.replace('-', " ")
    }

    /// Half-width from the centre line to the outside of the outer tyre.
    #[must_use]
    pub fn outer_half_width_mm(&self) -> f64 {
        self.track_mm / 2.0 + self.tyre_band_mm() / 2.0
    }

    /// Half-width from the centre line to the inside of the inner tyre.
    #[must_use]
    pub fn inner_half_width_mm(&self) -> f64 {
        self.track_mm / 2.0 - self.tyre_band_mm() / 2.0
    }

    /// Width over the tyres of one side.
    #[must_use]
    pub fn tyre_band_mm(&self) -> f64 {
        self.tyres.width_mm
            + if self.tyres.dual {
                self.tyres.dual_spacing_mm
            } else {
                0.0
            }
    }
}

impl Tyres {
    /// Rolling radius: what the tyre travels in one turn over 2π. Radial tyres roll 3.05 times their
    /// diameter (ETRTO standards manual, from memory).
    #[must_use]
    pub fn rolling_radius_mm(&self) -> f64 {
        3.05 * self.diameter_mm / std::f64::consts::TAU
    }
}

impl super::Chassis {
    /// Where a group's load acts: the middle of its axles that are down, or the load-weighted middle
    /// when the shares are stated or follow the springs; of all of them when every one is `up`. `None`
    /// when the group or an axle is unknown.
    #[must_use]
    pub fn group_x_mm(&self, group: &str, up: &[String]) -> Option<f64> {
        let group = self.groups.iter().find(|g| g.id == group)?;
        let mut shares = self.shares_down(group, up);
        if shares.iter().all(|share| *share == 0.0) {
            shares = self.shares(group);
        }
        let mut x = 0.0;
        for (id, share) in group.axles.iter().zip(shares) {
            x += share * self.axles.iter().find(|a| &a.id == id)?.x_mm;
        }
        Some(x)
    }

    /// Fractions in which the axles that are down share a group's load, front to rear, adding to 1. An
    /// axle that is `up` has none, so all are 0 when every axle is.
    #[must_use]
    pub fn shares_down(&self, group: &Group, up: &[String]) -> Vec<f64> {
        let mut shares = self.shares(group);
        let down = |id: &String| !up.contains(id);
        let mut carried = 0.0;
        for (id, share) in group.axles.iter().zip(&mut shares) {
            if down(id) {
                carried += *share;
            } else {
                *share = 0.0;
            }
        }
        // A stated share of nothing cannot hold what the others leave: those that are down share alike.
        if carried <= 0.0 {
            for (id, share) in group.axles.iter().zip(&mut shares) {
                *share = if down(id) { 1.0 } else { 0.0 };
                carried += *share;
            }
        }
        if carried > 0.0 {
            for share in &mut shares {
                *share /= carried;
            }
        }
        shares
    }

    /// Fractions in which the axles of a group share its load, front to rear, adding to 1.
    #[must_use]
    pub fn shares(&self, group: &Group) -> Vec<f64> {
        let count = group.axles.len().max(1);
        #[expect(clippy::cast_precision_loss, reason = "a handful of axles")]
        let equal = vec![1.0 / count as f64; count];
        match &group.share {
            Share::Split(parts) if parts.len() == count => parts.clone(),
            Share::Springs => {
                let rates: Vec<f64> = group
                    .axles
                    .iter()
                    .map(|id| {
                        let axle = self.axles.iter().find(|a| &a.id == id);
                        axle.and_then(|a| a.suspension.rate_n_per_mm).unwrap_or(0.0)
                    })
                    .collect();
                let sum: f64 = rates.iter().sum();
                if sum > 0.0 && rates.iter().all(|rate| *rate > 0.0) {
                    rates.iter().map(|rate| rate / sum).collect()
                } else {
                    equal
                }
            }
            _ => equal,
        }
    }

    /// Mean track of a group's axles that are down, or of all when every one is `up`.
    #[must_use]
    pub fn group_track_mm(&self, group: &str, up: &[String]) -> f64 {
        let Some(group) = self.groups.iter().find(|g| g.id == group) else {
            return 0.0;
        };
        let all_up = group.axles.iter().all(|id| up.contains(id));
        let tracks: Vec<f64> = self
            .axles
            .iter()
            .filter(|a| group.axles.contains(&a.id) && (all_up || !up.contains(&a.id)))
            .map(|a| a.track_mm)
            .collect();
        #[expect(clippy::cast_precision_loss, reason = "a handful of axles")]
        let mean = tracks.iter().sum::<f64>() / tracks.len().max(1) as f64;
        mean
    }
}
