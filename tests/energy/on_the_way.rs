//! Stops with chargers and changing loads, thin air, standing starts: closed forms and the ledger.

use super::rig;
use axlewright_core::energy::{Conditions, End, GRAVITY, Run, Socket, Takes, Truck, run, sprint};
use axlewright_core::numeric::sqrt;
use axlewright_core::route::{Charger, Course, Profile, Route, Stop, Target, from_csv};
use proptest::prelude::*;

fn drive(truck: &Truck, route: &Route) -> Run {
    run(truck, route, &Conditions::default(), &mut |_| true)
}

fn with_inlet() -> Truck {
    let mut truck = rig::tractor();
    truck.sockets = vec![Socket {
        tag: "H3".to_owned(),
        part: "inlet".to_owned(),
        takes: Ok(Takes::Direct {
            standard: "CCS".to_owned(),
            most_a: 500.0,
            most_v: 1_000.0,
        }),
    }];
    truck
}

fn road(length_m: f64, stops: Vec<Stop>) -> Route {
    let mut route = Route::level(20.0, length_m);
    route.course = Course::Road {
        length_m,
        targets: vec![Target {
            from_m: 0.0,
            speed_mps: 20.0,
        }],
        stops,
    };
    route
}

fn charger(at_m: f64, dwell_s: f64, standard: &str, kw: f64) -> Stop {
    Stop {
        charger: Some(Charger {
            standard: standard.to_owned(),
            power_w: Some(kw * 1e3),
        }),
        ..Stop::halt(at_m, dwell_s)
    }
}

/// A station's power times the dwell arrives, and the charge rises by it; the ledger closes.
#[test]
fn a_charge_on_the_way_is_power_times_time() {
    let truck = with_inlet();
    let route = road(60_000.0, vec![charger(40_000.0, 1_200.0, "CCS", 100.0)]);
    let run = drive(&truck, &route);
    assert_eq!(run.end, End::Finished);
    let stop = &run.charged[0];
    assert!(
        (stop.energy_j / (100e3 * 1_200.0) - 1.0).abs() < 1e-9,
        "{stop:?}"
    );
    assert!((run.ledger.plug_j - stop.energy_j).abs() < 1.0);
    assert!((stop.wall_j / stop.energy_j - 1.0 / 0.94).abs() < 1e-9);
    assert!((stop.at_m - 40_000.0).abs() < 0.5 && stop.soc.1 > stop.soc.0 + 0.05);
    assert!(run.ledger.gap() < 1e-9, "{}", run.ledger.gap());
    // Without the charger everything but the charge is the same.
    let plain = drive(&truck, &road(60_000.0, vec![Stop::halt(40_000.0, 1_200.0)]));
    assert!((plain.ledger.wheel_out_j / run.ledger.wheel_out_j - 1.0).abs() < 1e-9);
    assert!(plain.soc_end < run.soc_end - 0.05);
}

/// Full packs take nothing more, and another standard nothing at all: it says why.
#[test]
fn a_charger_that_does_not_fit_charges_nothing_and_says_why() {
    let truck = with_inlet();
    let megawatt = drive(
        &truck,
        &road(30_000.0, vec![charger(20_000.0, 600.0, "MCS", 900.0)]),
    );
    let why = megawatt.charged[0].by.as_ref().unwrap_err();
    assert!(
        why.contains("CCS") && megawatt.ledger.plug_j == 0.0,
        "{why}"
    );
    let none = drive(
        &rig::tractor(),
        &road(30_000.0, vec![charger(20_000.0, 60.0, "CCS", 50.0)]),
    );
    assert!(none.charged[0].by.as_ref().unwrap_err().contains("neither"));
    let full = drive(
        &truck,
        &road(3_000.0, vec![charger(1_000.0, 7_200.0, "CCS", 350.0)]),
    );
    let bank = &truck.bank;
    assert!(
        full.charged[0].soc.1 <= bank.soc_high + 1e-9,
        "{:?}",
        full.charged
    );
    assert!(full.ledger.gap() < 1e-9);
}

