//! Trucks that are nothing but numbers, for cases with known answers.

use axlewright_core::energy::{Accessories, Resistance, Truck};
use axlewright_core::part::{Battery, Chemistry, Fuel, Motor, SourceUnit};
use axlewright_core::plant::{Bank, Drive, Source};

/// A bank of one pack.
pub fn bank(chemistry: Chemistry, energy_kwh: f64, power_kw: f64) -> Bank {
    let pack = Battery {
        chemistry: Some(chemistry),
        energy_kwh: Some(energy_kwh),
        nominal_v: Some(650.0),
        continuous_kw: Some(power_kw),
        peak_kw: Some(power_kw * 2.0),
        charge_kw: Some(power_kw),
        soc_low: Some(0.05),
        soc_high: Some(0.95),
        cycle_life: Some(3_000.0),
        vent: None,
    };
    Bank::of([("pack", 6.0 * energy_kwh, &pack)]).unwrap()
}

/// Two strong two-speed axles.
pub fn drive() -> Drive {
    let motor = Motor {
        continuous_kw: Some(200.0),
        peak_kw: Some(300.0),
        peak_nm: Some(900.0),
        max_rpm: Some(12_000.0),
        ratios: vec![38.0, 16.5],
        efficiency: Some(0.93),
        nominal_v: Some(650.0),
    };
    let mut drive = Drive::of("axle", &motor, &motor.ratios, 1.0, false).unwrap();
    drive.count = 2.0;
    drive
}

/// A laden tractor with two e-axles.
pub fn tractor() -> Truck {
    Truck {
        resistance: Resistance {
            mass_kg: 34_000.0,
            rolling: 0.0055,
            drag_area_m2: 5.8,
        },
        rotating_kg: 680.0,
        radius_m: 0.506,
        driven_kg: 15_400.0,
        driven_share: 0.5,
        grip: 0.6,
        drive: drive(),
        bank: bank(Chemistry::Lfp, 500.0, 500.0),
        source: None,
        fuel_j: 0.0,
        fuel_kg: 0.0,
        tanks: Vec::new(),
        sockets: Vec::new(),
        altitude_m: 0.0,
        accessories: Accessories {
            driving_w: 3_000.0,
            climate_w: 0.0,
        },
        resistor_w: 0.0,
        cooling: Err("a truck of numbers has no radiator".to_owned()),
    }
}

/// The same with a small pack, a generator and fuel for the day.
pub fn range_extended() -> Truck {
    let mut truck = tractor();
    truck.bank = bank(Chemistry::Nmc, 180.0, 400.0);
    let unit = SourceUnit {
        continuous_kw: Some(150.0),
        efficiency: Some(0.34),
        efficiency_half: Some(0.31),
        heat_coolant_kw: Some(150.0),
        coolant_out_c: Some(95.0),
        fuel: Some(Fuel::NaturalGas),
        ..SourceUnit::default()
    };
    truck.source = Some(Source::of("generator", &unit).unwrap());
    truck.fuel_j = 200.0 * 50e6;
    truck.fuel_kg = 200.0;
    truck
}
