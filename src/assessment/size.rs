//! How many packs a range or a day takes: for each pack of the library the smallest number, and what that
//! costs in mass, payload and volume.

use super::bounds::Bounds;
use super::ranges::{self, STOPPED};
use super::{Journey, Ready, Road, capacity};
use crate::energy::{End, Run, Strategy, run};
use crate::loads::loads;
use crate::part::{Chemistry, Part};
use crate::plant::Bank;
use crate::source::known;
use crate::vehicle::{Aboard, Item, MassPoint, Vehicle};
use serde::Serialize;

/// Most packs that are tried.
pub const MOST_PACKS: u32 = 40;
/// Drives that a search takes at the most: seven numbers from one up to the most, and halvings between two.
const TRIES: f64 = 11.0;

/// What the packs are to be enough for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub enum Goal {
    /// This far on the packs alone, one trip after the other, with the reserve kept; metres.
    Range(f64),
    /// The whole day as the plan's duty says, source, chargers and loads on the way included, with the
    /// reserve left at its end.
    Day,
}

impl Goal {
    /// Ranges that can be asked for, metres.
    pub const RANGE_M: [f64; 2] = [1e3, 5e6];
}

/// A number of packs on the truck, and what it comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Packs {
    /// Number.
    pub count: usize,
    /// Gross energy of all, joule.
    pub energy_j: f64,
    /// Mass of all, kilogram.
    pub mass_kg: f64,
    /// Volume of their envelopes, litre.
    pub volume_l: f64,
    /// Payload that is possible with them, kilogram, or what is missing for it.
    #[serde(serialize_with = "known")]
    pub payload_kg: Result<f64, String>,
    /// Range with the reserve kept, metres: on the packs alone for a range, with the fuel for a day.
    pub range_m: f64,
    /// Time that the route or the day takes, seconds.
    pub time_s: f64,
    /// Energy that is left above the reserve at the end of it, joule.
    pub over_j: f64,
}

/// One pack of the library, as many as it takes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Size {
    /// Part id.
    pub part: String,
    /// Name.
    pub name: String,
    /// Chemistry.
    pub chemistry: Option<Chemistry>,
    /// Nominal voltage of the pack where it is another than that of the packs now, volt: motors and
    /// converters are made for theirs.
    pub other_v: Option<f64>,
    /// What it takes, or why no number does.
    pub packs: Result<Packs, Short>,
}

/// Why there is no number.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub enum Short {
    /// Not even the most that were tried make it.
    NotEnough,
    /// What is missing to say so, in words.
    NotAssessed(String),
}

/// The table.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Sizes {
    /// What for.
    pub goal: Goal,
    /// The packs that are on the truck now.
    #[serde(serialize_with = "known")]
    pub now: Result<Packs, String>,
    /// Whether they are enough.
    pub enough_now: bool,
    /// Every pack of the library, in its order.
    pub sizes: Vec<Size>,
}

/// Difference of voltage that is taken for the same (common practice: a tenth).
const SPAN: f64 = 0.1;

/// For each pack of the library the smallest number with which this truck, with its load, reaches the goal.
/// The mass of the packs is counted: it stands where today's packs stand, in their proportion.
#[must_use]
pub fn sizes<'a>(
    journey: &Journey,
    parts: impl IntoIterator<Item = &'a Part>,
    goal: Goal,
    go_on: &mut dyn FnMut(f64) -> bool,
) -> Sizes {
    let parts: Vec<&Part> = parts.into_iter().filter(|p| p.battery.is_some()).collect();
    let all = 1.0 + parts.len() as f64;
    let mut search = Search {
        journey,
        goal,
        go_on,
        done: 0.0,
        step: 1.0 / all,
    };
    let volume_l = packs_of(&journey.answers.vehicle)
        .map(|i| litres(&i.part))
        .sum();
    let now = search.with(journey.truck.bank.clone(), volume_l);
    search.step = 1.0 / all / TRIES;
    let mut list = Vec::new();
    for (index, part) in parts.into_iter().enumerate() {
        search.done = (1.0 + index as f64) / all;
        let nominal_v = part.battery.as_ref().and_then(|b| b.nominal_v);
        let now_v = journey.truck.bank.nominal_v;
        list.push(Size {
            part: part.id.clone(),
            name: part.name.clone(),
            chemistry: part.battery.as_ref().and_then(|b| b.chemistry),
            other_v: nominal_v.filter(|v| (v - now_v).abs() > SPAN * now_v),
            packs: search.smallest(part),
        });
    }
    Sizes {
        goal,
        enough_now: now.as_ref().is_ok_and(|(_, enough)| *enough),
        now: now.map(|(packs, _)| packs),
        sizes: list,
    }
}

/// The packs on a truck.
fn packs_of(vehicle: &Vehicle) -> impl Iterator<Item = &Item> {
    vehicle.each_item().filter(|i| i.part.battery.is_some())
}

