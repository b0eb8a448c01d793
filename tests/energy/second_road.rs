//! *Second road*: whole drives against an integration by another method (`tests/generators/drives.py`, scipy
//! with events; versions in its output), item by item.

use super::cases::{Cases, cases, number, route, truck};
use axlewright_core::energy::{Conditions, End, Run, Strategy, run};
use axlewright_core::part::Chemistry;
use axlewright_core::plant::Cell;
use serde::Deserialize;

/// What the other road found, joule.
#[derive(Deserialize)]
struct Found {
    truck: String,
    route: String,
    air: f64,
    rolling: f64,
    climb: f64,
    motion: f64,
    drive_loss: f64,
    axle_loss: f64,
    accessories: f64,
    pack_heat: f64,
    brakes: f64,
    cells: f64,
    source_out: f64,
    fuel: f64,
    wheel_out: f64,
    wheel_back: f64,
    shift_loss: f64,
    time_s: f64,
    distance_m: f64,
    soc_end: f64,
    left_over: f64,
}

#[derive(Deserialize)]
struct Drives {
    scipy: String,
    numpy: String,
    drives: Vec<Found>,
}

fn driven(cases: &Cases, found: &Found, step_s: f64) -> Run {
    let case = &cases.truck[&found.truck];
    let hold = case.source.as_ref().and_then(|s| number(s, "hold"));
    let conditions = Conditions {
        step_s,
        soc: Some(case.soc),
        pack_c: cases.pack_c,
        strategy: hold.map_or(Strategy::Off, |hold| Strategy::Follow { hold }),
        ..Conditions::default()
    };
    let road = route(&cases.route[&found.route], cases.air_c);
    let run = run(&truck(case), &road, &conditions, &mut |_| true);
    assert_eq!(run.end, End::Finished, "{} {}", found.truck, found.route);
    run
}

/// The voltages that the other road used are the planner's, and were read from the published sets by
/// themselves.
#[test]
fn both_roads_have_the_same_cells() {
    for (name, case) in cases().cell {
        let cell = Cell::of(if name == "nmc" {
            Chemistry::Nmc
        } else {
            Chemistry::Lfp
        });
        assert_eq!(cell.open_v.as_slice(), case.open_v.as_slice(), "{name}");
        let ours = (cell.ohm_ah, cell.nominal_v, cell.least_v, cell.most_v);
        let theirs = (case.ohm_ah, case.nominal_v, case.least_v, case.most_v);
        assert_eq!(ours, theirs, "{name}");
    }
}

/// One item of a drive: what we found, what the other road found, joule.
fn items(run: &Run, found: &Found) -> [(&'static str, f64, f64); 14] {
    let l = &run.ledger;
    [
        ("air", l.air_j, found.air),
        ("rolling", l.rolling_j, found.rolling),
        ("climbing", l.climb_j, found.climb),
        ("motion", l.motion_j, found.motion),
        ("drive losses", l.drive_loss_j, found.drive_loss),
        ("axle losses", l.axle_loss_j, found.axle_loss),
        ("accessories", l.accessories_j, found.accessories),
        ("heat of packs", l.pack_heat_j, found.pack_heat),
        ("shifting", l.shift_j, found.shift_loss),
        ("brakes", l.brakes_j, found.brakes),
        ("wheels, pulling", l.wheel_out_j, found.wheel_out),
        ("wheels, braking", l.wheel_back_j, found.wheel_back),
        ("cells", l.cells_j, found.cells),
        ("source", l.source_j, found.source_out),
    ]
}

/// Shares of all energy that was moved by which a drive at this step may be off: the sum out of cells and
/// source, each item of the ledger, and fuel; the last is of its own amount.
fn off(step_s: f64, sum: f64, item: f64, fuel: f64) {
    let cases = cases();
    let drives: Drives =
        serde_json::from_str(include_str!("../published/energy/drives.json")).unwrap();
    assert!(!drives.scipy.is_empty() && !drives.numpy.is_empty());
    assert_eq!(drives.drives.len(), cases.truck.len() * cases.route.len());
    let mut wrong = Vec::new();
    let mut worst = (0.0_f64, 0.0_f64, 0.0_f64);
    for found in &drives.drives {
        let run = driven(&cases, found, step_s);
        let moved = found.wheel_out + found.accessories;
        let mut hold = |name: &str, got: f64, want: f64, of: f64, room: f64| {
            let share = (got - want) / of;
            if share.is_nan() || share.abs() > room {
                let (truck, route) = (&found.truck, &found.route);
                wrong.push(format!(
                    "{truck} {route} {name}: {got:.4e}, expected {want:.4e}: {:+.3} %",
                    100.0 * share
                ));
            }
            share.abs()
        };
        let came = found.cells + found.source_out;
        let here = hold("cells and source", run.ledger.came_in_j(), came, moved, sum);
        worst.0 = worst.0.max(here);
        for (name, got, want) in items(&run, found) {
            worst.1 = worst.1.max(hold(name, got, want, moved, item));
        }
        let here = hold(
            "fuel",
            run.ledger.fuel_j,
            found.fuel,
            found.fuel.max(1.0),
            fuel,
        );
        worst.2 = worst.2.max(here);
        hold("time", run.time_s, found.time_s, found.time_s, 0.001);
        hold(
            "way",
            run.distance_m,
            found.distance_m,
            found.distance_m,
            0.001,
        );
        hold("charge at the end", run.soc_end, found.soc_end, 1.0, 0.005);
        let (left, want) = (run.ledger.gap(), found.left_over.abs());
        assert!(left < 1e-9 && want < 1e-5, "{left} {want}");
    }
    println!("at {step_s} s: sum, items, fuel off by at most {worst:?}");
    assert!(wrong.is_empty(), "at {step_s} s\n{}", wrong.join("\n"));
}

/// At the step of the planner. What is left is the step itself: a shift's pause of 0.6 s takes three quarters of
/// a second, and the brakes do in the rest of it what the motors would have recovered.
#[test]
fn whole_drives_agree_with_an_integration_by_events() {
    off(0.25, 0.005, 0.0075, 0.01);
}

/// With steps that are 25 times as short only rules that turn over differ: one shift more or less between stops, and
/// the second in which the source starts.
#[test]
fn short_steps_come_to_the_same_drive() {
    off(0.01, 0.0015, 0.0015, 0.005);
}
