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

/// Temperature at which tanks are rated full: 15 °C.
pub const SETTLED_K: f64 = 288.15;

/// Lower heating value, megajoule per kilogram; natural gas as methane.
#[must_use]
pub const fn heating_value_mj_per_kg(fuel: Fuel) -> f64 {
    match fuel {
        Fuel::Hydrogen => HYDROGEN_MJ_PER_KG,
        Fuel::NaturalGas => METHANE_MJ_PER_KG,
        Fuel::Diesel => DIESEL_MJ_PER_KG,
    }
}

/// Density in kilogram per cubic metre at an absolute pressure; natural gas as pure methane, which
/// is 4 to 10 % less dense than pipeline gas. `None` for a liquid, or outside the equation's range.
#[must_use]
pub fn density_kg_m3(fuel: Fuel, temperature_k: f64, pressure_mpa: f64) -> Option<f64> {
    match fuel {
        Fuel::Hydrogen => Hydrogen::density_kg_m3(temperature_k, pressure_mpa),
        Fuel::NaturalGas => Methane::density_kg_m3(temperature_k, pressure_mpa),
        Fuel::Diesel => None,
    }
}
