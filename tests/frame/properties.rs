//! *Property.* Any template, wheelbase, slider, strip-out and parts anywhere.

use super::hand::moment;
use super::yard::{bare, part, plan, put};
use axlewright_core::assessment::Assessment;
use axlewright_core::frame::{Frame, RailCase};
use axlewright_core::library::Library;
use axlewright_core::plan::{FrameChoice, Payload, PayloadPlace, Plan, TrailerLoad};
use proptest::prelude::*;
use std::sync::LazyLock;

static LIBRARY: LazyLock<Library> = LazyLock::new(Library::shipped);

#[derive(Clone, Debug)]
struct Recipe {
    template: usize,
    stretch_mm: f64,
    slide: f64,
    strip: u64,
    lumps: Vec<(f64, f64, f64, f64)>,
    trailer_kg: f64,
    payload_kg: f64,
    raise: bool,
}

fn recipe() -> impl Strategy<Value = Recipe> {
    let lump = (
        1.0..2_000.0,
        -1_800.0..9_500.0,
        -1_200.0..1_200.0,
        60.0..2_600.0,
    );
    (
        0..6_usize,
        prop_oneof![Just(0.0), -900.0..1_500.0],
        0.0..1.0,
        any::<u64>(),
        prop::collection::vec(lump, 0..12),
        0.0..30_000.0,
        0.0..12_000.0,
        any::<bool>(),
    )
        .prop_map(
            |(template, stretch_mm, slide, strip, lumps, trailer_kg, payload_kg, raise)| Recipe {
                template,
                stretch_mm,
                slide,
                strip,
                lumps,
                trailer_kg,
                payload_kg,
                raise,
            },
        )
}

fn made(recipe: &Recipe) -> Plan {
    let chassis = LIBRARY.chassis.values().nth(recipe.template).unwrap();
    let mut plan = Plan::on(chassis);
    let stripped = chassis.hardware.iter().enumerate();
    plan.changes.stripped = stripped
        .filter(|(i, _)| recipe.strip >> (i % 64) & 1 == 1)
        .map(|(_, h)| h.id.clone())
        .collect();
    if recipe.stretch_mm != 0.0 {
        plan.changes.wheelbase_mm = Some(chassis.dimensions.wheelbase_mm + recipe.stretch_mm);
    }
    if recipe.raise && chassis.id == "lift-6x2" {
        plan.changes.raised = vec!["axle-3".to_owned()];
    }
    for (index, (kg, x, y, long)) in recipe.lumps.iter().enumerate() {
        let lump = part(
            &format!("M{index}"),
            "free-mass",
            *kg,
            [*long, 300.0, 300.0],
        );
        put(&mut plan, lump, [*x, *y, 700.0]);
    }
    if let Some(fw) = &chassis.fifth_wheel {
        let ahead = fw.ahead_min_mm + recipe.slide * (fw.ahead_max_mm - fw.ahead_min_mm);
        plan.changes.fifth_wheel_ahead_mm = Some(ahead);
        plan.loads.trailer = Some(TrailerLoad {
            id: "van-53".to_owned(),
            payload_kg: recipe.trailer_kg,
            load_cg: None,
            kingpin_to_axles_mm: None,
        });
    } else {
        let body = chassis.body.as_ref().unwrap();
        plan.loads.payload = Some(Payload {
            mass_kg: recipe.payload_kg,
            at: PayloadPlace::Level {
                front_x_mm: body.front_x_mm,
                rear_x_mm: body.rear_x_mm,
                z_mm: 2_000.0,
            },
        });
    }
    plan
}

fn frame(plan: &Plan) -> Frame {
    let answers = Assessment::of(plan, &LIBRARY).unwrap().answers;
    assert!(
        answers.vehicle.problems.is_empty(),
        "{:?}",
        answers.vehicle.problems
    );
    answers.frame.unwrap_or_else(|missing| panic!("{missing}"))
}

