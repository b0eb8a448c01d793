//! What is shipped can be read, agrees with itself, and every example plan names only what exists.
#![expect(
    clippy::expect_used,
    reason = "a test that cannot read its files has failed"
)]

use axlewright_core::library::Library;
use axlewright_core::part::Kind;
use axlewright_core::plan::{ChassisChoice, Plan};
use axlewright_core::vehicle::Vehicle;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

fn shipped() -> Library {
    Library::shipped()
}

/// Every plan below `examples/`, with its path from there.
fn examples() -> BTreeMap<String, String> {
    fn walk(dir: &Path, found: &mut Vec<PathBuf>) {
        for entry in std::fs::read_dir(dir).expect("examples can be listed") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                walk(&path, found);
            } else if path.to_string_lossy().ends_with(".json")
                && !path.to_string_lossy().ends_with(".schema.json")
            {
                found.push(path);
            }
        }
    }
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut found = Vec::new();
    walk(&root, &mut found);
    found
        .into_iter()
        .map(|path| {
            let name = path.strip_prefix(&root).expect("below examples");
            let text = std::fs::read_to_string(&path).expect("a readable plan");
            (name.to_string_lossy().into_owned(), text)
        })
        .collect()
}

/// Text between the first two quotes after `id =` on each line, as written in a catalogue file.
fn ids_as_written(text: &str) -> Vec<String> {
    text.lines()
        .filter(|line| line.starts_with("id "))
        .filter_map(|line| line.split('"').nth(1))
        .map(str::to_owned)
        .collect()
}

#[test]
fn shipped_library_has_no_problems() {
    let problems: Vec<String> = shipped().problems.iter().map(ToString::to_string).collect();
    assert!(problems.is_empty(), "{}", problems.join("\n"));
}

#[test]
fn shipped_library_is_as_large_as_promised() {
    let library = shipped();
    assert!(
        library.chassis.len() >= 6,
        "{} chassis",
        library.chassis.len()
    );
    assert!(
        library.trailers.len() >= 2,
        "{} trailers",
        library.trailers.len()
    );
    assert!(library.parts.len() >= 50, "{} parts", library.parts.len());
    for kind in Kind::ALL {
        let some = library.parts.values().any(|part| part.kind == kind);
        assert!(some, "no part of kind {}", kind.words());
    }
}

#[test]
fn no_part_id_is_used_in_two_families() {
    let dir = Path::new(env!("CARGO_MANIFEST_DIR")).join("parts-catalogue");
    let mut seen: BTreeMap<String, PathBuf> = BTreeMap::new();
    for entry in std::fs::read_dir(dir).expect("the catalogue can be listed") {
        let path = entry.expect("an entry").path();
        let text = std::fs::read_to_string(&path).expect("a readable family");
        for id in ids_as_written(&text) {
            let before = seen.insert(id.clone(), path.clone());
            assert!(before.is_none(), "{id} stands in {before:?} and {path:?}");
        }
    }
    assert_eq!(
        seen.len(),
        shipped().parts.len(),
        "ids as written and parts as read"
    );
}

#[test]
fn every_datum_says_where_it_comes_from() {
    let library = shipped();
    for chassis in library.chassis.values() {
        assert!(!chassis.source.document.is_empty(), "{}", chassis.id);
        let ticket = chassis.ticket.as_ref().expect("a scale ticket");
        assert!(!ticket.source.document.is_empty(), "{}", chassis.id);
    }
    for trailer in library.trailers.values() {
        assert!(!trailer.source.document.is_empty(), "{}", trailer.id);
    }
    for part in library.parts.values() {
        assert!(!part.source.document.is_empty(), "{}", part.id);
    }
}

