//! What the truck can do without a route: start on a grade, hold a speed, pull at a speed.

use super::resistance::{GRAVITY, Resistance};
use super::truck::Truck;
use crate::numeric::{bisect, sqrt};
use serde::Serialize;

/// For how long.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum Gait {
    /// For seconds.
    Peak,
    /// Without end.
    Continuous,
}

/// Speed that a wheel power holds on a grade, metre per second: P = F(v) v.
///
/// `None` when the power is not positive.
#[must_use]
pub fn held_speed_mps(
    resistance: &Resistance,
    wheel_w: f64,
    grade: f64,
    air_kg_m3: f64,
) -> Option<f64> {
    let over = |v: f64| resistance.forces(v, grade, air_kg_m3, 0.0).sum_n() * v - wheel_w;
    if wheel_w <= 0.0 || wheel_w.is_nan() {
        return None;
    }
    bisect(over, 0.0, 100.0, 1e-9)
}

/// Steepest grade on which a wheel force starts the truck, as a fraction: sin θ + Crr cos θ = F / m g.
///
/// `None` when it cannot start on the level; infinite force is held to a right angle.
#[must_use]
pub fn launch_grade(resistance: &Resistance, wheel_n: f64) -> Option<f64> {
    let share = wheel_n / (resistance.mass_kg * GRAVITY);
    let c = resistance.rolling;
    if share < c {
        return None;
    }
    // sin θ + c cos θ = share, solved for s = sin θ.
    let square = (1.0 + c * c - share * share).max(0.0);
    let sine = (share - c * sqrt(square)) / (1.0 + c * c);
    Some(sine / sqrt((1.0 - sine * sine).max(1e-12)))
}

/// Power that the bus has, watt.
fn bus_w(truck: &Truck, gait: Gait, temperature_c: f64, soc: f64) -> f64 {
    let peak = if gait == Gait::Peak { 1.0 } else { 0.0 };
    let source = truck
        .source
        .as_ref()
        .map_or(0.0, |s| s.lasting_w(truck.altitude_m));
    truck.bank.most_discharge_w(temperature_c, soc, peak) + source
        - truck.accessories.driving_w
        - truck.accessories.climate_w
}

impl Truck {
    /// Most pull at a speed over all gears, newton, and the gear (from 0) that gives it.
    #[must_use]
    pub fn most_pull_n(
        &self,
        v_mps: f64,
        gait: Gait,
        temperature_c: f64,
        soc: f64,
    ) -> (f64, usize) {
        let peak = if gait == Gait::Peak { 1.0 } else { 0.0 };
        let bus = bus_w(self, gait, temperature_c, soc);
        (0..self.drive.ratios.len())
            .map(|gear| (self.reach(v_mps, gear, peak, bus, 0.0).pull_n, gear))
            .fold(
                (0.0, 0),
                |best, one| if one.0 > best.0 { one } else { best },
            )
    }

    /// Speed that is held on a grade, metre per second; `None` when it cannot move there.
    #[must_use]
    pub fn held_speed_mps(
        &self,
        grade: f64,
        gait: Gait,
        air_kg_m3: f64,
        temperature_c: f64,
        soc: f64,
    ) -> Option<f64> {
        let spare = |v: f64| {
            self.most_pull_n(v, gait, temperature_c, soc).0
                - self.resistance.forces(v, grade, air_kg_m3, 0.0).sum_n()
        };
        // From the top down: the first speed at which pull and resistance meet.
        let top = self.drive.most_rad_s * self.radius_m
            / self.drive.ratios.last().copied().unwrap_or(1.0);
        let steps = 200_u32;
        let at = |i: u32| top * f64::from(i) / f64::from(steps);
        if spare(top * (1.0 - 1e-9)) >= 0.0 {
            return Some(top);
        }
        (0..steps)
            .rev()
            .map(at)
            .find(|v| spare(*v) >= 0.0)
            .map(|v| bisect(spare, v, v + at(1), 1e-9).unwrap_or(v))
    }

    /// Steepest grade that is climbed at a speed, as a fraction; `None` when not even the level is.
    #[must_use]
    pub fn grade_at(
        &self,
        v_mps: f64,
        gait: Gait,
        air_kg_m3: f64,
        temperature_c: f64,
        soc: f64,
    ) -> Option<f64> {
        let pull_n = self.most_pull_n(v_mps, gait, temperature_c, soc).0;
        let air_n = self.resistance.forces(v_mps, 0.0, air_kg_m3, 0.0).air_n;
        launch_grade(&self.resistance, pull_n - air_n)
    }

    /// Steepest grade on which it starts, as a fraction.
    #[must_use]
    pub fn launch_grade(&self, temperature_c: f64, soc: f64) -> Option<f64> {
        launch_grade(
            &self.resistance,
            self.most_pull_n(0.0, Gait::Peak, temperature_c, soc).0,
        )
    }
}

/// One line of the chart of pull against speed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TractionPoint {
    /// Speed, m/s.
    pub v_mps: f64,
    /// Most pull for seconds, newton.
    pub peak_n: f64,
    /// Most pull without end, newton.
    pub continuous_n: f64,
}

/// Pull against speed up to the highest that the gears allow.
#[must_use]
pub fn traction_curve(
    truck: &Truck,
    temperature_c: f64,
    soc: f64,
    points: u32,
) -> Vec<TractionPoint> {
    let least = truck.drive.ratios.last().copied().unwrap_or(1.0);
    let top = truck.drive.most_rad_s * truck.radius_m / least;
    (0..=points)
        .map(|i| {
            let v_mps = top * f64::from(i) / f64::from(points.max(1)) * (1.0 - 1e-9);
            TractionPoint {
                v_mps,
                peak_n: truck.most_pull_n(v_mps, Gait::Peak, temperature_c, soc).0,
                continuous_n: truck
                    .most_pull_n(v_mps, Gait::Continuous, temperature_c, soc)
                    .0,
            }
        })
        .collect()
}
