//! A drive: a truck as heavy as it was worked out to be, on a route, and what came of it.
//!
//! Beside [`Answers`], because it takes milliseconds and not microseconds and is asked for by itself.

use super::ranges::{per_m_j, range_m};
use super::{Aboard, Answers, Cable, Grades, Plugged, Ready, cables, plugged};
use crate::energy::{Conditions, Run, Truck, Wear, run, wear};
use crate::plan::Duty;
use crate::route::Route;
use crate::source::Source;

/// Most points of a day's route: the same route several times over is kept whole.
const MOST_POINTS: usize = 8_000_000;

/// A drive and what is derived from it.
#[derive(Debug)]
pub struct Journey {
    /// What the truck is.
    pub answers: Answers,
    /// The truck as driven.
    pub truck: Truck,
    /// How it began.
    pub conditions: Conditions,
    /// The route, with the plan's weather, all trips of a day.
    pub route: Route,
    /// The same, one trip.
    pub once: Route,
    /// Trips of the day.
    pub trips: u32,
    /// Load case.
    pub case: &'static str,
    /// What is carried over the day.
    pub aboard: Aboard,
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
    /// Cables from the plan's charging post, or what is missing for it.
    pub cables: Result<Vec<Cable>, String>,
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
        let duty = answers.vehicle.duty.clone();
        let trips = duty.trips_a_day.unwrap_or(Duty::TRIPS_A_DAY).max(1);
        let points = route
            .points()
            .saturating_mul(usize::try_from(trips).unwrap_or(1));
        if points > MOST_POINTS {
            return Err(vec![format!(
                "{trips} trips of a route of {} points are more than the {MOST_POINTS} points that a day may have",
                route.points()
            )]);
        }
        let Ready {
            truck,
            once,
            trips,
            case,
            aboard,
            resistance,
            conditions,
        } = Ready::of(&answers, &duty, route)?;
        let route = once.repeated(usize::try_from(trips).unwrap_or(1));
        let run = run(&truck, &route, &conditions, go_on);
        let reserve = duty.reserve.unwrap_or(Duty::RESERVE);
        let soc: Vec<f64> = std::iter::once(run.soc_start)
            .chain(run.samples.iter().map(|s| s.soc))
            .chain(std::iter::once(run.soc_start))
            .collect();
        let days = duty.days_a_year.unwrap_or(Duty::DAYS_A_YEAR);
        let hours = duty.plug_hours.unwrap_or(Duty::PLUG_HOURS);
        let pack_c = conditions.pack_c;
        Ok(Self {
            wear: wear(&truck.bank, &soc, days, pack_c),
            grades: Grades::of(&truck, &route, pack_c),
            plugged: plugged(&truck, None, run.soc_end, pack_c, hours),
            cables: cables(&answers.vehicle),
            per_m_j: per_m_j(&run),
            range_m: range_m(&truck, &run, reserve),
            gross_kg: truck.resistance.mass_kg,
            answers,
            conditions,
            route,
            once,
            trips,
            case,
            aboard,
            resistance,
            run,
            reserve,
            truck,
        })
    }

    /// Charging by a named inlet or charger at the end of the day.
    ///
    /// # Errors
    /// What is missing or stands against it, in words.
    pub fn plugged_at(&self, inlet: &str) -> Result<Plugged, String> {
        let duty = &self.answers.vehicle.duty;
        let hours = duty.plug_hours.unwrap_or(Duty::PLUG_HOURS);
        let pack_c = self.conditions.pack_c;
        plugged(&self.truck, Some(inlet), self.run.soc_end, pack_c, hours)
    }

    /// Fuel that was burnt, kilogram.
    #[must_use]
    pub fn fuel_kg(&self) -> f64 {
        let truck = &self.truck;
        if truck.fuel_j > 0.0 {
            self.run.ledger.fuel_j / truck.fuel_j * truck.fuel_kg
        } else {
            0.0
        }
    }

    /// Energy that is left above the lowest state of charge, joule; in the cold that one is higher.
    #[must_use]
    pub fn left_j(&self) -> f64 {
        let bank = &self.truck.bank;
        let low = bank.soc_low_at(self.run.pack_end_c);
        bank.energy_to_j(self.run.soc_end) - bank.energy_to_j(low)
    }
}
