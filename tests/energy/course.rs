//! The course of a run: it balances at every moment, keeps what stands out, and follows the road's height.

use super::rig;
use axlewright_core::energy::{Conditions, Run, Strategy, run};
use axlewright_core::route::{Profile, Route, shipped};

fn drive(route: &Route) -> Run {
    let conditions = Conditions {
        strategy: Strategy::Off,
        ..Conditions::default()
    };
    run(&rig::tractor(), route, &conditions, &mut |_| true)
}

#[test]
fn who_gives_and_who_takes_is_equal_at_every_moment() {
    for id in ["harbour-shuttle", "urban-schedule", "hill-climb"] {
        let run = drive(&shipped(id).unwrap());
        assert!(run.samples.len() > 1_000, "{id}");
        for s in &run.samples {
            let given = s.pack_w + s.source_w;
            let taken = s.drive_w + s.accessories_w + s.resistor_w;
            let scale = given.abs().max(s.drive_w.abs()).max(1.0);
            assert!((given - taken).abs() < 1e-9 * scale, "{id}: {s:?}");
            assert!(s.brakes_w >= -1e-6 * scale, "{id}: {s:?}");
        }
    }
}

#[test]
fn a_long_run_keeps_its_peaks_its_stops_and_its_end() {
    let route = shipped("parcel-round").unwrap();
    let day = route.repeated(4);
    let run = drive(&day);
    assert!(run.steps > 40_000, "{}", run.steps);
    assert!(run.samples.len() <= 4_502, "{}", run.samples.len());
    assert!(run.samples.windows(2).all(|p| p[0].t_s < p[1].t_s));
    // Every one of its stops is there.
    let mut stops = 0;
    let mut before = 0.0;
    for s in run.samples.iter().filter(|s| s.v_mps < 1e-9) {
        if s.x_m - before > 100.0 {
            stops += 1;
        }
        before = s.x_m;
    }
    assert_eq!(stops, 160);
    let most = run
        .samples
        .iter()
        .map(|s| s.drive_w - s.drive_heat_w)
        .fold(0.0, f64::max);
    assert!(
        most > 0.99 * run.motor_most_w,
        "{most} {}",
        run.motor_most_w
    );
    let last = run.samples.last().unwrap();
    assert!((last.x_m - run.distance_m).abs() < 1e-9 && (last.soc - run.soc_end).abs() < 1e-15);
}

#[test]
fn a_short_run_keeps_every_step() {
    let run = drive(&Route::level(20.0, 2_000.0));
    assert_eq!(run.samples.len(), run.steps);
}

#[test]
fn the_wish_is_the_road_s_and_not_what_can_be_reached() {
    let run = drive(&shipped("hill-climb").unwrap());
    let slow = run
        .samples
        .iter()
        .filter(|s| s.wanted_mps > s.v_mps + 1.0)
        .count();
    let route = shipped("hill-climb").unwrap();
    let top = 65.0 / 3.6;
    assert!(slow > 20, "{slow} of {}: {}", run.samples.len(), route.name);
    assert!(run.samples.iter().all(|s| s.wanted_mps <= top + 1e-9));
}

#[test]
fn heights_are_the_grades_added_up() {
    // From 0 to 4 % within 200 m: the mean is 2 %, so 4 m; then 4 % for a kilometre.
    let ramp = [
        (100.0, 0.0),
        (300.0, 0.04),
        (1_300.0, 0.04),
        (1_300.0, -0.02),
    ];
    let profile = Profile::of_grades(ramp.to_vec()).unwrap();
    let found = profile.heights_m(&[0.0, 100.0, 200.0, 300.0, 300.0, 1_300.0, 2_000.0]);
    let want = [0.0, 0.0, 1.0, 4.0, 4.0, 44.0, 44.0];
    for (f, w) in found.iter().zip(want) {
        assert!((f - w).abs() < 1e-9, "{found:?}");
    }
    assert_eq!(Profile::steady(0.06).heights_m(&[50.0, 100.0]), [3.0, 6.0]);
    assert_eq!(Profile::level().heights_m(&[5.0]), [0.0]);
    assert!(Profile::level().heights_m(&[]).is_empty());
    // The end of every shipped route stands where its net climb says.
    for (id, _) in axlewright_core::route::SHIPPED {
        let route = shipped(id).unwrap();
        let places: Vec<f64> = (0..=999)
            .map(|i| f64::from(i) * route.length_m() / 999.0)
            .collect();
        let end = *route.profile.heights_m(&places).last().unwrap();
        let reach = |p: &(f64, f64)| p.0 <= route.length_m() + 1e-6;
        if route.profile.points().len() > 1 && route.profile.points().iter().all(reach) {
            let (_, net) = route.profile.climb_m();
            assert!(
                (end - net).abs() < 1e-6 * net.abs().max(1.0),
                "{id}: {end} {net}"
            );
        }
    }
}
