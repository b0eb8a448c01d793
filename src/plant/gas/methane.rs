//! Methane: the reference equation of state, its residual Helmholtz energy only.
//!
//! U. Setzmann, W. Wagner, "A new equation of state and tables of thermodynamic properties for
//! methane", J. Phys. Chem. Ref. Data 20, 1061 (1991); coefficients as an open fluid-property
//! library ships them. Pressure p = ρ R T (1 + δ ∂αʳ/∂δ); the density is found by halving.

use crate::numeric::{bisect, exp, pow};

/// n, power of δ, power of τ, power of δ in the exponential (0: none).
const TERMS: [(f64, f64, f64, f64); 36] = [
    (0.043_679_010_28, 1.0, -0.5, 0.0),
    (0.670_923_619_9, 1.0, 0.5, 0.0),
    (-1.765_577_859, 1.0, 1.0, 0.0),
    (0.858_233_024_1, 2.0, 0.5, 0.0),
    (-1.206_513_052, 2.0, 1.0, 0.0),
    (0.512_046_722, 2.0, 1.5, 0.0),
    (-4.000_010_791e-4, 2.0, 4.5, 0.0),
    (-0.012_478_424_23, 3.0, 0.0, 0.0),
    (0.031_002_697_01, 4.0, 1.0, 0.0),
    (1.754_748_522e-3, 4.0, 3.0, 0.0),
    (-3.171_921_605e-6, 8.0, 1.0, 0.0),
    (-2.240_346_84e-6, 9.0, 3.0, 0.0),
    (2.947_056_156e-7, 10.0, 3.0, 0.0),
    (0.183_048_790_9, 1.0, 0.0, 1.0),
    (0.151_188_367_9, 1.0, 1.0, 1.0),
    (-0.428_936_387_7, 1.0, 2.0, 1.0),
    (0.068_940_024_46, 2.0, 0.0, 1.0),
    (-0.014_083_139_96, 4.0, 0.0, 1.0),
    (-0.030_630_548_3, 5.0, 2.0, 1.0),
    (-0.029_699_067_08, 6.0, 2.0, 1.0),
    (-0.019_320_408_31, 1.0, 5.0, 2.0),
    (-0.110_573_995_9, 2.0, 5.0, 2.0),
    (0.099_525_489_95, 3.0, 5.0, 2.0),
    (8.548_437_825e-3, 4.0, 2.0, 2.0),
    (-0.061_505_556_62, 4.0, 4.0, 2.0),
    (-0.042_917_924_23, 3.0, 12.0, 3.0),
    (-0.018_132_072_9, 5.0, 8.0, 3.0),
    (0.034_459_047_6, 5.0, 10.0, 3.0),
    (-2.385_919_45e-3, 8.0, 10.0, 3.0),
    (-0.011_590_949_39, 2.0, 10.0, 4.0),
    (0.066_416_936_02, 3.0, 14.0, 4.0),
    (-0.023_715_495_9, 4.0, 12.0, 4.0),
    (-0.039_616_249_05, 4.0, 18.0, 4.0),
    (-0.013_872_920_44, 4.0, 22.0, 4.0),
    (0.033_894_895_99, 5.0, 18.0, 4.0),
    (-2.927_378_753e-3, 6.0, 14.0, 4.0),
];

/// n, power of δ, power of τ, η, β, γ; ε is 1.
const BELLS: [(f64, f64, f64, f64, f64, f64); 4] = [
    (9.324_799_946e-5, 2.0, 2.0, 20.0, 200.0, 1.07),
    (-6.287_171_518, 0.0, 0.0, 40.0, 250.0, 1.11),
    (12.710_694_67, 0.0, 1.0, 40.0, 250.0, 1.11),
    (-6.423_953_466, 0.0, 2.0, 40.0, 250.0, 1.11),
];

/// Gaseous methane, 200 to 500 K and up to 100 MPa.
#[derive(Clone, Copy, Debug)]
pub struct Methane;

impl Methane {
    /// Molar mass, kilogram per mole.
    pub const MOLAR_MASS: f64 = 16.0428e-3;
    /// Gas constant of the equation, joule per mole and kelvin.
    pub const GAS_CONSTANT: f64 = 8.314_51;
    /// Critical temperature, kelvin.
    pub const CRITICAL_K: f64 = 190.564;
    /// Critical pressure, megapascal.
    pub const CRITICAL_MPA: f64 = 4.5992;
    /// Critical density, mole per cubic metre.
    const CRITICAL_MOL_M3: f64 = 10_139.128;

    /// Compressibility factor Z = p / (ρ R T); `None` outside the range.
    #[must_use]
    pub fn compressibility(temperature_k: f64, pressure_mpa: f64) -> Option<f64> {
        let inside =
            (200.0..=500.0).contains(&temperature_k) && (1e-6..=100.0).contains(&pressure_mpa);
        if !inside {
            return None;
        }
        let ideal = pressure_mpa * 1e6 / (Self::GAS_CONSTANT * temperature_k);
        let above = |mol_m3: f64| mol_m3 * Self::factor(temperature_k, mol_m3) - ideal;
        let mol_m3 = bisect(above, ideal * 0.3, ideal * 4.0, ideal * 1e-13)?;
        Some(ideal / mol_m3)
    }

    /// Density in kilogram per cubic metre; `None` outside the range.
    #[must_use]
    pub fn density_kg_m3(temperature_k: f64, pressure_mpa: f64) -> Option<f64> {
        let z = Self::compressibility(temperature_k, pressure_mpa)?;
        Some(pressure_mpa * 1e6 * Self::MOLAR_MASS / (z * Self::GAS_CONSTANT * temperature_k))
    }

    /// 1 + δ ∂αʳ/∂δ at a molar density.
    fn factor(temperature_k: f64, mol_m3: f64) -> f64 {
        let delta = mol_m3 / Self::CRITICAL_MOL_M3;
        let tau = Self::CRITICAL_K / temperature_k;
        let mut sum = 1.0;
        for (n, d, t, l) in TERMS {
            let plain = n * pow(delta, d) * pow(tau, t);
            sum += if l == 0.0 {
                plain * d
            } else {
                let power = pow(delta, l);
                plain * exp(-power) * (d - l * power)
            };
        }
        for (n, d, t, eta, beta, gamma) in BELLS {
            let off = delta - 1.0;
            let bell = exp(-eta * off * off - beta * (tau - gamma) * (tau - gamma));
            sum += n * pow(delta, d) * pow(tau, t) * bell * (d - 2.0 * eta * delta * off);
        }
        sum
    }
}
