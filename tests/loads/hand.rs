//! *Hand.* Cases small enough to follow on paper.

use super::yard::{
    assess, bare, case, close, couple, group, loads_of, part, plan, put, tractor, weighed,
};
use axlewright_core::chassis::{AxleKind, Hardware, Share, Spot};
use axlewright_core::findings::Severity;
use axlewright_core::loads::{Case, Support, influence};
use axlewright_core::part::Part;
use axlewright_core::plan::{Payload, PayloadPlace};

fn support(x_mm: f64, rate: f64) -> Support {
    Support {
        x_mm,
        rate: Some(rate),
        fixed_kg: None,
        raised: false,
        weighed_kg: 0.0,
    }
}

fn tank(id: &str, empty_kg: f64, full_kg: f64) -> Part {
    let mut tank = part(id, "gas-tank", empty_kg, [1_000.0, 400.0, 400.0]);
    tank.contents =
        Some(toml::from_str(&format!("fuel = \"natural-gas\"\nfull_kg = {full_kg:?}")).unwrap());
    tank
}

/// Three equal springs 2 m apart and a mass over the middle one: each carries a third.
#[test]
fn three_equal_springs_share_a_middle_load_equally() {
    let frame = [
        support(0.0, 100.0),
        support(2_000.0, 100.0),
        support(4_000.0, 100.0),
    ];
    let influence = influence(&frame).unwrap();
    for index in 0..3 {
        close(influence.share(index, 2_000.0), 1.0 / 3.0, 1e-12);
    }
    // Over the first: 1/3 ± 2·2/(2²+2²): five sixths, a third, minus a sixth.
    for (index, share) in [5.0 / 6.0, 1.0 / 3.0, -1.0 / 6.0].into_iter().enumerate() {
        close(influence.share(index, 0.0), share, 1e-12);
    }
}

/// A lift axle held at 2 t by its air pressure takes that much off the others, by moments.
#[test]
fn a_fixed_load_takes_its_part_off_the_others_by_moments() {
    let mut lift = support(6_000.0, 1.0);
    lift.fixed_kg = Some(2_000.0);
    let influence = influence(&[support(0.0, 1.0), support(4_000.0, 1.0), lift]).unwrap();
    // 10 t at 3 m: 2.5 t and 7.5 t without it; 2 t at 6 m are 3 t at 4 m less 1 t at the front.
    let at = |index| influence.reaction_kg(index, 10_000.0, 30_000_000.0);
    close(at(0), 3_500.0, 1e-9);
    close(at(1), 4_500.0, 1e-9);
    close(at(2), 2_000.0, 1e-9);
}

#[test]
fn three_supports_without_a_rate_are_not_answered() {
    let mut unknown = support(2_000.0, 100.0);
    unknown.rate = None;
    let refused = influence(&[support(0.0, 100.0), unknown, support(4_000.0, 100.0)]);
    assert!(refused.unwrap_err().contains("spring rate"));
}

#[test]
fn one_support_is_not_enough() {
    let mut up = support(4_000.0, 100.0);
    up.raised = true;
    assert!(
        influence(&[support(0.0, 100.0), up])
            .unwrap_err()
            .contains("fewer than two")
    );
    assert!(
        influence(&[support(0.0, 1.0), support(0.2, 1.0)])
            .unwrap_err()
            .contains("same place")
    );
}

