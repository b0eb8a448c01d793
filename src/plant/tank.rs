//! What a tank holds, and how much of it an engine or a cell can have.
//!
//! Full is the stated working pressure at 15 °C (SAE J2601 for hydrogen; common practice for natural
//! gas), taken as an absolute pressure: a gauge shows 0.1 MPa less, which is below half a per cent. What
//! is left at the least pressure stays in the tank, more of it when it is cold. Where a part states a
//! smaller mass or a smaller usable share, that counts.

use super::gas::{Hydrogen, Methane, NaturalGas, heating_value_mj_per_kg};
use crate::part::{Contents, Fuel};

/// Temperature at which a tank counts as full, kelvin.
const FULL_K: f64 = 288.15;
/// Least pressure from which hydrogen and natural gas are used, megapascal (common practice: 20 bar).
pub const LEAST_MPA: f64 = 2.0;
/// By how much a stated mass may exceed what the volume holds, as a share: rounding of the maker's figures
/// (common practice).
pub const ROUNDING: f64 = 0.02;
/// Fastest filling, kilogram per second: hydrogen 60 g/s (SAE J2601, from memory), natural gas 0.4 kg/s (8
/// diesel-gallon equivalents a minute, common practice), diesel 1.2 kg/s (common practice).
const REFILL_KG_S: [f64; 3] = [0.06, 0.4, 1.2];

/// One tank, or one rack of tanks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tank {
    /// Fuel.
    pub fuel: Fuel,
    /// Mass when full, as the part states it, kilogram.
    pub stated_kg: f64,
    /// Mass that its volume holds at its pressure and 15 °C, kilogram; `None` when volume or pressure are
    /// not stated, or no gas.
    pub holds_kg: Option<f64>,
    /// Density when full, kilogram per cubic metre.
    pub full_kg_m3: Option<f64>,
    /// Mass aboard, kilogram.
    pub aboard_kg: f64,
    /// Mass that stays in it, kilogram.
    pub left_kg: f64,
    /// Lower heating value, megajoule per kilogram.
    pub mj_per_kg: f64,
    /// Shortest time to fill what is used, seconds.
    pub refill_s: f64,
}

/// Density of a fuel as a gas, kilogram per cubic metre; `None` for what is none, or out of range.
fn density(fuel: Fuel, mix: Option<&NaturalGas>, kelvin: f64, mpa: f64) -> Option<f64> {
    match (fuel, mix) {
        (Fuel::Hydrogen, _) => Hydrogen::density_kg_m3(kelvin, mpa),
        (Fuel::NaturalGas, None) => Methane::density_kg_m3(kelvin, mpa),
        (Fuel::NaturalGas, Some(gas)) => gas.density_kg_m3(kelvin, mpa),
        (Fuel::Diesel, _) => None,
    }
}

impl Tank {
    /// A tank of these contents, filled to a share, used at an air temperature; natural gas of a mixture,
    /// or as methane.
    #[must_use]
    pub fn of(contents: &Contents, fill: f64, air_c: f64, mix: Option<&NaturalGas>) -> Self {
        let fuel = contents.fuel;
        let volume = contents.water_l.map(|l| l * 1e-3);
        let full_kg_m3 = contents
            .pressure_mpa
            .and_then(|mpa| density(fuel, mix, FULL_K, mpa));
        let holds_kg = volume.zip(full_kg_m3).map(|(v, d)| v * d);
        // No more can be aboard than the volume holds.
        let full_kg = contents.full_kg.min(holds_kg.unwrap_or(f64::INFINITY));
        let aboard_kg = full_kg * fill;
        let stays = density(fuel, mix, (air_c + 273.15).max(200.0), LEAST_MPA);
        let by_pressure = volume.zip(stays).map_or(0.0, |(v, d)| v * d);
        let by_share = full_kg * (1.0 - contents.usable.unwrap_or(1.0));
        let left_kg = by_pressure.max(by_share).min(aboard_kg);
        let [hydrogen, natural_gas, diesel] = REFILL_KG_S;
        let rate = match fuel {
            Fuel::Hydrogen => hydrogen,
            Fuel::NaturalGas => natural_gas,
            Fuel::Diesel => diesel,
        };
        let mj_per_kg = match (fuel, mix) {
            (Fuel::NaturalGas, Some(gas)) => gas.heating_value_mj_per_kg(),
            _ => heating_value_mj_per_kg(fuel),
        };
        Self {
            fuel,
            stated_kg: contents.full_kg,
            holds_kg,
            full_kg_m3,
            aboard_kg,
            left_kg,
            mj_per_kg,
            refill_s: (full_kg - left_kg).max(0.0) / rate,
        }
    }

    /// Mass that can be used, kilogram.
    #[must_use]
    pub fn usable_kg(&self) -> f64 {
        self.aboard_kg - self.left_kg
    }

    /// Energy of it at the lower heating value, joule.
    #[must_use]
    pub fn usable_j(&self) -> f64 {
        self.usable_kg() * self.mj_per_kg * 1e6
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hydrogen(full_kg: f64, usable: Option<f64>) -> Contents {
        Contents {
            fuel: Fuel::Hydrogen,
            full_kg,
            usable,
            water_l: Some(1_320.0),
            pressure_mpa: Some(70.0),
        }
    }

    /// The tank of the published list: 1.32 m³ at 70 MPa holds 53.0 kg, and 2.50 kg stay at 2 MPa and
    /// −20 °C (equation of J. Res. NIST 113, 341, 2008; computed).
    #[test]
    fn real_gas_decides_where_the_part_states_more() {
        let tank = Tank::of(&hydrogen(60.0, None), 1.0, -20.0, None);
        assert!((tank.holds_kg.unwrap() / 53.027_4 - 1.0).abs() < 1e-3);
        assert!((tank.aboard_kg / 53.027_4 - 1.0).abs() < 1e-3);
        assert!((tank.left_kg / 2.496_4 - 1.0).abs() < 1e-3);
        assert!((tank.usable_kg() / 50.531 - 1.0).abs() < 1e-3);
    }

    #[test]
    fn a_smaller_mass_or_share_that_is_stated_counts() {
        let tank = Tank::of(&hydrogen(50.0, Some(0.9)), 1.0, 20.0, None);
        assert!((tank.aboard_kg - 50.0).abs() < 1e-9 && (tank.left_kg - 5.0).abs() < 1e-9);
        // 45 kg at 60 g/s.
        assert!((tank.refill_s - 750.0).abs() < 1e-6);
        let half = Tank::of(&hydrogen(50.0, Some(0.9)), 0.5, 20.0, None);
        assert!((half.usable_kg() - 20.0).abs() < 1e-9);
    }
}
