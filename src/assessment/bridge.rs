//! The bridge groups with what stands on them: the heaviest case of each group.

use crate::legality::{BridgeGroup, RoadAxle, bridge_groups, road_axles};
use crate::loads::{Case, CaseLoads, Loads, PayloadEffect};
use crate::vehicle::Vehicle;

/// A group of consecutive axles in the case in which it weighs most.
#[derive(Clone, Debug, PartialEq)]
pub struct Bridge {
    /// Which case.
    pub case: Case,
    /// The group.
    pub group: BridgeGroup,
}

/// Works out every group of consecutive axles; an empty list when the law has no bridge formula.
///
/// # Errors
/// What is missing.
pub fn bridge(vehicle: &Vehicle, loads: &Loads) -> Result<Vec<Bridge>, String> {
    if vehicle.law.is_none() {
        return Err("the plan names no road law".to_owned());
    }
    if let Some(missing) = &loads.missing {
        return Err(missing.clone());
    }
    let mut heaviest: Vec<Bridge> = Vec::new();
    for case in loads.cases.iter().filter(|c| c.case >= Case::Unladen) {
        if let Some(missing) = &case.missing {
            return Err(missing.clone());
        }
        let now = bridge_groups(vehicle, &on_each_axle(vehicle, case));
        let now = now.into_iter().map(|group| Bridge {
            case: case.case,
            group,
        });
        if heaviest.is_empty() {
            heaviest.extend(now);
            continue;
        }
        for (most, now) in heaviest.iter_mut().zip(now) {
            if now.group.actual_kg > most.group.actual_kg {
                *most = now;
            }
        }
    }
    Ok(heaviest)
}

/// Loads of the axles on the road. The trailer's axles share equally; uncoupled they carry nothing.
fn on_each_axle(vehicle: &Vehicle, case: &CaseLoads) -> Vec<f64> {
    let trailer = on_each_trailer_axle(vehicle, case.trailer_axles_kg.unwrap_or(0.0));
    road_axles(vehicle)
        .iter()
        .map(|axle| {
            if axle.on_trailer {
                return trailer;
            }
            let own = case.axles.iter().find(|a| a.id == axle.id);
            own.map_or(0.0, |a| a.load_kg)
        })
        .collect()
}

fn on_each_trailer_axle(vehicle: &Vehicle, all_kg: f64) -> f64 {
    let count = vehicle.trailer.as_ref().map_or(1, |t| t.trailer.axle_count);
    all_kg / f64::from(count.max(1))
}

/// What each axle on the road carries without payload, and what each kilogram of payload adds to it.
fn effect_on_each_axle(vehicle: &Vehicle, effect: &PayloadEffect) -> Vec<(f64, f64)> {
    let (base, share) = effect.trailer.unwrap_or((0.0, 0.0));
    let trailer = (
        on_each_trailer_axle(vehicle, base),
        on_each_trailer_axle(vehicle, share),
    );
    road_axles(vehicle)
        .iter()
        .map(|axle| {
            if axle.on_trailer {
                return trailer;
            }
            let part = part_of_group(vehicle, axle);
            let group = effect
                .groups
                .iter()
                .find(|g| axle.group.as_ref() == Some(&g.id));
            group.map_or((0.0, 0.0), |g| (g.base_kg * part, g.share * part))
        })
        .collect()
}

/// Which part of its group's load an axle carries, those that are up left out.
fn part_of_group(vehicle: &Vehicle, axle: &RoadAxle) -> f64 {
    let chassis = &vehicle.chassis;
    let Some(group) = chassis
        .groups
        .iter()
        .find(|g| axle.group.as_ref() == Some(&g.id))
    else {
        return 0.0;
    };
    let shares = chassis.shares_down(group, &vehicle.raised);
    let own = group.axles.iter().position(|id| *id == axle.id);
    own.map_or(0.0, |i| shares[i])
}

/// Every bridge group that no other check holds: the group as it is without payload, and what each
/// kilogram of payload adds to it.
pub(super) fn under_payload(vehicle: &Vehicle, effect: &PayloadEffect) -> Vec<(BridgeGroup, f64)> {
    let (base, share): (Vec<f64>, Vec<f64>) =
        effect_on_each_axle(vehicle, effect).into_iter().unzip();
    bridge_groups(vehicle, &base)
        .into_iter()
        .filter(|group| !group.held_elsewhere)
        .map(|group| {
            let share = share[group.range.clone()].iter().sum();
            (group, share)
        })
        .collect()
}
