//! With everything switched on: angles, zones, hardware and the rails' diagram, over every example. Figures
//! of the angles cover no part's name and no part that could have been kept free, and the truck stays the
//! largest thing in the picture.

use super::labels::assert_apart;
use super::support::plans;
use axlewright_core::assessment::Assessment;
use axlewright_core::drawing::{Owner, Rect, Role, Shape, Style, View, draw, scene};
use axlewright_core::library::Library;
use axlewright_core::quantity::Units;
use axlewright_core::report::{frame_mark, marks};
use axlewright_core::shared::Shared;

/// Boxes of the texts of one layer.
fn texts(groups: &[Shared<axlewright_core::drawing::Group>], layer: &str) -> Vec<Rect> {
    let of = groups
        .iter()
        .filter(|g| matches!(g.owner, Owner::Layer(name) if name == layer));
    let shapes = of.flat_map(|g| &g.shapes);
    let found = shapes.filter_map(|shape| match shape {
        Shape::Text(text) => Some(text.bounds()),
        _ => None,
    });
    found.collect()
}

/// Boxes of the shapes of parts.
fn parts(groups: &[Shared<axlewright_core::drawing::Group>]) -> Vec<Rect> {
    let of = groups
        .iter()
        .filter(|g| matches!(g.owner, Owner::Part { .. }));
    let found = of.filter_map(|g| {
        let boxes = g.shapes.iter().filter_map(|shape| match shape {
            Shape::Path(Role::Shape, path) => path.bounds(),
            Shape::Box(Role::Shape, rect, _) => Some(*rect),
            _ => None,
        });
        boxes.reduce(|a, b| a.union(&b))
    });
    found.collect()
}

#[test]
fn with_angles_and_bending_on_nothing_covers_anything() {
    let library = Library::shipped();
    for (name, plan) in plans(&library) {
        let Ok(assessment) = Assessment::of(&plan, &library) else {
            continue;
        };
        let vehicle = &assessment.answers.vehicle;
        for units in [Units::Metric, Units::Us] {
            let mut marks = marks(&assessment, units, None);
            marks.frame = Some(frame_mark(&assessment, units));
            for zones in [false, true] {
                let style = Style {
                    units,
                    angles: true,
                    frame: true,
                    zones,
                    hardware: zones,
                    ..Style::default()
                };
                let drawn = scene(vehicle, &marks, View::Side, &style);
                let what = format!("{name}, {units:?}, zones {zones}");
                if let Ok(folder) = std::env::var("AXLEWRIGHT_LOOK") {
                    let svg = draw(vehicle, &marks, View::Side, &style);
                    let file = format!("{folder}/{}-{zones}-{units:?}.svg", name.replace('/', "-"));
                    std::fs::write(file, svg).unwrap();
                }
                assert_apart(&what, &drawn.text_boxes());
                for (text, place) in drawn.text_boxes() {
                    assert!(drawn.bounds.contains(&place), "{what}: {text} outside");
                }
                let figures = texts(&drawn.groups, "angles");
                assert_eq!(
                    figures.len(),
                    marks.angles.len(),
                    "{what}: a figure is missing"
                );
                for figure in &figures {
                    let over = parts(&drawn.groups)
                        .into_iter()
                        .filter(|part| part.overlaps(figure));
                    assert_eq!(over.count(), 0, "{what}: {figure:?} covers a part");
                }
            }
        }
    }
}
