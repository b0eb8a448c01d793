//! Best places of fifth wheel and trailer axles, and the ranges that pass, against a scan of the findings.

use super::{assess, read, yard};
use axlewright_core::assessment::{Assessment, Bounds, Road, best_positions};
use axlewright_core::chassis::AxleSlider;
use axlewright_core::findings::Severity;
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use axlewright_core::vehicle::Vehicle;

/// Every check that a payload or a place can fail, but for the answers under test.
const CHECKS: [&str; 17] = [
    "axle-rating",
    "tyre-rating",
    "suspension-rating",
    "e-axle-rating",
    "road-axle",
    "road-bridge",
    "road-gross",
    "trailer-axles",
    "gvwr",
    "gcwr",
    "fifth-wheel-load",
    "steer-share",
    "road-driven-share",
    "road-steered-share",
    "road-length",
    "road-tyre-width",
    "axle-lift-off",
];

fn passes(plan: &Plan, library: &Library) -> bool {
    let assessment = Assessment::of(plan, library).unwrap();
    let coupled = assessment.answers.vehicle.trailer.as_ref();
    let fits = coupled.is_none_or(|t| t.payload_kg <= t.trailer.payload_max_kg);
    let fails = assessment
        .findings
        .iter()
        .filter(|f| f.severity == Severity::Fails);
    // Lengths that nothing here can change are no matter of place.
    let fixed = [
        "motor_vehicle",
        "kingpin_to_rear",
        "kingpin_to_front",
        "trailer",
    ];
    let mut fails =
        fails.filter(|f| f.check != "road-length" || !fixed.contains(&f.subject.as_str()));
    fits && !fails.any(|f| CHECKS.contains(&f.check))
}

fn sliding(name: &str) -> Library {
    let mut library = Library::shipped();
    let trailer = library.trailers.get_mut(name).unwrap();
    let now = trailer.kingpin_to_axles_mm;
    trailer.slider = Some(AxleSlider {
        from_mm: now - 1_500.0,
        to_mm: now + 300.0,
        step_mm: 150.0,
        moves_kg: 1_800.0,
    });
    library
}

/// Plans whose best place is set by different limits: tandems, the bridge formula, a lift axle beside the
/// driven one, EU shares and lengths.
fn cases() -> Vec<(Plan, &'static str)> {
    let mut eu = read("lakeside-lift-axle.json");
    eu.law.regime = Some("eu-96-53".to_owned());
    eu.law.allowance = false;
    eu.loads.trailer.as_mut().unwrap().id = "container-20".to_owned();
    vec![
        (read("gullwharf-drayage.json"), "container-40"),
        (read("wrong/gullwharf-short-bridge.json"), "container-20"),
        (read("lakeside-lift-axle.json"), "container-40"),
        (read("prairie-loop.json"), "van-53"),
        (eu, "container-20"),
    ]
}

fn slider(vehicle: &Vehicle) -> (f64, f64) {
    let fw = vehicle.chassis.fifth_wheel.as_ref().unwrap();
    (fw.ahead_min_mm, fw.ahead_max_mm)
}

/// Positions and payloads one by one, each as a whole assessment.
#[test]
fn the_range_of_the_fifth_wheel_is_what_a_scan_finds() {
    for (mut plan, trailer) in cases() {
        let library = sliding(trailer);
        // As planned, and near what is possible, where ranges are narrow.
        let most = Assessment::of(&plan, &library)
            .unwrap()
            .answers
            .capacity
            .unwrap()
            .payload_kg();
        for kg in [
            plan.loads.trailer.as_ref().unwrap().payload_kg,
            most - 20.0,
            most + 150.0,
        ] {
            super::carry(&mut plan, kg);
            let answers = Assessment::of(&plan, &library).unwrap().answers;
            let range = answers.fifth_wheel.unwrap();
            let (low, high) = slider(&answers.vehicle);
            let mut ahead = low;
            while ahead <= high {
                let mut moved = plan.clone();
                moved.changes.fifth_wheel_ahead_mm = Some(ahead);
                let inside = range
                    .ahead_mm
                    .is_some_and(|(a, b)| ahead >= a && ahead <= b);
                let near_an_end = range
                    .ahead_mm
                    .is_some_and(|(a, b)| (ahead - a).abs() < 0.01 || (ahead - b).abs() < 0.01);
                let scanned = passes(&moved, &library);
                if inside && !near_an_end {
                    assert!(
                        scanned,
                        "{}: {kg} kg, {ahead} mm is in {range:?}",
                        plan.name
                    );
                }
                if scanned && range.ahead_mm.is_none() {
                    panic!("{}: {kg} kg passes at {ahead} mm: {range:?}", plan.name);
                }
                // The range may be one of several; it goes as far as it can.
                if let Some((a, b)) = range.ahead_mm {
                    let beside = (ahead > b && ahead < b + 7.0) || (ahead < a && ahead > a - 7.0);
                    if beside && !near_an_end {
                        assert!(
                            !scanned,
                            "{}: {kg} kg, {ahead} mm passes beside {range:?}",
                            plan.name
                        );
                    }
                }
                ahead += 6.5;
            }
        }
    }
}

