//! The diagram under the side view: to the same lengths, and only when asked for.

use axlewright_core::assessment::Assessment;
use axlewright_core::drawing::{Owner, Role, Shape, Style, View, scene};
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use axlewright_core::quantity::Units;
use axlewright_core::report::{frame_mark, marks};

const PLAN: &str = include_str!("../../examples/wrong/gullwharf-welded-rails.json");

#[test]
fn bending_stands_under_the_truck_to_the_same_lengths() {
    let plan = Plan::from_json("plan", PLAN).unwrap();
    let assessment = Assessment::of(&plan, &Library::shipped()).unwrap();
    let mut marks = marks(&assessment, Units::Metric, None);
    let mark = frame_mark(&assessment, Units::Metric);
    marks.frame = Some(mark.clone());
    let drawn = |frame: bool, view: View| {
        let style = Style {
            frame,
            ..Style::default()
        };
        scene(&assessment.answers.vehicle, &marks, view, &style)
    };
    let is_it = |owner: &Owner| *owner == Owner::Layer("bending");
    for (frame, view) in [(false, View::Side), (true, View::Plan), (true, View::Rear)] {
        assert!(drawn(frame, view).groups.iter().all(|g| !is_it(&g.owner)));
    }
    let side = drawn(true, View::Side);
    let group = side.groups.iter().find(|g| is_it(&g.owner)).unwrap();
    // A dot stands at the peak and a lozenge at each joint, at the truck's own x.
    let places = |role: Role| -> Vec<f64> {
        let of = group.shapes.iter().filter_map(|shape| match shape {
            Shape::Path(r, path) if *r == role => path.bounds().map(|b| b.centre().x),
            _ => None,
        });
        of.collect()
    };
    let near = |found: &[f64], wanted: f64| found.iter().any(|x| (x - wanted).abs() < 1e-6);
    assert!(near(&places(Role::Dot), mark.peak.0) && near(&places(Role::Dot), mark.shear_peak.0));
    assert_eq!(mark.joints, [2_400.0, 2_700.0]);
    assert!(mark.joints.iter().all(|x| near(&places(Role::Black), *x)));
    // Nothing of it reaches into the truck or out of the picture, and no two texts touch.
    for shape in &group.shapes {
        let room = match shape {
            Shape::Path(_, path) => path.bounds(),
            Shape::Box(_, rect, _) => Some(*rect),
            Shape::Text(text) => Some(text.bounds()),
        };
        let room = room.unwrap();
        assert!(room.top > 0.0 && room.bottom <= side.bounds.bottom);
    }
    let texts = group.shapes.iter().filter_map(|shape| match shape {
        Shape::Text(text) => Some(text.bounds()),
        _ => None,
    });
    let texts: Vec<_> = texts.collect();
    assert!(texts.len() >= 5);
    for (index, one) in texts.iter().enumerate() {
        assert!(texts[index + 1..].iter().all(|other| !one.overlaps(other)));
    }
}
