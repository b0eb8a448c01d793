//! The drive of the page: one drive for all that is looked at, and a range that is held to its own.

use axlewright_core::assessment::Goal;
use axlewright_core::quantity::Units;
use axlewright_core::web::{Routes, Session, Wanted};

#[test]
fn the_range_to_reach_is_read_in_its_units_and_held_to_its_range() {
    let goal = |typed: &str, units| Wanted::typed(typed, units).goal().map_err(|r| r.0);
    assert_eq!(goal(" ", Units::Metric), Ok(Goal::Day));
    assert_eq!(goal("250", Units::Metric), Ok(Goal::Range(250e3)));
    assert_eq!(goal("100", Units::Us), Ok(Goal::Range(160_934.4)));
    assert_eq!(goal("100 mi", Units::Metric), Ok(Goal::Range(160_934.4)));
    for (typed, word) in [
        (
            "9000",
            "9,000.0 km is outside the allowed range (1.0 km to 5,000.0 km)",
        ),
        ("-3", "−3.0 km is outside"),
        ("0.4", "0.4 km is outside"),
        ("far", "\"far\" is not a number"),
        ("NaN", "not a number"),
        ("1e308", "e308"),
        ("12 lb", "km or mi"),
    ] {
        let why = goal(typed, Units::Metric).unwrap_err();
        assert!(
            why.starts_with("Range to reach: ") && why.contains(word),
            "{typed}: {why}"
        );
    }
    // Its field keeps what cannot be used, and follows the reader's units with what can.
    let field = |typed: &str, units| {
        serde_json::to_value(Wanted::typed(typed, Units::Metric).field(units)).unwrap()
    };
    let wrong = field("9000", Units::Metric);
    assert_eq!(wrong["text"], "9000");
    assert!(wrong["problem"].as_str().unwrap().contains("outside"));
    let right = field("160.9344", Units::Us);
    assert_eq!(
        (right["text"].as_str(), right["unit"].as_str()),
        (Some("100.0"), Some("mi"))
    );
    assert!(right["problem"].is_null());
}

/// One drive answers for every page; tables that take many drives are worked out once for all units.
#[test]
fn pages_and_tables_are_those_of_the_drive_that_was_kept() {
    let session = Session::new().unwrap();
    let mut driven = session.drive(&Routes::default(), &mut |_| true).unwrap();
    assert!(driven.is_of(session.plan()));
    let view = serde_json::to_value(driven.view(Units::Metric)).unwrap();
    for page in view["pages"].as_array().unwrap() {
        let id = page["id"].as_str().unwrap();
        let built = driven.page(id, Units::Metric).unwrap();
        assert_eq!((built.id, Some(built.title)), (id, page["title"].as_str()));
        assert_eq!(built.picture.is_some(), id != "drive", "{id}");
        // What is listed holds no tables and no drawing.
        assert!(page.get("tables").is_none() && page.get("picture").is_none());
    }
    assert!(driven.page("no-such", Units::Metric).is_err());
    let mut asked = 0;
    let metric = driven.ranges(Units::Metric, &mut |_| {
        asked += 1;
        true
    });
    let drives = asked;
    let us = driven.ranges(Units::Us, &mut |_| {
        asked += 1;
        true
    });
    assert!(drives > 0 && asked == drives, "{drives} {asked}");
    assert_ne!(metric.tables[0].rows, us.tables[0].rows);
    let goal = Goal::Range(100e3);
    let mut sizes = |goal, asked: &mut i32| {
        let mut go_on = |_| {
            *asked += 1;
            true
        };
        driven.sizes(session.library(), goal, Units::Metric, &mut go_on)
    };
    let (mut first, mut again, mut other) = (0, 0, 0);
    assert_eq!(sizes(goal, &mut first), sizes(goal, &mut again));
    let farther = sizes(Goal::Range(200e3), &mut other);
    assert!(first > 0 && again == 0 && other > 0);
    assert!(farther.tables[0].title.contains("200.0 km"));
}
