//! The truck moving, through the whole planner: a chassis goes in, circles, paths and angles come out.
//! *Published*: `tests/published/turning/cases.toml`. *Second road*: `paths.json` beside it, scipy's.
//! *Hand* and *property*: followed on paper, or true of every truck.

#![allow(clippy::unwrap_used, clippy::panic, clippy::disallowed_methods)] // tests

#[path = "manoeuvre/angles.rs"]
mod angles;
#[path = "manoeuvre/drawn.rs"]
mod drawn;
#[path = "manoeuvre/examples.rs"]
mod examples;
#[path = "manoeuvre/paths.rs"]
mod paths;
#[path = "manoeuvre/properties.rs"]
mod properties;
#[path = "manoeuvre/published.rs"]
mod published;
#[path = "loads/yard.rs"]
mod yard;

use axlewright_core::chassis::{Chassis, Trailer};
use axlewright_core::library::Library;
use axlewright_core::manoeuvre::{Manoeuvre, Turn, Turning, at_outer, manoeuvre};
use axlewright_core::vehicle::Vehicle;

fn library() -> Library {
    let mut library = Library::default();
    library
        .trailers
        .insert("trailer".to_owned(), yard::trailer().into());
    library
}

/// A truck on this chassis, alone.
fn alone(chassis: Chassis) -> Vehicle {
    Vehicle::resolve(&yard::plan(chassis), &library()).unwrap()
}

/// A tractor with a trailer whose one axle stands this far behind the kingpin.
fn coupled(wheelbase_mm: f64, ahead_mm: f64, to_axle_mm: f64, width_mm: f64) -> Vehicle {
    let mut chassis = yard::tractor(wheelbase_mm, ahead_mm);
    chassis.axles[0].steer_angle_deg = 55.0;
    let trailer = Trailer {
        kingpin_to_axles_mm: to_axle_mm,
        axle_spacing_mm: 0.0,
        axle_count: 1,
        rear_mm: to_axle_mm + 1_000.0,
        width_mm,
        ..yard::trailer()
    };
    let mut library = Library::default();
    library.trailers.insert(trailer.id.clone(), trailer.into());
    let mut plan = yard::plan(chassis);
    yard::couple(&mut plan, 0.0);
    let mut vehicle = Vehicle::resolve(&plan, &library).unwrap();
    vehicle.trailer.as_mut().unwrap().articulation_deg = 180.0;
    vehicle
}

fn answers(vehicle: &Vehicle) -> Manoeuvre {
    manoeuvre(vehicle, None)
}

fn lock(vehicle: &Vehicle) -> Turning {
    let turning = manoeuvre(vehicle, None).turning.unwrap();
    (*turning).clone()
}

/// The turn in which this measure of it comes out at `wanted`, by halving the outer radius.
fn turn_with(vehicle: &Vehicle, wanted: f64, measure: impl Fn(&Turn) -> f64) -> (f64, Turn) {
    let lock = lock(vehicle);
    let (mut low, mut high) = (lock.turn.outer_mm, 100_000.0);
    for _ in 0..200 {
        let middle = f64::midpoint(low, high);
        if measure(&at_outer(vehicle, &lock, middle).unwrap()) < wanted {
            low = middle;
        } else {
            high = middle;
        }
    }
    let turn = at_outer(vehicle, &lock, low).unwrap();
    yard::close(measure(&turn), wanted, 1e-6);
    (low, turn)
}
