//! The truck as the time loop sees it: a mass, its resistances, its drives, packs and sources.

use super::cooling::Cooling;
use super::plug::{Socket, Takes};
use super::resistance::Resistance;
use crate::part::Part;
use crate::plant::gas::NaturalGas;
use crate::plant::{Bank, Drive, Source, Tank};
use crate::vehicle::{Item, Vehicle};

/// Electric consumers besides the drives, watt.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Accessories {
    /// Air compressor, steering, pumps, controls: on the average while driving.
    pub driving_w: f64,
    /// Heating or cooling of cab and packs at the route's temperature.
    pub climate_w: f64,
}

/// A truck ready to drive.
#[derive(Clone, Debug)]
pub struct Truck {
    /// Forces that hold it back.
    pub resistance: Resistance,
    /// Mass that wheels and hubs add to the inertia, kilogram.
    pub rotating_kg: f64,
    /// Rolling radius of the driven wheels, metre.
    pub radius_m: f64,
    /// Mass on the driven axles, kilogram.
    pub driven_kg: f64,
    /// Mass that comes on them with each kilogram of load.
    pub driven_share: f64,
    /// Friction between tyre and road.
    pub grip: f64,
    /// Drives.
    pub drive: Drive,
    /// Packs.
    pub bank: Bank,
    /// Generator or fuel cell, if there is one.
    pub source: Option<Source>,
    /// Fuel aboard that can be used, joule at the lower heating value.
    pub fuel_j: f64,
    /// Same, kilogram.
    pub fuel_kg: f64,
    /// Tanks whose fuel the source burns: mark and what is in it.
    pub tanks: Vec<(String, Tank)>,
    /// Charge inlets and on-board chargers.
    pub sockets: Vec<Socket>,
    /// Height of the start above the sea, metre.
    pub altitude_m: f64,
    /// Consumers.
    pub accessories: Accessories,
    /// Power of a brake resistor, watt.
    pub resistor_w: f64,
    /// Cooling, or what is missing for it; without it nothing gets hot.
    pub cooling: Result<Cooling, String>,
}

/// What the vehicle does not say by itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// Mass of truck, trailer and load, kilogram.
    pub gross_kg: f64,
    /// Mass on the driven axles, kilogram.
    pub driven_kg: f64,
    /// Drag area, square metre.
    pub drag_area_m2: f64,
    /// Rolling coefficient.
    pub rolling: f64,
    /// Mass that comes on the driven axles with each kilogram of load.
    pub driven_share: f64,
    /// Air temperature, °C.
    pub temperature_c: f64,
    /// Height of the start above the sea, metre.
    pub altitude_m: f64,
    /// Natural gas, where its composition is stated.
    pub gas: Option<NaturalGas>,
}

/// Friction of a truck tyre on a wet road (common practice: 0.6).
const GRIP: f64 = 0.6;
/// Inertia of wheels, tyres and hubs as a share of the mass (common practice; 40 CFR 1036.540 has 2.8 to
/// 3.2 % with a diesel driveline).
const ROTATING: f64 = 0.02;
/// Share of their rated power that compressor, steering and pumps draw on the average (common practice).
const DUTY: f64 = 0.25;
/// Controls, lamps, pumps that always run, watt (common practice).
const ALWAYS_W: f64 = 800.0;
/// Air temperature at which neither heating nor cooling is needed, °C (common practice).
const EASY_C: f64 = 20.0;
/// Temperature difference at which climate control runs at its rated power, kelvin (common practice).
const FULL_CLIMATE_K: f64 = 40.0;

