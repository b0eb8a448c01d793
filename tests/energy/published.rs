//! *Published*: every row of `tests/published/energy/figures.toml`, by its topic.

use super::rig;
use axlewright_core::energy::{
    GRAVITY, Limits, OUTLETS, Outlet, PLUGS, Plug, Resistance, charge, held_speed_mps,
    launch_grade, rainflow,
};
use axlewright_core::part::{Chemistry, Fuel, SourceUnit};
use axlewright_core::plant::gas::{HYDROGEN_MJ_PER_KG, Hydrogen, Methane};
use axlewright_core::plant::{Cell, Radiator, Source};
use axlewright_core::route::{Course, Route, Weather, shipped};
use std::collections::BTreeSet;
use toml::{Table, Value};

const MPH: f64 = 0.447_04;
pub const AIR: f64 = 1.1845;

/// One row and its figures by name.
pub struct Row {
    id: String,
    topic: String,
    given: Table,
    pub expected: Table,
    tolerance: Table,
}

impl Row {
    fn given(&self, name: &str) -> f64 {
        number(&self.given, name).unwrap_or_else(|| panic!("{}: {name} is not given", self.id))
    }

    fn given_list(&self, name: &str) -> Vec<f64> {
        list(&self.given[name])
    }

    fn expect(&self, name: &str, got: f64) {
        let want = number(&self.expected, name)
            .unwrap_or_else(|| panic!("{}: {name} is not expected", self.id));
        self.near(name, got, want);
    }

    fn near(&self, name: &str, got: f64, want: f64) {
        let relative = ["rel", "computed_rel", "published_rel"]
            .iter()
            .find_map(|key| number(&self.tolerance, key))
            .unwrap_or(0.0);
        let absolute = self
            .tolerance
            .iter()
            .find(|(key, _)| key.ends_with("abs"))
            .and_then(|(_, v)| value(v))
            .unwrap_or(0.0);
        let room = absolute.max(relative * want.abs()).max(1e-12);
        assert!(
            (got - want).abs() <= room,
            "{} {name}: {got}, expected {want} ± {room}",
            self.id
        );
    }
}

fn value(value: &Value) -> Option<f64> {
    value
        .as_float()
        .or_else(|| value.as_integer().map(|i| i as f64))
}

pub fn number(table: &Table, name: &str) -> Option<f64> {
    table.get(name).and_then(value)
}

fn list(item: &Value) -> Vec<f64> {
    item.as_array()
        .unwrap()
        .iter()
        .map(|v| value(v).unwrap())
        .collect()
}

fn rows() -> Vec<Row> {
    let file: Table = include_str!("../published/energy/figures.toml")
        .parse()
        .unwrap();
    let table = |row: &Value, name: &str| row[name].as_table().unwrap().clone();
    file["row"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| Row {
            id: row["id"].as_str().unwrap().to_owned(),
            topic: row["topic"].as_str().unwrap().to_owned(),
            given: table(row, "given"),
            expected: table(row, "expected"),
            tolerance: table(row, "tolerance"),
        })
        .collect()
}

/// Runs the rows of one topic; at least one must exist.
pub fn each(topic: &str, test: impl Fn(&Row)) {
    let mut found = 0;
    for row in rows().iter().filter(|row| row.topic == topic) {
        test(row);
        found += 1;
    }
    assert!(found > 0, "no row about {topic}");
}

fn resistance(row: &Row) -> Resistance {
    Resistance {
        mass_kg: row.given("mass_kg"),
        rolling: number(&row.given, "Crr").unwrap_or(0.0),
        drag_area_m2: number(&row.given, "CdA_m2").unwrap_or(0.0),
    }
}

fn speeds(route: &Route) -> &[f64] {
    match &route.course {
        Course::Trace { speeds_mps, .. } => speeds_mps,
        Course::Road { .. } => panic!("not a trace"),
    }
}

fn file(row: &Row) -> Route {
    let id = row.given["file"].as_str().unwrap();
    shipped(if id == "cruise-grade" {
        "cruise-65"
    } else {
        id
    })
    .unwrap()
}

#[test]
fn every_topic_of_the_rows_has_a_test_here() {
    let source = concat!(include_str!("published.rs"), include_str!("window.rs"));
    let topics: BTreeSet<String> = rows().into_iter().map(|row| row.topic).collect();
    for topic in topics {
        assert!(
            source.contains(&format!("each(\"{topic}\"")),
            "no test reads the rows about {topic}"
        );
    }
}

