//! Forces that hold a truck back: rolling, air, slope.
//!
//! 40 CFR 1036.545(f): F = m g (Crr cos θ + sin θ) + ρ/2 · CdA · v². Wind is added to the speed in the
//! air term. Rolling resistance does not change with speed or temperature.

use crate::numeric::sqrt;

/// Standard gravity, metre per second squared.
pub const GRAVITY: f64 = crate::quantity::N_PER_KG;

/// What holds the truck back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resistance {
    /// Mass that rolls, kilogram.
    pub mass_kg: f64,
    /// Rolling coefficient, newton per newton.
    pub rolling: f64,
    /// Drag area, square metre: coefficient times frontal area.
    pub drag_area_m2: f64,
}

/// The three forces, newton; negative ones push.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Forces {
    /// Rolling.
    pub rolling_n: f64,
    /// Air.
    pub air_n: f64,
    /// Slope.
    pub slope_n: f64,
}

impl Forces {
    /// Sum.
    #[must_use]
    pub fn sum_n(&self) -> f64 {
        self.rolling_n + self.air_n + self.slope_n
    }
}

impl Resistance {
    /// Forces at a speed (m/s, not negative), on a grade (fraction), in air of a density, against a
    /// headwind (m/s). A truck that stands does not roll: rolling is then only what holds it.
    #[must_use]
    pub fn forces(&self, speed_mps: f64, grade: f64, air_kg_m3: f64, headwind_mps: f64) -> Forces {
        let cosine = 1.0 / sqrt(1.0 + grade * grade);
        let weight = self.mass_kg * GRAVITY;
        let air = speed_mps + headwind_mps;
        Forces {
            rolling_n: weight * self.rolling * cosine,
            air_n: 0.5 * air_kg_m3 * self.drag_area_m2 * air * air.abs(),
            slope_n: weight * grade * cosine,
        }
    }
}
