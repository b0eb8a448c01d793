//! The three conversions against figures worked out by hand (`tests/cases/scenario_energy.toml`).

use super::plans::drive;
use axlewright_core::energy::Resistance;
use serde::Deserialize;

const CASES: &str = include_str!("../cases/scenario_energy.toml");
const KMH: f64 = 1.0 / 3.6;

#[derive(Deserialize)]
struct Cases {
    case: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    example: String,
    drag_area_m2: f64,
    rolling: f64,
    mass_kg: f64,
    gross_kwh: f64,
    usable_kwh: f64,
    window: [f64; 2],
    wheel_kw_65_6: f64,
    motor_kw: [f64; 2],
    speed_6_kmh: [f64; 2],
}

#[test]
fn energy_and_speeds_on_six_per_cent_are_those_of_the_hand_calculation() {
    let cases: Cases = toml::from_str(CASES).unwrap();
    for case in cases.case {
        let journey = drive(&case.example, "level-80", |plan| {
            plan.duty.drag_area_m2 = Some(case.drag_area_m2);
            plan.duty.rolling = Some(case.rolling);
            plan.duty.temperature_c = Some(21.0);
        });
        let (truck, name) = (&journey.truck, &case.example);
        let near = |what: &str, ours: f64, hand: f64, within: f64| {
            println!("{name} {what}: {ours:.1}, by hand {hand:.1}");
            assert!(
                (ours / hand - 1.0).abs() <= within,
                "{name} {what}: {ours}, by hand {hand}"
            );
        };
        near("mass", journey.gross_kg, case.mass_kg, 0.006);
        near(
            "gross kWh",
            truck.bank.energy_j / 3.6e6,
            case.gross_kwh,
            1e-3,
        );
        let [low, high] = case.window.map(|soc| truck.bank.energy_to_j(soc) / 3.6e6);
        near("usable kWh", high - low, case.usable_kwh, 0.02);
        let drive = &truck.drive;
        for (ours, hand) in [drive.continuous_w, drive.peak_w].iter().zip(case.motor_kw) {
            near("motors kW", drive.count * ours / 1e3, hand, 1e-3);
        }
        let load = Resistance {
            mass_kg: journey.gross_kg,
            rolling: case.rolling,
            drag_area_m2: case.drag_area_m2,
        };
        let v = 65.0 * KMH;
        let force_n = load.forces(v, 0.06, 1.2, 0.0).sum_n();
        near("wheel kW", force_n * v / 1e3, case.wheel_kw_65_6, 0.01);
        let (peak, lasting) = journey.grades.on_6;
        for (ours, hand) in [lasting, peak].into_iter().zip(case.speed_6_kmh) {
            near("km/h on 6 %", ours.unwrap() / KMH, hand, 0.06);
        }
    }
}