impl Truck {
    /// Makes it of a vehicle.
    ///
    /// # Errors
    /// Everything that is missing, in words.
    pub fn of(vehicle: &Vehicle, setting: &Setting) -> Result<Self, Vec<String>> {
        let mut missing = Vec::new();
        let mut keep = |result: Result<(), String>| {
            if let Err(what) = result {
                missing.push(what);
            }
        };
        let bank = Bank::of(vehicle.items.iter().filter_map(|i| {
            i.part
                .battery
                .as_ref()
                .map(|b| (i.part.name.as_str(), i.mass_kg, b))
        }));
        let drive = drives(vehicle);
        let source = sources(vehicle);
        keep(bank.as_ref().map(|_| ()).map_err(Clone::clone));
        keep(drive.as_ref().map(|_| ()).map_err(Clone::clone));
        keep(source.as_ref().map(|_| ()).map_err(Clone::clone));
        let (Ok(bank), Ok((drive, radius_m)), Ok(source)) = (bank, drive, source) else {
            return Err(missing);
        };
        let tanks = source.as_ref().map_or_else(Vec::new, |s| {
            let holds = |i: &&Item| i.part.contents.as_ref().is_some_and(|c| c.fuel == s.fuel);
            let tank = |i: &Item| {
                let contents = i.part.contents.as_ref()?;
                let gas = setting.gas.as_ref();
                let tank = Tank::of(contents, i.fill, setting.temperature_c, gas);
                Some((i.tag.clone(), tank))
            };
            vehicle.each_item().filter(holds).filter_map(tank).collect()
        });
        Ok(Self {
            resistance: Resistance {
                mass_kg: setting.gross_kg,
                rolling: setting.rolling,
                drag_area_m2: setting.drag_area_m2,
            },
            rotating_kg: setting.gross_kg * ROTATING,
            radius_m,
            driven_kg: setting.driven_kg,
            driven_share: setting.driven_share,
            grip: GRIP,
            drive,
            bank,
            source,
            fuel_j: tanks.iter().map(|(_, t)| t.usable_j()).sum(),
            fuel_kg: tanks.iter().map(|(_, t)| t.usable_kg()).sum(),
            tanks,
            sockets: sockets(vehicle),
            altitude_m: setting.altitude_m,
            accessories: accessories(vehicle, setting.temperature_c),
            resistor_w: vehicle
                .items
                .iter()
                .filter_map(|i| i.part.load.as_ref()?.brake_kw)
                .sum::<f64>()
                * 1e3,
            cooling: Cooling::of(vehicle),
        })
    }

    /// Mass in motion in a gear: the truck, its wheels, and the rotors as seen from the road.
    #[must_use]
    pub fn inertia_kg(&self, gear: usize) -> f64 {
        self.resistance.mass_kg + self.rotating_kg + self.rotor_kg(gear)
    }

    /// Rotors as seen from the road, kilogram.
    #[must_use]
    pub fn rotor_kg(&self, gear: usize) -> f64 {
        let turns = self.drive.ratio(gear) / self.radius_m;
        self.drive.count * self.drive.inertia_kg_m2 * turns * turns
    }

    /// The same truck with this load put on (or taken off), kilogram.
    #[must_use]
    pub fn loaded(&self, load_kg: f64) -> Self {
        let mut truck = self.clone();
        truck.resistance.mass_kg = (truck.resistance.mass_kg + load_kg).max(1.0);
        truck.driven_kg = (truck.driven_kg + load_kg * self.driven_share).max(0.0);
        truck
    }

    /// Most force that the driven wheels can put on the road, newton.
    #[must_use]
    pub fn grip_n(&self) -> f64 {
        self.driven_kg * super::resistance::GRAVITY * self.grip
    }
}

/// Charge inlets and on-board chargers, in the order of the plan.
fn sockets(vehicle: &Vehicle) -> Vec<Socket> {
    let socket = |item: &Item, takes| Socket {
        tag: item.tag.clone(),
        part: item.part.id.clone(),
        takes,
    };
    let missing = |item: &Item, what: &str| Err(format!("the {what} of {} is not known", item.tag));
    let mut out = Vec::new();
    for item in &vehicle.items {
        if let Some(inlet) = &item.part.inlet {
            let takes = match (&inlet.standard, inlet.max_a, inlet.max_v) {
                (None, _, _) => missing(item, "standard"),
                (_, None, _) => missing(item, "largest current"),
                (_, _, None) => missing(item, "highest voltage"),
                (Some(standard), Some(most_a), Some(most_v)) => Ok(Takes::Direct {
                    standard: standard.clone(),
                    most_a,
                    most_v,
                }),
            };
            out.push(socket(item, takes));
        }
        if let Some(charger) = &item.part.charger {
            let takes = match charger.ac_kw {
                None => missing(item, "power"),
                Some(kw) => Ok(Takes::Alternating { most_w: kw * 1e3 }),
            };
            out.push(socket(item, takes));
        }
    }
    out
}

fn sources(vehicle: &Vehicle) -> Result<Option<Source>, String> {
    let mut all: Option<Source> = None;
    for item in &vehicle.items {
        let Some(unit) = &item.part.power_source else {
            continue;
        };
        let one = Source::of(&item.part.name, unit)?;
        all = Some(match all {
            None => one,
            Some(before) => before.beside(&item.part.name, &one)?,
        });
    }
    Ok(all)
}

