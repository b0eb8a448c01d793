//! What the road law allows each axle, each group of axles, the vehicle and the combination to weigh,
//! how long, wide and high they may be, and which parts of the weight must stand where.
//!
//! Every rule is the law's data; axles that are up do not count.

mod axles;
mod bridge;
mod gross;
mod sizes;

pub use axles::{RoadAxle, road_axles};
pub use bridge::{Allowed, BridgeGroup, Rule, bridge_groups, groups_of, held_elsewhere, table_lb};
pub use gross::{
    GrossLimit, allowance, claimed, gross_limit, gross_limit_kg, power, tractor_limit,
};
pub use sizes::{Size, sizes};

use crate::chassis::Group;
use crate::vehicle::Vehicle;

/// Limit of the law for one axle group of the truck, kg: the load at which the first of its axles, or of
/// its sets of neighbouring axles, is full. `None` without a law that limits each of its axles.
#[must_use]
pub fn group_limit_kg(vehicle: &Vehicle, group: &Group) -> Option<f64> {
    let shares = vehicle.chassis.shares_down(group, &vehicle.raised);
    let axles = road_axles(vehicle);
    let members: Vec<(RoadAxle, f64)> = axles
        .into_iter()
        .filter_map(|axle| {
            let index = group.axles.iter().position(|id| *id == axle.id)?;
            Some((axle, shares[index]))
        })
        .collect();
    fullest_kg(vehicle, members)
}

/// Limit of the law for the trailer's axles, which share equally, kg; `None` without a law or a trailer.
#[must_use]
pub fn trailer_limit_kg(vehicle: &Vehicle) -> Option<f64> {
    let share = 1.0 / f64::from(vehicle.trailer.as_ref()?.trailer.axle_count.max(1));
    let axles = road_axles(vehicle).into_iter().filter(|a| a.on_trailer);
    fullest_kg(vehicle, axles.map(|axle| (axle, share)).collect())
}

fn fullest_kg(vehicle: &Vehicle, members: Vec<(RoadAxle, f64)>) -> Option<f64> {
    let allowed = Allowed::to(vehicle)?;
    let (axles, shares): (Vec<RoadAxle>, Vec<f64>) = members.into_iter().unzip();
    let mut least: Option<f64> = None;
    for first in 0..axles.len() {
        for end in first + 1..=axles.len() {
            let share: f64 = shares[first..end].iter().sum();
            let limit = allowed.class_kg(&axles[first..end]);
            // A single axle without a limit leaves the group without one.
            let Some(limit) = limit else {
                if end == first + 1 {
                    return None;
                }
                continue;
            };
            if share > 0.0 {
                least = Some(least.unwrap_or(f64::INFINITY).min(limit / share));
            }
        }
    }
    least
}
