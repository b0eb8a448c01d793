//! Generators and fuel cells: hysteresis, shortest run, ramps, least load, age, thin air.

use super::rig;
use axlewright_core::energy::{Conditions, Run, Strategy, Truck, run};
use axlewright_core::part::{Fuel, SourceUnit};
use axlewright_core::plant::{Source, SourceKind};
use axlewright_core::route::{Route, shipped};

fn drive(truck: &Truck, route: &Route, strategy: Strategy) -> Run {
    let conditions = Conditions {
        strategy,
        ..Conditions::default()
    };
    run(truck, route, &conditions, &mut |_| true)
}

fn unit(fuel: Fuel) -> SourceUnit {
    SourceUnit {
        continuous_kw: Some(120.0),
        efficiency: Some(0.48),
        efficiency_half: Some(0.55),
        heat_coolant_kw: Some(125.0),
        coolant_out_c: Some(75.0),
        fuel: Some(fuel),
        ..SourceUnit::default()
    }
}

/// Off above the lower level, on below it, and off again only above the upper one: seen on the samples.
#[test]
fn switching_on_and_off_keeps_to_its_two_levels() {
    let truck = rig::range_extended();
    let route = shipped("level-65mph").unwrap().repeated(4);
    let run = drive(
        &truck,
        &route,
        Strategy::Switch {
            start: 0.5,
            stop: 0.6,
        },
    );
    assert!(
        run.source_starts >= 1 && run.source_s > 600.0,
        "{}",
        run.source_starts
    );
    let mut was_on = false;
    for sample in &run.samples {
        let on = sample.source_w > 0.0;
        if on && !was_on {
            assert!(sample.soc < 0.505, "started at {}", sample.soc);
        }
        if was_on && !on {
            assert!(sample.soc > 0.595, "stopped at {}", sample.soc);
        }
        was_on = on;
    }
}

/// The follower runs at its least load at the least, rises no faster than its ramp, and once started
/// runs for its shortest run.
#[test]
fn the_follower_keeps_least_load_ramp_and_shortest_run() {
    let truck = rig::range_extended();
    let source = truck.source.as_ref().unwrap();
    // From a charge at which the packs take all that comes: nothing is cut off.
    let start = Conditions {
        strategy: Strategy::Follow { hold: 0.7 },
        soc: Some(0.7),
        ..Conditions::default()
    };
    let run = run(
        &truck,
        &shipped("parcel-round").unwrap(),
        &start,
        &mut |_| true,
    );
    assert!(run.source_starts >= 1);
    let (mut before, mut on_since): (Option<(f64, f64)>, Option<f64>) = (None, None);
    for sample in &run.samples {
        if let Some((t, w)) = before {
            let rise = (sample.source_w - w) / (sample.t_s - t);
            assert!(
                rise <= source.ramp_per_s * source.continuous_w * 1.001,
                "{rise} W/s"
            );
        }
        before = Some((sample.t_s, sample.source_w));
        match (on_since, sample.source_w > 0.0) {
            (None, true) => on_since = Some(sample.t_s),
            (Some(since), false) => {
                assert!(
                    sample.t_s - since > 0.9 * source.least_run_s,
                    "{}",
                    sample.t_s - since
                );
                on_since = None;
            }
            (Some(since), true) if sample.t_s - since > source.warm_up_s + 10.0 => {
                let least = source.least_share * source.continuous_w;
                assert!(sample.source_w > 0.999 * least, "{}", sample.source_w);
            }
            _ => {}
        }
    }
}

/// Common practice where the part says nothing, its own figure where it does.
#[test]
fn a_part_may_state_what_else_is_common_practice() {
    let plain = Source::of("cell", &unit(Fuel::Hydrogen)).unwrap();
    assert_eq!(plain.kind, SourceKind::Cell);
    assert_eq!(
        (plain.warm_up_s, plain.least_share, plain.assumed),
        (40.0, 0.1, true)
    );
    let own = SourceUnit {
        warm_up_s: Some(20.0),
        least_run_s: Some(900.0),
        ramp_share_s: Some(0.1),
        least_share: Some(0.15),
        ageing_share: Some(0.2),
        full_to_m: Some(1_500.0),
        loss_per_km: Some(0.05),
        ..unit(Fuel::Hydrogen)
    };
    let own = Source::of("cell", &own).unwrap();
    assert_eq!(
        (own.warm_up_s, own.least_run_s, own.assumed),
        (20.0, 900.0, false)
    );
    // 120 kW less a fifth by age and a twentieth by one kilometre too high.
    let old = own.worn_out();
    assert!((old.lasting_w(2_500.0) - 120e3 * 0.8 * 0.95).abs() < 1e-6);
    assert!((old.lasting_w(1_500.0) - 96e3).abs() < 1e-6);
}

/// Thin air takes power from an engine on the way, and the run says how much.
#[test]
fn thin_air_takes_power_from_an_engine() {
    let truck = rig::range_extended();
    let mut route = shipped("level-65mph").unwrap();
    let low = drive(&truck, &route, Strategy::Follow { hold: 0.95 });
    route.weather.altitude_m = 3_000.0;
    let high = drive(&truck, &route, Strategy::Follow { hold: 0.95 });
    assert!((low.source_air_least, high.source_air_least) == (1.0, 0.8));
    let most = |run: &Run| run.samples.iter().map(|s| s.source_w).fold(0.0, f64::max);
    assert!((most(&high) / 120e3 - 1.0).abs() < 1e-3, "{}", most(&high));
    assert!(most(&low) > 140e3, "{}", most(&low));
}

/// A source that is too small for the route: the packs run down, and it is told where.
#[test]
fn a_small_source_runs_the_packs_down_and_says_where() {
    let mut truck = rig::range_extended();
    let mut small = unit(Fuel::NaturalGas);
    small.continuous_kw = Some(40.0);
    truck.source = Some(Source::of("generator", &small).unwrap());
    let route = shipped("level-65mph").unwrap().repeated(2);
    let run = drive(&truck, &route, Strategy::Follow { hold: 0.6 });
    let (x, t) = run.run_down.expect("runs down");
    assert!(
        x > 50_000.0 && x < route.length_m() && t > 1_000.0,
        "{x} {t}"
    );
    let [two, ten, thirty] = run.averages.map(|(_, most)| most);
    assert!(
        two >= ten && ten >= thirty && thirty > 100e3,
        "{two} {ten} {thirty}"
    );
}
