//! Against what the trade knows (common practice, so bands and not targets), on the examples.

use super::plans::drive;
use axlewright_core::assessment::{Goal, Journey, Packs, sizes};
use axlewright_core::energy::End;
use axlewright_core::findings::{self, Severity};
use axlewright_core::library::Library;
use axlewright_core::loads::Case;

const MI: f64 = 1_609.344;

/// Common practice, so a band: a laden tractor takes 1.5 to 2.6 kWh a mile on the cruise cycles.
///
/// At 55 mph all of them do. At 65 mph and 80,000 lb the band is too narrow, and it is not the driveline:
/// air and rolling alone, by the formula and the drag areas of 40 CFR 1036, take 2.1 kWh a mile at the
/// wheels there, and 0.80 of the energy reaches the wheels. Fleets that measure 2.6 at the most drive
/// slower and lighter on the average. What is asserted is that the excess is just that.
#[test]
fn laden_tractors_take_what_the_trade_knows() {
    for example in [
        "gullwharf-drayage.json",
        "prairie-loop.json",
        "lowfield-relay.json",
        "orchard-lane-shuttle.json",
        "harbour-hydrogen.json",
    ] {
        for (route, mph) in [("cruise-55", 55.0), ("cruise-65", 65.0)] {
            let journey = drive(example, route, |plan| plan.duty.trips_a_day = Some(4));
            let (run, truck) = (&journey.run, &journey.truck);
            assert_eq!(run.end, End::Finished, "{example} {route}");
            assert!(run.ledger.gap() < 1e-9, "{example} {route}");
            let per_mile = journey.per_m_j / 3.6e6 * MI;
            let v = mph * MI / 3_600.0;
            let air = journey.route.weather.air_kg_m3();
            let level = truck.resistance.forces(v, 0.0, air, 0.0).sum_n() * MI / 3.6e6;
            let spent = (run.ledger.air_j + run.ledger.rolling_j) / run.distance_m * MI / 3.6e6;
            assert!(
                (spent / level - 1.0).abs() < 0.03,
                "{example} {route}: {spent} {level}"
            );
            let share = level / per_mile;
            assert!((0.74..0.9).contains(&share), "{example} {route}: {share}");
            let most = if level > 2.0 { level / 0.74 } else { 2.6 };
            assert!(
                (1.5..=most).contains(&per_mile) && (mph > 60.0 || per_mile < 2.6),
                "{example} {route}: {per_mile} kWh/mi"
            );
        }
    }
}

/// 150 to 250 miles on a plug take packs of 400 kWh and more, and tonnes of payload (common practice).
#[test]
fn a_battery_tractor_pays_for_its_range_with_payload() {
    for example in ["gullwharf-drayage.json", "orchard-lane-shuttle.json"] {
        let journey = drive(example, "cruise-55", |_| {});
        let miles = journey.range_m / MI;
        assert!((150.0..=250.0).contains(&miles), "{example}: {miles} mi");
        let bank = &journey.truck.bank;
        assert!(
            bank.energy_j / 3.6e6 > 400.0 && bank.mass_kg > 2_800.0,
            "{example}"
        );
        let mass = |case: Case| {
            let cases = &journey.answers.loads.cases;
            cases.iter().find(|c| c.case == case).unwrap().gross_kg
        };
        // At one gross weight what the tractor gains is payload lost.
        let lost = mass(Case::Unladen) - mass(Case::Donor);
        assert!((1_000.0..4_000.0).contains(&lost), "{example}: {lost} kg");
    }
    // And the other way round: each further mile costs more pack than the one before.
    let journey = drive("gullwharf-drayage.json", "cruise-55", |_| {});
    let library = Library::shipped();
    let pack = |miles: f64| {
        let part = library.parts.get("PK-S45").unwrap();
        let found = sizes(&journey, [&**part], Goal::Range(miles * MI), &mut |_| true);
        found.sizes[0].packs.clone().unwrap()
    };
    let (near, far) = (pack(100.0), pack(200.0));
    let per_metre = |packs: &Packs| packs.mass_kg / packs.range_m;
    assert!(
        far.mass_kg > 1.7 * near.mass_kg && far.mass_kg > journey.truck.bank.mass_kg,
        "{near:?} {far:?}"
    );
    // What the packs gain the payload loses, and more where an axle is the limit.
    let lost = near.payload_kg.clone().unwrap() - far.payload_kg.clone().unwrap();
    assert!(lost > 0.9 * (far.mass_kg - near.mass_kg), "{lost}");
    assert!(per_metre(&far) > per_metre(&near), "{near:?} {far:?}");
}

/// Some 75 miles on the packs, and with the generator's gas about 1,000 (common practice).
#[test]
fn packs_for_75_miles_and_a_generator_come_a_thousand() {
    let journey = drive("lowfield-relay.json", "cruise-55", |_| {});
    let truck = &journey.truck;
    let packs_only = truck.bank.usable_j() / journey.per_m_j / MI;
    assert!((65.0..=90.0).contains(&packs_only), "{packs_only} mi");
    let all = journey.range_m / MI;
    assert!((900.0..=1_100.0).contains(&all), "{all} mi");
    // Driven, not only divided: a day of 700 miles on the cruise ends with fuel and charge left.
    let day = drive("lowfield-relay.json", "cruise-55", |plan| {
        plan.duty.trips_a_day = Some(50)
    });
    assert_eq!(day.run.end, End::Finished);
    let left = day.range_m / MI - day.run.distance_m / MI;
    let fuel = 1.0 - day.fuel_kg() / day.truck.fuel_kg;
    assert!(
        left > 200.0 && (0.15..0.5).contains(&fuel),
        "{left} mi, {fuel}"
    );
    assert!(day.run.run_down.is_none() && day.run.ledger.gap() < 1e-9);
}

/// On a hot grade a fuel cell with a radiator in the nose alone loses power to heat; with one more behind
/// the cab it does not.
#[test]
fn a_fuel_cell_needs_its_radiator_behind_the_cab_on_a_hot_grade() {
    let example = "carrowmere-pass.json";
    let with = drive(example, "hill-climb", |_| {});
    assert_eq!(with.route.weather.temperature_c, 40.0);
    assert_eq!((with.run.source_least, with.run.source_hot_s), (1.0, 0.0));
    assert!(with.run.source_s > 600.0, "{}", with.run.source_s);
    let without = drive(example, "hill-climb", |plan| {
        plan.placed.retain(|p| p.part != "CL-BOC");
    });
    assert!(
        without.run.source_least < 0.9,
        "{}",
        without.run.source_least
    );
    let heat = |journey: &Journey| {
        let found = findings::of_journey(journey);
        found
            .iter()
            .find(|f| f.check == "source-heat")
            .unwrap()
            .severity
    };
    assert_eq!(
        (heat(&with), heat(&without)),
        (Severity::Holds, Severity::Fails)
    );
    // A diesel's own module, smaller still and made for a hotter coolant.
    let diesel = drive(example, "hill-climb", |plan| {
        plan.placed.retain(|p| p.part != "CL-BOC");
        for placed in &mut plan.placed {
            if placed.part == "CL-FRONT-XL" {
                placed.part = "CL-FRONT".to_owned();
            }
        }
    });
    assert!(diesel.run.source_least < without.run.source_least);
}
