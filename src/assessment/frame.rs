//! The frame in the load cases of the finished truck: the load answer's axle loads handed on.

use crate::frame::{Frame, Standing, frame};
use crate::loads::{Case, Loads, sharing};
use crate::vehicle::Vehicle;

/// Works out shear and bending in every case of the finished truck.
///
/// # Errors
/// What is missing.
pub fn frame_of(vehicle: &Vehicle, loads: &Loads) -> Result<Frame, String> {
    if let Some(missing) = &loads.missing {
        return Err(missing.clone());
    }
    let mut standing = Vec::new();
    for case in loads.cases.iter().filter(|c| c.case >= Case::Unladen) {
        if let Some(missing) = &case.missing {
            return Err(missing.clone());
        }
        let load = |id: &String| case.axles.iter().find(|a| &a.id == id);
        let axles = vehicle.chassis.axles.iter();
        standing.push(Standing {
            case: case.case,
            axles_kg: axles
                .map(|axle| load(&axle.id).map_or(0.0, |a| a.load_kg))
                .collect(),
            kingpin_kg: case.kingpin_kg.unwrap_or(0.0),
        });
    }
    frame(vehicle, &sharing(vehicle)?, &standing)
}
