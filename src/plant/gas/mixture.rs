//! Natural gas of a stated composition, by corresponding states with methane as the reference.
//!
//! W. B. Kay's rule (Ind. Eng. Chem. 28, 1014, 1936): the mixture's pseudo-critical temperature and
//! pressure are the averages by mole fraction; its Z is methane's at the same reduced state. Against a
//! reference mixture model it is within about 1.5 % for pipeline gas between −20 and 60 °C up to 30 MPa
//! (checked in the tests).

use super::Methane;

/// Molar mass kg/mol, critical temperature K, critical pressure MPa, lower heating value MJ/kg (0: does
/// not burn). Critical points as an open fluid-property library ships them; heating values from memory.
const METHANE: [f64; 4] = [16.0428e-3, 190.564, 4.5992, super::METHANE_MJ_PER_KG];
const ETHANE: [f64; 4] = [30.069e-3, 305.322, 4.8722, 47.5];
const PROPANE: [f64; 4] = [44.0956e-3, 369.89, 4.2512, 46.3];
const NITROGEN: [f64; 4] = [28.0135e-3, 126.192, 3.3958, 0.0];
const CARBON_DIOXIDE: [f64; 4] = [44.0098e-3, 304.1282, 7.3773, 0.0];

/// Mole fractions of a natural gas; what is missing to 1 is methane.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct NaturalGas {
    /// Ethane.
    pub ethane: f64,
    /// Propane and what is heavier.
    pub propane: f64,
    /// Nitrogen.
    pub nitrogen: f64,
    /// Carbon dioxide.
    pub carbon_dioxide: f64,
}

impl NaturalGas {
    /// A pipeline gas as is usual (common practice): 4 % ethane, 1 % propane, 1.5 % nitrogen, 1 %
    /// carbon dioxide.
    pub const PIPELINE: Self = Self {
        ethane: 0.04,
        propane: 0.01,
        nitrogen: 0.015,
        carbon_dioxide: 0.01,
    };

    fn shares(&self) -> [(f64, [f64; 4]); 5] {
        let others = self.ethane + self.propane + self.nitrogen + self.carbon_dioxide;
        [
            (1.0 - others, METHANE),
            (self.ethane, ETHANE),
            (self.propane, PROPANE),
            (self.nitrogen, NITROGEN),
            (self.carbon_dioxide, CARBON_DIOXIDE),
        ]
    }

    /// True when no fraction is negative and methane remains the largest.
    #[must_use]
    pub fn is_natural(&self) -> bool {
        self.shares()
            .iter()
            .all(|(share, _)| (0.0..=1.0).contains(share))
            && self
                .shares()
                .first()
                .is_some_and(|(methane, _)| *methane >= 0.5)
    }

    fn averaged(&self, property: usize) -> f64 {
        self.shares()
            .iter()
            .map(|(share, gas)| share * gas.get(property).copied().unwrap_or(0.0))
            .sum()
    }

    /// Molar mass, kilogram per mole.
    #[must_use]
    pub fn molar_mass(&self) -> f64 {
        self.averaged(0)
    }

    /// Lower heating value, megajoule per kilogram.
    #[must_use]
    pub fn heating_value_mj_per_kg(&self) -> f64 {
        let per_mole: f64 = self
            .shares()
            .iter()
            .map(|(share, [molar, _, _, heat])| share * molar * heat)
            .sum();
        per_mole / self.molar_mass()
    }

    /// Density in kilogram per cubic metre; `None` outside the range, or for a mixture that is not
    /// a natural gas.
    #[must_use]
    pub fn density_kg_m3(&self, temperature_k: f64, pressure_mpa: f64) -> Option<f64> {
        if !self.is_natural() {
            return None;
        }
        let same_t = temperature_k * Methane::CRITICAL_K / self.averaged(1);
        let same_p = pressure_mpa * Methane::CRITICAL_MPA / self.averaged(2);
        let z = Methane::compressibility(same_t, same_p)?;
        let rt = Methane::GAS_CONSTANT * temperature_k;
        Some(pressure_mpa * 1e6 * self.molar_mass() / (z * rt))
    }
}