/// Stripped 1,000 kg at 1,000 of 5,000 mm: 800 kg leave the front, 200 kg the rear.
#[test]
fn a_strip_out_leaves_by_moments_from_the_scale_ticket() {
    let mut chassis = bare();
    chassis.hardware.push(Hardware {
        id: "engine".to_owned(),
        name: "Engine".to_owned(),
        mass_kg: 1_000.0,
        mass_sigma_kg: 0.0,
        cg: Spot {
            x_mm: 1_000.0,
            y_mm: 100.0,
            z_mm: 900.0,
        },
        unsprung_axle: None,
        drive_axle: false,
        strip_by_default: true,
        envelope: Vec::new(),
    });
    let mut plan = plan(chassis);
    plan.changes.stripped = vec!["engine".to_owned()];
    let loads = loads_of(&plan);
    let stripped = case(&loads, Case::Stripped);
    close(group(stripped, "front").load_kg, 2_200.0, 1e-9);
    close(group(stripped, "rear").load_kg, 2_800.0, 1e-9);
    // Taken from the right: 1,000 · 100 mm, 800 kg of it at a track of 2,000 at the front.
    let front = group(stripped, "front");
    close(
        front.left_kg - front.right_kg,
        2.0 * 800.0 * 100.0 / 2_000.0,
        1e-9,
    );
    // Height: 6,000 kg at 800 less 1,000 at 900.
    close(
        stripped.truck.z_mm.unwrap(),
        (4_800_000.0 - 900_000.0) / 5_000.0,
        1e-9,
    );
}

/// 100 kg hung behind the rear axle lift the front axle by what the rear axle carries too much.
#[test]
fn rear_axle_gains_what_front_axle_loses() {
    let before = loads_of(&plan(bare()));
    let mut loaded = plan(bare());
    put(
        &mut loaded,
        part("Z1", "free-mass", 100.0, [200.0, 200.0, 200.0]),
        [5_900.0, 0.0, 400.0],
    );
    let after = loads_of(&loaded);
    let more = |id: &str| {
        group(case(&after, Case::Unladen), id).load_kg
            - group(case(&before, Case::Unladen), id).load_kg
    };
    // Its middle stands at 6,000, one fifth of the wheelbase behind the rear axle.
    close(more("front"), -20.0, 1e-9);
    close(more("rear"), 120.0, 1e-9);
}

/// Tanks: as planned, half full with the driver, as planned again when laden.
#[test]
fn tanks_are_half_full_in_the_case_that_says_so() {
    let mut plan = plan(bare());
    put(
        &mut plan,
        tank("T1", 300.0, 100.0),
        [2_000.0, -800.0, 400.0],
    );
    plan.placed[0].fill = Some(0.25);
    plan.loads.driver_kg = Some(90.0);
    plan.loads.payload = Some(Payload {
        mass_kg: 1_000.0,
        at: PayloadPlace::Cg(Spot {
            x_mm: 4_000.0,
            y_mm: 0.0,
            z_mm: 1_400.0,
        }),
    });
    let loads = loads_of(&plan);
    let mass = |of| case(&loads, of).truck.mass_kg;
    close(mass(Case::Donor), 6_000.0, 1e-9);
    close(mass(Case::Unladen), 6_325.0, 1e-9);
    close(mass(Case::HalfTanks), 6_440.0, 1e-9);
    close(mass(Case::Laden), 7_415.0, 1e-9);
}

/// 10 t payload, half of it on the kingpin, and half of a 6 t tare: 8 t, 1 m ahead of the rear axle.
#[test]
fn trailer_rests_on_kingpin_and_its_own_axles() {
    let mut plan = plan(tractor(5_000.0, 1_000.0));
    couple(&mut plan, 10_000.0);
    let loads = loads_of(&plan);
    let coupled = case(&loads, Case::Coupled);
    close(coupled.kingpin_kg.unwrap(), 8_000.0, 1e-9);
    close(coupled.trailer_axles_kg.unwrap(), 8_000.0, 1e-9);
    close(coupled.gross_kg, 22_000.0, 1e-9);
    close(group(coupled, "front").load_kg, 3_000.0 + 1_600.0, 1e-9);
    close(group(coupled, "rear").load_kg, 3_000.0 + 6_400.0, 1e-9);
}