/// Rolling costs mass times way on each side of the stop, and the driven axles feel their share.
#[test]
fn a_load_that_is_put_down_is_no_longer_rolled() {
    let truck = rig::tractor();
    let stop = Stop {
        load_kg: -9_000.0,
        ..Stop::halt(25_000.0, 30.0)
    };
    let run = drive(&truck, &road(60_000.0, vec![stop]));
    let work = (34_000.0 * 25_000.0 + 25_000.0 * 35_000.0) * GRAVITY * 0.0055;
    assert!(
        (run.ledger.rolling_j / work - 1.0).abs() < 1e-5,
        "{}",
        run.ledger.rolling_j / work
    );
    assert!(run.ledger.gap() < 1e-9, "{}", run.ledger.gap());
    let light = truck.loaded(-9_000.0);
    assert!((light.driven_kg - 10_900.0).abs() < 1e-9);
    assert!((light.rotating_kg - truck.rotating_kg).abs() < 1e-9);
}

/// Air thins with height by the standard atmosphere (ISO 2533: 1.2250 kg/m³ at the sea and 15 °C, 1.0066
/// at 2,000 m and 2 °C), on the way as well as at the start.
#[test]
fn air_thins_with_height_on_the_way() {
    let mut route = road(50_000.0, Vec::new());
    route.weather.temperature_c = 15.0;
    assert!((route.weather.air_kg_m3() / 1.225 - 1.0).abs() < 1e-4);
    route.weather.temperature_c = 2.0;
    route.weather.altitude_m = 2_000.0;
    assert!((route.weather.air_kg_m3() / 1.0066 - 1.0).abs() < 2e-4);
    route.weather.altitude_m = 0.0;
    assert!((route.weather.air_above_kg_m3(2_000.0) / 1.0066 - 1.0).abs() < 2e-4);
    // 50 km at 4 %: 2,000 m up, and the air's work falls short of that at the bottom by the mean.
    route.profile = Profile::steady(0.02);
    let start = Conditions {
        speed_mps: 20.0,
        ..Conditions::default()
    };
    let climbing = run(&rig::tractor(), &route, &start, &mut |_| true);
    assert!(
        (climbing.highest_m - 1_000.0).abs() < 1.0,
        "{}",
        climbing.highest_m
    );
    let steps = 1_000;
    let mean: f64 = (0..steps)
        .map(|i| {
            route
                .weather
                .air_above_kg_m3(1_000.0 * (f64::from(i) + 0.5) / f64::from(steps))
        })
        .sum::<f64>()
        / f64::from(steps);
    let work = 0.5 * mean * 5.8 * 400.0 * 50_000.0;
    assert!(
        (climbing.ledger.air_j / work - 1.0).abs() < 1e-3,
        "{}",
        climbing.ledger.air_j / work
    );
}

/// With one gear the time to a speed is ∫ m dv / (pull − resistance), here by the midpoint rule.
#[test]
fn a_standing_start_is_the_integral_of_force() {
    use axlewright_core::energy::Gait;
    let mut truck = rig::tractor();
    truck.drive.ratios = vec![20.0];
    truck.bank = rig::bank(axlewright_core::part::Chemistry::Lto, 500.0, 3_000.0);
    let air = Route::level(1.0, 1.0).weather.air_kg_m3();
    let steps = 4_000;
    let top = 13.411_2;
    let time: f64 = (0..steps)
        .map(|i| {
            let v = top * (f64::from(i) + 0.5) / f64::from(steps);
            let pull = truck.most_pull_n(v, Gait::Peak, 25.0, 0.5).0;
            let net = pull - truck.resistance.forces(v, 0.0, air, 0.0).sum_n();
            truck.inertia_kg(0) * top / f64::from(steps) / net
        })
        .sum();
    assert!(time < 25.0, "the short-time budget must last: {time}");
    let got = sprint(&truck, 25.0, 0.5, 20.0).to_30_mph_s.unwrap();
    assert!((got / time - 1.0).abs() < 0.01, "{got}, expected {time}");
    truck.resistance.mass_kg = 400_000.0;
    assert_eq!(sprint(&truck, 25.0, 0.5, 20.0).to_60_mph_s, None);
}

