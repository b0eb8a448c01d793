//! Examples: each kind of check fails in one of them, and the right ones are judged in full.

use crate::shipped::{examples, short, text};
use axlewright_core::assessment::{Assessment, Journey};
use axlewright_core::findings::{CHECKS, Finding, JOURNEY_CHECKS, Severity};
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use axlewright_core::route::shipped;
use axlewright_core::shared::Shared;
use std::collections::{BTreeMap, BTreeSet};

/// Checks that caution and never fail, or fail in no example, each with its reason.
const CAUTION_ONLY: [(&str, &str); 11] = [
    ("cg-offset", "no limit is published; it never fails"),
    ("tilt-angle", "asked of tank trucks only; it never fails"),
    ("shaft-length", "what is usual, not a limit; speed decides"),
    ("zone-fit", "a zone is a proposal; the gaps decide"),
    ("zone-choice", "a zone is a proposal; it never fails"),
    (
        "road-width",
        "no trailer is shipped that is wider than insulated walls may be",
    ),
    ("power-short", "slower than wished is no fault by itself"),
    ("pack-life", "what is usual, not a limit"),
    (
        "motor-power",
        "the truck is slower then, which other checks judge",
    ),
    (
        "pack-power",
        "the truck is slower then, which other checks judge",
    ),
    ("traction", "it slips for a moment; starting decides"),
];

/// Checks of which no example speaks, each with its reason.
const NEVER: [(&str, &str); 2] = [
    (
        "plan-problem",
        "a file with it is refused; the last test of checks.rs makes it speak",
    ),
    (
        "charge-on-the-way",
        "the inlets of all shipped trucks fit; tests/energy/on_the_way.rs makes it speak",
    ),
];

/// Roads for plans that name none.
const ROADS: [&str; 3] = ["harbour-shuttle", "valley-run", "hill-climb"];

/// What is found in one example: on the plan itself, and on its road or on all of them.
struct Found {
    name: String,
    of_plan: Vec<Shared<Finding>>,
    of_drive: Vec<Shared<Finding>>,
}

impl Found {
    fn worst(&self) -> Severity {
        let all = self.of_plan.iter().chain(&self.of_drive);
        all.map(|f| f.severity).min().unwrap()
    }
}

fn all() -> Vec<Found> {
    let library = Library::shipped();
    let of = |path: &std::path::PathBuf| {
        let name = short(path);
        let plan = Plan::from_json(&name, &text(path)).unwrap_or_else(|p| panic!("{p}"));
        let of_plan = Assessment::of(&plan, &library).unwrap().findings;
        let roads = plan.duty.route.as_deref().map_or(&ROADS[..], |_| &[]);
        let roads = roads.iter().copied().chain(plan.duty.route.as_deref());
        let mut of_drive = Vec::new();
        for road in roads {
            let answers = Assessment::of(&plan, &library).unwrap().answers;
            // A plan of which something is not known is not driven.
            if let Ok(journey) = Journey::of(answers, &shipped(road).unwrap(), &mut |_| true) {
                of_drive.extend(axlewright_core::findings::of_journey(&journey));
            }
        }
        Found {
            name,
            of_plan,
            of_drive,
        }
    };
    examples().iter().map(of).collect()
}

#[test]
fn each_kind_of_check_fails_in_an_example() {
    let mut worst: BTreeMap<&str, Severity> = BTreeMap::new();
    for found in all() {
        for finding in found.of_plan.iter().chain(&found.of_drive) {
            let so_far = worst.entry(finding.check).or_insert(finding.severity);
            *so_far = (*so_far).min(finding.severity);
        }
        let wrong = found.name.contains("/wrong/");
        assert!(
            !wrong || found.worst() == Severity::Fails,
            "{}: wrong on purpose, and nothing fails",
            found.name
        );
    }
    let ids = CHECKS.iter().map(|c| c.id);
    let ids: BTreeSet<&str> = ids.chain(JOURNEY_CHECKS.iter().map(|c| c.id)).collect();
    let short_of = |list: &[(&'static str, &str)]| {
        assert!(list.iter().all(|(_, why)| why.len() > 20));
        list.iter().map(|(id, _)| *id).collect::<BTreeSet<&str>>()
    };
    let only = |wanted: fn(Option<Severity>) -> bool| {
        let here = |id: &&str| wanted(worst.get(id).copied());
        ids.iter().copied().filter(here).collect::<BTreeSet<&str>>()
    };
    let caution = only(|s| s == Some(Severity::Caution));
    assert_eq!(caution, short_of(&CAUTION_ONLY), "only cautions");
    let never = only(|s| !matches!(s, Some(Severity::Fails | Severity::Caution)));
    assert_eq!(never, short_of(&NEVER), "neither fails nor cautions");
}

/// The verdict of each plan that is not wrong on purpose, and what of it nobody can judge.
#[test]
fn the_right_examples_reach_a_verdict() {
    let open = |found: &Found| {
        let not = found
            .of_plan
            .iter()
            .filter(|f| f.severity == Severity::NotAssessed);
        not.map(|f| f.subject.clone()).collect::<Vec<_>>()
    };
    let found = all();
    let right = found.iter().filter(|f| !f.name.contains("/wrong/"));
    let said: Vec<(String, Severity, Vec<String>)> = right
        .map(|f| {
            let worst = f.of_plan.iter().map(|f| f.severity).min().unwrap();
            let name = f.name.rsplit('/').next().unwrap();
            (name.replace(".json", ""), worst, open(f))
        })
        .collect();
    let wanted = [
        ("carrowmere-pass", Severity::Caution, vec![]),
        // A pack of somebody's own, of which the strength of the mounts is not known.
        ("five-faults", Severity::Fails, vec!["mounts"]),
        ("gullwharf-drayage", Severity::Caution, vec![]),
        ("harbour-hydrogen", Severity::Caution, vec![]),
        ("lakeside-lift-axle", Severity::Caution, vec![]),
        // The straps of its catalyst are the shop's own.
        (
            "lowfield-relay",
            Severity::Caution,
            vec!["mounts to design"],
        ),
        ("millbrook-parcel", Severity::Caution, vec![]),
        ("orchard-lane-shuttle", Severity::Caution, vec![]),
        // The straps of its catalyst are the shop's own.
        ("prairie-loop", Severity::Caution, vec!["mounts to design"]),
        ("quarry-road-tipper", Severity::Holds, vec![]),
        // Its circle is wider than EU law allows.
        ("vinterdal-bakery", Severity::Fails, vec![]),
    ];
    let wanted = wanted.map(|(name, severity, open)| {
        let open = open.into_iter().map(str::to_owned).collect::<Vec<_>>();
        (name.to_owned(), severity, open)
    });
    assert_eq!(said, wanted);
}
