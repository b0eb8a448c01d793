//! The table behind a chart holds what the chart shows.

use super::charts::{journey, places};
use axlewright_core::assessment::Journey;
use axlewright_core::drawing::{Body, Line, draw_chart};
use axlewright_core::energy::{End, Run};
use axlewright_core::findings;
use axlewright_core::library::Library;
use axlewright_core::quantity::Units;
use axlewright_core::report::{
    DriveAnswer, Table, drive_answers, drive_choices, drive_page, drive_strip,
};
use axlewright_core::route::{Route, shipped};
use roxmltree::Document;
use std::collections::BTreeSet;

const IDS: [&str; 7] = [
    "drive",
    "drive-route",
    "drive-power",
    "drive-pull",
    "drive-heat",
    "drive-energy",
    "drive-charge",
];

fn answers(journey: &Journey, units: Units) -> Vec<DriveAnswer> {
    drive_answers(journey, &findings::of_journey(journey), units)
}

/// A cell as a number.
fn number(cell: &str) -> f64 {
    let plain: String = cell.chars().filter(|c| *c != ',').collect();
    plain.replace('−', "-").parse().unwrap_or(f64::NAN)
}

/// Half a unit of the last place that a cell shows.
fn rounding(cell: &str) -> f64 {
    let decimals = cell.split_once('.').map_or(0, |(_, d)| d.len());
    0.500_001 / 10_f64.powi(i32::try_from(decimals).unwrap())
}

/// How many rows of a table lie on a line, to what the cells show.
fn on_line(table: &Table, column: usize, line: &Line) -> usize {
    let fits = |row: &&axlewright_core::report::Row| {
        let (x, y) = (&row.cells[0], &row.cells[column]);
        line.points.iter().any(|p| {
            (p.0 - number(x)).abs() <= rounding(x) && (p.1 - number(y)).abs() <= rounding(y)
        })
    };
    table.rows.iter().filter(fits).count()
}

#[test]
fn every_line_of_a_chart_is_a_column_of_its_table() {
    let library = Library::shipped();
    let route = shipped("harbour-shuttle").unwrap();
    for name in ["prairie-loop.json", "gullwharf-drayage.json"] {
        let journey = journey(&library, name, &route).unwrap();
        for units in [Units::Metric, Units::Us] {
            for answer in answers(&journey, units) {
                let Some(Body::Lines { panels, .. }) = answer.chart.map(|c| c.body) else {
                    continue;
                };
                for line in panels.iter().flat_map(|p| &p.lines) {
                    let matches = |table: &Table| {
                        (1..table.columns.len())
                            .any(|c| on_line(table, c, line) == table.rows.len())
                    };
                    assert!(
                        answer.page.tables.iter().any(matches),
                        "{name}, {}: {}",
                        answer.page.id,
                        line.name
                    );
                }
            }
        }
    }
}

#[test]
fn a_table_tells_the_least_and_the_greatest_of_what_is_drawn() {
    let library = Library::shipped();
    let route = shipped("valley-run").unwrap();
    let journey = journey(&library, "prairie-loop.json", &route).unwrap();
    let all = answers(&journey, Units::Metric);
    let power = all.iter().find(|a| a.page.id == "drive-power").unwrap();
    let table = &power.page.tables[0];
    assert!(table.note.is_some() && table.rows.len() < 80);
    let most = journey
        .run
        .samples
        .iter()
        .map(|s| s.drive_w)
        .fold(f64::MIN, f64::max);
    let least = journey
        .run
        .samples
        .iter()
        .map(|s| s.drive_w)
        .fold(f64::MAX, f64::min);
    let told = |watt: f64| {
        table
            .rows
            .iter()
            .any(|r| (number(&r.cells[1]) - watt / 1e3).abs() <= 0.5)
    };
    assert!(told(most) && told(least), "{most} {least}");
}

#[test]
fn bars_are_as_long_as_the_table_says() {
    let library = Library::shipped();
    let route = shipped("valley-run").unwrap();
    let journey = journey(&library, "prairie-loop.json", &route).unwrap();
    let all = answers(&journey, Units::Metric);
    let split = all.iter().find(|a| a.page.id == "drive-energy").unwrap();
    let chart = split.chart.as_ref().unwrap();
    let svg = draw_chart(chart);
    let xml = Document::parse(&svg).unwrap();
    let group = xml
        .descendants()
        .find(|n| n.attribute("class") == Some("bars"))
        .unwrap();
    let widths: Vec<f64> = group
        .children()
        .filter_map(|n| n.attribute("width")?.parse().ok())
        .collect();
    let rows = &split.page.tables[0].rows;
    let ledger = &journey.run.ledger;
    let shares: f64 = rows
        .iter()
        .map(|r| number(r.cells[2].trim_end_matches(" %")))
        .sum();
    assert!((shares - 100.0).abs() < 0.6, "{shares}");
    let air = rows.iter().position(|r| r.cells[0] == "air").unwrap();
    assert!((number(&rows[air].cells[1]) - ledger.air_j / 3.6e6).abs() <= 0.051);
    // The two longest, in the order of the table, are air and rolling: widths go as energies.
    let ratio = widths[0] / widths[1];
    assert!(
        (ratio / (ledger.air_j / ledger.rolling_j) - 1.0).abs() < 2e-3,
        "{ratio}"
    );
}

