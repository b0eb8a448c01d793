//! *Published*: every row of `tests/published/energy/figures.toml`, by its topic: routes and the road. What
//! stores and makes energy stands in `stores.rs`, the measured window in `window.rs`.

use super::rig;
use axlewright_core::energy::{GRAVITY, Gait, Resistance, held_speed_mps};
use axlewright_core::part::Chemistry;
use axlewright_core::route::{Course, Route, Weather, shipped};
use std::collections::BTreeSet;
use std::panic::{AssertUnwindSafe, catch_unwind};
use toml::{Table, Value};

const MPH: f64 = 0.447_04;
pub const AIR: f64 = 1.1845;

/// One row and its figures by name.
pub struct Row {
    pub id: String,
    topic: String,
    pub given: Table,
    pub expected: Table,
    tolerance: Table,
}

impl Row {
    pub fn given(&self, name: &str) -> f64 {
        number(&self.given, name).unwrap_or_else(|| panic!("{}: {name} is not given", self.id))
    }

    pub fn given_list(&self, name: &str) -> Vec<f64> {
        list(&self.given[name])
    }

    pub fn expect(&self, name: &str, got: f64) {
        let want = number(&self.expected, name)
            .unwrap_or_else(|| panic!("{}: {name} is not expected", self.id));
        self.near(name, got, want);
    }

    pub fn near(&self, name: &str, got: f64, want: f64) {
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

pub fn value(value: &Value) -> Option<f64> {
    value
        .as_float()
        .or_else(|| value.as_integer().map(|i| i as f64))
}

pub fn number(table: &Table, name: &str) -> Option<f64> {
    table.get(name).and_then(value)
}

pub fn list(item: &Value) -> Vec<f64> {
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

/// Runs the rows of one topic; at least one must exist. Every row is asked before the test fails, so that
/// one run shows all that a wrong formula turns red.
pub fn each(topic: &str, test: impl Fn(&Row)) {
    let rows: Vec<Row> = rows().into_iter().filter(|r| r.topic == topic).collect();
    assert!(!rows.is_empty(), "no row about {topic}");
    let red: Vec<&str> = rows
        .iter()
        .filter(|row| catch_unwind(AssertUnwindSafe(|| test(row))).is_err())
        .map(|row| row.id.as_str())
        .collect();
    assert!(red.is_empty(), "rows that do not hold: {}", red.join(" "));
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
    let source = concat!(
        include_str!("published.rs"),
        include_str!("stores.rs"),
        include_str!("window.rs")
    );
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
}

#[test]
fn bursts_and_halts_of_the_cycles() {
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
}

#[test]
fn climb_of_the_cruise_cycles() {
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
}

#[test]
fn steady_road_load() {
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
}

#[test]
fn wheel_energy_over_the_graded_cruise() {
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
fn starting_on_a_grade() {
    each("startability / gradeability", |row| {
        // One motor of this torque on tyres that never slip, from packs that are never short.
        let mut truck = rig::tractor();
        truck.resistance = resistance(row);
        truck.driven_kg = 1e9;
        truck.radius_m = row.given("tyre_radius_m");
        truck.bank = rig::bank(Chemistry::Lfp, 5_000.0, 5_000.0);
        truck.drive.count = 1.0;
        truck.drive.peak_nm = row.given("motor_torque_total_Nm");
        truck.drive.ratios = vec![row.given("total_ratio")];
        truck.drive.axle_efficiency = row.given("eff");
        row.expect("F_wheel_N", truck.most_pull_n(0.0, Gait::Peak, 25.0, 0.5).0);
        let grade = truck.launch_grade(25.0, 0.5).unwrap();
        row.expect("max_grade_pct", grade * 100.0);
    });
}

#[test]
fn speed_held_on_a_grade() {
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
}

#[test]
fn motor_speed_at_a_road_speed() {
    each("driveline kinematics", |row| {
        // A motor that may turn so fast and no faster drives the truck at this speed and no faster.
        let radius = 1609.344 / row.given("tyre_rev_per_mile") / std::f64::consts::TAU;
        row.expect("effective_radius_m", radius);
        let mut truck = rig::tractor();
        truck.radius_m = number(&row.expected, "effective_radius_m").unwrap();
        truck.drive.ratios = vec![row.given("total_ratio")];
        truck.drive.most_rad_s =
            number(&row.expected, "motor_rpm").unwrap() * std::f64::consts::TAU / 60.0;
        let pull = |mph: f64| truck.most_pull_n(mph * MPH, Gait::Peak, 25.0, 0.5).0;
        let mph = row.given("speed_mph");
        assert!(
            pull(mph * 0.9995) > 0.0 && pull(mph * 1.0005) <= 0.0,
            "{}: the motor's highest speed is not at {mph} mph",
            row.id
        );
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
