//! Zones, ground, width and ends.

use super::sentences;
use super::yard::{assess, bare, close, finding, part, plan, put, put_at};
use axlewright_core::chassis::ZoneLimit;
use axlewright_core::findings::Severity;
use axlewright_core::part::Part;
use axlewright_core::plan::{Place, Plan};

const SIZE: [f64; 3] = [400.0, 300.0, 400.0];

fn in_zone(part: Part, zone: &str, from_front_mm: f64, y_mm: f64, z_mm: f64) -> Plan {
    let mut plan = plan(bare());
    put_at(
        &mut plan,
        part,
        Place::Zone {
            id: zone.to_owned(),
            from_front_mm,
            y_mm,
            z_mm,
        },
    );
    plan
}

/// The saddle's zone is 430 to 1,250 beside the middle; this part's outside stands at 1,290.
#[test]
fn a_part_outside_its_zone_is_worth_a_look() {
    let assessment = assess(&in_zone(
        part("B1", "battery-pack", 1.0, SIZE),
        "saddle-left",
        100.0,
        -1_140.0,
        400.0,
    ));
    let found = finding(&assessment, "zone-fit", "B1");
    assert_eq!(found.severity, Severity::Caution);
    close(found.measured.unwrap().value, 40.0, 1e-9);
    assert!(
        sentences(&assessment, "zone-fit")[0]
            .contains("B1 stands 40 mm left of its zone, saddle left")
    );
}

#[test]
fn a_part_in_a_zone_that_its_file_does_not_name_is_worth_a_look() {
    let mut pack = part("B1", "battery-pack", 1.0, SIZE);
    pack.zones = vec!["behind-cab".to_owned()];
    let assessment = assess(&in_zone(pack, "saddle-left", 100.0, -800.0, 400.0));
    assert_eq!(
        finding(&assessment, "zone-choice", "B1").severity,
        Severity::Caution
    );
}

#[test]
fn a_zone_that_carries_more_than_it_may_fails() {
    let mut plan = in_zone(
        part("B1", "battery-pack", 501.0, SIZE),
        "saddle-left",
        100.0,
        -800.0,
        400.0,
    );
    let axlewright_core::plan::ChassisChoice::Inline(chassis) = &mut plan.chassis else {
        panic!()
    };
    chassis.zone_limits.push(ZoneLimit {
        id: "saddle-left".to_owned(),
        mass_kg: 500.0,
    });
    assert_eq!(
        finding(&assess(&plan), "zone-mass", "saddle-left").severity,
        Severity::Fails
    );
    plan.parts[0].mass_kg = 500.0;
    assert_eq!(
        finding(&assess(&plan), "zone-mass", "saddle-left").severity,
        Severity::Holds
    );
}

fn at(x: f64, y: f64, z: f64) -> Plan {
    let mut plan = plan(bare());
    put(&mut plan, part("Z1", "equipment-box", 1.0, SIZE), [x, y, z]);
    plan
}

#[test]
fn ground_clearance_fails_below_250_and_is_looked_at_below_300() {
    for (z, wanted) in [
        (249.0, Severity::Fails),
        (250.0, Severity::Caution),
        (299.0, Severity::Caution),
        (300.0, Severity::Holds),
    ] {
        let found = finding(&assess(&at(2_000.0, -800.0, z)), "ground-clearance", "Z1").severity;
        assert_eq!(found, wanted, "at {z}");
    }
}

/// 2,500 wide without a road law: a part to 1,251 makes it 2,502.
#[test]
fn a_part_that_makes_the_truck_wider_fails() {
    let wide = assess(&at(2_000.0, -1_101.0, 400.0));
    let found = finding(&wide, "overall-width", "Z1");
    assert_eq!(found.severity, Severity::Fails);
    close(found.measured.unwrap().value, 2_502.0, 1e-9);
    let narrow = assess(&at(2_000.0, 1_100.0, 400.0));
    assert_eq!(
        finding(&narrow, "overall-width", "Z1").severity,
        Severity::Holds
    );
}

/// The bumper is at −1,300, the frame ends at 6,500.
#[test]
fn a_part_beyond_bumper_or_frame_end_fails_by_how_far() {
    let ahead = assess(&at(-1_330.0, 0.0, 500.0));
    close(
        finding(&ahead, "front-and-rear-end", "Z1.bumper")
            .measured
            .unwrap()
            .value,
        30.0,
        1e-9,
    );
    let behind = assess(&at(6_145.0, 0.0, 500.0));
    let found = finding(&behind, "front-and-rear-end", "Z1.rear end");
    assert_eq!(found.severity, Severity::Fails);
    close(found.measured.unwrap().value, 45.0, 1e-9);
}

#[test]
fn a_gas_tank_ahead_of_the_front_axle_fails() {
    let mut plan = at(-50.0, 0.0, 1_100.0);
    plan.parts[0].behind_front_axle = true;
    let found = assess(&plan);
    let found = finding(&found, "gas-ahead-of-axle", "Z1");
    assert_eq!(found.severity, Severity::Fails);
    close(found.measured.unwrap().value, 50.0, 1e-9);
}