#[test]
fn totals_of_the_cycles() {
    each("drive-cycle totals", |row| {
        let route = file(row);
        let speeds = speeds(&route);
        let duration = (speeds.len() - 1) as f64;
        let miles = route.length_m() / 1609.344;
        let top = speeds.iter().copied().fold(0.0, f64::max) / MPH;
        row.expect("duration_s", duration);
        row.expect("distance_mi", miles);
        row.expect("avg_mph", miles / duration * 3600.0);
        row.expect("max_mph", top);
        let published = row.expected["published"].as_table().unwrap();
        let loose = number(&row.tolerance, "published_rel").unwrap();
        assert!((miles / number(published, "distance_mi").unwrap() - 1.0).abs() < loose);
        assert!((top / number(published, "max_mph").unwrap() - 1.0).abs() < loose);
    });
    each("drive-cycle kinetic intensity", |row| {
        let route = file(row);
        let speeds = speeds(&route);
        let rise = |pair: &[f64]| 0.5 * (pair[1] * pair[1] - pair[0] * pair[0]);
        let sum: f64 = speeds.windows(2).map(rise).filter(|e| *e > 0.0).sum();
        row.expect("sum_positive_half_dv2_J_per_kg", sum);
        let still = speeds.iter().filter(|v| **v == 0.0).count();
        row.expect("samples_at_zero_speed", still as f64);
        let change = speeds.windows(2).map(|p| p[1] - p[0]);
        row.expect("max_accel_mps2", change.clone().fold(0.0, f64::max));
        row.expect("max_decel_mps2", change.fold(0.0, f64::min));
    });
}

#[test]
fn grades_of_the_cruise_cycles() {
    each("grade profile interpolation", |row| {
        let route = file(row);
        let wanted = list(&row.expected["grade_pct"]);
        for (x, grade) in row.given_list("distance_m").iter().zip(wanted) {
            row.near("grade", route.profile.at(*x) * 100.0, grade);
        }
    });
    each("grade profile totals", |row| {
        let route = file(row);
        let (up, net) = route.profile.climb_m();
        assert!((route.length_m() - number(&row.expected, "length_m").unwrap()).abs() < 0.5);
        assert!(
            (up - number(&row.expected, "ascent_m").unwrap()).abs() < 0.01,
            "{up}"
        );
        assert!(net.abs() < 1e-6, "{net}");
    });
}

#[test]
fn road_load_of_the_regulation() {
    each("road load: regulation worked example", |row| {
        let truck = resistance(row);
        let forces = truck.forces(
            row.given("v_mps"),
            row.given("grade"),
            row.given("rho"),
            0.0,
        );
        assert!((forces.slope_n - number(&row.expected, "F_grade_N").unwrap()).abs() < 0.3);
        let drive = row.given("T_Nm") * row.given("axle_ratio") * row.given("eff_axle")
            / row.given("tyre_radius_m");
        let net = drive - forces.sum_n();
        assert!(
            (net - number(&row.expected, "F_net_N").unwrap()).abs() < 0.5,
            "{net}"
        );
        let gain = net / (row.given("mass_kg") + row.given("M_rotating_kg")) * row.given("dt_s");
        assert!(
            (row.given("v_mps") + gain - number(&row.expected, "v_next_mps").unwrap()).abs() < 5e-6
        );
        assert!((axlewright_core::plant::AXLE_EFFICIENCY - row.given("eff_axle")).abs() < 1e-12);
        assert!((GRAVITY - row.given("g")).abs() < 1e-12);
    });
    each("steady road load", |row| {
        let v = row.given("speed_mph") * MPH;
        let force = resistance(row)
            .forces(v, row.given("grade"), AIR, 0.0)
            .sum_n();
        row.expect("F_wheel_N", force);
        row.expect("P_wheel_kW", force * v / 1e3);
        row.expect("kWh_per_mile_wheel", force * 1609.344 / 3.6e6);
    });
}

#[test]
fn wheel_energy_over_the_cycles() {
    each("cycle wheel energy", |row| {
        let route = file(row);
        let truck = resistance(row);
        let inertia = row.given("mass_kg") + row.given("M_rotating_kg");
        let (mut plus, mut minus) = (0.0, 0.0);
        for pair in speeds(&route).windows(2) {
            let v = 0.5 * (pair[0] + pair[1]);
            let force = inertia * (pair[1] - pair[0]) + truck.forces(v, 0.0, AIR, 0.0).sum_n();
            let work = if v > 0.0 { force * v / 3.6e6 } else { 0.0 };
            if work > 0.0 {
                plus += work
            } else {
                minus += work
            }
        }
        row.expect("positive_kWh", plus);
        row.expect("negative_kWh", minus);
        row.expect("positive_kWh_per_mi", plus / (route.length_m() / 1609.344));
    });
    each("cruise on graded profile", |row| {
        // One metre at a time; the rows take the small angle, a twentieth of a per mille here.
        let route = file(row);
        let truck = resistance(row);
        let v = row.given("speed_mph") * MPH;
        let (mut plus, mut minus) = (0.0, 0.0);
        for x in 0..route.length_m() as usize {
            let grade = route.profile.at(x as f64 + 0.5);
            let work = truck.forces(v, grade, AIR, 0.0).sum_n() / 3.6e6;
            if work > 0.0 {
                plus += work
            } else {
                minus += work
            }
        }
        row.expect("positive_kWh", plus);
        row.near(
            "net_kWh",
            plus + minus,
            number(&row.expected, "net_kWh").unwrap(),
        );
    });
}

