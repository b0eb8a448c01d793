//! How long an evaluation with all three drawings takes as a plan grows, and where the time goes.
//!
//! `cargo bench --bench evaluate`; the same in the browser: `tests/browser_bench.rs`.
#![allow(missing_docs, reason = "the harness makes a function without one")]
#![allow(
    clippy::panic,
    reason = "a bench without its plan has nothing to measure"
)]

#[path = "../tests/crowded/mod.rs"]
mod crowded;

use axlewright_core::assessment::{Answers, Assessment, frame_of, group_limits};
use axlewright_core::clearance::clearances;
use axlewright_core::drawing::{Style, View, draw};
use axlewright_core::findings;
use axlewright_core::frame::mount_forces;
use axlewright_core::library::Library;
use axlewright_core::loads::loads;
use axlewright_core::plan::{Edit, Place, Plan};
use axlewright_core::quantity::Units;
use axlewright_core::report::{evaluation, marks};
use axlewright_core::vehicle::Vehicle;
use axlewright_core::web::{Held, Session, Shown, ViewOptions};
use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use std::time::Duration;

const EXAMPLE: &str = include_str!("../examples/prairie-loop.json");
const SIZES: [usize; 3] = [60, 300, 1_000];

fn resolved(plan: &Plan, library: &Library) -> Vehicle {
    Vehicle::resolve(plan, library).unwrap_or_else(|p| panic!("{p}"))
}

fn assessed(plan: &Plan, library: &Library) -> Assessment {
    Assessment::of(plan, library).unwrap_or_else(|p| panic!("{p}"))
}

fn drawn(assessment: &Assessment) -> [String; 3] {
    let marks = marks(assessment, Units::Metric, None);
    let style = Style {
        zones: true,
        part_dimensions: false,
        ..Style::default()
    };
    View::ALL.map(|view| draw(&assessment.answers.vehicle, &marks, view, &style))
}

/// What the page is handed: words as one JSON text, and each drawing.
fn told(shown: &Shown) -> (String, [String; 3]) {
    let words = serde_json::to_string(&shown.words).unwrap_or_default();
    (words, View::ALL.map(|view| shown.drawing(view)))
}

/// The page as far as it knows which words and drawings it has.
#[derive(Default)]
struct Page {
    held: Held,
    has: [u32; 4],
}

impl Page {
    fn told(&mut self, shown: Shown) -> [String; 4] {
        let number = |text: &str| {
            let digits = text.trim_start_matches(|c: char| !c.is_ascii_digit());
            digits
                .split(|c: char| !c.is_ascii_digit())
                .next()?
                .parse()
                .ok()
        };
        let words = self.held.show(shown, self.has[0]).unwrap_or_default();
        let pictures = [0, 1, 2].map(|view| self.held.picture(view, self.has[view + 1]));
        let [side, plan, rear] = pictures;
        let told = [words, side, plan, rear];
        for (has, text) in self.has.iter_mut().zip(&told) {
            *has = number(text).unwrap_or(*has);
        }
        told
    }
}

/// Resolve, assess, three drawings: what each step of a drag costs.
fn whole(c: &mut Criterion) {
    let library = Library::shipped();
    let mut group = c.benchmark_group("whole");
    for size in SIZES {
        let plan = crowded::plan(&library, EXAMPLE, size);
        group.bench_with_input(BenchmarkId::from_parameter(size), &plan, |b, plan| {
            b.iter(|| drawn(&assessed(black_box(plan), &library)));
        });
    }
    group.finish();
}

/// A move as the page asks it: the plan with one part at a new place each time, and what has changed
/// since the move before as text for the page.
fn probe(c: &mut Criterion) {
    let library = Library::shipped();
    let mut group = c.benchmark_group("probe");
    for size in SIZES {
        let plan = crowded::plan(&library, EXAMPLE, size);
        let mut session = Session::new().unwrap_or_else(|p| panic!("{p}"));
        session
            .open("crowded", &plan.to_json())
            .unwrap_or_else(|p| panic!("{p}"));
        let placed = plan.placed.last().unwrap_or_else(|| panic!("parts"));
        let Place::Free { x_mm, y_mm, z_mm } = placed.place else {
            panic!("the last stands free")
        };
        let options = ViewOptions {
            carrying: true,
            ..ViewOptions::default()
        };
        let (mut page, mut run) = (Page::default(), 0_u32);
        group.bench_function(BenchmarkId::from_parameter(size), |b| {
            b.iter(|| {
                run += 1;
                let edit = Edit::Move {
                    tag: placed.tag.clone(),
                    x_mm: x_mm + f64::from(run % 100),
                    y_mm,
                    z_mm,
                    zone: None,
                };
                let shown = session.probe_after(black_box(&edit), &options, page.held.shown());
                page.told(shown.unwrap_or_else(|r| panic!("{r}")))
            });
        });
    }
    group.finish();
}

/// Where the time goes.
fn stages(c: &mut Criterion) {
    let library = Library::shipped();
    for size in [60, 300] {
        let plan = crowded::plan(&library, EXAMPLE, size);
        let vehicle = resolved(&plan, &library);
        let assessment = assessed(&plan, &library);
        let marks = marks(&assessment, Units::Metric, None);
        let style = Style {
            zones: true,
            part_dimensions: false,
            ..Style::default()
        };
        let mut session = Session::new().unwrap_or_else(|p| panic!("{p}"));
        session
            .open("crowded", &plan.to_json())
            .unwrap_or_else(|p| panic!("{p}"));
        let mut group = c.benchmark_group(format!("stages of {size}"));
        group.bench_function("resolve", |b| {
            b.iter(|| resolved(black_box(&plan), &library))
        });
        group.bench_function("loads", |b| b.iter(|| loads(black_box(&vehicle))));
        group.bench_function("clearances", |b| b.iter(|| clearances(black_box(&vehicle))));
        let stand = &assessment.answers.loads;
        group.bench_function("frame", |b| b.iter(|| frame_of(black_box(&vehicle), stand)));
        group.bench_function("mounts", |b| {
            b.iter(|| mount_forces(black_box(&vehicle), None))
        });
        group.bench_function("limits", |b| b.iter(|| group_limits(black_box(&vehicle))));
        group.bench_function("answers", |b| {
            b.iter(|| Answers::of(black_box(vehicle.clone())))
        });
        group.bench_function("findings", |b| {
            b.iter(|| findings::all(black_box(&assessment.answers), None))
        });
        for view in View::ALL {
            let draw = || draw(black_box(&vehicle), &marks, view, &style);
            group.bench_function(format!("drawing {}", view.word()), |b| b.iter(draw));
        }
        group.bench_function("evaluation as text", |b| {
            b.iter(|| serde_json::to_string(&evaluation(black_box(&assessment), Units::Metric)));
        });
        group.bench_function("view as text", |b| {
            let options = ViewOptions::default();
            b.iter(|| {
                let shown = session.view(black_box(&options));
                told(&shown.unwrap_or_else(|p| panic!("{p}")))
            });
        });
        group.finish();
    }
}

criterion_group! {
    name = benches;
    config = Criterion::default()
        .warm_up_time(Duration::from_millis(500))
        .measurement_time(Duration::from_secs(3))
        .sample_size(30);
    targets = whole, probe, stages
}
criterion_main!(benches);
