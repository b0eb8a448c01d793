//! Hydrogen: the equation for fuel consumption applications.
//!
//! E. W. Lemmon, M. L. Huber, J. W. Leachman, "Revised standardized equation for hydrogen gas
//! densities for fuel consumption applications", J. Res. NIST 113, 341 (2008).
//! Z(T, p) = 1 + Σ aᵢ (100 K / T)^bᵢ (p / 1 MPa)^cᵢ.

use crate::numeric::pow;

#[expect(clippy::approx_constant, reason = "3.14 is the paper's exponent")]
const TERMS: [(f64, f64, f64); 9] = [
    (0.058_884_60, 1.325, 1.0),
    (-0.061_361_11, 1.87, 1.0),
    (-0.002_650_473, 2.5, 2.0),
    (0.002_731_125, 2.8, 2.0),
    (0.001_802_374, 2.938, 2.42),
    (-0.001_150_707, 3.14, 2.63),
    (0.958_852_8e-4, 3.37, 3.0),
    (-0.110_904_0e-6, 3.75, 4.0),
    (0.126_440_3e-9, 4.0, 5.0),
];

/// Gaseous hydrogen, 150 to 1000 K and up to 200 MPa.
#[derive(Clone, Copy, Debug)]
pub struct Hydrogen;

impl Hydrogen {
    /// Molar mass, kilogram per mole.
    pub const MOLAR_MASS: f64 = 2.015_88e-3;
    /// Gas constant of the equation, joule per mole and kelvin.
    pub const GAS_CONSTANT: f64 = 8.314_472;

    /// Compressibility factor Z; `None` outside the equation's range.
    #[must_use]
    pub fn compressibility(temperature_k: f64, pressure_mpa: f64) -> Option<f64> {
        let inside =
            (150.0..=1000.0).contains(&temperature_k) && (0.0..=200.0).contains(&pressure_mpa);
        inside.then(|| {
            1.0 + TERMS
                .iter()
                .map(|(a, b, c)| a * pow(100.0 / temperature_k, *b) * pow(pressure_mpa, *c))
                .sum::<f64>()
        })
    }

    /// Density in kilogram per cubic metre; `None` outside the equation's range.
    ///
    /// ```
    /// use axlewright_core::plant::gas::Hydrogen;
    /// // 70 MPa at 15 °C: 40.2 g/l, what a fuelling standard calls full.
    /// assert!((Hydrogen::density_kg_m3(288.15, 70.0).unwrap() - 40.2).abs() < 0.1);
    /// ```
    #[must_use]
    pub fn density_kg_m3(temperature_k: f64, pressure_mpa: f64) -> Option<f64> {
        let z = Self::compressibility(temperature_k, pressure_mpa)?;
        Some(pressure_mpa * 1e6 * Self::MOLAR_MASS / (z * Self::GAS_CONSTANT * temperature_k))
    }
}
