//! *Hand.* Whole trucks: what a mass does to the rails of the bare chassis, what its brackets and the
//! springs' mounts change, reinforcements, welds and splices, and the three conversions' hand figures.

use super::yard::{assess, bare, close, finding, part, plan, put, said};
use axlewright_core::assessment::Assessment;
use axlewright_core::chassis::{Chassis, Profile, Reinforcement, Spot};
use axlewright_core::findings::Severity;
use axlewright_core::frame::{Frame, RailCase};
use axlewright_core::library::Library;
use axlewright_core::loads::Case;
use axlewright_core::plan::{ChassisChoice, PayloadPlace, Plan};
use axlewright_core::quantity::N_PER_KG;
use axlewright_core::source::Source;
use std::path::Path;

fn frame(plan: &Plan) -> Frame {
    assess(plan).answers.frame.unwrap()
}

pub fn moment(rail: &RailCase, x: f64) -> f64 {
    let piece = rail.pieces.iter().find(|p| p.from_mm <= x && x <= p.to_mm);
    piece.map_or(0.0, |p| p.moment_at(x))
}

fn both(frame: &Frame, x: f64) -> f64 {
    frame.cases[0].rails.iter().map(|r| moment(r, x)).sum()
}

/// A part 1,000 long on the bare chassis (axles at 0 and 5,000, no mounts known), its middle here.
fn with_part(x: f64, y: f64, kg: f64) -> Plan {
    let mut plan = plan(bare());
    put(
        &mut plan,
        part("ROCK", "free-mass", kg, [1_000.0, 400.0, 400.0]),
        [x - 500.0, y, 600.0],
    );
    plan
}

/// Hung at a quarter of its length from each end, over the middle: as two loads of half of it.
#[test]
fn a_part_hangs_at_two_rows() {
    let before = frame(&plan(bare()));
    let after = frame(&with_part(2_500.0, 0.0, 800.0));
    let load = 800.0 * N_PER_KG;
    for x in [1_000.0_f64, 2_250.0, 2_500.0, 2_750.0, 4_000.0] {
        let lever = x.min(5_000.0 - x).min(2_250.0);
        close(both(&after, x) - both(&before, x), load / 2.0 * lever, 1.0);
    }
}

/// Rows that the part's file states; turned round they count from its other end.
#[test]
fn a_part_hangs_at_its_stated_rows() {
    let before = frame(&plan(bare()));
    let mut plan = with_part(2_500.0, 0.0, 800.0);
    plan.parts[0].mounts = Some(toml::from_str("rows_mm = [0, 750]").unwrap());
    let load = 800.0 * N_PER_KG;
    // A third and two thirds at 2,000 and 2,750; the axles feel it at 2,500 as before.
    let after = frame(&plan);
    close(
        both(&after, 2_000.0) - both(&before, 2_000.0),
        load / 2.0 * 2_000.0,
        1.0,
    );
    let at = load / 2.0 * 2_400.0 - load / 3.0 * 400.0;
    close(both(&after, 2_400.0) - both(&before, 2_400.0), at, 1.0);
    plan.placed[0].turn = 2;
    let turned = frame(&plan);
    let at = load / 2.0 * 2_300.0 - load * 2.0 / 3.0 * 50.0;
    close(both(&turned, 2_300.0) - both(&before, 2_300.0), at, 1.0);
}

/// Between the rails by lever, beside them on the nearer one alone.
#[test]
fn sides() {
    let before = frame(&plan(bare()));
    let apart = 860.0 - 8.0;
    for (y, right) in [
        (0.0, 0.5),
        (200.0, 0.5 + 200.0 / apart),
        (900.0, 1.0),
        (-900.0, 0.0),
    ] {
        let after = frame(&with_part(2_500.0, y, 800.0));
        let more = |side: usize| {
            let of = |f: &Frame| moment(&f.cases[0].rails[side], 2_500.0);
            of(&after) - of(&before)
        };
        let whole = 800.0 * N_PER_KG / 2.0 * 2_250.0;
        close(more(1), whole * right, 1.0);
        close(more(0), whole * (1.0 - right), 1.0);
    }
}

