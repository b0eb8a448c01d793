//! A vehicle that is nothing but a row of axles under the US law.

use super::yard;
use axlewright_core::chassis::Group;
use axlewright_core::law::Regime;
use axlewright_core::library::Library;
use axlewright_core::shared::Shared;
use axlewright_core::vehicle::Vehicle;

/// Kilograms in a pound.
pub const LB: f64 = yard::KG_PER_LB;
/// Millimetres in a foot.
pub const FT: f64 = 12.0 * yard::MM_PER_IN;

thread_local! {
    static LIBRARY: Library = Library::shipped();
}

pub fn law() -> Shared<Regime> {
    LIBRARY.with(|library| library.laws["us-interstate"].clone())
}

/// Axles at these places, each a group of its own.
pub fn standing(at_ft: &[f64], allowance: bool) -> Vehicle {
    let mut vehicle = yard::resolve(&yard::plan(yard::bare()));
    let model = vehicle.chassis.axles[0].clone();
    let group = vehicle.chassis.groups[0].clone();
    (vehicle.chassis.axles, vehicle.chassis.groups) = at_ft
        .iter()
        .zip(1..)
        .map(|(ft, number)| {
            let mut axle = model.clone();
            axle.id = format!("axle-{number}");
            axle.x_mm = ft * FT;
            let group = Group {
                id: format!("group-{number}"),
                axles: vec![axle.id.clone()],
                ..group.clone()
            };
            (axle, group)
        })
        .unzip();
    vehicle.law = Some(law());
    vehicle.allowance = allowance;
    vehicle
}