#[test]
fn starting_and_holding_speed() {
    each("startability / gradeability", |row| {
        let force =
            row.given("motor_torque_total_Nm") * row.given("total_ratio") * row.given("eff")
                / row.given("tyre_radius_m");
        row.expect("F_wheel_N", force);
        row.expect(
            "max_grade_pct",
            launch_grade(&resistance(row), force).unwrap() * 100.0,
        );
    });
    each("speed held on a grade at given wheel power", |row| {
        let v = held_speed_mps(
            &resistance(row),
            row.given("P_wheel_kW") * 1e3,
            row.given("grade"),
            AIR,
        );
        row.expect("v_mps", v.unwrap());
        row.expect("v_mph", v.unwrap() / MPH);
    });
    each("driveline kinematics", |row| {
        let radius = 1609.344 / row.given("tyre_rev_per_mile") / std::f64::consts::TAU;
        row.expect("effective_radius_m", radius);
        let mut drive = rig::drive();
        drive.ratios = vec![row.given("total_ratio")];
        let rad_s = row.given("speed_mph") * MPH / radius * drive.ratio(0);
        row.expect("motor_rpm", rad_s * 60.0 / std::f64::consts::TAU);
    });
}

#[test]
fn time_to_speed() {
    each("acceleration time", |row| {
        // A truck whose motor is nothing but this force and this power.
        let mut truck = rig::tractor();
        let (power, force) = (row.given("P_wheel_kW") * 1e3, row.given("F_max_N"));
        truck.resistance = resistance(row);
        truck.rotating_kg = row.given("M_rotating_kg");
        truck.driven_kg = 1e9;
        truck.bank = rig::bank(Chemistry::Lfp, 5_000.0, 5_000.0);
        truck.drive.count = 1.0;
        truck.drive.ratios = vec![10.0];
        truck.drive.inertia_kg_m2 = 0.0;
        truck.drive.peak_nm = force * truck.radius_m / 10.0;
        truck.drive.continuous_nm = truck.drive.peak_nm;
        truck.drive.peak_w = power;
        truck.drive.continuous_w = power;
        truck.drive.most_rad_s = 1e4;
        let mut route = Route::level(row.given("v_target_mps"), 3_000.0);
        // The density that the rows use.
        route.weather = Weather {
            temperature_c: 101_325.0 / 287.053 / row.given("rho") - 273.15,
            ..Weather::default()
        };
        let conditions = axlewright_core::energy::Conditions {
            step_s: 0.01,
            driver: axlewright_core::energy::Driver {
                accelerate: 100.0,
                brake: 100.0,
            },
            ..Default::default()
        };
        let mut reached: Option<(f64, f64)> = None;
        let run = axlewright_core::energy::run(&truck, &route, &conditions, &mut |_| true);
        for sample in &run.samples {
            if sample.v_mps >= row.given("v_target_mps") * (1.0 - 1e-6) && reached.is_none() {
                reached = Some((sample.t_s, sample.x_m));
            }
        }
        let (t, x) = reached.unwrap();
        // Samples are thinned to a few hundredths of a second.
        let want = number(&row.expected, "t_s").unwrap();
        assert!(
            (t - want).abs() < 0.002 * want,
            "{}: {t} s, expected {want}",
            row.id
        );
        let want = number(&row.expected, "distance_m").unwrap();
        assert!(
            (x - want).abs() < 0.004 * want,
            "{}: {x} m, expected {want}",
            row.id
        );
    });
}