/// Volume of a part's envelope, litre.
fn litres(part: &Part) -> f64 {
    let size = part.bounds().size();
    size.x * size.y * size.z * 1e-6
}

/// The truck with its packs made this much heavier, each at its place.
fn heavier(vehicle: &Vehicle, factor: f64) -> Vehicle {
    let mut vehicle = vehicle.clone();
    for item in &mut vehicle.items {
        if item.part.battery.is_none() {
            continue;
        }
        item.mass_kg *= factor;
        let own = |m: &&mut MassPoint| m.aboard == Aboard::Part && m.of == item.tag;
        for mass in vehicle.masses.iter_mut().filter(own) {
            mass.mass_kg *= factor;
        }
    }
    vehicle
}

/// A search for packs.
struct Search<'a> {
    journey: &'a Journey,
    goal: Goal,
    go_on: &'a mut dyn FnMut(f64) -> bool,
    /// Share of the whole that is done, and what one drive adds to it.
    done: f64,
    step: f64,
}

impl Search<'_> {
    /// The smallest number of this pack that makes it. More packs carry farther than their own mass costs up
    /// to some number; so the first of 1, 2, 4, … that makes it bounds the search from above.
    fn smallest(&mut self, part: &Part) -> Result<Packs, Short> {
        let (mut low, mut high) = (0, 1);
        let mut best = loop {
            let (packs, enough) = self.number(part, high)?;
            if enough {
                break packs;
            }
            if high == MOST_PACKS {
                return Err(Short::NotEnough);
            }
            low = high;
            high = (2 * high).min(MOST_PACKS);
        };
        while high - low > 1 {
            let middle = low + (high - low) / 2;
            let (packs, enough) = self.number(part, middle)?;
            if enough {
                high = middle;
                best = packs;
            } else {
                low = middle;
            }
        }
        Ok(best)
    }

    fn number(&mut self, part: &Part, count: u32) -> Result<(Packs, bool), Short> {
        let battery = part.battery.iter();
        let one = battery.map(|b| (part.name.as_str(), part.mass_kg, b));
        let packs = (0..count).flat_map(|_| one.clone());
        let found = Bank::of(packs).and_then(|bank| {
            let health = self.journey.truck.bank.health;
            self.with(bank.aged(health), f64::from(count) * litres(part))
        });
        found.map_err(Short::NotAssessed)
    }

    /// What these packs come to, and whether they are enough.
    fn with(&mut self, bank: Bank, volume_l: f64) -> Result<(Packs, bool), String> {
        let journey = self.journey;
        let factor = bank.mass_kg / journey.truck.bank.mass_kg;
        let vehicle = heavier(&journey.answers.vehicle, factor);
        let loads = loads(&vehicle);
        let made = Ready::with(&vehicle, loads.heaviest(), &vehicle.duty, &journey.once);
        let Ready {
            mut truck,
            mut conditions,
            ..
        } = made.map_err(|missing| missing.join("; "))?;
        truck.bank = bank;
        let route = match self.goal {
            Goal::Day => &journey.route,
            Goal::Range(_) => {
                truck.source = None;
                truck.fuel_j = 0.0;
                conditions.strategy = Strategy::Off;
                &journey.once
            }
        };
        let (done, step) = (self.done, self.step);
        let run = run(&truck, route, &conditions, &mut |share| {
            (self.go_on)((done + step * share).min(1.0))
        });
        self.done += step;
        if run.end == End::Cancelled {
            return Err(STOPPED.to_owned());
        }
        let range_m = match ranges::too_short(&run) {
            Some(_) => 0.0,
            None => ranges::range_m(&truck, &run, journey.reserve),
        };
        let over_j = over_j(&truck.bank, &run, journey.reserve);
        let enough = match self.goal {
            Goal::Range(wanted_m) => range_m >= wanted_m,
            Goal::Day => run.end == End::Finished && over_j >= 0.0,
        };
        let road = Road::of(&vehicle);
        let bounds = Bounds::of(&vehicle, &road);
        let packs = Packs {
            count: truck.bank.packs,
            energy_j: truck.bank.energy_j,
            mass_kg: truck.bank.mass_kg,
            volume_l,
            payload_kg: bounds
                .and_then(|bounds| capacity(&bounds))
                .map(|capacity| capacity.payload_kg()),
            range_m,
            time_s: run.time_s,
            over_j,
        };
        Ok((packs, enough))
    }
}

/// Energy above what is to be kept, at the end of a run, joule.
fn over_j(bank: &Bank, run: &Run, reserve: f64) -> f64 {
    let low = bank.energy_to_j(bank.soc_low_at(run.pack_end_c));
    let kept = bank.usable_at_j(run.pack_end_c) * reserve;
    bank.energy_to_j(run.soc_end) - low - kept
}