/// A pull of the published worked example starts it on the grade; the same at speed less the air.
#[test]
fn the_grade_at_speed_is_what_pull_leaves_over() {
    use axlewright_core::energy::Gait;
    let truck = rig::tractor();
    let (v, air) = (20.0, 1.2);
    let pull = truck.most_pull_n(v, Gait::Continuous, 25.0, 0.5).0;
    let grade = truck.grade_at(v, Gait::Continuous, air, 25.0, 0.5).unwrap();
    let cosine = 1.0 / sqrt(1.0 + grade * grade);
    let weight = 34_000.0 * GRAVITY;
    let needed = weight * cosine * (0.0055 + grade) + 0.5 * air * 5.8 * v * v;
    assert!((pull / needed - 1.0).abs() < 1e-9, "{pull} {needed}");
}

#[test]
fn tables_of_roads_name_chargers_and_loads() {
    let text = "distance_km,speed_kmh,stop_s,charger,charger_kw,load_kg\n\
                0,80,,,,\n50,80,1800,CCS,250,-4000\n100,80,,,,\n";
    let route = from_csv("relay.csv", text, 20.0).unwrap();
    let stop = &route.stops()[0];
    assert_eq!(stop.load_kg, -4_000.0);
    assert_eq!(stop.charger.as_ref().unwrap().power_w, Some(250e3));
    for (row, word) in [
        ("50,80,,CCS,250,", "no charger to stop at"),
        ("50,80,600,,250,", "no charger to stop at"),
        ("50,80,600,CCS,-3,", "out of range"),
        ("50,80,600,CCS,250,1e9", "out of range"),
    ] {
        let text =
            format!("distance_km,speed_kmh,stop_s,charger,charger_kw,load_kg\n0,80,,,,\n{row}\n");
        let problems = from_csv("relay.csv", &text, 20.0).unwrap_err().to_string();
        assert!(problems.contains(word), "{row}: {problems}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Whatever the road, the stops, the chargers, the loads and the height: what came in went out.
    #[test]
    fn the_ledger_closes_on_any_road(
        grades in prop::collection::vec(-0.09_f64..0.09, 2..12),
        halts in prop::collection::vec((0.0_f64..1.0, 0.0_f64..2_000.0, 0_u8..4, -3_000.0_f64..5_000.0), 0..6),
        speed in 3.0_f64..28.0,
        altitude in -100.0_f64..3_500.0,
        outside in -35.0_f64..48.0,
        wind in -15.0_f64..15.0,
        soc in 0.08_f64..0.95,
        extended in any::<bool>(),
    ) {
        let length = 6_000.0;
        let mut truck = if extended { rig::range_extended() } else { rig::tractor() };
        truck.sockets = with_inlet().sockets;
        truck.resistor_w = 100e3;
        let mut stops: Vec<Stop> = halts
            .iter()
            .map(|(share, dwell, kind, load_kg)| Stop {
                at_m: share * length,
                dwell_s: *dwell,
                charger: match kind {
                    0 => None,
                    1 => Some(Charger { standard: "CCS".to_owned(), power_w: None }),
                    2 => Some(Charger { standard: "CCS".to_owned(), power_w: Some(50e3) }),
                    _ => Some(Charger { standard: "MCS".to_owned(), power_w: None }),
                },
                load_kg: *load_kg,
            })
            .collect();
        stops.sort_by(|a, b| a.at_m.total_cmp(&b.at_m));
        let mut route = road(length, stops);
        if let Course::Road { targets, .. } = &mut route.course {
            targets[0].speed_mps = speed;
        }
        let count = grades.len() as f64;
        let points = grades.iter().enumerate().map(|(i, g)| (i as f64 / count * length, *g));
        route.profile = Profile::of_grades(points.collect()).unwrap();
        route.weather.altitude_m = altitude;
        route.weather.temperature_c = outside;
        route.weather.headwind_mps = wind;
        let start = Conditions { soc: Some(soc), pack_c: outside, ..Conditions::default() };
        let run = run(&truck, &route.repeated(2), &start, &mut |_| true);
        prop_assert!(run.ledger.gap() < 1e-9, "{} {:?}", run.ledger.gap(), run.ledger);
        prop_assert!(run.soc_least >= 0.0 && run.samples.iter().all(|s| s.v_mps.is_finite()));
    }
}