fn most(rail: &RailCase) -> f64 {
    let ends = rail.pieces.iter().map(|p| p.moment_nmm.abs());
    ends.fold(1.0, f64::max)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(160))]

    /// Nothing is left at either end, each piece goes on where the one before ended but for what stands
    /// between them, and no place between the peaks is worse.
    #[test]
    fn every_rail_closes(recipe in recipe()) {
        let frame = frame(&made(&recipe));
        for rail in frame.cases.iter().flat_map(|c| &c.rails) {
            let (first, last) = (rail.pieces.first().unwrap(), rail.pieces.last().unwrap());
            prop_assert!(first.moment_nmm.abs() <= 1e-9 * most(rail));
            prop_assert!(last.moment_at(last.to_mm).abs() <= 1e-7 * most(rail));
            for pair in rail.pieces.windows(2) {
                prop_assert_eq!(pair[0].to_mm, pair[1].from_mm);
                let step = pair[1].moment_nmm - pair[0].moment_at(pair[0].to_mm);
                prop_assert!(step.abs() <= 1e-7 * most(rail), "a jump of {} at {}", step, pair[0].to_mm);
            }
            let (low, high) = (frame.sections[0].from_mm, frame.sections.last().unwrap().to_mm);
            for step in 0..400 {
                let x = low + (high - low) * f64::from(step) / 399.0;
                prop_assert!(moment(rail, x).abs() <= rail.peak.1.abs() * (1.0 + 1e-9) + 1.0);
            }
        }
    }

    /// The causes of the peak make it up: those that add and those that take off, all together.
    #[test]
    fn causes_make_up_the_moment(recipe in recipe()) {
        let frame = frame(&made(&recipe));
        let worst = frame.worst.unwrap();
        prop_assert!(!worst.causes.is_empty());
        for pair in worst.causes.windows(2) {
            prop_assert!(pair[0].moment_nmm.abs() >= pair[1].moment_nmm.abs());
        }
        prop_assert!(worst.causes.iter().all(|c| c.moment_nmm * worst.moment_nmm > 0.0));
        let told: f64 = worst.causes.iter().map(|c| c.moment_nmm).sum();
        let all = told + worst.smaller_nmm + worst.against_nmm;
        prop_assert!((all - worst.moment_nmm).abs() <= 1e-7 * told.abs().max(1e6), "{} for {}", all, worst.moment_nmm);
        // A rail that is stronger everywhere is used less; a rougher road uses it more.
        prop_assert!((worst.used * worst.factor - frame.factors.dynamic).abs() < 1e-9);
    }

    /// Left and right change places when every part does.
    #[test]
    fn mirrored_parts_mirror_the_rails(lumps in prop::collection::vec((1.0..2_000.0, -1_000.0..6_000.0, -1_200.0..1_200.0), 1..8)) {
        let with = |sign: f64| {
            let mut plan = plan(bare());
            for (index, (kg, x, y)) in lumps.iter().enumerate() {
                put(&mut plan, part(&format!("M{index}"), "free-mass", *kg, [500.0, 300.0, 300.0]), [*x, sign * y, 700.0]);
            }
            frame(&plan)
        };
        let (here, there) = (with(1.0), with(-1.0));
        for (a, b) in here.cases.iter().zip(&there.cases) {
            for (left, right) in [(0, 1), (1, 0)] {
                let (a, b) = (&a.rails[left], &b.rails[right]);
                prop_assert!((a.peak.1 - b.peak.1).abs() <= 1e-9 * most(a));
            }
        }
    }

    /// The dynamic factor changes what is used and nothing else.
    #[test]
    fn a_rougher_road_uses_more(recipe in recipe(), dynamic in 1.0..6.0) {
        let mut plan = made(&recipe);
        let plain = frame(&plan);
        plan.frame = FrameChoice { dynamic_factor: Some(dynamic), ..FrameChoice::default() };
        let rough = frame(&plan);
        prop_assert_eq!(&plain.cases, &rough.cases);
        let (plain, rough) = (plain.worst.unwrap(), rough.worst.unwrap());
        prop_assert!((rough.used - plain.used / 2.0 * dynamic).abs() < 1e-9);
    }
}