/// Where the springs are fixed matters: with hangers 600 ahead and behind, the moment over an axle falls
/// by what it loses of its lever.
#[test]
fn springs_push_at_their_hangers() {
    let mut held = with_part(2_500.0, 0.0, 800.0);
    let without = frame(&held);
    assert_eq!(without.unknown_mounts, ["axle-1", "axle-2"]);
    if let ChassisChoice::Inline(chassis) = &mut held.chassis {
        for axle in &mut chassis.axles {
            axle.suspension.mounts_mm = vec![-600.0, 600.0];
        }
    }
    let with = frame(&held);
    assert!(with.unknown_mounts.is_empty());
    // Between the hangers' ends nothing changes; over the axle half of its push has not come yet.
    close(both(&with, 2_500.0), both(&without, 2_500.0), 1.0);
    let push = (3_400.0 - 500.0) * N_PER_KG;
    close(
        both(&with, 0.0) - both(&without, 0.0),
        push / 2.0 * 600.0,
        1.0,
    );
    let said = assess(&with_part(2_500.0, 0.0, 800.0));
    let strength = finding(&said, "frame-strength", "rails");
    assert!(
        strength
            .assumptions
            .iter()
            .any(|a| a.contains("axle-1, axle-2"))
    );
}

/// A walking beam hands the load of both axles to its saddle.
#[test]
fn a_saddle_takes_both_axles() {
    let library = Library::shipped();
    let plan = Plan::on(&library.chassis["vocational-6x4"]);
    let frame = Assessment::of(&plan, &library)
        .unwrap()
        .answers
        .frame
        .unwrap();
    let rail = &frame.cases[0].rails[0];
    let jumps = |x: f64| {
        let ahead = rail
            .pieces
            .iter()
            .find(|p| (p.to_mm - x).abs() < 1e-9)
            .unwrap();
        let behind = rail
            .pieces
            .iter()
            .find(|p| (p.from_mm - x).abs() < 1e-9)
            .unwrap();
        behind.shear_n - ahead.shear_at(x)
    };
    // The saddle stands 120 mm ahead of and behind 5,200.
    assert!(jumps(5_080.0) > 3_000.0 && jumps(5_320.0) > 3_000.0);
    for axle in [4_514.0, 5_886.0] {
        assert!(rail.pieces.iter().all(|p| (p.from_mm - axle).abs() > 1.0));
    }
}

fn liner(from_x_mm: f64, to_x_mm: f64) -> Reinforcement {
    Reinforcement {
        name: "inner liner".to_owned(),
        from_x_mm,
        to_x_mm,
        profile: Profile::Channel {
            depth_mm: 240.0,
            flange_mm: 70.0,
            wall_mm: 6.0,
        },
        yield_mpa: None,
        source: Source::default(),
    }
}

/// A liner adds its second moment of area; where it ends, the bare rail is used most.
#[test]
fn a_liner_helps_where_it_is() {
    let heavy = with_part(2_500.0, 0.0, 6_000.0);
    let bare_rail = frame(&heavy).worst.unwrap();
    let mut lined = heavy.clone();
    lined.frame.reinforcements.push(liner(1_000.0, 3_600.0));
    let found = frame(&lined);
    let section = &found.sections[1];
    assert_eq!(section.reinforced, ["inner liner"]);
    let added = Profile::inertia_mm4(&liner(0.0, 1.0).profile) * 2.0 / 260.0;
    close(
        section.modulus_mm3,
        found.sections[0].modulus_mm3 + added,
        1e-6,
    );
    let worst = found.worst.unwrap();
    assert!(worst.factor > bare_rail.factor);
    close(worst.x_mm, 3_600.0, 1e-9);
    assert!(found.sections[worst.section].reinforced.is_empty());
    let words = said(&assess(&lined)).join("\n");
    assert!(words.contains("There the inner liner ends."), "{words}");
    // One that yields first holds less.
    lined.frame.reinforcements[0].yield_mpa = Some(250.0);
    let weak = frame(&lined);
    assert!(weak.sections[1].resist_nmm.unwrap() < found.sections[1].resist_nmm.unwrap());
}

