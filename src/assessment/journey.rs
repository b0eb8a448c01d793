//! A drive: a truck as heavy as it was worked out to be, on a route, and what came of it.
//!
//! Beside [`Answers`], because it takes milliseconds and not microseconds and is asked for by itself.

use super::Answers;
use crate::energy::{
    Charge, Conditions, Driver, Gait, Limits, Outlet, PLUGS, Plug, Run, Setting, Strategy, Truck,
    Wear, charge, run, wear,
};
use crate::loads::CaseLoads;
use crate::plant::gas;
use crate::route::Route;
use crate::source::Source;
use crate::vehicle::Vehicle;

/// Share of the usable energy that is kept (common practice: 10 to 20 %).
const RESERVE: f64 = 0.15;
/// Days of work in a year (common practice).
const DAYS_A_YEAR: f64 = 250.0;
/// State of charge that a source holds (common practice).
const HOLD: f64 = 0.6;
/// Hours at the plug in a night (common practice).
const PLUG_HOURS: f64 = 8.0;
/// State of charge from which speeds and grades are worked out.
const HALF_FULL: f64 = 0.5;
/// Coldest that packs are allowed to start: they are kept warm at the plug (common practice), °C.
const PACK_START_C: f64 = 15.0;
/// Most points of a day's route: the same route several times over is kept whole.
const MOST_POINTS: usize = 8_000_000;
/// Step of the time loop, seconds.
const STEP_S: f64 = 0.25;

/// What the truck does without a route.
#[derive(Clone, Copy, Debug, PartialEq)]
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
}

/// A night at the plug.
#[derive(Clone, Debug)]
pub struct Plugged {
    /// What it is charged by, in words.
    pub by: String,
    /// Power that plug, inlet and charger can give, watt.
    pub most_w: f64,
    /// From where the day ended to full.
    pub night: Charge,
    /// From 10 to 80 %.
    pub quick: Charge,
    /// Energy from the wall for the night, joule.
    pub wall_j: f64,
    /// Hours that there are.
    pub hours: f64,
}

/// A drive and what is derived from it.
#[derive(Debug)]
pub struct Journey {
    /// What the truck is.
    pub answers: Answers,
    /// The truck as driven.
    pub truck: Truck,
    /// The route, with the plan's weather, all trips of a day.
    pub route: Route,
    /// The same, one trip.
    pub once: Route,
    /// Trips of the day.
    pub trips: u32,
    /// Load case.
    pub case: &'static str,
    /// Mass of the whole, kilogram.
    pub gross_kg: f64,
    /// Resistances: drag area, rolling, and who says so.
    pub resistance: (f64, f64, Source),
    /// What came of it.
    pub run: Run,
    /// Without a route.
    pub grades: Grades,
    /// Wear of the packs.
    pub wear: Wear,
    /// Charging, or what is missing for it.
    pub plugged: Result<Plugged, String>,
    /// Cooling, or what is missing for it.
    pub cooling: Result<(), String>,
    /// Share of the usable energy that is to be left.
    pub reserve: f64,
    /// Energy that one metre costs, joule, at the bus.
    pub per_m_j: f64,
    /// How far it would come with the reserve kept, metres: packs and fuel.
    pub range_m: f64,
}

impl Journey {
    /// Drives a route with what the plan's duty says.
    ///
    /// # Errors
    /// What is missing, in words.
    pub fn of(
        answers: Answers,
        route: &Route,
        go_on: &mut dyn FnMut(f64) -> bool,
    ) -> Result<Self, Vec<String>> {
        let vehicle = &answers.vehicle;
        let duty = &vehicle.duty;
        let case = answers.heaviest().ok_or_else(|| {
            vec!["the chassis has no scale ticket, so the mass is not known".to_owned()]
        })?;
        let (case_words, gross_kg) = (case.case.words(), case.gross_kg);
        let resistance = resistance(vehicle).ok_or_else(|| {
            vec![
                "drag area and rolling resistance are not known: the chassis has no [resistance]"
                    .to_owned(),
            ]
        })?;
        let trips = duty.trips_a_day.unwrap_or(1).max(1);
        let points = route
            .points()
            .saturating_mul(usize::try_from(trips).unwrap_or(1));
        if points > MOST_POINTS {
            return Err(vec![format!(
                "{trips} trips of a route of {} points are more than the {MOST_POINTS} points that a day may have",
                route.points()
            )]);
        }
        let mut once = route.clone();
        if let Some(c) = duty.temperature_c {
            once.weather.temperature_c = c;
        }
        if let Some(wind) = duty.headwind_mps {
            once.weather.headwind_mps = wind;
        }
        let route = once.repeated(usize::try_from(trips).unwrap_or(1));
        let setting = Setting {
            gross_kg: case.gross_kg,
            driven_kg: driven_kg(vehicle, case),
            drag_area_m2: resistance.0,
            rolling: resistance.1,
            temperature_c: route.weather.temperature_c,
        };
        let mut truck = Truck::of(vehicle, &setting)?;
        truck.bank = truck.bank.aged(duty.health.unwrap_or(1.0));
        let hold = duty.hold_soc.unwrap_or(HOLD);
        let conditions = Conditions {
            step_s: STEP_S,
            driver: Driver::default(),
            soc: None,
            pack_c: route.weather.temperature_c.max(PACK_START_C),
            strategy: if truck.source.is_some() {
                Strategy::Follow { hold }
            } else {
                Strategy::Off
            },
            speed_mps: 0.0,
        };
        let run = run(&truck, &route, &conditions, go_on);
        let reserve = duty.reserve.unwrap_or(RESERVE);
        // What still moves at the end was not used up.
        let per_m_j = (run.ledger.came_in_j() - run.ledger.motion_j) / run.distance_m.max(1.0);
        let usable = truck.bank.usable_j() * (1.0 - reserve);
        let to_bus = truck
            .source
            .as_ref()
            .map_or(0.0, |s| s.efficiency(0.75 * s.continuous_w));
        let range_m = (usable + truck.fuel_j * to_bus) / per_m_j.max(1.0);
        let soc: Vec<f64> = std::iter::once(run.soc_start)
            .chain(run.samples.iter().map(|s| s.soc))
            .chain(std::iter::once(run.soc_start))
            .collect();
        let worn = wear(
            &truck.bank,
            &soc,
            duty.days_a_year.unwrap_or(DAYS_A_YEAR),
            conditions.pack_c,
        );
        let grades = grades(&truck, &route, conditions.pack_c);
        let plugged = plugged(
            vehicle,
            &truck,
            run.soc_end,
            conditions.pack_c,
            duty.plug_hours.unwrap_or(PLUG_HOURS),
        );
        let cooling = crate::energy::Cooling::of(vehicle).map(|_| ());
        Ok(Self {
            answers,
            route,
            once,
            trips,
            case: case_words,
            gross_kg,
            resistance,
            run,
            grades,
            wear: worn,
            plugged,
            cooling,
            reserve,
            per_m_j,
            range_m,
            truck,
        })
    }