#[test]
fn hydrogen_and_its_tanks() {
    each("hydrogen density, published check value", |row| {
        let (t, p) = (row.given("T_K"), row.given("P_MPa"));
        row.expect("Z", Hydrogen::compressibility(t, p).unwrap());
        let mol_l = Hydrogen::density_kg_m3(t, p).unwrap() / Hydrogen::MOLAR_MASS / 1e3;
        row.expect("rho_mol_L", mol_l);
    });
    each("hydrogen tank mass", |row| {
        let mass = |t: &str, p: &str| {
            Hydrogen::density_kg_m3(row.given(t), row.given(p)).unwrap() * row.given("V_m3")
        };
        let (full, left) = (mass("T0_K", "P0_MPa_abs"), mass("T1_K", "P1_MPa_abs"));
        row.expect("m0_kg", full);
        row.expect("m1_kg", left);
        row.expect("difference_kg", full - left);
        row.expect(
            "energy_kWh_LHV_of_difference",
            (full - left) * HYDROGEN_MJ_PER_KG / 3.6,
        );
    });
}

#[test]
fn methane_and_its_tanks() {
    each("methane density", |row| {
        let (t, p) = (row.given("t_C") + 273.15, row.given("p_bar_abs") / 10.0);
        row.expect("rho_kg_m3", Methane::density_kg_m3(t, p).unwrap());
        row.expect("Z", Methane::compressibility(t, p).unwrap());
    });
    each("CNG tank content", |row| {
        let at = |p: &str| {
            let density = Methane::density_kg_m3(row.given("t_C") + 273.15, row.given(p) / 10.0);
            density.unwrap() * row.given("water_volume_L") / 1e3
        };
        row.expect("m_full_kg", at("p_bar_abs"));
        row.expect("m_reserve_kg", at("reserve_p_bar_abs"));
    });
}

fn chemistry(row: &Row) -> Chemistry {
    match row.given["chemistry"].as_str().unwrap() {
        "NMC811/graphite-SiOx (LG M50 21700)" | "NMC" => Chemistry::Nmc,
        _ => Chemistry::Lfp,
    }
}

#[test]
fn open_circuit_voltages() {
    each("open-circuit voltage", |row| {
        let cell = Cell::of(chemistry(row));
        let wanted = list(&row.expected["ocv_V"]);
        for (soc, volts) in row.given_list("soc").iter().zip(wanted) {
            row.near("ocv", cell.open_v(*soc), volts);
        }
    });
}

/// A cell whose open-circuit voltage is straight, with one resistance.
fn straight_cell(empty_v: f64, full_v: f64, ohm_ah: f64) -> &'static Cell {
    let mut cell = *Cell::of(Chemistry::Lfp);
    for (step, volts) in cell.open_v.iter_mut().enumerate() {
        *volts = empty_v + (full_v - empty_v) * step as f64 / 20.0;
    }
    (cell.ohm_ah, cell.activation_j_mol, cell.empty_rise) = (ohm_ah, 0.0, 0.0);
    (cell.least_v, cell.most_v) = (0.0, 1e4);
    Box::leak(Box::new(cell))
}

#[test]
fn packs_under_load() {
    each("pack electrical", |row| {
        let (series, parallel) = (row.given("series"), row.given("parallel"));
        let nominal = row.given("cell_V_nom");
        let ah = row.given("cell_Ah") * parallel;
        let mut bank = rig::bank(Chemistry::Lfp, 100.0, 1_000.0);
        bank.cell = straight_cell(
            nominal,
            nominal,
            row.given("cell_R_ohm") * row.given("cell_Ah"),
        );
        (bank.series, bank.capacity_ah) = (series, ah);
        row.expect("energy_kWh", bank.energy_to_j(1.0) / 3.6e6);
        row.expect("V_nom", bank.open_v(0.5));
        row.expect("V_min", series * row.given("cell_V_min"));
        row.expect("R_pack_ohm", bank.resistance_ohm(25.0, 0.5));
        let draw = bank.draw(row.given("P_discharge_kW") * 1e3, 25.0, 0.5);
        row.expect("I_A", draw.amps);
        row.expect("V_term", draw.volts);
        row.expect("loss_kW", (draw.inner_w - draw.power_w) / 1e3);
        row.expect("C_rate", draw.amps / ah);
        bank.peak_w = 1e9;
        bank.continuous_w = 1e9;
        row.expect(
            "P_max_kW",
            bank.open_v(0.5).powi(2) / 4.0 / bank.resistance_ohm(25.0, 0.5) / 1e3,
        );
    });
}

