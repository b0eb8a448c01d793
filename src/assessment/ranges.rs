//! Range by temperature, new and at the end of life, with the reserve kept.

use super::{Answers, Journey, Ready};
use crate::energy::{Run, Truck, run};
use crate::plan::Duty;
use crate::route::Route;
use serde::Serialize;

/// Temperatures outside, °C.
pub const TEMPERATURES_C: [f64; 4] = [-20.0, 0.0, 20.0, 40.0];
/// Share of the new energy that is left at the end of life.
pub const END_HEALTH: f64 = 0.8;

/// Range at one temperature, metres, and what it costs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RangeAt {
    /// Air, °C.
    pub temperature_c: f64,
    /// New, packs kept warm at the plug.
    pub new_m: f64,
    /// At the end of life of packs and source, kept warm.
    pub end_of_life_m: f64,
    /// New, packs as cold as the air after a night without a plug.
    pub soaked_m: f64,
    /// Energy for each metre when new, joule.
    pub per_m_j: f64,
    /// Of it climate of the cab, heater of the packs.
    pub climate_j: f64,
    /// Heater of the packs when they start as cold as the air, joule for each metre.
    pub soaked_heater_j: f64,
}

/// Energy that a metre cost, joule: what still moves at the end was not used up.
pub(super) fn per_m_j(run: &Run) -> f64 {
    (run.ledger.came_in_j() - run.ledger.motion_j) / run.distance_m.max(1.0)
}

/// How far packs and fuel carry with the reserve kept, metres. The packs count with what can be drawn at
/// the temperature that they have at the end of the run.
pub(super) fn range_m(truck: &Truck, run: &Run, reserve: f64) -> f64 {
    let usable = truck.bank.usable_at_j(run.pack_end_c) * (1.0 - reserve);
    let to_bus = truck
        .source
        .as_ref()
        .map_or(0.0, |s| s.efficiency(0.75 * s.continuous_w));
    (usable + truck.fuel_j * to_bus) / per_m_j(run).max(1.0)
}

fn drive(answers: &Answers, duty: &Duty, route: &Route, worn: bool) -> Option<(Truck, Run)> {
    let mut ready = Ready::of(answers, duty, route).ok()?;
    if worn {
        ready.truck.source = ready.truck.source.map(crate::plant::Source::worn_out);
    }
    let run = run(&ready.truck, &ready.once, &ready.conditions, &mut |_| true);
    // Too short to say anything.
    (run.distance_m > 1_000.0).then_some((ready.truck, run))
}

/// The table; a row is missing where the truck does not drive at that temperature.
#[must_use]
pub fn ranges(journey: &Journey) -> Vec<RangeAt> {
    let (answers, route) = (&journey.answers, &journey.once);
    let at = |temperature_c: f64, health: f64, soaked: bool| {
        let duty = Duty {
            temperature_c: Some(temperature_c),
            health: Some(health),
            soaked,
            trips_a_day: None,
            ..answers.vehicle.duty.clone()
        };
        drive(answers, &duty, route, health < 1.0)
    };
    TEMPERATURES_C
        .into_iter()
        .filter_map(|c| {
            let (truck, new) = at(c, 1.0, false)?;
            let (old_truck, old) = at(c, END_HEALTH, false)?;
            let (cold_truck, cold) = at(c, 1.0, true)?;
            let reach = |truck: &Truck, run: &Run| range_m(truck, run, journey.reserve);
            Some(RangeAt {
                temperature_c: c,
                new_m: reach(&truck, &new),
                end_of_life_m: reach(&old_truck, &old),
                soaked_m: reach(&cold_truck, &cold),
                per_m_j: per_m_j(&new),
                climate_j: (new.climate_j + new.heater_j) / new.distance_m,
                soaked_heater_j: cold.heater_j / cold.distance_m,
            })
        })
        .collect()
}
