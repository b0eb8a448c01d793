//! How many steps of the time loop a second takes.
//!
//! `cargo bench --bench drive`: the first line is the one number; the same model in Python, plain and compiled
//! by numba, is `benches/drive.py`.
#![allow(missing_docs, reason = "the harness makes a function without one")]
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a bench without its cases has nothing to measure"
)]
// A bench measures time; the ban on clocks is for the planner's own code.
#![allow(clippy::disallowed_methods)]
#![allow(dead_code, reason = "the cases are made for tests too")]

#[path = "../tests/energy/cases.rs"]
mod cases;

use axlewright_core::energy::{Conditions, Run, Strategy, run};
use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use std::hint::black_box;
use std::time::Instant;

/// The battery truck of the cases on the regulation's cruise at 65 mph.
fn cruise() -> impl Fn() -> Run {
    let all = cases::cases();
    let truck = cases::truck(&all.truck["battery"]);
    let route = cases::route(&all.route["cruise-65"], all.air_c);
    let conditions = Conditions {
        soc: Some(all.truck["battery"].soc),
        pack_c: all.pack_c,
        strategy: Strategy::Off,
        ..Conditions::default()
    };
    move || run(&truck, &route, &conditions, &mut |_| true)
}

fn steps(c: &mut Criterion) {
    let drive = cruise();
    let once = drive();
    let times: Vec<f64> = (0..50)
        .map(|_| {
            let start = Instant::now();
            black_box(drive());
            start.elapsed().as_secs_f64()
        })
        .collect();
    let best = times.iter().copied().fold(f64::INFINITY, f64::min);
    println!(
        "{:.0} steps a second ({} steps in {:.3} ms, the best of 50 runs; {:.9} kWh)",
        once.steps as f64 / best,
        once.steps,
        best * 1e3,
        once.ledger.cells_j / 3.6e6
    );
    let mut group = c.benchmark_group("drive");
    group.throughput(Throughput::Elements(once.steps as u64));
    group.bench_function("cruise-65", |b| b.iter(|| black_box(drive())));
    group.finish();
}

criterion_group!(benches, steps);
criterion_main!(benches);
