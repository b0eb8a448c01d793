//! Charts as a reader gets them: XML with a name, words that keep apart and stay inside, numbers that are
//! finite, and a few pictures that only say when something changed.

use super::labels::assert_apart;
use super::pictures::golden;
use super::support::plans;
use axlewright_core::assessment::{Assessment, Journey};
use axlewright_core::drawing::{
    Axis, Bar, Body, Chart, Line, Panel, Pen, Tint, chart_scene, draw_chart,
};
use axlewright_core::findings;
use axlewright_core::library::Library;
use axlewright_core::quantity::Units;
use axlewright_core::report::{drive_answers, drive_strip};
use axlewright_core::route::{Route, shipped};
use roxmltree::Document;

/// The drive of an example; `None` where something is missing for it.
pub fn journey(library: &Library, name: &str, route: &Route) -> Option<Journey> {
    let all = plans(library);
    let (_, plan) = all.iter().find(|(n, _)| n == name).expect("an example");
    let assessment = Assessment::of(plan, library).expect("an assessment");
    Journey::of(assessment.answers, route, &mut |_| true).ok()
}

/// Every chart of a drive, the strip too.
fn charts(journey: &Journey, units: Units) -> Vec<Chart> {
    let found = findings::of_journey(journey);
    let answers = drive_answers(journey, &found, units);
    let all = answers.into_iter().filter_map(|a| a.chart);
    all.chain(drive_strip(journey, units)).collect()
}

/// What holds of every chart, whatever is in it.
fn assert_readable(what: &str, chart: &Chart) {
    let what = format!("{what}, {}", chart.id);
    let scene = chart_scene(chart);
    let boxes = scene.text_boxes();
    assert!(!boxes.is_empty(), "{what}: no words");
    assert_apart(&what, &boxes);
    for (words, place) in &boxes {
        assert!(scene.bounds.contains(place), "{what}: {words} at {place:?}");
    }
    let svg = draw_chart(chart);
    assert!(!svg.contains("NaN") && !svg.contains("inf"), "{what}");
    assert!(svg.len() < 200_000, "{what}: {} bytes", svg.len());
    let xml = Document::parse(&svg).unwrap_or_else(|e| panic!("{what}: {e}"));
    let root = xml.root_element();
    assert_eq!(root.attribute("role"), Some("img"), "{what}");
    assert!(
        root.attribute("aria-label").is_some_and(|t| t.len() > 5),
        "{what}"
    );
    for tag in ["title", "desc"] {
        let said = root
            .children()
            .find(|n| n.has_tag_name((root.tag_name().namespace().unwrap(), tag)));
        assert!(said.is_some_and(|n| n.text().is_some()), "{what}: {tag}");
    }
    // Nothing is drawn outside the picture.
    let (wide, high) = chart.size;
    for path in xml
        .descendants()
        .filter(|n| n.has_tag_name((root.tag_name().namespace().unwrap(), "path")))
    {
        if path.ancestors().any(|n| n.tag_name().name() == "pattern") {
            continue;
        }
        for pair in places(path.attribute("d").unwrap()) {
            let inside =
                (-0.5..=wide + 0.5).contains(&pair.0) && (-0.5..=high + 0.5).contains(&pair.1);
            assert!(inside, "{what}: {pair:?}");
        }
    }
}

/// The corners of path data of M, L, H, V and Z.
pub fn places(d: &str) -> Vec<(f64, f64)> {
    let mut out = Vec::new();
    let mut last = (0.0, 0.0);
    let starts: Vec<usize> = d
        .char_indices()
        .filter(|(_, c)| c.is_ascii_alphabetic())
        .map(|(i, _)| i)
        .collect();
    for (k, start) in starts.iter().enumerate() {
        let end = starts.get(k + 1).copied().unwrap_or(d.len());
        let numbers: Vec<f64> = d[start + 1..end]
            .split_whitespace()
            .map(|w| w.parse().unwrap())
            .collect();
        last = match (&d[*start..=*start], numbers.as_slice()) {
            ("M" | "L", [x, y]) => (*x, *y),
            ("H", [x]) => (*x, last.1),
            ("V", [y]) => (last.0, *y),
            ("Z", []) => continue,
            other => panic!("{other:?} in {d}"),
        };
        out.push(last);
    }
    out
}

#[test]
fn charts_of_every_example_can_be_read() {
    let library = Library::shipped();
    let mut drawn = 0;
    for (name, plan) in plans(&library).iter().filter(|(n, _)| n.ends_with(".json")) {
        for id in ["harbour-shuttle", "urban-schedule"] {
            let route = shipped(id).unwrap();
            let Ok(assessment) = Assessment::of(plan, &library) else {
                continue;
            };
            let Ok(journey) = Journey::of(assessment.answers, &route, &mut |_| true) else {
                continue;
            };
            for units in [Units::Metric, Units::Us] {
                let all = charts(&journey, units);
                assert!(all.len() >= 5, "{name}, {id}: {}", all.len());
                for chart in &all {
                    assert_readable(&format!("{name}, {id}"), chart);
                    drawn += 1;
                }
            }
        }
    }
    assert!(drawn > 200, "{drawn}");
}

