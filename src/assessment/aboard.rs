//! What is carried over a day: the plan's load, and what the stops put on and take off.

use crate::loads::{Case, CaseLoads};
use crate::route::Route;
use crate::vehicle::Vehicle;

/// Least change that counts, kilogram: sums of stops that cancel leave a rounding.
const LEAST_KG: f64 = 1e-6;

/// The load over a day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Aboard {
    /// At the start, kilogram.
    pub start_kg: f64,
    /// The most at any time, kilogram.
    pub most_kg: f64,
    /// Stop from which it is the most, metres from the start of the day; `None` when it is so from the
    /// start.
    pub most_from_m: Option<f64>,
}

impl Aboard {
    /// Follows the load from stop to stop through all trips of a day.
    ///
    /// # Errors
    /// When more is taken off than is carried, in words.
    pub fn of(
        vehicle: &Vehicle,
        case: &CaseLoads,
        once: &Route,
        trips: u32,
    ) -> Result<Self, String> {
        let start_kg = start_kg(vehicle, case);
        let mut most = (start_kg, None);
        let (mut load_kg, mut least_kg) = (start_kg, start_kg);
        for trip in 0..trips {
            let trip_m = f64::from(trip) * once.length_m();
            for stop in once.stops() {
                load_kg += stop.load_kg;
                least_kg = least_kg.min(load_kg);
                if load_kg > most.0 + LEAST_KG {
                    most = (load_kg, Some(trip_m + stop.at_m));
                }
            }
        }
        if least_kg < -LEAST_KG {
            return Err(format!(
                "the route takes {:.0} kg off over the day, the truck carries {start_kg:.0} kg",
                start_kg - least_kg
            ));
        }
        Ok(Self {
            start_kg,
            most_kg: most.0,
            most_from_m: most.1,
        })
    }
}

/// Payload in a case, kilogram.
fn start_kg(vehicle: &Vehicle, case: &CaseLoads) -> f64 {
    let own = vehicle.loads.payload.as_ref().map_or(0.0, |p| p.mass_kg);
    let towed = vehicle.trailer.as_ref().map_or(0.0, |t| t.payload_kg);
    match case.case {
        Case::Coupled => towed,
        Case::Laden => own,
        _ => 0.0,
    }
}