    /// Fuel that was burnt, kilogram.
    #[must_use]
    pub fn fuel_kg(&self) -> f64 {
        let fuel = self.truck.source.as_ref().map(|s| s.fuel);
        let per_kg = fuel.map_or(f64::INFINITY, |f| gas::heating_value_mj_per_kg(f) * 1e6);
        self.run.ledger.fuel_j / per_kg
    }

    /// Energy that is left above the lowest state of charge, joule.
    #[must_use]
    pub fn left_j(&self) -> f64 {
        let bank = &self.truck.bank;
        bank.energy_to_j(self.run.soc_end) - bank.energy_to_j(bank.soc_low)
    }
}

/// The plan's own figures, else the chassis's.
fn resistance(vehicle: &Vehicle) -> Option<(f64, f64, Source)> {
    let duty = &vehicle.duty;
    let chassis = vehicle.chassis.resistance.as_ref();
    let drag = duty.drag_area_m2.or(chassis.map(|r| r.drag_area_m2))?;
    let rolling = duty.rolling.or(chassis.map(|r| r.rolling))?;
    let source = match chassis {
        Some(r) if duty.drag_area_m2.is_none() && duty.rolling.is_none() => r.source.clone(),
        _ => Source::new(crate::source::Basis::Estimate, "stated in the plan"),
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

fn grades(truck: &Truck, route: &Route, pack_c: f64) -> Grades {
    let air = route.weather.air_kg_m3();
    let held = |grade: f64| {
        let at = |gait| truck.held_speed_mps(grade, gait, air, pack_c, HALF_FULL);
        (at(Gait::Peak), at(Gait::Continuous))
    };
    Grades {
        launch: truck.launch_grade(pack_c, HALF_FULL),
        launch_n: truck.most_pull_n(0.0, Gait::Peak, pack_c, HALF_FULL).0,
        grip_n: truck.grip_n(),
        on_3: held(0.03),
        on_6: held(0.06),
        top: held(0.0).1,
    }
}

/// The strongest way to charge that the truck has: direct current through the inlet, else the on-board
/// charger.
fn plugged(
    vehicle: &Vehicle,
    truck: &Truck,
    soc: f64,
    pack_c: f64,
    hours: f64,
) -> Result<Plugged, String> {
    let inlet = vehicle.items.iter().find_map(|i| {
        let inlet = i.part.inlet.as_ref()?;
        inlet
            .max_a
            .zip(inlet.max_v)
            .map(|limits| (inlet.standard.clone().unwrap_or_default(), limits))
    });
    let ac_w: f64 = vehicle
        .items
        .iter()
        .filter_map(|i| i.part.charger.as_ref()?.ac_kw)
        .sum::<f64>()
        * 1e3;
    let bank = &truck.bank;
    let top_v = bank.series * bank.cell.most_v;
    let (by, most_w, most_a, efficiency) = match inlet {
        Some((standard, (amps, volts))) => {
            if top_v > volts {
                return Err(format!(
                    "full packs have {top_v:.0} V, the inlet takes {volts:.0} V"
                ));
            }
            let plug: &Plug = PLUGS
                .iter()
                .filter(|p| p.name.starts_with(standard.as_str()))
                .filter(|p| p.most_v >= top_v && p.most_a <= amps)
                .max_by(|a, b| a.most_w.total_cmp(&b.most_w))
                .ok_or_else(|| {
                    format!("no plug of the kind {standard} fits the inlet and the packs")
                })?;
            (
                plug.name.to_owned(),
                plug.most_w,
                plug.most_a.min(amps),
                plug.efficiency,
            )
        }
        None if ac_w > 0.0 => {
            let outlet = Outlet {
                volts: 400.0,
                amps: ac_w / 400.0 / crate::numeric::sqrt(3.0),
                phases: 3,
            };
            (
                "on-board charger".to_owned(),
                outlet.power_w(),
                f64::INFINITY,
                0.92,
            )
        }
        None => {
            return Err("the truck has neither a charge inlet nor an on-board charger".to_owned());
        }
    };
    let limits = Limits {
        most_a,
        most_w,
        most_v: top_v,
        end_a: bank.capacity_ah / 50.0,
        pack_c,
    };
    let night = charge(bank, soc, bank.soc_high, &limits);
    let quick = charge(bank, 0.1, 0.8, &limits);
    Ok(Plugged {
        by,
        most_w,
        wall_j: night.energy_j / efficiency,
        night,
        quick,
        hours,
    })
}
