//! *Hand.* What the supports carry when a truck is stretched, an axle is up, sides were weighed, or a
//! tractor carries something itself.

use super::yard::{
    assess, bare, case, close, couple, group, library, loads_of, part, plan, put, resolve, tractor,
    trailer, weighed,
};
use axlewright_core::assessment::Assessment;
use axlewright_core::chassis::{AxleKind, Body, Chassis, Hardware, Kept, Spot};
use axlewright_core::findings::Severity;
use axlewright_core::loads::{Case, Split, Trend, trends};
use axlewright_core::plan::{Edit, Payload, PayloadPlace};
use axlewright_core::vehicle::Vehicle;

fn at(x_mm: f64, z_mm: f64) -> Spot {
    Spot {
        x_mm,
        y_mm: 0.0,
        z_mm,
    }
}

/// The bare chassis with a lift axle at 6,250, in a group of its own or in that of the driven axle.
fn with_lift(own_group: bool) -> Chassis {
    let mut chassis = bare();
    let mut third = chassis.axles[1].clone();
    third.id = "axle-3".to_owned();
    third.kind = AxleKind::Lift;
    third.x_mm = 6_250.0;
    chassis.axles.push(third);
    if own_group {
        let mut lift = chassis.groups[1].clone();
        lift.id = "lift".to_owned();
        lift.name = "lift axle".to_owned();
        lift.axles = vec!["axle-3".to_owned()];
        chassis.groups.push(lift);
        weighed(
            &mut chassis,
            &[("front", 3_000.0), ("rear", 3_000.0), ("lift", 1_000.0)],
        );
    } else {
        chassis.groups[1].axles.push("axle-3".to_owned());
    }
    chassis
}

/// 2,000 kg on the tractor's own frame, 1 m ahead of the rear axle, are there before any payload of
/// the trailer: 3,000 + 2,400 of the empty trailer's kingpin + 1,600 on the rear axle.
#[test]
fn what_a_tractor_carries_itself_counts_before_the_trailers_payload() {
    let mut plan = plan(tractor(5_000.0, 1_000.0));
    couple(&mut plan, 10_000.0);
    plan.loads.payload = Some(Payload {
        mass_kg: 2_000.0,
        at: PayloadPlace::Cg(at(4_000.0, 1_400.0)),
    });
    let vehicle = resolve(&plan);
    let split = Split::of(vehicle.trailer.as_ref().unwrap());
    let all = trends(&vehicle).unwrap();
    let coupled = all.iter().find(|t| t.under_payload).unwrap();
    let (base, share) = coupled.groups[1].under(0.0, 0.0, &split);
    close(base, 7_000.0, 1e-9);
    close(share, 0.4, 1e-12);
    close(coupled.truck().under(0.0, 0.0, &split).0, 11_000.0, 1e-9);
    let gross = coupled.truck().and(1.0, &Trend::TRAILER_AXLES);
    close(gross.under(0.0, 0.0, &split).0, 14_000.0, 1e-9);
}

/// 300 of the rear axle's 900 kg come off and the axle moves by a metre: 600 kg of it stand at 6,000.
#[test]
fn sprung_centre_follows_an_axle_that_lost_something_and_moved() {
    let mut chassis = bare();
    chassis.hardware.push(Hardware {
        id: "carrier".to_owned(),
        name: "Carrier".to_owned(),
        mass_kg: 300.0,
        mass_sigma_kg: 0.0,
        cg: at(4_900.0, 500.0),
        unsprung_axle: Some("axle-2".to_owned()),
        drive_axle: true,
        strip_by_default: true,
        envelope: Vec::new(),
    });
    let mut plan = plan(chassis);
    plan.changes.stripped = vec!["carrier".to_owned()];
    plan.changes.wheelbase_mm = Some(6_000.0);
    let loads = loads_of(&plan);
    let now = case(&loads, Case::Unladen);
    // The axle as it was: 900 kg at 6,000, less 300 kg which stood 100 mm ahead of its middle.
    let unsprung = 900.0 * 6_000.0 - 300.0 * 5_900.0;
    let left = now.truck.mass_kg - 500.0 - 600.0;
    close(now.sprung.mass_kg, left, 1e-9);
    let moment = now.truck.mass_kg * now.truck.x_mm - unsprung;
    close(now.sprung.x_mm, moment / left, 1e-9);
    // At the donor's wheelbase nothing has moved.
    let stripped = case(&loads, Case::Stripped);
    let moment = stripped.truck.mass_kg * stripped.truck.x_mm - (900.0 * 5_000.0 - 300.0 * 4_900.0);
    close(stripped.sprung.x_mm, moment / (5_700.0 - 1_100.0), 1e-9);
}