#[test]
fn without_a_yield_strength_nothing_is_judged() {
    let mut chassis = bare();
    chassis.rail.yield_mpa = None;
    let found = assess(&plan(chassis));
    let said = finding(&found, "frame-strength", "rails");
    assert_eq!(said.severity, Severity::NotAssessed);
    let frame = found.answers.frame.unwrap();
    assert!(frame.worst.is_none() && frame.cases[0].rails[0].peak.1 != 0.0);
}

/// A mount that bears a little less than is asked fails, one that bears it holds.
#[test]
fn mounts_against_their_rating() {
    let mut plan = with_part(2_500.0, 0.0, 100.0);
    let asked = 8.0 * 100.0 * N_PER_KG;
    for (rating, severity) in [
        (asked - 1.0, Severity::Fails),
        (asked + 1.0, Severity::Holds),
    ] {
        plan.parts[0].mounts = Some(toml::from_str(&format!("rating_n = {rating}")).unwrap());
        assert_eq!(
            finding(&assess(&plan), "mount-load", "ROCK").severity,
            severity
        );
    }
    plan.frame.longitudinal_g = Some(3.0);
    let set = assess(&plan).answers.mounts;
    assert_eq!(set[0].g, [4.0, 3.0, 5.0]);
    plan.parts[0].mounts = None;
    let unknown = assess(&plan);
    assert_eq!(
        finding(&unknown, "mount-load", "mounts").severity,
        Severity::NotAssessed
    );
    // The shop's own brackets are another matter than data that nobody gave.
    plan.parts[0].mounts = Some(toml::from_str("own_design = true").unwrap());
    let own = assess(&plan);
    let said = finding(&own, "mount-load", "mounts to design");
    assert_eq!(said.severity, Severity::NotAssessed);
    let words = said
        .sentence
        .words(axlewright_core::quantity::Units::Metric);
    assert!(
        words.contains("has to prove them, of 1 of 1 parts"),
        "{words}"
    );
    // Once proven, the strength counts.
    plan.parts[0].mounts = Some(toml::from_str("own_design = true\nrating_n = 1e5").unwrap());
    assert_eq!(
        finding(&assess(&plan), "mount-load", "ROCK").severity,
        Severity::Holds
    );
}

/// The splice: its joints, the moment there, and what the weld leaves. A cut that is no place for one is a
/// problem of the plan.
#[test]
fn splices() {
    let at = |splice: f64, wheelbase: f64| {
        let mut plan = with_part(2_500.0, 0.0, 3_000.0);
        plan.changes.wheelbase_mm = Some(wheelbase);
        plan.changes.splice_x_mm = Some(splice);
        assess(&plan)
    };
    let long = at(3_000.0, 5_600.0);
    let splice = long.answers.frame.as_ref().unwrap().splice.clone().unwrap();
    assert_eq!(splice.joints_mm, [3_000.0, 3_600.0]);
    let rail = &long.answers.frame.as_ref().unwrap().cases[0].rails[splice.side];
    close(splice.moment_nmm, moment(rail, splice.worst_mm), 1e-6);
    assert_eq!(
        finding(&long, "frame-splice", "splice").severity,
        Severity::Caution
    );
    let quiet = at(4_300.0, 5_300.0);
    assert_eq!(
        finding(&quiet, "frame-splice", "splice").severity,
        Severity::Holds
    );
    let mut plan = with_part(2_500.0, 0.0, 3_000.0);
    plan.changes.wheelbase_mm = Some(5_600.0);
    plan.changes.splice_x_mm = Some(3_000.0);
    plan.frame.weld_loss = Some(0.9);
    assert_eq!(
        finding(&assess(&plan), "frame-splice", "splice").severity,
        Severity::Fails
    );
    let short = at(3_500.0, 4_500.0);
    let frame = short.answers.frame.as_ref().unwrap();
    assert_eq!(frame.splice.as_ref().unwrap().joints_mm, [3_500.0]);
}