#[test]
fn pictures_of_a_drive_are_those_that_somebody_looked_at() {
    let library = Library::shipped();
    let route = shipped("valley-run").unwrap();
    let journey = journey(&library, "prairie-loop.json", &route).unwrap();
    for chart in charts(&journey, Units::Us) {
        let kept = ["drive-route", "drive-pull", "drive-energy", "drive-strip"];
        if kept.contains(&chart.id) {
            golden(&format!("{}.svg", chart.id), &draw_chart(&chart));
        }
    }
}

fn lines(points: Vec<(f64, f64)>, reaches: Vec<f64>) -> Chart {
    let line = |name: &str, pen| Line {
        name: name.to_owned(),
        pen,
        filled: pen == Pen::Plain,
        points: points.clone(),
    };
    let panel = |lines| Panel {
        axis: Axis::new("Power & <more>", "kW"),
        reaches: reaches.clone(),
        lines,
        share: 1.0,
    };
    let many = [
        Pen::Plain,
        Pen::Heavy,
        Pen::Dashed,
        Pen::Dotted,
        Pen::Mixed,
        Pen::Thin,
    ];
    Chart {
        id: "test",
        title: "A \"title\" & <b>markup</b> that is far too long for the width of the picture, so that it must be cut somewhere before its end, or else it would leave".to_owned(),
        description: "…".to_owned(),
        size: (900.0, 320.0),
        strip: false,
        body: Body::Lines {
            x: Axis::new("Distance", "km"),
            panels: vec![
                panel(many.map(|pen| line("all at one place", pen)).to_vec()),
                panel(vec![line("a name that is a good deal longer than there is room for it", Pen::Plain)]),
            ],
        },
    }
}

#[test]
fn nonsense_and_nothing_are_drawn_too() {
    let nan = f64::NAN;
    for points in [
        vec![],
        vec![(0.0, 0.0)],
        vec![(5.0, -3.0)],
        vec![(nan, nan)],
        vec![(0.0, nan), (1.0, f64::INFINITY), (2.0, 4.0)],
        vec![(0.0, 1e308), (1.0, -1e308), (2.0, 1.0), (3.0, 2.0)],
        vec![(0.0, 5e-324), (1e-300, 1e-200)],
        vec![(0.0, 7.0), (0.0, 7.0), (0.0, 9.0)],
        vec![(0.0, 999_999_999.0), (9_999_999.0, 1_000_000_001.0)],
    ] {
        for reaches in [vec![], vec![0.0], vec![0.0, 100.0], vec![nan]] {
            let chart = lines(points.clone(), reaches);
            assert_readable(&format!("{points:?}"), &chart);
            let strip = Chart {
                size: (600.0, 120.0),
                strip: true,
                body: match chart.body {
                    Body::Lines { x, mut panels } => Body::Lines {
                        x,
                        panels: panels.split_off(1),
                    },
                    bars @ Body::Bars { .. } => bars,
                },
                ..chart
            };
            assert_readable(&format!("{points:?}"), &strip);
        }
    }
    for values in [
        vec![],
        vec![0.0],
        vec![-3.0, 5.0],
        vec![nan, f64::INFINITY, 1e300],
        vec![-2.0],
    ] {
        let bar = |value: &f64| Bar {
            name: "friction brakes".to_owned(),
            value: *value,
            words: "1,234.5 kWh, 12.3 %".to_owned(),
            tint: Tint::Rising,
        };
        let chart = Chart {
            body: Body::Bars {
                axis: Axis::new("Energy", "kWh"),
                bars: values.iter().map(bar).collect(),
                key: vec![("losses", Tint::Rising)],
            },
            ..lines(vec![], vec![])
        };
        assert_readable(&format!("bars {values:?}"), &chart);
    }
}

#[test]
fn a_million_points_give_a_small_picture_with_every_peak() {
    let mut points: Vec<(f64, f64)> = (0..1_000_000_u32)
        .map(|i| (f64::from(i) / 1_000.0, f64::from(i % 1_000 * 619 % 1_000)))
        .collect();
    points[500_123].1 = 5_000.0;
    let mut chart = lines(points, vec![0.0]);
    if let Body::Lines { panels, .. } = &mut chart.body {
        panels[0].lines.truncate(1);
        panels.truncate(1);
    }
    let svg = draw_chart(&chart);
    assert!(svg.len() < 100_000, "{} bytes", svg.len());
    let xml = Document::parse(&svg).unwrap();
    let curve = xml
        .descendants()
        .filter(|n| n.attribute("class") == Some("plain"));
    let highest = curve
        .flat_map(|n| places(n.attribute("d").unwrap()))
        .filter(|p| p.0 > 300.0 && p.0 < 600.0)
        .map(|p| p.1)
        .fold(f64::INFINITY, f64::min);
    // The peak stands alone near the top of the panel, five times above everything else.
    assert!(highest < 70.0, "{highest}");
}