/// The lists of what stays and what may come off are estimates; together they must weigh what the
/// scale said within 0.5 %, and lie where the scale says within 20 mm.
#[test]
fn mass_lists_of_every_chassis_agree_with_its_ticket() {
    for chassis in shipped().chassis.values() {
        let ticket = chassis.ticket.as_ref().expect("a scale ticket");
        let (mut weighed, mut weighed_moment) = (0.0, 0.0);
        for load in &ticket.axle {
            let group = chassis
                .groups
                .iter()
                .find(|g| g.id == load.group)
                .expect("its group");
            let axles: Vec<f64> = chassis
                .axles
                .iter()
                .filter(|a| group.axles.contains(&a.id))
                .map(|a| a.x_mm)
                .collect();
            weighed += load.load_kg;
            weighed_moment += load.load_kg * axles.iter().sum::<f64>() / axles.len() as f64;
        }
        let (mut listed, mut listed_moment) = (0.0, 0.0);
        let off = chassis.hardware.iter().map(|h| (h.mass_kg, h.cg.x_mm));
        for (mass, x) in chassis
            .kept
            .iter()
            .map(|k| (k.mass_kg, k.cg.x_mm))
            .chain(off)
        {
            listed += mass;
            listed_moment += mass * x;
        }
        let id = &chassis.id;
        assert!(
            (listed - weighed).abs() < 0.005 * weighed,
            "{id}: {listed} kg, scale {weighed} kg"
        );
        let (x, scale_x) = (listed_moment / listed, weighed_moment / weighed);
        assert!(
            (x - scale_x).abs() < 20.0,
            "{id}: centre {x} mm, scale {scale_x} mm"
        );
    }
}

#[test]
fn axles_of_every_chassis_stand_where_its_wheelbase_says() {
    for chassis in shipped().chassis.values() {
        let driven: Vec<f64> = chassis
            .axles
            .iter()
            .filter(|a| a.kind == axlewright_core::chassis::AxleKind::Drive)
            .map(|a| a.x_mm)
            .collect();
        let middle = driven.iter().sum::<f64>() / driven.len() as f64;
        assert!(
            (middle - chassis.dimensions.wheelbase_mm).abs() < 1.0,
            "{}: {middle}",
            chassis.id
        );
        for axle in &chassis.axles {
            let off: f64 = chassis
                .hardware
                .iter()
                .filter(|h| h.unsprung_axle.as_deref() == Some(axle.id.as_str()))
                .map(|h| h.mass_kg)
                .sum();
            assert!(
                off < axle.unsprung_kg,
                "{} {}: more comes off than is there",
                chassis.id,
                axle.id
            );
            let tyres = axle.tyres.rating_axle_kg.expect("a tyre rating");
            assert!(
                tyres >= axle.gawr_kg.expect("a GAWR"),
                "{} {}",
                chassis.id,
                axle.id
            );
        }
    }
}

#[test]
fn every_example_names_only_what_exists() {
    let library = shipped();
    let plans = examples();
    assert!(plans.len() >= 6, "{} example plans", plans.len());
    for (name, text) in &plans {
        let plan = Plan::from_json(name, text).unwrap_or_else(|problems| panic!("{problems}"));
        assert!(
            matches!(plan.chassis, ChassisChoice::Template(_)),
            "{name} stands on a template"
        );
        let vehicle = Vehicle::resolve(&plan, &library).unwrap_or_else(|p| panic!("{name}: {p}"));
        let problems: Vec<String> = vehicle.problems.iter().map(ToString::to_string).collect();
        assert!(problems.is_empty(), "{name}: {}", problems.join("\n"));
        assert_eq!(
            vehicle.items.len(),
            plan.placed.len() + plan.shafts.len(),
            "{name}"
        );
    }
}

#[test]
fn every_example_is_written_as_it_was_read() {
    for (name, text) in examples() {
        let plan = Plan::from_json(&name, &text).unwrap_or_else(|problems| panic!("{problems}"));
        let written = plan.to_json();
        if std::env::var_os("AXLEWRIGHT_BLESS").is_some() {
            std::fs::write(format!("examples/{name}"), &written).unwrap();
            continue;
        }
        let first = written
            .lines()
            .zip(text.lines())
            .position(|(now, before)| now != before);
        assert!(
            written == text,
            "{name}: written anew it differs, first in line {first:?} (from 0)"
        );
    }
}
