//! Trucks and roads of `tests/cases/drives.toml`, as the planner is asked for them.

use axlewright_core::energy::{Accessories, Resistance, Truck};
use axlewright_core::part::{Battery, Chemistry, Fuel, Motor, SourceUnit};
use axlewright_core::plant::{Bank, Drive, Source};
use axlewright_core::route::{Course, Profile, Route, Stop, Target, Weather, shipped};
use serde::Deserialize;
use std::collections::BTreeMap;

#[derive(Deserialize)]
pub struct Cases {
    pub pack_c: f64,
    pub air_c: f64,
    pub cell: BTreeMap<String, CellCase>,
    pub truck: BTreeMap<String, TruckCase>,
    pub route: BTreeMap<String, RouteCase>,
}

#[derive(Deserialize)]
pub struct CellCase {
    pub open_v: Vec<f64>,
    pub ohm_ah: f64,
    pub nominal_v: f64,
    pub least_v: f64,
    pub most_v: f64,
}

#[derive(Deserialize)]
pub struct TruckCase {
    pub mass_kg: f64,
    pub rotating_kg: f64,
    pub driven_kg: f64,
    pub grip: f64,
    pub drag_area_m2: f64,
    pub rolling: f64,
    pub radius_m: f64,
    pub accessories_w: f64,
    pub soc: f64,
    pub motor: toml::Table,
    pub pack: toml::Table,
    pub source: Option<toml::Table>,
}

#[derive(Deserialize)]
pub struct RouteCase {
    pub trace: Option<String>,
    pub grades: Option<String>,
    pub length_m: Option<f64>,
    #[serde(default)]
    pub targets: Vec<(f64, f64)>,
    #[serde(default)]
    pub stops: Vec<(f64, f64)>,
    #[serde(default)]
    pub profile: Vec<(f64, f64)>,
}

pub fn cases() -> Cases {
    toml::from_str(include_str!("../cases/drives.toml")).unwrap()
}

pub fn number(table: &toml::Table, name: &str) -> Option<f64> {
    let value = table.get(name)?;
    value
        .as_float()
        .or_else(|| value.as_integer().map(|i| i as f64))
}

fn chemistry(pack: &toml::Table) -> Chemistry {
    match pack["cell"].as_str() {
        Some("nmc") => Chemistry::Nmc,
        Some("lfp") => Chemistry::Lfp,
        other => panic!("{other:?}"),
    }
}

fn drive(case: &toml::Table) -> Drive {
    let ratios: Vec<f64> = case["ratios"]
        .as_array()
        .unwrap()
        .iter()
        .map(|r| r.as_float().unwrap())
        .collect();
    let get = |name: &str| number(case, name);
    let motor = Motor {
        continuous_kw: get("continuous_kw"),
        peak_kw: get("peak_kw"),
        peak_nm: get("peak_nm"),
        max_rpm: get("max_rpm"),
        ratios: Vec::new(),
        efficiency: get("efficiency"),
        nominal_v: None,
    };
    let after = get("after").unwrap_or(1.0);
    let kept = case["kept_axle"].as_bool().unwrap();
    let mut drive = Drive::of("motor", &motor, &ratios, after, kept).unwrap();
    drive.count = get("count").unwrap();
    drive
}

fn bank(case: &toml::Table) -> Bank {
    let get = |name: &str| number(case, name);
    let pack = Battery {
        chemistry: Some(chemistry(case)),
        energy_kwh: get("energy_kwh"),
        nominal_v: get("nominal_v"),
        continuous_kw: get("continuous_kw"),
        peak_kw: get("peak_kw"),
        charge_kw: get("charge_kw"),
        soc_low: get("soc_low"),
        soc_high: get("soc_high"),
        cycle_life: None,
        vent: None,
    };
    Bank::of([("pack", 0.0, &pack)]).unwrap()
}

fn source(case: &toml::Table) -> Source {
    let get = |name: &str| number(case, name);
    let unit = SourceUnit {
        continuous_kw: get("continuous_kw"),
        efficiency: get("efficiency"),
        efficiency_half: get("efficiency_half"),
        heat_coolant_kw: get("heat_coolant_kw"),
        heat_exhaust_kw: get("heat_exhaust_kw"),
        coolant_out_c: get("coolant_out_c"),
        fuel: Some(match case["fuel"].as_str() {
            Some("hydrogen") => Fuel::Hydrogen,
            Some("natural-gas") => Fuel::NaturalGas,
            other => panic!("{other:?}"),
        }),
        ..SourceUnit::default()
    };
    Source::of("source", &unit).unwrap()
}

pub fn truck(case: &TruckCase) -> Truck {
    Truck {
        resistance: Resistance {
            mass_kg: case.mass_kg,
            rolling: case.rolling,
            drag_area_m2: case.drag_area_m2,
        },
        rotating_kg: case.rotating_kg,
        radius_m: case.radius_m,
        driven_kg: case.driven_kg,
        driven_share: 0.0,
        grip: case.grip,
        drive: drive(&case.motor),
        bank: bank(&case.pack),
        source: case.source.as_ref().map(source),
        // Never empty on these roads.
        fuel_j: 1e12,
        fuel_kg: 1e4,
        tanks: Vec::new(),
        sockets: Vec::new(),
        altitude_m: 0.0,
        accessories: Accessories {
            driving_w: case.accessories_w,
            climate_w: 0.0,
        },
        resistor_w: 0.0,
        cooling: Err("a truck of numbers has no radiator".to_owned()),
    }
}

pub fn route(case: &RouteCase, air_c: f64) -> Route {
    let mut route = if let Some(id) = &case.trace {
        shipped(id).unwrap()
    } else {
        let length_m = case.length_m.unwrap();
        let mut road = Route::level(1.0, length_m);
        road.course = Course::Road {
            length_m,
            targets: case
                .targets
                .iter()
                .map(|&(from_m, speed_mps)| Target { from_m, speed_mps })
                .collect(),
            stops: case
                .stops
                .iter()
                .map(|&(at_m, dwell_s)| Stop::halt(at_m, dwell_s))
                .collect(),
        };
        road.profile = match &case.grades {
            Some(_) => shipped("cruise-65").unwrap().profile,
            None => Profile::of_grades(case.profile.clone()).unwrap(),
        };
        road
    };
    route.weather = Weather {
        temperature_c: air_c,
        ..Weather::default()
    };
    route
}

/// The trucks of the cases, for other tests.
pub fn trucks() -> Vec<Truck> {
    cases().truck.values().map(truck).collect()
}