/// The drives, all alike, and the rolling radius of the wheels that they turn, metre.
fn drives(vehicle: &Vehicle) -> Result<(Drive, f64), String> {
    let pulling = |item: &&Item| {
        item.part
            .motor
            .as_ref()
            .is_some_and(|m| m.peak_kw.is_some())
    };
    let mut all: Option<(Drive, f64)> = None;
    let mut names: Vec<&str> = Vec::new();
    for item in vehicle.each_item().filter(pulling) {
        let (one, radius) = match item.unsprung_axle.as_deref() {
            Some(axle) => on_axle(vehicle, item, axle)?,
            None => through_shaft(vehicle, item)?,
        };
        all = Some(match all {
            None => (one, radius),
            Some((mut before, r)) => {
                let same =
                    (before.peak_nm - one.peak_nm).abs() < 1.0 && before.ratios == one.ratios;
                if !same || (r - radius).abs() > 1e-3 {
                    let first = names.first().copied().unwrap_or("the other drive");
                    return Err(format!(
                        "{} pulls beside {first}, which is another drive",
                        item.part.name
                    ));
                }
                before.count += one.count;
                (before, r)
            }
        });
        names.push(&item.part.name);
    }
    all.ok_or_else(|| "no motor or e-axle is on the truck".to_owned())
}

fn radius_m(vehicle: &Vehicle, axle: &str) -> Result<f64, String> {
    let axle = vehicle
        .axle(axle)
        .ok_or_else(|| format!("the axle {axle} that is driven is not on the truck"))?;
    Ok(axle.tyres.rolling_radius_mm() / 1e3)
}

fn on_axle(vehicle: &Vehicle, item: &Item, axle: &str) -> Result<(Drive, f64), String> {
    let motor = item.part.motor.as_ref().ok_or("no motor")?;
    let drive = Drive::of(&item.part.name, motor, &motor.ratios, 1.0, false)?;
    Ok((drive, radius_m(vehicle, axle)?))
}

/// Motor, its own gears or a gearbox behind it, a shaft, and the ratio of the axle that it turns.
fn through_shaft(vehicle: &Vehicle, item: &Item) -> Result<(Drive, f64), String> {
    let motor = item.part.motor.as_ref().ok_or("no motor")?;
    let name = &item.part.name;
    let gearbox = vehicle.items.iter().find(|other| {
        let only_gears = other
            .part
            .motor
            .as_ref()
            .is_some_and(|m| m.peak_kw.is_none() && !m.ratios.is_empty());
        only_gears && motor.ratios.is_empty()
    });
    let shaft = vehicle
        .items
        .iter()
        .find(|other| {
            let from = gearbox.map_or(&item.tag, |g| &g.tag);
            other.joined_axle.is_some() && other.joined_to.contains(from)
        })
        .ok_or_else(|| format!("no driveshaft joins {name} to an axle"))?;
    let axle_id = shaft.joined_axle.as_deref().unwrap_or_default();
    let ratio = vehicle
        .axle(axle_id)
        .and_then(|a| a.ratio)
        .ok_or_else(|| format!("the ratio of the axle {axle_id} is not known"))?;
    let gears = gearbox
        .and_then(|g| g.part.motor.as_ref())
        .map_or(&motor.ratios, |m| &m.ratios);
    let drive = Drive::of(name, motor, gears, ratio, true)?;
    Ok((drive, radius_m(vehicle, axle_id)?))
}

fn accessories(vehicle: &Vehicle, temperature_c: f64) -> Accessories {
    let sum = |watt: fn(&Part) -> f64| vehicle.items.iter().map(|i| watt(&i.part)).sum::<f64>();
    let steady = sum(|p| {
        p.load
            .as_ref()
            .map_or(0.0, |l| l.air_kw.unwrap_or(0.0) + l.steer_kw.unwrap_or(0.0))
    });
    let climate = sum(|p| p.load.as_ref().and_then(|l| l.climate_kw).unwrap_or(0.0));
    let share = ((temperature_c - EASY_C).abs() / FULL_CLIMATE_K).clamp(0.0, 1.0);
    Accessories {
        driving_w: steady * 1e3 * DUTY + ALWAYS_W,
        climate_w: climate * 1e3 * share,
    }
}
