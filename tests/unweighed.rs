//! A donor that nobody weighed: silence is never a pass.

#![allow(clippy::unwrap_used)] // tests

use axlewright_core::assessment::Assessment;
use axlewright_core::findings::Severity;
use axlewright_core::library::Library;
use axlewright_core::plan::{ChassisChoice, Plan};

/// Hand case: with trailer and law stated, every check of a whole mass has its limit and lacks only
/// the weights, and must say so.
#[test]
fn without_a_scale_ticket_whole_masses_are_not_assessed() {
    let library = Library::shipped();
    let text = std::fs::read_to_string("examples/gullwharf-drayage.json").unwrap();
    let mut plan = Plan::from_json("demo", &text).unwrap();
    let mut chassis = library.chassis["daycab-6x4"].clone();
    chassis.ticket = None;
    plan.chassis = ChassisChoice::Inline(Box::new((*chassis).clone()));
    let findings = Assessment::of(&plan, &library).unwrap().findings;
    for check in [
        "gvwr",
        "gcwr",
        "road-gross",
        "trailer-axles",
        "fifth-wheel-load",
    ] {
        let said: Vec<_> = findings
            .iter()
            .filter(|f| f.check == check)
            .map(|f| f.severity)
            .collect();
        assert_eq!(said, [Severity::NotAssessed], "{check}");
    }
}