#[test]
fn the_curve_in_the_picture_goes_where_the_figures_are() {
    let library = Library::shipped();
    let route = shipped("valley-run").unwrap();
    let journey = journey(&library, "prairie-loop.json", &route).unwrap();
    let strip = drive_strip(&journey, Units::Metric).unwrap();
    let svg = draw_chart(&strip);
    let xml = Document::parse(&svg).unwrap();
    let in_curves =
        |n: &roxmltree::Node| n.parent().and_then(|p| p.attribute("class")) == Some("curves");
    let of = |class: &str| -> Vec<(f64, f64)> {
        let node = xml
            .descendants()
            .find(|n| n.attribute("class") == Some(class) && in_curves(n));
        places(node.unwrap().attribute("d").unwrap())
    };
    // Three places of the charge: start, least, end; they lie on one straight scale.
    let soc = of("heavy");
    let lowest = soc.iter().map(|p| p.1).fold(f64::MIN, f64::max);
    let run = &journey.run;
    let scale = (lowest - soc[0].1) / (run.samples[0].soc - run.soc_least);
    let end = soc[0].1 + scale * (run.samples[0].soc - run.soc_end);
    assert!(
        (end - soc.last().unwrap().1).abs() < 0.25,
        "{end} {:?}",
        soc.last()
    );
}

#[test]
fn pages_have_stable_ids_full_rows_and_pictures_where_there_is_a_chart() {
    let library = Library::shipped();
    let route = shipped("harbour-shuttle").unwrap();
    let journey = journey(&library, "harbour-hydrogen.json", &route).unwrap();
    let found = findings::of_journey(&journey);
    for units in [Units::Metric, Units::Us] {
        let choices = drive_choices(&found);
        let page = |id| drive_page(id, &journey, &found, units).unwrap();
        let pages: Vec<_> = choices.iter().map(|c| page(c.id)).collect();
        assert!(drive_page("drive-none", &journey, &found, units).is_none());
        for (choice, page) in choices.iter().zip(&pages) {
            assert_eq!((choice.id, choice.title), (page.id, page.title));
        }
        let ids: Vec<&str> = pages.iter().map(|p| p.id).collect();
        assert_eq!(ids, IDS);
        let titles: BTreeSet<&str> = pages.iter().map(|p| p.title).collect();
        assert_eq!(titles.len(), IDS.len());
        for page in &pages {
            assert!(page.title.chars().count() <= 16, "{}", page.title);
            assert_eq!(page.picture.is_some(), page.id != "drive", "{}", page.id);
            for table in &page.tables {
                assert!(!table.rows.is_empty(), "{}", page.id);
                for row in &table.rows {
                    assert_eq!(row.cells.len(), table.columns.len(), "{}", page.id);
                    let odd = |c: &String| c.is_empty() || c.contains("NaN") || c.contains("inf");
                    assert!(!row.cells.iter().any(odd), "{}: {row:?}", page.id);
                }
            }
        }
        if units == Units::Us {
            let heads = pages
                .iter()
                .flat_map(|p| &p.tables)
                .flat_map(|t| &t.columns);
            for head in heads {
                let metric = [", km", ", m", ", kN", ", °C", ", km/h"];
                assert!(
                    !metric.iter().any(|m| head.name.ends_with(m)),
                    "{}",
                    head.name
                );
            }
        }
    }
}

/// The journey with another run in it.
fn with(mut journey: Journey, change: impl FnOnce(&mut Run)) -> Journey {
    change(&mut journey.run);
    journey
}

#[test]
fn a_run_of_nothing_or_of_one_moment_says_so_and_draws_what_there_is() {
    let library = Library::shipped();
    let route = shipped("harbour-shuttle").unwrap();
    let one = || journey(&library, "prairie-loop.json", &route).unwrap();
    let nothing = with(one(), |run| {
        run.samples.clear();
        run.ledger = axlewright_core::energy::Ledger::default();
        run.end = End::Cancelled;
    });
    assert!(drive_strip(&nothing, Units::Us).is_none());
    for answer in answers(&nothing, Units::Us) {
        let along = ["drive-route", "drive-power", "drive-heat", "drive-energy"];
        if along.contains(&answer.page.id) {
            assert!(answer.chart.is_none(), "{}", answer.page.id);
            let said = answer
                .page
                .lead
                .iter()
                .any(|l| l.starts_with("Not assessed"));
            assert!(said, "{}: {:?}", answer.page.id, answer.page.lead);
        }
    }
    let moment = with(one(), |run| run.samples.truncate(1));
    for answer in answers(&moment, Units::Us) {
        if let Some(chart) = answer.chart {
            assert!(Document::parse(&draw_chart(&chart)).is_ok(), "{}", chart.id);
        }
    }
    // A road of no length at all.
    if let Some(short) = journey(&library, "prairie-loop.json", &Route::level(20.0, 0.01)) {
        assert!(short.run.samples.is_empty());
        for id in IDS {
            assert!(drive_page(id, &short, &[], Units::Metric).is_some(), "{id}");
        }
    }
}
