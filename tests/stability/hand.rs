//! *Hand.* Whole plans worked out by hand, what the checks say, and what they say when something is
//! missing.

use super::yard::{
    assess, assess_with, bare, close, couple, finding, library, part, plan, put, tractor, trailer,
};
use axlewright_core::assessment::{Assessment, CaseBalance};
use axlewright_core::chassis::{Chassis, LiftWeighing, Spot};
use axlewright_core::findings::Severity;
use axlewright_core::library::Library;
use axlewright_core::loads::Case;
use axlewright_core::plan::{Payload, PayloadPlace, Plan};

fn of(assessment: &Assessment, case: Case) -> &CaseBalance {
    let balance = &assessment.answers.balance;
    balance.iter().find(|b| b.case == case).unwrap()
}

/// Springs that do not give: heights are the same with and without payload.
fn stiff() -> Chassis {
    let mut chassis = bare();
    chassis.dimensions.frame_top_unladen_mm = chassis.dimensions.frame_top_laden_mm;
    chassis
}

fn laden(z_mm: f64) -> Plan {
    let mut plan = plan(stiff());
    let at = PayloadPlace::Cg(Spot::new(2_500.0, 0.0, z_mm));
    plan.loads.payload = Some(Payload {
        mass_kg: 6_000.0,
        at,
    });
    plan
}

/// 6,000 kg at 800 mm and 6,000 kg of payload: half of it on either axle, tracks 2,000 and 1,800.
#[test]
fn a_laden_truck_by_hand() {
    let assessment = assess(&laden(2_000.0));
    let roll = of(&assessment, Case::Laden).roll.clone().unwrap();
    close(roll.track_mm, 1_900.0, 1e-9);
    close(roll.height_mm, 1_400.0, 1e-9);
    close(roll.rigid_g, 950.0 / 1_400.0, 1e-12);
    close(roll.reduced_g, 0.75 * 950.0 / 1_400.0, 1e-12);
    // The donor so loaded is the same truck here, for nothing was changed on it.
    let donor = of(&assessment, Case::Laden).donor.clone().unwrap();
    close(donor.roll.unwrap().reduced_g, roll.reduced_g, 1e-12);
    // 0.35 g at (0.75 * 950 / 0.35) mm for the whole; the payload then lies at twice that less 800.
    let highest = of(&assessment, Case::Laden).payload_z_max_mm.unwrap();
    close(highest, 2.0 * 0.75 * 950.0 / 0.35 - 800.0, 1e-6);
    assert_eq!(
        finding(&assessment, "rollover", "truck").severity,
        Severity::Holds
    );
    close(
        of(&assessment, Case::Laden).steer_share.unwrap(),
        0.5,
        1e-12,
    );
}

#[test]
fn payload_just_below_its_highest_holds_and_just_above_fails() {
    let highest = 2.0 * 0.75 * 950.0 / 0.35 - 800.0;
    let severity = |z: f64| finding(&assess(&laden(z)), "rollover", "truck").severity;
    assert_eq!(severity(highest - 0.5), Severity::Holds);
    assert_eq!(severity(highest + 0.5), Severity::Fails);
}

/// The threshold at which the check begins to speak, found by raising the payload.
pub fn least_g_by_the_check() -> f64 {
    let roll = |z: f64| {
        let assessment = assess(&laden(z));
        let severity = finding(&assessment, "rollover", "truck").severity;
        let g = of(&assessment, Case::Laden).roll.clone().unwrap().reduced_g;
        (severity == Severity::Fails, g)
    };
    let (mut low, mut high) = (2_000.0, 5_000.0);
    assert!(!roll(low).0 && roll(high).0);
    while high - low > 1e-7 {
        let middle = f64::midpoint(low, high);
        if roll(middle).0 {
            high = middle
        } else {
            low = middle
        }
    }
    roll(low).1
}

#[test]
fn the_tilt_table_is_watched_below_what_tank_trucks_have_to_stand() {
    // 23 degrees: the whole at 0.75 * 950 / tan 23.
    let at = 2.0 * 0.75 * 950.0 / 23.0_f64.to_radians().tan() - 800.0;
    let severity = |z: f64| finding(&assess(&laden(z)), "tilt-angle", "truck").severity;
    assert_eq!(severity(at - 0.5), Severity::Holds);
    assert_eq!(severity(at + 0.5), Severity::Caution);
}

#[test]
fn weight_to_one_side_is_watched_beyond_25_mm() {
    let with = |kg: f64| {
        let mut plan = plan(stiff());
        put(
            &mut plan,
            part("M1", "free-mass", kg, [600.0, 400.0, 400.0]),
            [2_200.0, -1_000.0, 500.0],
        );
        let assessment = assess(&plan);
        let truck = of(&assessment, Case::Unladen).truck;
        close(truck.y_mm, -1_000.0 * kg / (6_000.0 + kg), 1e-9);
        finding(&assessment, "cg-offset", "truck").severity
    };
    // 25 mm at 6,000 / 39 kg.
    assert_eq!(with(153.0), Severity::Holds);
    assert_eq!(with(155.0), Severity::Caution);
}