#[test]
fn constant_current_then_constant_voltage() {
    each("CC-CV charge, linear OCV", |row| {
        let q = row.given("Q_Ah");
        let mut bank = rig::bank(Chemistry::Lfp, 100.0, 10_000.0);
        let full = row.given("V0") + row.given("k_V_per_Ah") * q;
        bank.cell = straight_cell(row.given("V0"), full, row.given("R_ohm") * q);
        (bank.series, bank.capacity_ah, bank.charge_w) = (1.0, q, 1e9);
        let limits = Limits {
            most_a: row.given("I_cc_A"),
            most_w: 1e9,
            most_v: row.given("V_max"),
            end_a: row.given("I_cut_A"),
            pack_c: 25.0,
        };
        let done = charge(&bank, row.given("soc0"), 1.0, &limits);
        assert!(done.tapered_out);
        let near = |name: &str, got: f64| {
            let want = number(&row.expected, name).unwrap();
            assert!(
                (got / want - 1.0).abs() < 0.001,
                "{} {name}: {got}, expected {want}",
                row.id
            );
        };
        near("t_cc_h", done.at_current_s / 3600.0);
        near("t_cv_h", (done.time_s - done.at_current_s) / 3600.0);
        near("q_end_Ah", done.soc_end * q);
        near("E_dc_kWh", done.energy_j / 3.6e6);
    });
}

#[test]
fn plugs_and_outlets() {
    each("charger limit", |row| {
        let plug = Plug {
            most_v: row.given("V_max"),
            most_a: row.given("I_max_A"),
            most_w: row.given("P_max_kW") * 1e3,
            ..PLUGS[0]
        };
        row.expect("P_kW", plug.power_w(row.given("pack_V")).unwrap() / 1e3);
        assert_eq!(plug.power_w(row.given("V_max") + 1.0), None);
    });
    each("AC charging power", |row| {
        let outlet = Outlet {
            volts: row.given("V_line"),
            amps: row.given("I_A"),
            phases: row.given("phases") as u8,
            ..OUTLETS[0]
        };
        row.expect("P_kW", outlet.power_w() / 1e3);
    });
}

#[test]
fn rainflow_of_the_standard() {
    each("rainflow counting, ASTM E1049-85 worked example", |row| {
        let counts = rainflow(&row.given_list("series"));
        for (range, want) in row.expected["counts"].as_table().unwrap() {
            let range: f64 = range.parse().unwrap();
            let got: f64 = counts
                .iter()
                .filter(|(r, _)| (r - range).abs() < 1e-9)
                .map(|(_, n)| n)
                .sum();
            assert_eq!(got, value(want).unwrap(), "range {range}");
        }
    });
    each("rainflow + Miner on a state-of-charge trace", |row| {
        // The row's life curve: 3000 cycles at 0.8, exponent 1.2.
        let counts = rainflow(&row.given_list("soc"));
        let sum: f64 = counts
            .iter()
            .map(|(depth, n)| axlewright_core::energy::damage(*depth, 3_000.0, 1.2) * n)
            .sum();
        row.expect("damage", sum);
    });
}

#[test]
fn radiators_and_the_heat_of_fuel_cells() {
    each("radiator heat rejection", |row| {
        // A face and a speed that make the row's air flow at the density of rating.
        let radiator = Radiator {
            ua_w_k: row.given("UA_W_K"),
            coolant_kg_s: row.given("coolant_kg_s"),
            coolant_cp: row.given("coolant_cp"),
            face_m2: 1.0,
            rated_m_s: row.given("air_kg_s") / 1.127,
        };
        let (hot, cold) = (row.given("T_coolant_in_C"), row.given("T_air_in_C"));
        let heat = radiator.heat_w(hot, cold, radiator.rated_m_s, 1.127);
        row.expect("Q_kW", heat / 1e3);
        row.expect("Q_per_ITD_kW_K", heat / 1e3 / (hot - cold));
    });
    each("fuel-cell heat rejection", |row| {
        let (power, efficiency) = (row.given("P_net_kW"), row.given("eff_LHV"));
        let heat = power * (1.0 / efficiency - 1.0) * row.given("share_of_loss_to_coolant");
        let source = Source::of(
            "cell",
            &SourceUnit {
                continuous_kw: Some(power),
                efficiency: Some(efficiency),
                efficiency_half: Some(efficiency),
                heat_coolant_kw: Some(heat),
                heat_exhaust_kw: None,
                coolant_out_c: Some(row.given("T_coolant_C")),
                fuel: Some(Fuel::Hydrogen),
                ..SourceUnit::default()
            },
        )
        .unwrap();
        row.expect("fuel_kW_LHV", source.fuel_w(power * 1e3) / 1e3);
        row.expect("Q_coolant_kW", source.heat_w(power * 1e3) / 1e3);
        let kg_h = source.fuel_w(power * 1e3) / (HYDROGEN_MJ_PER_KG * 1e6) * 3600.0;
        row.expect("H2_kg_h", kg_h);
    });
}
