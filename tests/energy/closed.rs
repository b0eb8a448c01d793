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
