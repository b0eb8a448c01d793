//! The groups of axles that the law limits, with what stands on them: the heaviest case of each.

use crate::findings::Severity;
use crate::legality::{BridgeGroup, RoadAxle, bridge_groups, road_axles};
use crate::loads::{Case, CaseLoads, Loads, thin_kg};
use crate::vehicle::Vehicle;

/// A group of consecutive axles in the case in which it weighs most.
#[derive(Clone, Debug, PartialEq)]
pub struct Bridge {
    /// Which case.
    pub case: Case,
    /// The group.
    pub group: BridgeGroup,
    /// One standard deviation of what it weighs, kg.
    pub sigma_kg: f64,
}

impl Bridge {
    /// How the group stands to its limit: the rule of every load on axles.
    #[must_use]
    pub fn severity(&self) -> Severity {
        Severity::of_margin(Some(self.group.margin_kg()), thin_kg(self.sigma_kg))
    }
}

/// Works out every group of consecutive axles that the law limits.
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
        let axles = road_axles(vehicle);
        let now = bridge_groups(vehicle, &on_each_axle(vehicle, &axles, case));
        let now = now.into_iter().map(|group| Bridge {
            case: case.case,
            sigma_kg: case.sigma_on_kg(vehicle, |id| group.axles.iter().any(|a| a == id)),
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
fn on_each_axle(vehicle: &Vehicle, axles: &[RoadAxle], case: &CaseLoads) -> Vec<f64> {
    let trailer = on_each_trailer_axle(vehicle, case.trailer_axles_kg.unwrap_or(0.0));
    axles
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
