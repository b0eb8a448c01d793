//! Drawings as a reader gets them: nothing covers anything, the scale is true, names stay text, the
//! SVG is XML, and a few pictures that only say when something changed.
#![expect(
    clippy::expect_used,
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot read its files has failed"
)]

#[path = "drawing/bending.rs"]
mod bending;
#[path = "drawing/chart_tables.rs"]
mod chart_tables;
#[path = "drawing/charts.rs"]
mod charts;
#[path = "drawing/crowd.rs"]
mod crowd;
#[path = "drawing/labels.rs"]
mod labels;
#[path = "drawing/pictures.rs"]
mod pictures;
#[path = "drawing/support.rs"]
mod support;

use axlewright_core::chassis::{AxleKind, CabKind};
use axlewright_core::drawing::{Marks, Role, Shape, Style, TitleBlock, View, draw, scene};
use axlewright_core::geometry::Point;
use axlewright_core::library::Library;
use axlewright_core::part::Kind;
use axlewright_core::vehicle::Vehicle;
use roxmltree::{Document, Node};
use support::{example, marks, sheet, styles};

/// Path data of the first path of this class, as numbers.
fn numbers(node: Node) -> Vec<f64> {
    let d = node.attribute("d").expect("path data");
    d.split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'))
        .filter_map(|word| word.parse().ok())
        .collect()
}

#[test]
fn the_scale_of_a_sheet_is_true() {
    let library = Library::shipped();
    let vehicle = example(&library, "millbrook-parcel.json");
    let style = Style {
        sheet: sheet(),
        ..Style::default()
    };
    let svg = draw(&vehicle, &Marks::default(), View::Side, &style);
    let xml = Document::parse(&svg).expect("XML");
    let axes = xml
        .descendants()
        .find(|n| n.attribute("data-axes") == Some("side"))
        .unwrap();
    let transform = axes.attribute("transform").expect("a scale");
    let scale: f64 = transform.split(['(', ')']).nth(3).unwrap().parse().unwrap();
    assert!(
        svg.contains(".page text{stroke:none}"),
        "a halo made for the truck covers the title"
    );
    assert_eq!(xml.root_element().attribute("width"), Some("420mm"));
    assert_eq!(xml.root_element().attribute("viewBox"), Some("0 0 420 297"));

    // The rim's circle starts at its left end and turns at its right one.
    let centre = |axle: &str| {
        let id = format!("tyre-{axle}-left");
        let body = axes
            .descendants()
            .find(|n| n.attribute("data-body") == Some(&id))
            .unwrap();
        let rim = body
            .children()
            .find(|n| n.attribute("class") == Some("rim"))
            .unwrap();
        let n = numbers(rim);
        // M x y A r r 0 0 1 x y
        f64::midpoint(n[0], n[7])
    };
    let last = vehicle.chassis.axles.last().unwrap();
    let on_paper = (centre(&last.id) - centre("axle-1")) * scale;
    let denominator = (1.0 / scale).round();
    let shown = format!("1:{denominator} on A3");
    assert!(svg.contains(&shown), "{shown}");
    let wheelbase = vehicle.chassis.dimensions.wheelbase_mm;
    assert!(
        (on_paper - wheelbase / denominator).abs() < 0.02,
        "{on_paper} mm on paper"
    );
}

#[test]
fn names_with_markup_stay_text() {
    let library = Library::shipped();
    let mut vehicle = example(&library, "gullwharf-drayage.json");
    let evil = "</text><script>alert(\"1\")</script>'&amp;\u{0}\u{b}\u{1b}";
    vehicle.name = evil.to_owned();
    vehicle.chassis.name = evil.to_owned();
    vehicle.items[0].tag = evil.to_owned();
    vehicle.items[1].part.name = evil.to_owned();
    vehicle.zones[0].name = evil.to_owned();
    vehicle.zones[0].id = evil.to_owned();
    vehicle.bodies[0].id = evil.to_owned();
    let mut marks = marks(&vehicle);
    marks.axle_loads[0].name = evil.to_owned();
    marks.axle_loads[0].id = evil.to_owned();
    marks.pointers[0].text = evil.to_owned();
    let block = TitleBlock {
        name: evil.to_owned(),
        date: evil.to_owned(),
        author: evil.to_owned(),
        sheet: evil.to_owned(),
    };
    for sheet in [None, Some(block)] {
        let style = Style {
            zones: true,
            selected: Some(evil.to_owned()),
            sheet,
            ..Style::default()
        };
        for view in View::ALL {
            let svg = draw(&vehicle, &marks, view, &style);
            let xml = Document::parse(&svg).unwrap_or_else(|e| panic!("{view:?}: {e}"));
            assert!(xml.descendants().all(|n| n.tag_name().name() != "script"));
            assert!(
                xml.root_element()
                    .attribute("aria-label")
                    .unwrap()
                    .contains("<script>")
            );
        }
    }
}

