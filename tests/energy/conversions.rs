//! The three conversions against figures worked out by hand (`tests/cases/scenario_energy.toml` and
//! `grades.toml`).

use super::plans::{by_hand, drive};
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
    gross_kwh: f64,
    usable_kwh: f64,
    window: [f64; 2],
}

#[test]
fn energy_and_speeds_on_six_per_cent_are_those_of_the_hand_calculation() {
    let cases: Cases = toml::from_str(CASES).unwrap();
    let grades = by_hand();
    assert_eq!(cases.case.len(), grades.len());
    for (case, hand) in cases.case.into_iter().zip(grades) {
        assert_eq!(case.example, hand.example);
        let journey = drive(&case.example, "level-80", |plan| {
            plan.duty.drag_area_m2 = Some(hand.drag_area_m2);
            plan.duty.rolling = Some(hand.rolling);
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
        near("mass", journey.gross_kg, hand.mass_kg, 0.006);
        near(
            "gross kWh",
            truck.bank.energy_j / 3.6e6,
            case.gross_kwh,
            1e-3,
        );
        let [low, high] = case.window.map(|soc| truck.bank.energy_to_j(soc) / 3.6e6);
        near("usable kWh", high - low, case.usable_kwh, 0.02);
        let drive = &truck.drive;
        let motors = [drive.continuous_w, drive.peak_w].map(|w| drive.count * w / 1e3);
        near("motors kW", motors[0], hand.continuous_kw, 1e-3);
        near("motors kW", motors[1], hand.peak_kw, 1e-3);
        let load = Resistance {
            mass_kg: journey.gross_kg,
            rolling: hand.rolling,
            drag_area_m2: hand.drag_area_m2,
        };
        let v = 65.0 * KMH;
        let force_n = load.forces(v, 0.06, hand.air_kg_m3, 0.0).sum_n();
        let wheel_kw = force_n * v / 1e3;
        near("wheel kW", wheel_kw, hand.wheel_kw_at_65_kmh, 0.01);
        let (peak, lasting) = journey.grades.on_6;
        let [lasting, peak] = [lasting, peak].map(|v| v.unwrap() / KMH);
        near("km/h on 6 %", lasting, hand.continuous_kmh, 0.06);
        near("km/h on 6 %", peak, hand.peak_kmh, 0.06);
    }
}
