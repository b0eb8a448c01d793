//! Cases with an answer on paper, and the ledger.

use super::rig;
use axlewright_core::energy::{Conditions, End, GRAVITY, Run, Truck, run};
use axlewright_core::numeric;
use axlewright_core::route::{Profile, Route, SHIPPED, shipped};

fn drive(truck: &Truck, route: &Route, conditions: &Conditions) -> Run {
    run(truck, route, conditions, &mut |_| true)
}

/// At speed from the start, on a level road: every metre costs the same.
#[test]
fn constant_speed_on_the_flat_costs_force_times_way() {
    let truck = rig::tractor();
    let route = Route::level(25.0, 50_000.0);
    let start = Conditions {
        speed_mps: 25.0,
        ..Conditions::default()
    };
    let run = drive(&truck, &route, &start);
    assert_eq!(run.end, End::Finished);
    let air = route.weather.air_kg_m3();
    let force = 34_000.0 * GRAVITY * 0.0055 + 0.5 * air * 5.8 * 25.0 * 25.0;
    let work = force * run.distance_m;
    assert!((run.ledger.wheel_out_j / work - 1.0).abs() < 1e-6);
    assert!((run.distance_m - 50_000.0).abs() < 0.1);
}

/// Rolling and air only: dv/dt = −(a + c v²) has the answer v = √(a/c) tan(φ − √(ac) t).
#[test]
fn coasting_down_follows_the_tangent() {
    let mut truck = rig::tractor();
    // No motor to brake or pull, no rotor to carry: a driver who wants to stand far ahead.
    truck.drive.inertia_kg_m2 = 0.0;
    let air = Route::level(1.0, 1.0).weather.air_kg_m3();
    let inertia = truck.inertia_kg(0);
    let a = 34_000.0 * GRAVITY * 0.0055 / inertia;
    let c = 0.5 * air * 5.8 / inertia;
    let (v0, t): (f64, f64) = (25.0, 60.0);
    let phase = numeric::atan(v0 * (c / a).sqrt()) - (a * c).sqrt() * t;
    let exact = (a / c).sqrt() * numeric::tan(phase);
    // Grip on no wheel: nothing but coasting is possible.
    truck.driven_kg = 0.0;
    let mut route = Route::level(30.0, 3_000.0);
    route.weather.headwind_mps = 0.0;
    let start = Conditions {
        speed_mps: v0,
        step_s: 0.05,
        ..Conditions::default()
    };
    let run = drive(&truck, &route, &start);
    let sample = run.samples.iter().find(|s| (s.t_s - t).abs() < 1e-6);
    let sample = sample.expect("a sample at a minute");
    assert!(
        (sample.v_mps / exact - 1.0).abs() < 1e-6,
        "{} {exact}",
        sample.v_mps
    );
}

/// The order of the method: forces act at the middle of a step, so that half the step leaves a quarter of the
/// error.
#[test]
fn halving_the_step_quarters_the_error_of_a_coast_down() {
    let mut truck = rig::tractor();
    truck.drive.inertia_kg_m2 = 0.0;
    truck.driven_kg = 0.0;
    let route = Route::level(30.0, 3_000.0);
    let inertia = truck.inertia_kg(0);
    let a = 34_000.0 * GRAVITY * 0.0055 / inertia;
    let c = 0.5 * route.weather.air_kg_m3() * 5.8 / inertia;
    let phase = numeric::atan(25.0 * (c / a).sqrt()) - (a * c).sqrt() * 60.0;
    let exact = (a / c).sqrt() * numeric::tan(phase);
    let errors: Vec<f64> = [4.0, 2.0, 1.0, 0.5, 0.25]
        .iter()
        .map(|step_s| {
            let start = Conditions {
                speed_mps: 25.0,
                step_s: *step_s,
                ..Conditions::default()
            };
            let run = drive(&truck, &route, &start);
            let sample = run.samples.iter().find(|s| (s.t_s - 60.0).abs() < 1e-6);
            (sample.expect("a sample at a minute").v_mps / exact - 1.0).abs()
        })
        .collect();
    for pair in errors.windows(2) {
        let ratio = pair[0] / pair[1];
        assert!((3.9..4.1).contains(&ratio), "{ratio}: {errors:?}");
    }
}

