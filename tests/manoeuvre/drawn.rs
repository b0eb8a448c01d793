//! The turn and the lines of the angles on paper: to scale, readable, and honest when there is no turn.

use super::yard;
use axlewright_core::assessment::Assessment;
use axlewright_core::drawing::{Scene, Style, TitleBlock, View, scene};
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use axlewright_core::quantity::Units;
use axlewright_core::report;

const TRUCKS: [&str; 4] = [
    include_str!("../../examples/gullwharf-drayage.json"),
    include_str!("../../examples/prairie-loop.json"),
    include_str!("../../examples/millbrook-parcel.json"),
    include_str!("../../examples/five-faults.json"),
];

fn assess(text: &str, deg: f64, left: bool) -> Assessment {
    let mut plan = Plan::from_json("example", text).unwrap();
    plan.moving.turn_deg = Some(deg);
    plan.moving.turn_left = left;
    Assessment::of(&plan, &Library::shipped()).unwrap()
}

fn sheet() -> Style {
    Style {
        sheet: Some(TitleBlock::default()),
        ..Style::default()
    }
}

fn no_text_touches_another(scene: &Scene, what: &str) {
    let texts = scene.text_boxes();
    for (i, (words, one)) in texts.iter().enumerate() {
        assert!(scene.bounds.contains(one), "{what}: {words} sticks out");
        for (other, two) in &texts[i + 1..] {
            assert!(!one.overlaps(two), "{what}: {words} on {other}");
        }
    }
}

#[test]
fn turns_are_drawn_to_scale_with_figures_that_never_touch() {
    for (index, text) in TRUCKS.iter().enumerate() {
        for deg in [45.0, 90.0, 180.0, 360.0] {
            let what = format!("truck {index}, {deg}°");
            let assessment = assess(text, deg, index % 2 == 0);
            let vehicle = &assessment.answers.vehicle;
            let marks = report::turn_marks(&assessment);
            let sweep = marks.turn.as_ref().unwrap().as_ref().unwrap();
            for style in [Style::default(), sheet()] {
                let drawn = scene(vehicle, &marks, View::Turn, &style);
                no_text_touches_another(&drawn, &what);
                let words: Vec<String> = drawn.text_boxes().into_iter().map(|t| t.0).collect();
                let radius = axlewright_core::quantity::length(sweep.outer_mm, Units::Metric);
                assert!(
                    words.iter().any(|w| *w == format!("R {radius}")),
                    "{what}: {words:?}"
                );
            }
            let svg = report::sheet(&assessment, View::Turn, String::new(), Units::Metric);
            let document = roxmltree::Document::parse(&svg).unwrap();
            let axes = document
                .descendants()
                .find(|n| n.attribute("data-axes") == Some("turn"));
            assert!(
                axes.unwrap()
                    .attribute("transform")
                    .unwrap()
                    .contains("scale(")
            );
            assert!(
                svg.contains("class=\"way\"") && !svg.contains("NaN"),
                "{what}"
            );
            assert_eq!(
                svg.contains("class=\"trailer-way\""),
                vehicle.trailer.is_some()
            );
        }
    }
}

#[test]
fn a_turn_that_cannot_be_followed_says_why() {
    let mut chassis = yard::bare();
    chassis.axles[0].steer_angle_deg = 0.0;
    let assessment = Assessment::of(&yard::plan(chassis), &Library::shipped()).unwrap();
    let svg = report::sheet(&assessment, View::Turn, String::new(), Units::Metric);
    assert!(svg.contains("not assessed: the largest steering angle of axle-1 is not stated"));
}

#[test]
fn lines_of_the_angles_start_at_the_tyre_and_are_labelled() {
    for text in TRUCKS {
        let assessment = assess(text, 90.0, false);
        let marks = report::marks(&assessment, Units::Metric, None);
        let style = Style {
            angles: true,
            ..Style::default()
        };
        let vehicle = &assessment.answers.vehicle;
        let with = scene(vehicle, &marks, View::Side, &style);
        no_text_touches_another(&with, "side");
        let words: Vec<String> = with.text_boxes().into_iter().map(|t| t.0).collect();
        for name in ["approach ", "breakover ", "departure "] {
            assert!(
                words.iter().any(|w| w.starts_with(name)),
                "{name}: {words:?}"
            );
        }
        let without = scene(vehicle, &marks, View::Side, &Style::default());
        assert!(
            without
                .text_boxes()
                .iter()
                .all(|(w, _)| !w.starts_with("approach "))
        );
    }
}

#[test]
fn the_page_tells_what_the_picture_shows() {
    let assessment = assess(TRUCKS[1], 90.0, false);
    let page = report::page("turning", &assessment, Units::Metric).unwrap();
    assert!(page.picture.unwrap().contains("data-axes=\"turn\""));
    let cells: Vec<&String> = page
        .tables
        .iter()
        .flat_map(|t| &t.rows)
        .flat_map(|r| &r.cells)
        .collect();
    assert!(
        cells.iter().any(|c| *c == "needs the path"),
        "no steady turn for this trailer"
    );
    assert!(cells.iter().any(|c| *c == "Largest off-tracking"));
    let us = report::page("turning", &assessment, Units::Us).unwrap();
    assert!(
        us.tables
            .iter()
            .flat_map(|t| &t.rows)
            .flat_map(|r| &r.cells)
            .all(|c| !c.contains(" mm"))
    );
}
