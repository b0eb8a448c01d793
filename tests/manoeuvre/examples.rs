//! The examples that are wrong on purpose fail for what their notes say, with a place to point at.

use axlewright_core::assessment::Assessment;
use axlewright_core::findings::Severity;
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use std::collections::BTreeSet;

fn assess(text: &str) -> Assessment {
    let plan = Plan::from_json("example", text).unwrap();
    Assessment::of(&plan, &Library::shipped()).unwrap()
}

#[track_caller]
fn fails(text: &str, wanted: &[(&str, &str)]) {
    let assessment = assess(text);
    let of_motion = |id: &str| {
        ["angle", "ramp", "bump", "tail", "turning", "swept"]
            .iter()
            .any(|word| id.contains(word))
    };
    let found: BTreeSet<(&str, &str)> = assessment
        .findings
        .iter()
        .filter(|f| f.severity == Severity::Fails && of_motion(f.check))
        .map(|f| (f.check, f.tags.first().map_or("", String::as_str)))
        .collect();
    assert_eq!(found, wanted.iter().copied().collect());
    let pointed = assessment
        .findings
        .iter()
        .filter(|f| f.severity == Severity::Fails);
    for finding in pointed.filter(|f| of_motion(f.check)) {
        assert!(
            finding.pointer.is_some(),
            "{} points at nothing",
            finding.check
        );
        assert!(finding.margin.unwrap().value < 0.0, "{}", finding.check);
    }
}

#[test]
fn what_hangs_too_low_strikes_ramp_crest_and_bump() {
    fails(
        include_str!("../../examples/wrong/quarry-road-low-packs.json"),
        &[
            ("approach-angle", "C1"),
            ("breakover-angle", "B1"),
            ("bump-clearance", "B1"),
            ("departure-angle", "E1"),
        ],
    );
}

#[test]
fn a_yard_too_narrow_is_said() {
    fails(
        include_str!("../../examples/wrong/millbrook-narrow-yard.json"),
        &[
            ("swept-circle", ""),
            ("tail-swing", ""),
            ("turning-circle", ""),
        ],
    );
}

#[test]
fn a_ramp_too_steep_brings_the_trailer_down_on_the_frame() {
    let text = include_str!("../../examples/wrong/gullwharf-steep-ramp.json");
    fails(text, &[("trailer-ramp", "")]);
}

#[test]
fn the_good_examples_pass_every_check_of_motion() {
    for text in [
        include_str!("../../examples/gullwharf-drayage.json"),
        include_str!("../../examples/prairie-loop.json"),
        include_str!("../../examples/millbrook-parcel.json"),
        include_str!("../../examples/quarry-road-tipper.json"),
    ] {
        fails(text, &[]);
    }
}
