//! What a truck can do without a route: start, climb, hold a speed, reach a speed.

use crate::energy::{Gait, Sprint, Truck, sprint};
use crate::route::Route;
use serde::Serialize;

/// State of charge from which speeds and grades are worked out.
pub(super) const HALF_FULL: f64 = 0.5;
/// Speeds at which the steepest grade is told, metres per second: 50, 80 and 105 km/h.
const SPEEDS_MPS: [f64; 3] = [50.0 / 3.6, 80.0 / 3.6, 105.0 / 3.6];

/// What the truck does without a route.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Grades {
    /// Steepest grade on which it starts, fraction.
    pub launch: Option<f64>,
    /// Most pull at a standstill, newton, and what the grip allows.
    pub launch_n: f64,
    /// Grip on the driven axles, newton.
    pub grip_n: f64,
    /// Speed held on 3 %, seconds long and without end, m/s.
    pub on_3: (Option<f64>, Option<f64>),
    /// Speed held on 6 %, seconds long and without end, m/s.
    pub on_6: (Option<f64>, Option<f64>),
    /// Top speed on the level, without end, m/s.
    pub top: Option<f64>,
    /// Steepest grade at a speed: m/s, fraction seconds long and without end.
    pub at_speed: [(f64, Option<f64>, Option<f64>); 3],
    /// From a standstill.
    pub sprint: Sprint,
}

impl Grades {
    /// Works them out at the weather of a route, packs at half charge.
    #[must_use]
    pub fn of(truck: &Truck, route: &Route, pack_c: f64) -> Self {
        let air = route.weather.air_kg_m3();
        let held = |grade: f64| {
            let at = |gait| truck.held_speed_mps(grade, gait, air, pack_c, HALF_FULL);
            (at(Gait::Peak), at(Gait::Continuous))
        };
        let climbs = |v: f64| {
            let at = |gait| truck.grade_at(v, gait, air, pack_c, HALF_FULL);
            (v, at(Gait::Peak), at(Gait::Continuous))
        };
        Self {
            launch: truck.launch_grade(pack_c, HALF_FULL),
            launch_n: truck.most_pull_n(0.0, Gait::Peak, pack_c, HALF_FULL).0,
            grip_n: truck.grip_n(),
            on_3: held(0.03),
            on_6: held(0.06),
            top: held(0.0).1,
            at_speed: SPEEDS_MPS.map(climbs),
            sprint: sprint(truck, pack_c, HALF_FULL, route.weather.temperature_c),
        }
    }
}