#[test]
fn an_unladen_truck_stands_higher_on_its_springs() {
    let unladen = |rise: f64| {
        let mut chassis = bare();
        let d = &mut chassis.dimensions;
        d.frame_top_unladen_mm = d.frame_top_laden_mm + rise;
        of(&assess(&plan(chassis)), Case::Unladen)
            .truck
            .z_mm
            .unwrap()
    };
    // Sprung: 2,500 kg over the front and 2,100 over the rear axle of 6,000 kg in all.
    let along = 2_100.0 / 4_600.0;
    close(
        unladen(60.0) - unladen(0.0),
        60.0 * along * 4_600.0 / 6_000.0,
        1e-9,
    );
}

/// 6,000 kg at 800, 6,000 at 1,700, 20,000 at the height of the load.
fn coupled(load_z_mm: f64) -> Assessment {
    let mut chassis = tractor(5_000.0, 0.0);
    chassis.dimensions.frame_top_unladen_mm = chassis.dimensions.frame_top_laden_mm;
    let mut plan = plan(chassis);
    couple(&mut plan, 20_000.0);
    let mut own = trailer();
    own.track_mm = Some(1_968.0);
    own.load_cg_z_mm = load_z_mm;
    assess_with(&plan, &library(own))
}

#[test]
fn truck_and_trailer_lean_together() {
    let assessment = coupled(2_300.0);
    let roll = of(&assessment, Case::Coupled).roll.clone().unwrap();
    let height = (6_000.0 * 800.0 + 6_000.0 * 1_700.0 + 20_000.0 * 2_300.0) / 32_000.0;
    close(roll.height_mm, height, 1e-9);
    // Half of the trailer on the kingpin, over the rear axle; the other half on its own axles.
    let track = (3_000.0 * 2_000.0 + 16_000.0 * 1_800.0 + 13_000.0 * 1_968.0) / 32_000.0;
    close(roll.track_mm, track, 1e-9);
    close(roll.reduced_g, 0.75 * track / 2.0 / height, 1e-12);
    let severity = |a: &Assessment| finding(a, "rollover", "combination").severity;
    assert_eq!(severity(&assessment), Severity::Holds);
    // A combination that tips sooner is worth a look, for the trailer decides it.
    let highest = of(&assessment, Case::Coupled).payload_z_max_mm.unwrap();
    assert_eq!(severity(&coupled(highest - 1.0)), Severity::Holds);
    assert_eq!(severity(&coupled(highest + 1.0)), Severity::Caution);
}

#[test]
fn without_a_height_or_a_track_nothing_is_judged() {
    let mut unknown = bare();
    unknown.ticket.as_mut().unwrap().cg_z_mm = None;
    let assessment = assess(&plan(unknown));
    for check in ["rollover", "tilt-angle"] {
        assert_eq!(
            finding(&assessment, check, "truck").severity,
            Severity::NotAssessed
        );
    }
    let mut coupled = plan(tractor(5_000.0, 0.0));
    couple(&mut coupled, 10_000.0);
    let assessment = assess(&coupled);
    let found = finding(&assessment, "rollover", "combination");
    assert_eq!(found.severity, Severity::NotAssessed);
    let mut unweighed = bare();
    unweighed.ticket = None;
    let assessment = assess(&plan(unweighed));
    for check in ["rollover", "tilt-angle", "cg-offset"] {
        assert_eq!(
            finding(&assessment, check, "truck").severity,
            Severity::NotAssessed
        );
    }
}

/// A second weighing with the front axle 800 mm up gives the height that nobody measured.
#[test]
fn a_raised_axle_gives_the_height() {
    let mut chassis = stiff();
    let ticket = chassis.ticket.as_mut().unwrap();
    ticket.cg_z_mm = None;
    // 800 mm above ground is 320 above the wheel axis: 3,000 - 320 * 6,000 / 5,000 * tan.
    let tan = 800.0 / (5_000.0_f64.powi(2) - 800.0_f64.powi(2)).sqrt();
    ticket.lift = Some(LiftWeighing {
        level_kg: 3_000.0,
        raised_kg: 3_000.0 - 320.0 * 6_000.0 / 5_000.0 * tan,
        raised_mm: 800.0,
        wheelbase_mm: 5_000.0,
        loaded_radius_mm: 480.0,
    });
    let assessment = assess(&plan(chassis));
    close(
        of(&assessment, Case::Donor).truck.z_mm.unwrap(),
        800.0,
        1e-6,
    );
}

#[test]
fn the_wrong_example_tips_too_soon() {
    let path = format!(
        "{}/examples/wrong/millbrook-top-heavy.json",
        env!("CARGO_MANIFEST_DIR")
    );
    let plan = Plan::from_json("top-heavy", &std::fs::read_to_string(path).unwrap()).unwrap();
    let assessment = Assessment::of(&plan, &Library::shipped()).unwrap();
    let found = finding(&assessment, "rollover", "truck");
    assert_eq!(found.severity, Severity::Fails);
    assert!(found.pointer.is_some());
    assert_eq!(
        finding(&assessment, "tilt-angle", "truck").severity,
        Severity::Caution
    );
}
