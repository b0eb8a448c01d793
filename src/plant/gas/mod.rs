//! How much gas a tank holds: real densities, absolute pressures.
//!
//! Pressures are absolute, in megapascal; temperatures in kelvin; densities in kilogram per cubic
//! metre. A pressure gauge shows about 0.1 MPa less.

mod hydrogen;
mod methane;
mod mixture;

pub use hydrogen::Hydrogen;
pub use methane::Methane;
pub use mixture::NaturalGas;

use crate::part::Fuel;

/// Lower heating value of hydrogen, megajoule per kilogram (ISO 6976-type value, from memory;
/// 33.32 kWh/kg).
pub const HYDROGEN_MJ_PER_KG: f64 = 119.96;
/// Lower heating value of methane, megajoule per kilogram (from memory; 13.9 kWh/kg).
pub const METHANE_MJ_PER_KG: f64 = 50.0;
/// Lower heating value of diesel fuel, megajoule per kilogram (from memory).
pub const DIESEL_MJ_PER_KG: f64 = 42.8;

/// Lower heating value, megajoule per kilogram; natural gas as methane.
#[must_use]
pub const fn heating_value_mj_per_kg(fuel: Fuel) -> f64 {
    match fuel {
        Fuel::Hydrogen => HYDROGEN_MJ_PER_KG,
        Fuel::NaturalGas => METHANE_MJ_PER_KG,
        Fuel::Diesel => DIESEL_MJ_PER_KG,
    }
}
