//! The groups of axles that the law limits, with what stands on them: the heaviest case of each.

use super::Road;
use crate::findings::Severity;
use crate::legality::{Allowed, BridgeGroup, RoadAxle, groups_of};
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
pub fn bridge(vehicle: &Vehicle, loads: &Loads, road: &Road) -> Result<Vec<Bridge>, String> {
    let allowed = Allowed::with(vehicle, road.gross_kg);
    let allowed = allowed.ok_or("the plan names no road law")?;
    if let Some(missing) = &loads.missing {
        return Err(missing.clone());
    }
    let mut cases = Vec::with_capacity(loads.cases.len());
    for case in loads.cases.iter().filter(|c| c.case >= Case::Unladen) {
        if let Some(missing) = &case.missing {
            return Err(missing.clone());
        }
        cases.push((case, on_each_axle(vehicle, &road.axles, case)));
    }
    let groups = groups_of(road.axles.len()).filter_map(|range| {
        let on = |loads: &[f64]| loads[range.clone()].iter().sum::<f64>();
        let heaviest = cases
            .iter()
            .reduce(|a, b| if on(&b.1) > on(&a.1) { b } else { a });
        let (case, loads) = heaviest?;
        let group = allowed.group(&road.axles, range.clone(), &loads[range])?;
        Some(Bridge {
            case: case.case,
            sigma_kg: case.sigma_on_kg(vehicle, |id| group.axles.iter().any(|a| a == id)),
            group,
        })
    });
    Ok(groups.collect())
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