/// The scale saw 3,000 kg between the two rear axles, at 5,625. With the second one up, the frame rests
/// at 5,000: 9/8 of it there, and 375 kg lift the front axle.
#[test]
fn a_group_rests_on_the_axles_that_are_down() {
    let mut plan = plan(with_lift(false));
    let down = loads_of(&plan);
    close(
        group(case(&down, Case::Unladen), "rear").load_kg,
        3_000.0,
        1e-9,
    );
    plan.changes.raised = vec!["axle-3".to_owned()];
    let loads = loads_of(&plan);
    let up = case(&loads, Case::Unladen);
    close(group(up, "rear").load_kg, 3_375.0, 1e-9);
    close(group(up, "front").load_kg, 2_625.0, 1e-9);
    close(up.axles[1].load_kg, 3_375.0, 1e-9);
    close(up.axles[2].load_kg, 0.0, 1e-9);
}

#[test]
fn a_group_that_is_up_has_no_limit_to_keep() {
    let mut plan = plan(with_lift(true));
    plan.changes.raised = vec!["axle-3".to_owned()];
    let assessment = assess(&plan);
    let about: Vec<_> = assessment
        .findings
        .iter()
        .filter(|f| f.subject == "lift")
        .collect();
    assert!(about.is_empty(), "{about:?}");
}

/// Nothing was taken off or put on: the sides are those of the scale, on three supports too.
#[test]
fn sides_stay_those_of_the_scale_until_something_changes() {
    let mut chassis = with_lift(true);
    let ticket = chassis.ticket.as_mut().unwrap();
    for (row, (left, right)) in
        ticket
            .axle
            .iter_mut()
            .zip([(1_480.0, 1_520.0), (1_400.0, 1_600.0), (520.0, 480.0)])
    {
        (row.left_kg, row.right_kg) = (Some(left), Some(right));
    }
    let mut plan = plan(chassis);
    let loads = loads_of(&plan);
    for of in [Case::Donor, Case::Stripped, Case::Unladen] {
        for (id, left) in [("front", 1_480.0), ("rear", 1_400.0), ("lift", 520.0)] {
            close(group(case(&loads, of), id).left_kg, left, 1e-9);
        }
    }
    // The lift axle hands its 20 kg of difference on: a quarter of it away from the front, five
    // quarters to the rear, each divided by its own track.
    plan.changes.raised = vec!["axle-3".to_owned()];
    let loads = loads_of(&plan);
    let up = case(&loads, Case::Unladen);
    let difference = |id: &str| group(up, id).right_kg - group(up, id).left_kg;
    close(
        difference("front"),
        40.0 + 0.25 * 40.0 * 1_800.0 / 2_000.0,
        1e-9,
    );
    close(difference("rear"), 200.0 - 1.25 * 40.0, 1e-9);
}