/// Lists and scale: with a kept item that the scale does not see, the rest makes up for it.
#[test]
fn what_the_lists_leave_out_is_spread() {
    let mut chassis = bare();
    let found = frame(&plan(chassis.clone()));
    // 6,000 kg at the scale, 1,400 of it unsprung: 500 at the front, 900 at the rear.
    close(found.unlisted.0, 4_600.0, 1e-9);
    close(found.unlisted.1, (3_000.0 - 900.0) * 5_000.0, 1e-6);
    chassis.kept = toml::from_str::<Kept>(
        "[[kept]]\nname = \"cab\"\nmass_kg = 900\ncg = { x_mm = 700, y_mm = 0, z_mm = 1500 }\n\
         [[kept]]\nname = \"axle\"\nmass_kg = 500\nunsprung = true\ncg = { x_mm = 0, y_mm = 0, z_mm = 500 }",
    )
    .unwrap()
    .kept;
    let listed = frame(&plan(chassis));
    close(listed.unlisted.0, 3_700.0, 1e-9);
    close(listed.unlisted.1, 2_100.0 * 5_000.0 - 900.0 * 700.0, 1e-6);
}

#[derive(serde::Deserialize)]
struct Kept {
    kept: Vec<axlewright_core::chassis::Kept>,
}

fn example(name: &str) -> Plan {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("examples")
        .join(name);
    Plan::from_json(name, &std::fs::read_to_string(path).unwrap()).unwrap()
}

/// The three conversions by hand: points at centres of gravity on two points under the axle groups. With
/// everything put there, the planner's peak comes within 3 %: the hand leaves the difference between lists
/// and scale out.
#[test]
fn the_hand_figures_come_out() {
    for (name, case, by_hand, at) in [
        ("gullwharf-drayage.json", Case::Coupled, 67.3e6, 2_430.0),
        ("prairie-loop.json", Case::Coupled, 77.4e6, 2_750.0),
        ("millbrook-parcel.json", Case::Laden, 52.7e6, 3_050.0),
    ] {
        let mut library = Library::shipped();
        for chassis in library.chassis.values_mut() {
            at_the_axles(chassis);
        }
        for part in library.parts.values_mut() {
            let x = part.centre_of_gravity().x_mm - part.bounds().min.x;
            part.mounts = Some(toml::from_str(&format!("rows_mm = [{x:?}]")).unwrap());
        }
        let mut plan = example(name);
        if let Some(payload) = &mut plan.loads.payload
            && let PayloadPlace::Level {
                front_x_mm,
                rear_x_mm,
                z_mm,
            } = payload.at
        {
            let x_mm = f64::midpoint(front_x_mm, rear_x_mm);
            payload.at = PayloadPlace::Cg(Spot {
                x_mm,
                y_mm: 0.0,
                z_mm,
            });
        }
        let frame = Assessment::of(&plan, &library).unwrap();
        let frame = frame.answers.frame.unwrap();
        let case = frame.cases.iter().find(|c| c.case == case).unwrap();
        let sum = |x: f64| case.rails.iter().map(|r| moment(r, x)).sum::<f64>();
        let peak = (0..7_000).map(f64::from).map(|x| (x, sum(x)));
        let (x, most) = peak.reduce(|a, b| if b.1 > a.1 { b } else { a }).unwrap();
        println!(
            "{name}: {most:.3e} at {x}, by hand {by_hand:.3e} at {at}, there {:.4e}",
            sum(at)
        );
        assert!((most / by_hand - 1.0).abs() < 0.03, "{name}: {most} at {x}");
    }
}

fn at_the_axles(chassis: &mut Chassis) {
    for axle in &mut chassis.axles {
        axle.suspension.mounts_mm.clear();
    }
    for kept in &mut chassis.kept {
        // By hand the box truck's long rails are spread, the tractors' are not.
        if chassis.body.is_none() || !kept.name.contains("rails") {
            kept.spread_mm = None;
        }
    }
    for group in &mut chassis.groups {
        group.mounts_mm = vec![0.0];
    }
}