/// Largest payload, in steps of 20 kg, that a whole assessment finds free of failing checks.
fn scanned_kg(plan: &Plan, library: &Library, from: f64) -> f64 {
    let mut plan = plan.clone();
    let mut kg = from;
    loop {
        super::carry(&mut plan, kg + 20.0);
        if !passes(&plan, library) {
            return kg;
        }
        kg += 20.0;
    }
}

#[test]
fn the_best_places_and_payloads_are_what_a_scan_finds() {
    for (plan, trailer) in cases() {
        let library = sliding(trailer);
        let name = &plan.name;
        let vehicle = Vehicle::resolve(&plan, &library).unwrap();
        let road = Road::of(&vehicle);
        let bounds = Bounds::of(&vehicle, &road).unwrap();
        let best = best_positions(&bounds);
        let (low, high) = slider(&vehicle);
        let holes: Vec<f64> = {
            let slider = vehicle
                .trailer
                .as_ref()
                .unwrap()
                .trailer
                .slider
                .clone()
                .unwrap();
            slider.holes_mm().collect()
        };
        let at = |ahead: Option<f64>, axles: Option<f64>| {
            let mut moved = plan.clone();
            if let Some(mm) = ahead {
                moved.changes.fifth_wheel_ahead_mm = Some(mm);
            }
            moved.loads.trailer.as_mut().unwrap().kingpin_to_axles_mm = axles;
            moved
        };
        // By the formula at every millimetre: what is possible for a plan that stands there.
        let by_formula = |moved: &Plan| {
            let vehicle = Vehicle::resolve(moved, &library).unwrap();
            assert!(vehicle.problems.is_empty());
            let road = Road::of(&vehicle);
            let there = best_positions(&Bounds::of(&vehicle, &road).unwrap());
            there.now.map_or(f64::NEG_INFINITY, |now| now.payload_kg)
        };
        let steps = || {
            (0..)
                .map(|n| low + f64::from(n))
                .take_while(|mm| *mm <= high)
        };
        let wheel = steps()
            .map(|mm| by_formula(&at(Some(mm), None)))
            .fold(f64::MIN, f64::max);
        let axles = holes
            .iter()
            .map(|mm| by_formula(&at(None, Some(*mm))))
            .fold(f64::MIN, f64::max);
        let found = best.fifth_wheel.as_ref().unwrap();
        assert!(
            (found.payload_kg - wheel).abs() < 0.2,
            "{name}: {found:?}, scan {wheel}"
        );
        let found = best.trailer_axles.as_ref().unwrap();
        assert!(
            (found.payload_kg - axles).abs() < 0.2,
            "{name}: {found:?}, scan {axles}"
        );
        let both = best.both.as_ref().unwrap();
        assert!(both.payload_kg >= wheel.max(axles) - 0.2);
        let coarse = holes.iter().flat_map(|hole| {
            let hole = *hole;
            (0..)
                .map(|n| low + 10.0 * f64::from(n))
                .take_while(|mm| *mm <= high)
                .map(move |mm| (mm, hole))
        });
        let coarse = coarse
            .map(|(mm, hole)| by_formula(&at(Some(mm), Some(hole))))
            .fold(f64::MIN, f64::max);
        let gained = both.payload_kg - coarse;
        assert!(
            (-0.2..40.0).contains(&gained),
            "{name}: {both:?}, scan in 10 mm {coarse}"
        );
        // And by whole assessments, from below, at the places named.
        for found in [best.fifth_wheel, best.trailer_axles, best.both]
            .into_iter()
            .flatten()
        {
            let there = at(found.ahead_mm, found.kingpin_to_axles_mm);
            let scanned = scanned_kg(&there, &library, found.payload_kg - 90.0);
            let short = found.payload_kg - scanned;
            assert!(
                (0.0..20.0).contains(&short),
                "{name}: {found:?}, findings {scanned}"
            );
            assert!(!found.stopped_by.is_empty());
        }
    }
}