/// The body keeps its length and goes with the rear frame, and so does all of its mass.
#[test]
fn a_rigid_trucks_body_moves_as_a_whole() {
    let mut chassis = bare();
    chassis.body = Some(Body {
        name: "Box".to_owned(),
        front_x_mm: 1_500.0,
        rear_x_mm: 6_400.0,
        width_mm: 2_500.0,
        floor_z_mm: 1_150.0,
        top_z_mm: 3_500.0,
        clearance_mm: 20.0,
    });
    chassis.kept = vec![
        Kept {
            name: "Box".to_owned(),
            mass_kg: 1_000.0,
            cg: at(3_950.0, 2_000.0),
            unsprung: false,
            spread_mm: Some([1_500.0, 6_400.0]),
        },
        Kept {
            name: "Rear axle".to_owned(),
            mass_kg: 900.0,
            cg: at(5_000.0, 500.0),
            unsprung: true,
            spread_mm: None,
        },
    ];
    let splice = chassis.default_splice_x_mm();
    assert!(splice > 2_000.0, "the cut lies below the body");
    let longer = chassis.stretched(1_000.0, splice);
    let body = longer.body.as_ref().unwrap();
    close(body.front_x_mm, 2_500.0, 1e-9);
    close(body.rear_x_mm, 7_400.0, 1e-9);
    let (mass, x) = chassis.mass_behind(splice);
    close(mass, 1_900.0, 1e-9);
    close(mass * x, 1_000.0 * 3_950.0 + 900.0 * 5_000.0, 1e-6);
    // What lies in the body goes with it, when the wheelbase is changed on the bench.
    let mut plan = plan(chassis);
    plan.loads.payload = Some(Payload {
        mass_kg: 500.0,
        at: PayloadPlace::Level {
            front_x_mm: 1_500.0,
            rear_x_mm: 6_400.0,
            z_mm: 1_800.0,
        },
    });
    let plan = Edit::Wheelbase { mm: 6_000.0 }
        .applied(&plan, &library(trailer()))
        .unwrap();
    let PayloadPlace::Level {
        front_x_mm,
        rear_x_mm,
        ..
    } = plan.loads.payload.unwrap().at
    else {
        panic!("the payload is still spread")
    };
    close(front_x_mm, 2_500.0, 1e-9);
    close(rear_x_mm, 7_400.0, 1e-9);
}

/// The cab's back is at 1,200 and the driven axle at 5,000: no cut anywhere else changes the wheelbase.
#[test]
fn rails_are_cut_between_the_cab_and_the_driven_axles() {
    let library = library(trailer());
    let plan = plan(bare());
    for x_mm in [-1_500.0, -1.0, 1_199.0, 5_001.0, 6_400.0] {
        let refused = Edit::Splice { x_mm }.applied(&plan, &library).unwrap_err();
        let words = refused.to_string();
        assert!(words.contains("1200") && words.contains("5000"), "{words}");
        let mut from_file = plan.clone();
        from_file.changes.splice_x_mm = Some(x_mm);
        from_file.changes.wheelbase_mm = Some(5_500.0);
        let vehicle = Vehicle::resolve(&from_file, &library).unwrap();
        let problem = vehicle
            .problems
            .iter()
            .find(|p| p.path == "changes.splice_x_mm")
            .unwrap();
        assert!(problem.hint.contains("1200"), "{problem}");
        close(vehicle.splice_x_mm, 2_850.0, 1e-9);
    }
    for x_mm in [1_200.0, 3_000.0, 4_999.0] {
        assert!(Edit::Splice { x_mm }.applied(&plan, &library).is_ok());
    }
}

/// A tandem is not cut in two: the range ends at its foremost axle.
#[test]
fn a_cut_does_not_part_the_axles_of_a_group() {
    let mut plan = plan(with_lift(false));
    plan.changes.splice_x_mm = Some(5_500.0);
    let assessment = Assessment::of(&plan, &library(trailer())).unwrap();
    let problems: Vec<_> = assessment
        .findings
        .iter()
        .filter(|f| f.check == "plan-problem")
        .collect();
    assert_eq!(problems.len(), 1);
    assert_eq!(problems[0].severity, Severity::Fails);
}

/// A mass on one side divides its difference as it divides its weight, on three supports too.
#[test]
fn what_is_put_on_leans_as_it_presses() {
    let mut plan = plan(with_lift(true));
    put(
        &mut plan,
        part("Z1", "free-mass", 400.0, [200.0, 200.0, 200.0]),
        [2_900.0, 450.0, 600.0],
    );
    let loads = loads_of(&plan);
    let (with, of) = (case(&loads, Case::Unladen), case(&loads, Case::Donor));
    for (id, track) in [("front", 2_000.0), ("rear", 1_800.0), ("lift", 1_800.0)] {
        let more = group(with, id).load_kg - group(of, id).load_kg;
        let leans = group(with, id).right_kg - group(with, id).left_kg;
        close(leans, 2.0 * more * 450.0 / track, 1e-9);
    }
}