/// At constant speed the bus gives what wheels, motors and accessories take: loss model and ledger against a
/// sum on paper.
#[test]
fn constant_speed_takes_the_losses_of_its_torque_and_speed() {
    let truck = rig::tractor();
    let route = Route::level(25.0, 50_000.0);
    let start = Conditions {
        speed_mps: 25.0,
        ..Conditions::default()
    };
    let run = drive(&truck, &route, &start);
    let force = 34_000.0 * GRAVITY * 0.0055 + 0.5 * route.weather.air_kg_m3() * 5.8 * 25.0 * 25.0;
    // Two motors through 16.5 to 1 on wheels of 0.506 m; 200 kW without end, 300 kW and 900 N m at most, so
    // that they meet at 333.3 rad/s; 0.93 and an inverter of 0.98 at the rated point.
    let (torque, speed) = (force * 0.506 / 16.5 / 2.0, 25.0 / 0.506 * 16.5);
    let rated = 200e3 * (1.0 / (0.93 * 0.98) - 1.0);
    let base: f64 = 300e3 / 900.0;
    let lasting = 200e3 / base;
    let loss = rated
        * (0.55 * torque * speed / 200e3
            + 0.28 * (torque / lasting).powi(2)
            + 0.12 * (speed / base).min(1.0)
            + 0.05 * speed / base);
    let seconds = run.distance_m / 25.0;
    let bus = (force * 25.0 + 2.0 * loss + 3_000.0) * seconds;
    let ledger = &run.ledger;
    assert!((ledger.drive_loss_j / (2.0 * loss * seconds) - 1.0).abs() < 1e-6);
    assert!(((ledger.cells_j - ledger.pack_heat_j) / bus - 1.0).abs() < 1e-6);
}

/// On a grade the same power that the balance of forces asks for.
#[test]
fn holding_a_grade_costs_its_height() {
    let truck = rig::tractor();
    let mut route = Route::level(10.0, 5_000.0);
    route.profile = Profile::steady(0.04);
    let start = Conditions {
        speed_mps: 10.0,
        ..Conditions::default()
    };
    let run = drive(&truck, &route, &start);
    assert_eq!(run.end, End::Finished);
    let sine = 0.04 / (1.0_f64 + 0.04 * 0.04).sqrt();
    let climb = 34_000.0 * GRAVITY * sine * run.distance_m;
    assert!((run.ledger.climb_j / climb - 1.0).abs() < 1e-6);
    assert!(run.ledger.brakes_j.abs() < 1.0);
}

/// Halving the step halves nothing but the error: results close in.
#[test]
fn smaller_steps_close_in() {
    let truck = rig::tractor();
    let route = shipped("harbour-shuttle").unwrap();
    let cost = |step_s: f64| {
        let run = drive(
            &truck,
            &route,
            &Conditions {
                step_s,
                ..Conditions::default()
            },
        );
        assert_eq!(run.end, End::Finished);
        run.ledger.cells_j / 3.6e6
    };
    let finest = cost(0.02);
    let errors: Vec<f64> = [0.4, 0.2, 0.1]
        .iter()
        .map(|s| (cost(*s) / finest - 1.0).abs())
        .collect();
    assert!(errors[0] < 0.005 && errors[2] < 0.0015, "{errors:?}");
    assert!(errors[2] < errors[0], "{errors:?}");
}

/// What came in went out, on every shipped route.
#[test]
fn the_ledger_closes_on_every_route() {
    let truck = rig::tractor();
    for (id, _) in SHIPPED {
        let route = shipped(id).unwrap();
        let run = drive(&truck, &route, &Conditions::default());
        assert!(
            run.ledger.gap() < 1e-9,
            "{id}: {} {:?}",
            run.ledger.gap(),
            run.ledger
        );
        assert_eq!(
            run.end,
            End::Finished,
            "{id}: at {} m of {}",
            run.distance_m,
            run.route_m
        );
        assert!(
            (run.distance_m / run.route_m - 1.0).abs() < 0.02,
            "{id}: {} {}",
            run.distance_m,
            run.route_m
        );
    }
}