/// A tandem whose axles take 60 and 40 per cent stands nearer to the heavier one, and divides so.
#[test]
fn a_stated_split_places_the_group_and_divides_its_load() {
    let mut chassis = bare();
    let mut third = chassis.axles[1].clone();
    third.id = "axle-3".to_owned();
    third.x_mm = 6_000.0;
    chassis.axles.push(third);
    chassis.groups[1].axles.push("axle-3".to_owned());
    chassis.groups[1].share = Share::Split(vec![0.6, 0.4]);
    close(chassis.group_x_mm("rear", &[]).unwrap(), 5_400.0, 1e-9);
    let loads = loads_of(&plan(chassis));
    let axles: Vec<f64> = case(&loads, Case::Unladen)
        .axles
        .iter()
        .map(|a| a.load_kg)
        .collect();
    close(axles[1], 1_800.0, 1e-9);
    close(axles[2], 1_200.0, 1e-9);
}

/// A lift axle that is up carries nothing, and its weighed load goes to the others by moments.
#[test]
fn a_raised_axle_hands_its_load_to_the_others() {
    let mut chassis = bare();
    let mut third = chassis.axles[1].clone();
    third.id = "axle-3".to_owned();
    third.kind = AxleKind::Lift;
    third.x_mm = 6_250.0;
    chassis.axles.push(third);
    let mut lift = chassis.groups[1].clone();
    lift.id = "lift".to_owned();
    lift.axles = vec!["axle-3".to_owned()];
    chassis.groups.push(lift);
    weighed(
        &mut chassis,
        &[("front", 3_000.0), ("rear", 3_000.0), ("lift", 1_000.0)],
    );
    let mut plan = plan(chassis);
    let down = loads_of(&plan);
    for (id, kg) in [("front", 3_000.0), ("rear", 3_000.0), ("lift", 1_000.0)] {
        close(group(case(&down, Case::Unladen), id).load_kg, kg, 1e-9);
    }
    plan.changes.raised = vec!["axle-3".to_owned()];
    let up = loads_of(&plan);
    // 1,000 kg at 6,250: a quarter of it lifts the front, five quarters press on the rear.
    for (id, kg) in [("front", 2_750.0), ("rear", 4_250.0), ("lift", 0.0)] {
        close(group(case(&up, Case::Unladen), id).load_kg, kg, 1e-9);
    }
}

/// Rails of 260 × 80 × 8 mm: 3,232 mm² each, 50.7 kg a metre for both. A metre more behind the cab
/// lies half of it on either side of the splice's new middle; the rear axle's 900 kg stay over it.
#[test]
fn a_longer_wheelbase_adds_rail_by_its_section() {
    let mut plan = plan(bare());
    plan.changes.wheelbase_mm = Some(6_000.0);
    let loads = loads_of(&plan);
    let now = case(&loads, Case::Unladen);
    let rail = 2.0 * 3_232.0e-6 * 7_850.0;
    close(now.truck.mass_kg, 6_000.0 + rail, 1e-9);
    // Without a list of what stays, the axle (900 kg) and the rails behind the cut move. The cut is
    // half way from the cab's back at 1,200 to the tyre's front at 4,500.
    let splice = 2_850.0;
    let behind = rail / 1_000.0 * (6_500.0 - splice);
    let moment = 3_000.0 * 5_000.0 + (900.0 + behind) * 1_000.0 + rail * (splice + 500.0);
    close(group(now, "rear").load_kg, moment / 6_000.0, 1e-9);
}

/// More came off than stood there: said as an axle that lifts off, not as a weight below nothing.
#[test]
fn an_axle_pulled_below_nothing_fails() {
    let mut heavy = plan(bare());
    put(
        &mut heavy,
        part("Z1", "free-mass", 9_000.0, [200.0, 200.0, 200.0]),
        [6_900.0, 0.0, 400.0],
    );
    let assessment = assess(&heavy);
    let lifted = assessment
        .findings
        .iter()
        .find(|f| f.check == "axle-lift-off")
        .unwrap();
    assert_eq!(lifted.severity, Severity::Fails);
    // 9,000 kg at 7,000: two fifths of it lift the front, which carried 3,000.
    close(lifted.measured.unwrap().value, 3_000.0 - 3_600.0, 1e-9);
}