/// Lift axle and driven axle are two groups of the chassis and one tandem of the law; the bridge formula
/// holds the whole. Both narrow the slider's range, as they raise findings.
#[test]
fn neighbouring_axles_and_bridge_groups_narrow_the_range() {
    let mut plan = read("lakeside-lift-axle.json");
    super::carry(&mut plan, 19_500.0);
    let assessment = assess(&plan);
    let range = assessment.answers.fifth_wheel.as_ref().unwrap();
    assert_eq!(range.ahead_mm, None, "{range:?}");
    let mut library = Library::shipped();
    let law = library.laws.get_mut("us-interstate").unwrap();
    (law.bridge, law.groups) = (None, Vec::new());
    let singly = Assessment::of(&plan, &library).unwrap();
    let singly = singly.answers.fifth_wheel.unwrap();
    assert!(
        singly.ahead_mm.is_some(),
        "each axle alone passes: {singly:?}"
    );
    let found = yard::finding(&assessment, "fifth-wheel-position", "fifth wheel");
    assert_eq!(found.severity, Severity::Fails);
    let short = assess(&read("wrong/gullwharf-short-bridge.json"));
    let range = short.answers.fifth_wheel.as_ref().unwrap();
    assert!(
        range
            .always_over
            .iter()
            .any(|w| w.ends_with("(bridge formula)")),
        "{range:?}"
    );
}

#[test]
fn without_a_trailer_the_range_says_what_is_missing() {
    let mut plan = read("gullwharf-drayage.json");
    plan.loads.trailer = None;
    let assessment = assess(&plan);
    let found = yard::finding(&assessment, "fifth-wheel-position", "fifth wheel");
    assert_eq!(found.severity, Severity::NotAssessed);
    let rigid = assess(&read("millbrook-parcel.json"));
    assert!(super::of_check(&rigid, "fifth-wheel-position").is_empty());
}

/// *Published*, row ST-3: 700 lb over on the drive axles, 400 lb a hole: two holes forward. The page
/// counts the same 400 lb for each hole; by moments a hole nearer the kingpin moves a little more.
/// Source: a freight training page on calculating weight distribution, example 1 (read).
#[test]
fn a_trailers_tandem_slid_hole_by_hole() {
    const HOLE_IN: f64 = 6.0;
    let (steer, drive, axles, per_hole) = (11_590.0, 34_700.0, 32_100.0, 400.0);
    // A hole that moves 400 lb of 32,100: hole / (reach − hole) of them.
    let reach_mm = HOLE_IN * yard::MM_PER_IN * (1.0 + axles / per_hole);
    let mut trailer = yard::trailer();
    trailer.kingpin_to_axles_mm = reach_mm;
    trailer.rear_mm = 20_000.0;
    (trailer.tare_kg, trailer.tare_on_kingpin) = (1_000.0, 0.0);
    trailer.slider = Some(AxleSlider {
        from_mm: reach_mm - 10.0 * HOLE_IN * yard::MM_PER_IN,
        to_mm: reach_mm,
        step_mm: HOLE_IN * yard::MM_PER_IN,
        moves_kg: 0.0,
    });
    let mut chassis = yard::tractor(5_000.0, 0.0);
    // The kingpin stands over the drive axle: what leaves it leaves the drive axle.
    let lb = yard::KG_PER_LB;
    let (pin, empty) = (24_700.0, 10_000.0);
    yard::weighed(&mut chassis, &[("front", steer * lb), ("rear", empty * lb)]);
    chassis.axles[1].gawr_kg = Some(34_000.0 * lb);
    let mut plan = yard::plan(chassis);
    let payload = (pin + axles) * lb - 1_000.0;
    yard::couple(&mut plan, payload);
    let load = plan.loads.trailer.as_mut().unwrap();
    load.load_cg = Some((axles * lb - 1_000.0) / payload);
    let library = yard::library(trailer);
    let at = |holes: f64| {
        let mut slid = plan.clone();
        let load = slid.loads.trailer.as_mut().unwrap();
        load.kingpin_to_axles_mm = Some(reach_mm - holes * HOLE_IN * yard::MM_PER_IN);
        let assessment = yard::assess_with(&slid, &library);
        let loads = &assessment.answers.loads;
        let coupled = loads.case(axlewright_core::loads::Case::Coupled).unwrap();
        let rear = yard::group(coupled, "rear").load_kg / lb;
        (
            rear,
            coupled.trailer_axles_kg.unwrap() / lb,
            coupled.gross_kg / lb,
        )
    };
    let before = at(0.0);
    yard::close(before.0, drive, 1e-6);
    yard::close(before.1, axles, 1e-6);
    let assessment = yard::assess_with(&plan, &library);
    let holes = assessment.answers.trailer_axles.unwrap().unwrap();
    let nearest = holes.pass_mm.last().unwrap();
    let slid = ((reach_mm - nearest) / HOLE_IN / yard::MM_PER_IN).round();
    assert_eq!(slid, 2.0, "{holes:?}");
    let (rear, trailer, gross) = at(slid);
    yard::close(rear, 33_900.0, 11.0);
    yard::close(trailer, 32_900.0, 11.0);
    yard::close(gross, 78_390.0, 1e-6);
}
