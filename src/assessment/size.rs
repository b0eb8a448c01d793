//! How many packs a range takes: for each pack of the library the smallest number, and what that costs.

use super::Journey;
use super::ranges;
use crate::energy::{Conditions, Strategy, run};
use crate::part::{Chemistry, Part};
use crate::plant::Bank;
use serde::Serialize;

/// One pack of the library, as many as the range takes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Size {
    /// Part id.
    pub part: String,
    /// Name.
    pub name: String,
    /// Chemistry.
    pub chemistry: Option<Chemistry>,
    /// Number; `None` when not even the most that were tried make it.
    pub count: Option<u32>,
    /// Gross energy of all, kilowatt-hour.
    pub energy_kwh: f64,
    /// Mass of all, kilogram.
    pub mass_kg: f64,
    /// Mass more than the packs that are on the truck now, kilogram: payload that is lost when the
    /// gross mass is the limit.
    pub more_kg: f64,
    /// Volume of their envelopes, litre.
    pub volume_l: f64,
    /// Range with the reserve kept, metre.
    pub range_m: f64,
}

/// Most packs that are tried.
const MOST: u32 = 40;

/// For each pack of the library the smallest number with which this truck, on this route, comes this
/// far on its packs alone with the reserve kept. The mass of the packs is counted.
#[must_use]
pub fn sizes<'a>(
    journey: &Journey,
    parts: impl IntoIterator<Item = &'a Part>,
    range_m: f64,
) -> Vec<Size> {
    let now_kg = journey.truck.bank.mass_kg;
    let mut out = Vec::new();
    for part in parts {
        let Some(battery) = &part.battery else {
            continue;
        };
        let size = part.bounds().size();
        let of = |count: u32| -> Option<(f64, f64)> {
            let n = f64::from(count);
            let packs = (0..count).map(|_| (part.name.as_str(), part.mass_kg, battery));
            let mut truck = journey.truck.clone();
            truck.bank = Bank::of(packs).ok()?.aged(journey.truck.bank.health);
            truck.resistance.mass_kg += n * part.mass_kg - now_kg;
            truck.source = None;
            truck.fuel_j = 0.0;
            let conditions = Conditions {
                strategy: Strategy::Off,
                ..journey.conditions
            };
            let run = run(&truck, &journey.once, &conditions, &mut |_| true);
            if run.distance_m < 1_000.0 {
                return Some((0.0, n * part.mass_kg));
            }
            let range = ranges::range_m(&truck, &run, journey.reserve);
            Some((range, n * part.mass_kg))
        };
        // More packs always carry farther than their own mass costs, as far as packs on trucks go.
        let (mut low, mut high) = (0, MOST);
        let mut best = None;
        match of(MOST) {
            Some((range, _)) if range >= range_m => {
                while high - low > 1 {
                    let middle = low + (high - low) / 2;
                    match of(middle) {
                        Some((range, _)) if range >= range_m => high = middle,
                        _ => low = middle,
                    }
                }
                best = of(high).map(|found| (high, found));
            }
            _ => {}
        }
        let (count, range, mass_kg) = match best {
            Some((count, (range, kg))) => (Some(count), range, kg),
            None => (None, 0.0, 0.0),
        };
        let n = f64::from(count.unwrap_or(0));
        out.push(Size {
            part: part.id.clone(),
            name: part.name.clone(),
            chemistry: battery.chemistry,
            count,
            energy_kwh: n * battery.energy_kwh.unwrap_or(0.0),
            mass_kg,
            more_kg: mass_kg - now_kg,
            volume_l: n * size.x * size.y * size.z * 1e-6,
            range_m: range,
        });
    }
    out
}
