//! A longer or shorter wheelbase, and back again.

#![allow(clippy::unwrap_used)] // tests

use axlewright_core::library::Library;
use axlewright_core::plan::{Edit, Plan};
use axlewright_core::vehicle::Vehicle;

fn demo() -> (Plan, Library) {
    let text = std::fs::read_to_string("examples/gullwharf-drayage.json").unwrap();
    (Plan::from_json("demo", &text).unwrap(), Library::shipped())
}

/// Hand case: an axle's middle is where the axle is, whatever is done to the frame.
#[test]
fn e_axles_stay_on_their_axles() {
    let (mut plan, library) = demo();
    for mm in [3_199.0, 6_500.0, 4_250.0, 4_699.0] {
        plan = Edit::Wheelbase { mm }.applied(&plan, &library).unwrap();
        let vehicle = Vehicle::resolve(&plan, &library).unwrap();
        for item in &vehicle.items {
            let Some(axle) = item
                .unsprung_axle
                .as_deref()
                .and_then(|id| vehicle.axle(id))
            else {
                continue;
            };
            let off = item.bounds.centre().x - axle.x_mm;
            assert!(off.abs() < 1e-6, "{} is {off} mm off at {mm} mm", item.tag);
        }
    }
}

/// Property: stretching and going back restores the plan to the byte.
#[test]
fn a_stretch_taken_back_restores_the_plan() {
    let (plan, library) = demo();
    let longer = Edit::Wheelbase { mm: 5_399.0 }
        .applied(&plan, &library)
        .unwrap();
    let back = Edit::Wheelbase { mm: 4_699.0 }
        .applied(&longer, &library)
        .unwrap();
    assert_eq!(back.to_json(), plan.to_json());
}
