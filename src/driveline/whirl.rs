//! The speed at which a turning tube bends away.

use crate::numeric;

/// Factor of the critical speed of a steel tube, rpm·mm: pinned ends, modulus 207 GPa, 7,850 kg/m³
/// (a propshaft maker's technical page, read; the pinned beam's first frequency gives the same to
/// 0.1 %).
const STEEL_RPM_MM: f64 = 1.21e8;
/// Share of the critical speed up to which a vehicle's shaft is used (the same page).
pub const SAFE_SHARE: f64 = 0.70;

/// Critical speed of a steel tube between joints so far apart, rpm: 1.21e8 · √(D² + d²) / L².
#[must_use]
pub fn critical_rpm(outer_mm: f64, inner_mm: f64, length_mm: f64) -> f64 {
    STEEL_RPM_MM * numeric::hypot(outer_mm, inner_mm) / length_mm.powi(2)
}

/// Longest piece of this tube that may turn so fast, mm.
#[must_use]
pub fn longest_mm(outer_mm: f64, inner_mm: f64, rpm: f64) -> f64 {
    numeric::sqrt(SAFE_SHARE * STEEL_RPM_MM * numeric::hypot(outer_mm, inner_mm) / rpm)
}
