//! How many packs a range or a day takes.

use super::plans::drive;
use axlewright_core::assessment::{Goal, Journey, MOST_PACKS, Packs, Short, Sizes, sizes};
use axlewright_core::energy::End;
use axlewright_core::findings::Severity;
use axlewright_core::library::Library;
use axlewright_core::part::Chemistry;
use axlewright_core::quantity::Units;
use axlewright_core::report::{page_text, sizes_page};

const DEMO: &str = "gullwharf-drayage.json";

fn table(journey: &Journey, goal: Goal) -> Sizes {
    let library = Library::shipped();
    sizes(journey, library.each_part(), goal, &mut |_| true)
}

/// Just as far as some packs come takes that number, and a hand's breadth more takes one more.
#[test]
fn the_number_is_the_smallest_that_makes_it() {
    let library = Library::shipped();
    let journey = drive(DEMO, "level-80", |_| {});
    let part = &library.parts["PK-S45"];
    let made = |range_m: f64| -> Packs {
        let found = sizes(&journey, [&**part], Goal::Range(range_m), &mut |_| true);
        found.sizes[0].packs.clone().unwrap()
    };
    for wanted_m in [60e3, 150e3, 290e3] {
        let first = made(wanted_m);
        assert!(first.range_m >= wanted_m);
        assert_eq!(made(first.range_m * (1.0 - 1e-9)).count, first.count);
        assert_eq!(made(first.range_m * (1.0 + 1e-9)).count, first.count + 1);
    }
}

/// The packs of the truck itself come out as the truck does: range, payload, mass, and what is left.
#[test]
fn the_packs_now_are_those_of_the_drive() {
    let journey = drive(DEMO, "harbour-shuttle", |_| {});
    let near = |a: f64, b: f64| assert!((a - b).abs() <= 1e-9 * b.abs().max(1.0), "{a} {b}");
    for goal in [Goal::Range(200e3), Goal::Day] {
        let found = table(&journey, goal);
        let now = found.now.as_ref().unwrap();
        near(now.range_m, journey.range_m);
        near(now.mass_kg, journey.truck.bank.mass_kg);
        let payload = journey.answers.capacity.as_ref().unwrap().payload_kg();
        near(*now.payload_kg.as_ref().unwrap(), payload);
        if goal == Goal::Day {
            let usable = journey.truck.bank.usable_at_j(journey.run.pack_end_c);
            near(now.over_j, journey.left_j() - journey.reserve * usable);
            assert_eq!(
                found.enough_now,
                now.over_j >= 0.0 && journey.run.end == End::Finished
            );
        }
    }
}

/// A heavier set leaves less payload, fills more room, and every chemistry of the library is there to choose.
#[test]
fn the_table_tells_mass_payload_and_volume_of_every_pack() {
    let journey = drive(DEMO, "level-80", |_| {});
    let found = table(&journey, Goal::Range(200e3));
    for chemistry in [Chemistry::Nmc, Chemistry::Lfp, Chemistry::Lto] {
        assert!(found.sizes.iter().any(|s| s.chemistry == Some(chemistry)));
    }
    let made: Vec<&Packs> = found
        .sizes
        .iter()
        .filter_map(|s| s.packs.as_ref().ok())
        .collect();
    assert!(made.len() > 5);
    for a in &made {
        assert!(a.volume_l > 100.0 && a.energy_j > 1e8, "{a:?}");
        for b in &made {
            let (more, less) = (
                a.payload_kg.as_ref().unwrap(),
                b.payload_kg.as_ref().unwrap(),
            );
            assert!(a.mass_kg <= b.mass_kg || more <= less, "{a:?} {b:?}");
        }
    }
    let page = sizes_page(&journey, &found, Units::Us);
    let [table] = page.tables.as_slice() else {
        panic!("one table")
    };
    assert_eq!(table.rows.len(), 1 + found.sizes.len());
    assert!(
        table
            .rows
            .iter()
            .all(|r| r.cells.len() == table.columns.len())
    );
    for word in ["Payload, lb", "Volume, ft³", "Against now, lb"] {
        assert!(table.columns.iter().any(|c| c.name == word), "{word}");
    }
    assert_eq!(page.lead.len(), 3, "{:?}", page.lead);
    let text = page_text(&page);
    assert!(
        text.contains("Lightest with LFP cells: ")
            && text.contains("  Clear ")
            && !text.contains("NaN"),
        "{text}"
    );
}

/// A range that no number makes, a pack that is not described, and a load that is too much with the packs.
#[test]
fn what_does_not_do_is_told_apart() {
    let mut library = Library::shipped();
    let journey = drive(DEMO, "level-80", |_| {});
    let mut bare = library.parts["PK-S45"].clone();
    bare.battery.as_mut().unwrap().continuous_kw = None;
    library.parts.insert("PK-S45".to_owned(), bare);
    let far = sizes(
        &journey,
        library.each_part(),
        Goal::Range(4_900e3),
        &mut |_| true,
    );
    for size in &far.sizes {
        match size.packs.as_ref().unwrap_err() {
            Short::NotAssessed(why) => {
                assert!(
                    size.part == "PK-S45" && why.contains("continuous power"),
                    "{why}"
                );
            }
            Short::NotEnough => assert_ne!(size.part, "PK-S45"),
        }
    }
    assert!(!far.enough_now);
    let page = sizes_page(&journey, &far, Units::Metric);
    let severity = |name: &str| {
        let rows = &page.tables[0].rows;
        rows.iter().find(|r| r.cells[0] == name).unwrap().severity
    };
    assert_eq!(severity("On the truck now"), Some(Severity::Fails));
    let unknown = library.parts["PK-S45"].name.as_str();
    assert_eq!(severity(unknown), Some(Severity::NotAssessed));
    assert!(
        page.lead
            .iter()
            .any(|l| l.starts_with(unknown) && l.contains("not assessed"))
    );
    assert!(
        page.tables[0]
            .note
            .as_ref()
            .unwrap()
            .contains(&MOST_PACKS.to_string())
    );
    // Packs for a long way leave less payload than the plan carries.
    let some = table(&journey, Goal::Range(450e3));
    let page = sizes_page(&journey, &some, Units::Metric);
    let over = some.sizes.iter().find(|s| {
        let packs = s.packs.as_ref();
        packs.is_ok_and(|p| *p.payload_kg.as_ref().unwrap() < journey.aboard.most_kg)
    });
    let name = over.unwrap().name.as_str();
    let row = page.tables[0]
        .rows
        .iter()
        .find(|r| r.cells[0] == name)
        .unwrap();
    assert_eq!(row.severity, Some(Severity::Fails));
}

/// A day with a generator is asked with the generator: fewer packs do than for its length on packs alone.
#[test]
fn a_day_counts_what_else_gives_energy() {
    let journey = drive("lowfield-relay.json", "cruise-55", |plan| {
        plan.duty.trips_a_day = Some(12);
    });
    let least = |goal: Goal| {
        let found = table(&journey, goal);
        let made = found.sizes.iter().filter_map(|s| s.packs.as_ref().ok());
        made.map(|p| p.mass_kg).fold(f64::INFINITY, f64::min)
    };
    let alone = least(Goal::Range(journey.run.distance_m));
    let day = least(Goal::Day);
    assert!(day < 0.5 * alone, "{day} kg, {alone} kg");
    // Nothing is left out when somebody stops it: it says so.
    let stopped = sizes(
        &journey,
        Library::shipped().each_part(),
        Goal::Day,
        &mut |_| false,
    );
    assert!(stopped.now.is_err_and(|why| why.contains("stopped")));
}
