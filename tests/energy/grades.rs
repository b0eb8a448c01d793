//! *Published*: pull, grades and grip, `tests/published/energy/grades.toml`.

use super::published_rows::{Row, compare};
use super::rig;
use axlewright_core::energy::{GRAVITY, Gait, Resistance, Truck, launch_grade};
use axlewright_core::numeric::hypot;
use axlewright_core::part::Chemistry;
use axlewright_core::quantity::{KG_PER_LB, MM_PER_IN, N_PER_LBF, NM_PER_LBFT};

/// One motor of the row's torque on tyres that never slip, from packs that are never short.
fn truck(row: &Row) -> Truck {
    let or = |key: &str, else_: f64| row.given.get(key).map_or(else_, |_| row.one(key));
    let mut truck = rig::tractor();
    truck.driven_kg = 1e9;
    truck.bank = rig::bank(Chemistry::Lfp, 5_000.0, 5_000.0);
    truck.drive.count = 1.0;
    truck.radius_m = or("r_in", 20.0) * MM_PER_IN / 1e3;
    truck.drive.peak_nm = or("T_lbin", 1.0) / 12.0 * NM_PER_LBFT;
    truck.drive.ratios = vec![or("ratio", 1.0)];
    truck.drive.axle_efficiency = or("eff", 1.0);
    truck.resistance = Resistance {
        mass_kg: or(
            "m_kg",
            or("GVW_lb", or("W_lb", or("gross_lb", 1.0))) * KG_PER_LB,
        ),
        rolling: or("RR_pct", 0.0) / 100.0,
        drag_area_m2: 0.0,
    };
    truck
}

/// Pull at a standstill, pound-force.
fn pull_lb(truck: &Truck) -> f64 {
    truck.most_pull_n(0.0, Gait::Peak, 25.0, 0.5).0 / N_PER_LBF
}

#[test]
fn pull_grades_and_grip() {
    compare(include_str!("../published/energy/grades.toml"), |row| {
        let mut truck = truck(row);
        let load = truck.resistance;
        let weight_lb = load.mass_kg / KG_PER_LB;
        let (key, found) = match row.id.as_str() {
            "GR-1" => ("grade_pct", 100.0 * truck.launch_grade(25.0, 0.5).unwrap()),
            "GR-3" => {
                let slope = load
                    .forces(0.0, row.one("grade_pct") / 100.0, 1.2, 0.0)
                    .slope_n;
                ("F_lb", slope / N_PER_LBF)
            }
            "GR-4" => {
                let slope = load
                    .forces(0.0, row.one("grade_pct") / 100.0, 1.2, 0.0)
                    .slope_n;
                ("F_N", slope)
            }
            "GR-6" | "GR-10" => ("TE_lb", pull_lb(&truck)),
            "GR-7" => {
                let rolling = load.forces(1e-3, 0.0, 1.2, 0.0).rolling_n;
                ("DP_lb", pull_lb(&truck) - rolling / N_PER_LBF)
            }
            "GR-9" | "GR-11" => ("factor", pull_lb(&truck) / weight_lb),
            "GR-13" => {
                // A motor that may turn so fast and no faster drives so fast and no faster.
                truck.radius_m = row.one("U_m") / std::f64::consts::TAU;
                truck.drive.most_rad_s = row.one("n_rpm") * std::f64::consts::TAU / 60.0;
                truck.drive.peak_nm = 1e4;
                // Some resistance, or a truck without pull would hold any speed.
                truck.resistance.rolling = 0.005;
                let held = truck.held_speed_mps(0.0, Gait::Peak, 1.2, 25.0, 0.5);
                ("v_kmh", 3.6 * held.unwrap())
            }
            "GR-15" => (
                "grade_pct",
                100.0 * launch_grade(&load, row.one("F_N")).unwrap(),
            ),
            "GR-16" => {
                truck.driven_kg = row.one("drive_lb") * KG_PER_LB;
                truck.grip = row.one("mu");
                (truck.drive.peak_nm, truck.drive.ratios) = (1e3, vec![100.0]);
                assert!((truck.grip_n() / (load.mass_kg * GRAVITY) - 0.2975).abs() < 1e-9);
                let grade = truck.launch_grade(25.0, 0.5).unwrap();
                ("sine_pct", 100.0 * grade / hypot(grade, 1.0))
            }
            other => panic!("{other} is not asked"),
        };
        vec![(key, vec![found])]
    });
}
