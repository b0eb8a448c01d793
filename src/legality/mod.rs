//! What the road law allows each axle group, the vehicle and the combination to weigh.
//!
//! Single axles, tandems, gross weight, and every group of consecutive axles by the bridge formula;
//! lengths and heights get their place here later. Axles that are up do not count.

mod bridge;

pub use bridge::{BridgeGroup, RoadAxle, Rule, bridge_groups, road_axles, table_lb};

use crate::chassis::Group;
use crate::vehicle::Vehicle;

/// Limit of the law for one axle group of the truck, kg; `None` without a law.
#[must_use]
pub fn group_limit_kg(vehicle: &Vehicle, group: &Group) -> Option<f64> {
    let law = vehicle.law.as_ref()?;
    let shares = vehicle.chassis.shares_down(group, &vehicle.raised);
    let down: Vec<(f64, f64)> = group
        .axles
        .iter()
        .zip(shares)
        .filter(|(id, _)| !vehicle.is_raised(id))
        .filter_map(|(id, share)| vehicle.axle(id).map(|axle| (axle.x_mm, share)))
        .collect();
    let x: Vec<f64> = down.iter().map(|(x, _)| *x).collect();
    law.group_kg(&x, vehicle.allowance).or_else(|| {
        // Too far apart for a tandem: each axle is held to the single limit.
        let single = law.group_kg(&[0.0], vehicle.allowance)?;
        down.iter()
            .filter(|(_, share)| *share > 0.0)
            .map(|(_, share)| single / share)
            .reduce(f64::min)
    })
}

/// Limit of the law for the trailer's axle group, kg; `None` without a law or a trailer.
#[must_use]
pub fn trailer_limit_kg(vehicle: &Vehicle) -> Option<f64> {
    let law = vehicle.law.as_ref()?;
    let trailer = &vehicle.trailer.as_ref()?.trailer;
    let x: Vec<f64> = (0..trailer.axle_count)
        .map(|i| f64::from(i) * trailer.axle_spacing_mm)
        .collect();
    let single = law.group_kg(&[0.0], vehicle.allowance)?;
    Some(
        law.group_kg(&x, vehicle.allowance)
            .unwrap_or(single * f64::from(trailer.axle_count)),
    )
}

/// Limit of the law for the gross weight of truck and trailer, kg; `None` without a law.
#[must_use]
pub fn gross_limit_kg(vehicle: &Vehicle) -> Option<f64> {
    Some(vehicle.law.as_ref()?.gross_kg(vehicle.allowance))
}
