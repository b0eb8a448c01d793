//! Plans to draw and marks to draw on them.

use axlewright_core::drawing::{AxleMark, Marks, Pointer, Severity, Style, TitleBlock};
use axlewright_core::geometry::Point;
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use axlewright_core::quantity::Units;
use axlewright_core::vehicle::Vehicle;
use std::path::Path;

/// Every example plan and an empty plan on every template.
pub fn plans(library: &Library) -> Vec<(String, Plan)> {
    let mut plans: Vec<(String, Plan)> = library
        .chassis
        .values()
        .map(|c| (c.id.clone(), Plan::on(c)))
        .collect();
    let mut dirs = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("examples")];
    while let Some(dir) = dirs.pop() {
        for entry in std::fs::read_dir(dir).expect("examples can be listed") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                dirs.push(path.clone());
            }
            let name = path
                .file_name()
                .expect("a name")
                .to_string_lossy()
                .into_owned();
            if name.ends_with(".json") && !name.ends_with(".schema.json") {
                let text = std::fs::read_to_string(&path).expect("a file");
                plans.push((name.clone(), Plan::from_json(&name, &text).expect("a plan")));
            }
        }
    }
    plans.sort_by(|a, b| a.0.cmp(&b.0));
    plans
}

pub fn example(library: &Library, name: &str) -> Vehicle {
    let all = plans(library);
    let (_, plan) = all
        .iter()
        .find(|(n, _)| n == name)
        .expect("an example of this name");
    Vehicle::resolve(plan, library).expect("a vehicle")
}

/// Marks that need no engineering: the drawing is under test here, not the loads.
pub fn marks(vehicle: &Vehicle) -> Marks {
    let words = [
        Severity::Holds,
        Severity::Caution,
        Severity::Fails,
        Severity::NotAssessed,
    ];
    let mut marks = Marks {
        cg: Some(Point::new(2_000.0, 20.0, 980.0)),
        ..Marks::default()
    };
    for (i, group) in vehicle.chassis.groups.iter().enumerate() {
        marks.axle_loads.push(AxleMark {
            id: group.id.clone(),
            name: group.name.clone(),
            x_mm: vehicle.chassis.group_x_mm(&group.id, &[]).expect("a place"),
            load: "5,442 kg".to_owned(),
            margin: "+545 kg to its rating".to_owned(),
            severity: words[i % 4],
        });
    }
    for (i, item) in vehicle.items.iter().enumerate().step_by(4) {
        let from = item.bounds.max;
        marks.parts.insert(item.tag.clone(), words[i % 3]);
        marks.pointers.push(Pointer {
            finding: i,
            severity: words[i % 3],
            text: format!("too close by {i} mm"),
            from,
            to: from + Point::new(30.0, 5.0, 0.0),
        });
    }
    marks
}

pub fn sheet() -> Option<TitleBlock> {
    Some(TitleBlock {
        name: String::new(),
        date: "2025-01-31".to_owned(),
        author: "A. Planner".to_owned(),
        sheet: "1 of 3".to_owned(),
    })
}

/// Styles that put the most on paper.
pub fn styles(vehicle: &Vehicle) -> Vec<Style> {
    let selected = vehicle.items.first().map(|item| item.tag.clone());
    let full = Style {
        selected,
        zones: true,
        hardware: true,
        ..Style::default()
    };
    let us = Style {
        units: Units::Us,
        sheet: sheet(),
        ..full.clone()
    };
    vec![Style::default(), full, us]
}
