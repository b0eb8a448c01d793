//! How long it takes from a standstill to a speed on the level.

use super::outcome::{Conditions, Strategy};
use super::run::run;
use super::truck::Truck;
use super::{Driver, Run};
use crate::route::Route;
use serde::Serialize;

/// 30 and 60 miles an hour, metres per second.
const SPEEDS_MPS: [f64; 2] = [13.411_2, 26.822_4];
/// Length of the level road, metre.
const ROAD_M: f64 = 6_000.0;

/// Times from a standstill, seconds; `None` when the speed is not reached within six kilometres.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Sprint {
    /// To 30 mph (48 km/h).
    pub to_30_mph_s: Option<f64>,
    /// To 60 mph (97 km/h).
    pub to_60_mph_s: Option<f64>,
}

/// Drives a level road as hard as it goes, with full short-time budgets, and reads the times.
#[must_use]
pub fn sprint(truck: &Truck, pack_c: f64, soc: f64, outside_c: f64) -> Sprint {
    let mut route = Route::level(SPEEDS_MPS[1] + 1.0, ROAD_M);
    route.weather.altitude_m = truck.altitude_m;
    route.weather.temperature_c = outside_c;
    let conditions = Conditions {
        step_s: 0.05,
        driver: Driver {
            accelerate: 5.0,
            brake: 5.0,
        },
        soc: Some(soc),
        pack_c,
        strategy: Strategy::Follow { hold: 1.0 },
        ..Conditions::default()
    };
    let driven = run(truck, &route, &conditions, &mut |_| true);
    let [slow, fast] = SPEEDS_MPS.map(|v| reached_s(&driven, v));
    Sprint {
        to_30_mph_s: slow,
        to_60_mph_s: fast,
    }
}

/// When a speed was first reached, straight between two samples.
fn reached_s(driven: &Run, v_mps: f64) -> Option<f64> {
    let mut before = (0.0, 0.0);
    for sample in &driven.samples {
        if sample.v_mps >= v_mps {
            let share = (v_mps - before.1) / (sample.v_mps - before.1).max(1e-9);
            return Some(before.0 + share * (sample.t_s - before.0));
        }
        before = (sample.t_s, sample.v_mps);
    }
    None
}
