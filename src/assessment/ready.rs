//! A truck made ready for a route by what the plan's duty says.

use super::{Aboard, Answers};
use crate::energy::{Conditions, Driver, Setting, Strategy, Truck};
use crate::loads::{Case, CaseLoads, loads};
use crate::plan::{self, Duty};
use crate::plant::gas::NaturalGas;
use crate::route::Route;
use crate::source::{Basis, Source};
use crate::vehicle::Vehicle;

/// Coldest that packs are allowed to start: they are kept warm at the plug (common practice), °C.
const PACK_START_C: f64 = 15.0;
/// Step of the time loop, seconds.
const STEP_S: f64 = 0.25;
/// A load that is taken off to see what the driven axles feel of it, kilogram.
const TRIAL_KG: f64 = 100.0;

/// Truck, route and conditions, before anything is driven.
#[derive(Clone, Debug)]
pub struct Ready {
    /// The truck, at the plan's state of health.
    pub truck: Truck,
    /// One trip, with the plan's weather.
    pub once: Route,
    /// Trips of the day.
    pub trips: u32,
    /// Load case.
    pub case: &'static str,
    /// What is carried over the day.
    pub aboard: Aboard,
    /// Resistances: drag area, rolling, and who says so.
    pub resistance: (f64, f64, Source),
    /// How it begins.
    pub conditions: Conditions,
}

impl Ready {
    /// Makes a truck ready.
    ///
    /// # Errors
    /// What is missing, in words.
    pub fn of(answers: &Answers, duty: &Duty, route: &Route) -> Result<Self, Vec<String>> {
        Self::with(&answers.vehicle, answers.heaviest(), duty, route)
    }

    /// The same of a vehicle and its heaviest case, where the other answers are not wanted.
    ///
    /// # Errors
    /// What is missing, in words.
    pub fn with(
        vehicle: &Vehicle,
        heaviest: Option<&CaseLoads>,
        duty: &Duty,
        route: &Route,
    ) -> Result<Self, Vec<String>> {
        let case = heaviest.ok_or_else(|| {
            vec!["the chassis has no scale ticket, so the mass is not known".to_owned()]
        })?;
        if let Some(missing) = &case.missing {
            return Err(vec![missing.clone()]);
        }
        let resistance = resistance(vehicle, duty).ok_or_else(|| {
            vec![
                "drag area and rolling resistance are not known: the chassis has no [resistance]"
                    .to_owned(),
            ]
        })?;
        let mut once = route.clone();
        if let Some(c) = duty.temperature_c {
            once.weather.temperature_c = c;
        }
        if let Some(wind) = duty.headwind_mps {
            once.weather.headwind_mps = wind;
        }
        let trips = duty.trips_a_day.unwrap_or(Duty::TRIPS_A_DAY).max(1);
        let aboard = Aboard::of(vehicle, case, &once, trips).map_err(|why| vec![why])?;
        let driven = driven_kg(vehicle, case);
        let setting = Setting {
            gross_kg: case.gross_kg,
            driven_kg: driven,
            driven_share: driven_share(vehicle, case, driven),
            drag_area_m2: resistance.0,
            rolling: resistance.1,
            temperature_c: once.weather.temperature_c,
            altitude_m: once.weather.altitude_m,
            gas: duty.gas.map(|gas| NaturalGas {
                ethane: gas.ethane,
                propane: gas.propane,
                nitrogen: gas.nitrogen,
                carbon_dioxide: gas.carbon_dioxide,
            }),
        };
        let mut truck = Truck::of(vehicle, &setting)?;
        truck.bank = truck.bank.aged(duty.health.unwrap_or(1.0));
        let outside_c = once.weather.temperature_c;
        let conditions = Conditions {
            step_s: STEP_S,
            driver: Driver::default(),
            soc: None,
            pack_c: if duty.soaked {
                outside_c
            } else {
                outside_c.max(PACK_START_C)
            },
            strategy: strategy(&truck, duty),
            speed_mps: 0.0,
        };
        Ok(Self {
            truck,
            once,
            trips,
            case: case.case.words(),
            aboard,
            resistance,
            conditions,
        })
    }
}

fn strategy(truck: &Truck, duty: &Duty) -> Strategy {
    match duty.strategy {
        _ if truck.source.is_none() => Strategy::Off,
        Some(plan::Strategy::OnOff) => {
            let start = duty.start_soc.unwrap_or(Duty::START_SOC);
            Strategy::Switch {
                start,
                stop: duty.stop_soc.unwrap_or(Duty::STOP_SOC).max(start + 0.03),
            }
        }
        Some(plan::Strategy::Follow) | None => Strategy::Follow {
            hold: duty.hold_soc.unwrap_or(Duty::HOLD_SOC),
        },
    }
}

/// The plan's own figures, else the chassis's.
fn resistance(vehicle: &Vehicle, duty: &Duty) -> Option<(f64, f64, Source)> {
    let chassis = vehicle.chassis.resistance.as_ref();
    let drag = duty.drag_area_m2.or(chassis.map(|r| r.drag_area_m2))?;
    let rolling = duty.rolling.or(chassis.map(|r| r.rolling))?;
    let source = match chassis {
        Some(r) if duty.drag_area_m2.is_none() && duty.rolling.is_none() => r.source.clone(),
        _ => Source::new(Basis::Estimate, "stated in the plan"),
    };
    Some((drag, rolling, source))
}

/// Mass on the axles that are driven: those that an e-axle or a driveshaft turns, and the axle behind
/// such a one in its group that an inter-axle shaft turns with it.
fn driven_kg(vehicle: &Vehicle, case: &CaseLoads) -> f64 {
    let turned: Vec<&str> = vehicle
        .items
        .iter()
        .filter_map(|i| {
            let own = i
                .unsprung_axle
                .as_deref()
                .filter(|_| i.part.motor.is_some());
            own.or(i.joined_axle.as_deref())
        })
        .collect();
    let by_shaft = vehicle.items.iter().any(|i| i.joined_axle.is_some());
    case.axles
        .iter()
        .filter(|axle| {
            let drives = vehicle
                .axle(&axle.id)
                .is_some_and(|a| a.kind == crate::chassis::AxleKind::Drive);
            turned.contains(&axle.id.as_str()) || (by_shaft && drives)
        })
        .map(|axle| axle.load_kg)
        .sum()
}

/// What the driven axles feel of each kilogram of payload, from the axle loads with a little less of it.
fn driven_share(vehicle: &Vehicle, case: &CaseLoads, driven: f64) -> f64 {
    let mut lighter = vehicle.clone();
    match case.case {
        Case::Coupled => {
            if let Some(trailer) = &mut lighter.trailer {
                trailer.payload_kg -= TRIAL_KG;
            }
        }
        _ => {
            if let Some(payload) = &mut lighter.loads.payload {
                payload.mass_kg -= TRIAL_KG;
            }
        }
    }
    let less = loads(&lighter);
    less.cases
        .iter()
        .find(|c| c.case == case.case)
        .map_or(0.0, |c| (driven - driven_kg(&lighter, c)) / TRIAL_KG)
}