#[test]
fn numbers_without_a_value_never_reach_the_paper() {
    let library = Library::shipped();
    let mut vehicle = example(&library, "gullwharf-drayage.json");
    let nowhere = Point::new(f64::NAN, f64::INFINITY, -1e308);
    vehicle.items[0].bounds.min = nowhere;
    vehicle.items[1].bounds.max.x = 1e300;
    vehicle.bodies[3].solids.clear();
    let mut marks = marks(&vehicle);
    marks.cg = Some(nowhere);
    marks.pointers[0].from = nowhere;
    marks.axle_loads[0].x_mm = f64::NAN;
    for view in View::ALL {
        for style in styles(&vehicle) {
            let svg = draw(&vehicle, &marks, view, &style);
            let xml = Document::parse(&svg).expect("XML");
            for node in xml.descendants() {
                for name in [
                    "d",
                    "x",
                    "y",
                    "width",
                    "height",
                    "transform",
                    "viewBox",
                    "rx",
                ] {
                    let value = node.attribute(name).unwrap_or_default();
                    assert!(
                        !value.contains("NaN") && !value.contains("inf"),
                        "{name}={value}"
                    );
                }
            }
        }
    }
}

#[test]
fn the_page_finds_parts_bodies_zones_and_findings() {
    let library = Library::shipped();
    let vehicle = example(&library, "gullwharf-drayage.json");
    let style = Style {
        zones: true,
        ..Style::default()
    };
    for view in View::ALL {
        let svg = draw(&vehicle, &marks(&vehicle), view, &style);
        let xml = Document::parse(&svg).expect("XML");
        let root = xml.root_element();
        assert_eq!(root.attribute("data-view"), Some(view.word()));
        let with = |name: &str| xml.descendants().filter(|n| n.has_attribute(name)).count();
        assert_eq!(with("data-tag"), vehicle.items.len());
        assert_eq!(with("data-axes"), 1);
        assert!(with("data-zone") >= 8 && with("data-body") >= 5);
        assert_eq!(with("data-finding"), marks(&vehicle).pointers.len());
        for part in xml.descendants().filter(|n| n.has_attribute("data-tag")) {
            assert_eq!(part.attribute("tabindex"), Some("0"));
            let label = part.attribute("aria-label").expect("a label");
            assert!(
                label.starts_with(part.attribute("data-tag").unwrap()),
                "{label}"
            );
            assert!(label.contains(" kg"), "{label}");
        }
        assert!(root.children().any(|n| n.tag_name().name() == "title"));
        assert!(root.children().any(|n| n.tag_name().name() == "desc"));
    }
}

#[test]
fn three_views_on_one_page_share_no_id() {
    let library = Library::shipped();
    let vehicle = example(&library, "gullwharf-drayage.json");
    let mut seen = std::collections::BTreeSet::new();
    for view in View::ALL {
        for sheet in [None, sheet()] {
            let style = Style {
                sheet,
                ..Style::default()
            };
            let svg = draw(&vehicle, &Marks::default(), view, &style);
            let xml = Document::parse(&svg).expect("XML");
            for id in xml.descendants().filter_map(|n| n.attribute("id")) {
                assert!(seen.insert(id.to_owned()), "{id} twice");
            }
            // Every hatch that is asked for is there.
            for used in svg.split("url(#").skip(1) {
                let id = used.split(')').next().unwrap();
                assert!(seen.contains(id), "{id} is missing");
            }
        }
    }
}

#[test]
fn every_kind_of_part_has_a_hatch_of_its_own() {
    let mut seen = std::collections::BTreeSet::new();
    for kind in Kind::ALL {
        let hatch = axlewright_core::drawing::hatch(kind);
        assert!(
            seen.insert(hatch.strokes),
            "{kind:?} looks like another kind in black and white"
        );
    }
}

#[test]
fn a_raised_axle_and_a_cab_over_are_drawn() {
    let library = Library::shipped();
    let mut vehicle = example(&library, "lift-6x2");
    let lift = vehicle
        .chassis
        .axles
        .iter()
        .find(|a| a.kind == AxleKind::Lift)
        .unwrap()
        .id
        .clone();
    let count = |v: &Vehicle| {
        let drawn = scene(v, &Marks::default(), View::Side, &Style::default());
        let shapes = drawn.groups.iter().flat_map(|g| &g.shapes);
        shapes
            .filter(|s| matches!(s, Shape::Path(Role::Tyre, _)))
            .count()
    };
    assert_eq!(count(&vehicle), vehicle.chassis.axles.len());
    vehicle.raised.push(lift);
    vehicle.chassis.cab.kind = CabKind::CabOver;
    assert_eq!(count(&vehicle), vehicle.chassis.axles.len());
}
