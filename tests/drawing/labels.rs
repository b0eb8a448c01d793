//! No label covers another, none is missing, none leaves the drawing.

use super::support::{example, marks, plans, styles};
use axlewright_core::assessment::Assessment;
use axlewright_core::drawing::{Marks, Owner, Rect, Sight, Style, View, scene};
use axlewright_core::geometry::Point;
use axlewright_core::library::Library;
use axlewright_core::report;
use axlewright_core::vehicle::Vehicle;

pub(super) fn assert_apart(what: &str, boxes: &[(String, Rect)]) {
    for (i, (a, first)) in boxes.iter().enumerate() {
        for (b, second) in &boxes[i + 1..] {
            assert!(
                !first.overlaps(second),
                "{what}: \"{a}\" {first:?} and \"{b}\" {second:?}"
            );
        }
    }
}

#[test]
fn no_label_of_any_plan_covers_another() {
    let library = Library::shipped();
    for (name, plan) in plans(&library) {
        let Ok(assessment) = Assessment::of(&plan, &library) else {
            continue;
        };
        let vehicle = &assessment.answers.vehicle;
        for style in styles(vehicle) {
            let real = report::marks(&assessment, style.units, None);
            for (marks, view) in [marks(vehicle), real]
                .iter()
                .flat_map(|m| View::ALL.map(|view| (m, view)))
            {
                let drawn = scene(vehicle, marks, view, &style);
                let what = format!("{name}, {} view", view.word());
                assert_apart(&what, &drawn.text_boxes());
                if let Some(page) = &drawn.page {
                    assert_apart(&format!("{what}, title block"), &page.text_boxes());
                }
            }
        }
    }
}

#[test]
fn every_part_that_can_be_seen_is_named() {
    let library = Library::shipped();
    for (name, plan) in plans(&library) {
        let Ok(vehicle) = Vehicle::resolve(&plan, &library) else {
            continue;
        };
        for view in View::ALL {
            let drawn = scene(&vehicle, &marks(&vehicle), view, &Style::default());
            let words: Vec<String> = drawn
                .text_boxes()
                .into_iter()
                .map(|(text, _)| text)
                .collect();
            for group in &drawn.groups {
                let Owner::Part {
                    tag,
                    sight: Sight::Open,
                    ..
                } = &group.owner
                else {
                    continue;
                };
                let named = |text: &String| text.split([' ', '(', ')']).any(|word| word == tag);
                assert!(
                    words.iter().any(named),
                    "{name}, {} view: {tag}",
                    view.word()
                );
            }
        }
    }
}

#[test]
fn everything_lies_inside_the_drawing() {
    let library = Library::shipped();
    for (name, plan) in plans(&library) {
        let Ok(vehicle) = Vehicle::resolve(&plan, &library) else {
            continue;
        };
        for style in styles(&vehicle) {
            for view in View::ALL {
                let drawn = scene(&vehicle, &marks(&vehicle), view, &style);
                for (text, place) in drawn.text_boxes() {
                    let what = format!("{name}, {} view: {text} at {place:?}", view.word());
                    assert!(
                        drawn.bounds.contains(&place),
                        "{what} outside {:?}",
                        drawn.bounds
                    );
                }
            }
        }
    }
}

#[test]
fn a_thousand_parts_are_drawn_and_named_without_touching() {
    let library = Library::shipped();
    let mut vehicle = example(&library, "gullwharf-drayage.json");
    let first = vehicle.items.clone();
    for i in 0..1_000_u32 {
        let mut item = first[i as usize % first.len()].clone();
        let by = Point::new(
            f64::from(i * 37 % 3_000),
            f64::from(i % 40),
            f64::from(i * 29 % 900),
        );
        item.tag = format!("P{i}");
        item.bounds = item.bounds.translated(by);
        item.solids = item.solids.iter().map(|s| s.translated(by)).collect();
        vehicle.items.push(item);
    }
    for view in View::ALL {
        let drawn = scene(&vehicle, &Marks::default(), view, &Style::default());
        assert_apart(view.word(), &drawn.text_boxes());
        let parts = drawn
            .groups
            .iter()
            .filter(|g| matches!(g.owner, Owner::Part { .. }));
        assert_eq!(parts.count(), vehicle.items.len());
    }
}
