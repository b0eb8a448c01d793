//! Where the fifth wheel may stand so that every axle group stays within its limit.

use super::case::supports;
use super::{Case, influence};
use crate::vehicle::Vehicle;

/// What stops the fifth wheel from going farther.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Binding {
    /// The slider ends here.
    Slider,
    /// This axle group reaches its limit.
    Group(String),
}

/// Positions ahead of the driven axles that keep every group within its limit.
#[derive(Clone, Debug, PartialEq)]
pub struct PositionRange {
    /// Least and largest such distance, mm; `None` when there is no such position.
    pub ahead_mm: Option<(f64, f64)>,
    /// What binds at the low and at the high end.
    pub bound_by: (Binding, Binding),
    /// Groups that are over their limit at every position of the slider.
    pub always_over: Vec<String>,
}

/// Works out the range for the plan's trailer load and these limits (group id, kg).
///
/// # Errors
/// What is missing: a fifth wheel, a trailer, a scale ticket.
pub fn fifth_wheel_range(
    vehicle: &Vehicle,
    limits: &[(String, f64)],
) -> Result<PositionRange, String> {
    let fw = vehicle
        .chassis
        .fifth_wheel
        .as_ref()
        .ok_or("this chassis has no fifth wheel")?;
    let trailer = vehicle.trailer.as_ref().ok_or("no trailer is coupled")?;
    if vehicle.donor.ticket.is_none() {
        return Err("the chassis has no scale ticket".to_owned());
    }
    let influence = influence(&supports(vehicle, &vehicle.chassis))?;
    let weights = Case::Coupled.weights(vehicle);
    let pin = trailer.tare_on_kingpin_kg() + trailer.payload_kg * trailer.load_share_on_kingpin();
    let mass: f64 = weights.iter().map(|w| w.mass_kg).sum::<f64>() + pin;
    let moment: f64 =
        weights.iter().map(|w| w.mass_kg * w.at.x).sum::<f64>() + pin * trailer.kingpin.x;
    // One millimetre ahead moves the kingpin load and the fifth wheel itself forward.
    let moving = pin + fw.mass_kg;
    let mut low = (fw.ahead_min_mm, Binding::Slider);
    let mut high = (fw.ahead_max_mm, Binding::Slider);
    let mut always_over = Vec::new();
    for (index, group) in vehicle.chassis.groups.iter().enumerate() {
        let Some((_, limit)) = limits.iter().find(|(id, _)| id == &group.id) else {
            continue;
        };
        let now = influence.reaction_kg(index, mass, moment);
        let slope = -influence.per_kg_mm[index] * moving;
        let over_at = |ahead: f64| now + slope * (ahead - fw.ahead_mm) > limit + 1e-9;
        if over_at(fw.ahead_min_mm) && over_at(fw.ahead_max_mm) {
            always_over.push(group.id.clone());
        }
        if slope.abs() < 1e-12 {
            continue;
        }
        let edge = fw.ahead_mm + (limit - now) / slope;
        if slope > 0.0 && edge < high.0 {
            high = (edge, Binding::Group(group.id.clone()));
        } else if slope < 0.0 && edge > low.0 {
            low = (edge, Binding::Group(group.id.clone()));
        }
    }
    let possible = always_over.is_empty() && low.0 <= high.0 + 1e-9;
    Ok(PositionRange {
        ahead_mm: possible.then_some((low.0, high.0.max(low.0))),
        bound_by: (low.1, high.1),
        always_over,
    })
}
