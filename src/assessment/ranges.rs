//! Range by temperature, new and at the end of life, with the reserve kept.

use super::{Journey, Ready};
use crate::energy::{End, Run, Truck, run};
use crate::plan::Duty;
use crate::source::known;
use serde::Serialize;

/// Temperatures outside, °C.
pub const TEMPERATURES_C: [f64; 4] = [-20.0, 0.0, 20.0, 40.0];
/// Shortest way from which a consumption is told, metres.
pub(super) const TELLING_M: f64 = 1_000.0;
/// What stands in the place of a figure when somebody stopped the computation.
pub(super) const STOPPED: &str = "the computation was stopped";

/// A range and what it costs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Reach {
    /// Range with the reserve kept, metres.
    pub range_m: f64,
    /// Energy for each metre, joule.
    pub per_m_j: f64,
    /// Of it climate of the cab.
    pub climate_j: f64,
    /// Of it heater of the packs.
    pub heater_j: f64,
}

/// Range at one temperature: a figure, or why the truck gives none.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RangeAt {
    /// Air, °C.
    pub temperature_c: f64,
    /// New, packs kept warm at the plug.
    #[serde(serialize_with = "known")]
    pub new: Result<Reach, String>,
    /// At the end of life of packs and source, kept warm.
    #[serde(serialize_with = "known")]
    pub end_of_life: Result<Reach, String>,
    /// New, packs as cold as the air after a night without a plug.
    #[serde(serialize_with = "known")]
    pub soaked: Result<Reach, String>,
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

/// A run that is too short to say anything, and why.
pub(super) fn too_short(run: &Run) -> Option<String> {
    match &run.end {
        End::Cancelled => Some(STOPPED.to_owned()),
        _ if run.distance_m > TELLING_M => None,
        End::Stranded { why } => Some(why.clone()),
        End::Finished => Some("the route is shorter than a kilometre".to_owned()),
    }
}

fn reach(
    journey: &Journey,
    duty: &Duty,
    worn: bool,
    go_on: &mut dyn FnMut(f64) -> bool,
) -> Result<Reach, String> {
    let made = Ready::of(&journey.answers, duty, &journey.once);
    let mut ready = made.map_err(|missing| missing.join("; "))?;
    if worn {
        ready.truck.source = ready.truck.source.map(crate::plant::Source::worn_out);
    }
    let run = run(&ready.truck, &ready.once, &ready.conditions, go_on);
    match too_short(&run) {
        Some(why) => Err(why),
        None => Ok(Reach {
            range_m: range_m(&ready.truck, &run, journey.reserve),
            per_m_j: per_m_j(&run),
            climate_j: run.climate_j / run.distance_m,
            heater_j: run.heater_j / run.distance_m,
        }),
    }
}

/// The table. `go_on` hears how much of it is done and may stop it.
#[must_use]
pub fn ranges(journey: &Journey, go_on: &mut dyn FnMut(f64) -> bool) -> Vec<RangeAt> {
    let all = 3.0 * TEMPERATURES_C.len() as f64;
    let mut done = 0.0;
    let mut at = |temperature_c: f64, health: f64, soaked: bool| {
        let duty = Duty {
            temperature_c: Some(temperature_c),
            health: Some(health),
            soaked,
            trips_a_day: None,
            ..journey.answers.vehicle.duty.clone()
        };
        let mut part = |share: f64| go_on((done + share) / all);
        let found = reach(journey, &duty, health < 1.0, &mut part);
        done += 1.0;
        found
    };
    TEMPERATURES_C
        .into_iter()
        .map(|temperature_c| RangeAt {
            temperature_c,
            new: at(temperature_c, 1.0, false),
            end_of_life: at(temperature_c, Duty::END_HEALTH, false),
            soaked: at(temperature_c, 1.0, true),
        })
        .collect()
}
