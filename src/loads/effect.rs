//! What one more kilogram of payload does to every axle.

use super::case::{payload, payload_point, supports};
use super::{Case, influence};
use crate::geometry::Point;
use crate::plan::PayloadPlace;
use crate::vehicle::Vehicle;

/// Effect on one axle group.
#[derive(Clone, Debug, PartialEq)]
pub struct GroupEffect {
    /// Group id.
    pub id: String,
    /// Load ready for the road without payload.
    pub base_kg: f64,
    /// Load added by each kilogram of payload.
    pub share: f64,
}

/// Effect of payload on the truck and its trailer.
#[derive(Clone, Debug, PartialEq)]
pub struct PayloadEffect {
    /// Each axle group of the truck.
    pub groups: Vec<GroupEffect>,
    /// Truck with driver and, with a trailer, what it carries itself and the empty trailer's kingpin load.
    pub truck_base_kg: f64,
    /// Part of each kilogram that the truck carries.
    pub truck_share: f64,
    /// Kingpin load of the empty trailer, and the part of each kilogram that adds to it.
    pub kingpin: Option<(f64, f64)>,
    /// Load of the trailer's axles when empty, and the part of each kilogram that adds to it.
    pub trailer: Option<(f64, f64)>,
    /// Truck and trailer without payload.
    pub gross_base_kg: f64,
}

/// Works out the effect of payload, where the plan says where it goes: on the trailer, else at the
/// stated place on the truck, else over the middle of its body.
///
/// # Errors
/// What is missing.
pub fn payload_effect(vehicle: &Vehicle) -> Result<PayloadEffect, String> {
    if let Some(missing) = super::missing(vehicle) {
        return Err(missing);
    }
    let chassis = &vehicle.chassis;
    let influence = influence(&supports(vehicle, chassis))?;
    // Tanks as planned, driver aboard, no payload: the state to which payload is added.
    let mut weights = Case::Unladen.weights_with_driver(vehicle);
    if vehicle.trailer.is_some() {
        // The question is the trailer's payload; what the tractor carries itself is there before it.
        weights.extend(payload(vehicle));
    }
    let truck: f64 = weights.iter().map(|w| w.mass_kg).sum();
    let mut mass = truck;
    let mut moment: f64 = weights.iter().map(|w| w.mass_kg * w.at.x).sum();
    let (x, truck_share, kingpin, trailer, gross_base_kg);
    if let Some(t) = &vehicle.trailer {
        let pin = t.tare_on_kingpin_kg();
        let share = t.load_share_on_kingpin();
        x = t.kingpin.x;
        truck_share = share;
        kingpin = Some((pin, share));
        trailer = Some((t.trailer.tare_kg - pin, 1.0 - share));
        gross_base_kg = truck + t.trailer.tare_kg;
        mass += pin;
        moment += pin * x;
    } else {
        x = payload_place(vehicle)?.x;
        truck_share = 1.0;
        (kingpin, trailer) = (None, None);
        gross_base_kg = truck;
    }
    let groups = chassis
        .groups
        .iter()
        .enumerate()
        .map(|(index, group)| GroupEffect {
            id: group.id.clone(),
            base_kg: influence.reaction_kg(index, mass, moment),
            share: truck_share * influence.share(index, x),
        })
        .collect();
    let truck_base_kg = mass;
    Ok(PayloadEffect {
        groups,
        truck_base_kg,
        truck_share,
        kingpin,
        trailer,
        gross_base_kg,
    })
}

/// Where payload on the truck itself goes.
fn payload_place(vehicle: &Vehicle) -> Result<Point, String> {
    if let Some(payload) = &vehicle.loads.payload {
        return Ok(payload_point(&payload.at));
    }
    let Some(body) = &vehicle.chassis.body else {
        return Err("neither a trailer nor a place for payload is stated".to_owned());
    };
    Ok(payload_point(&PayloadPlace::Level {
        front_x_mm: body.front_x_mm,
        rear_x_mm: body.rear_x_mm,
        z_mm: body.floor_z_mm,
    }))
}
