//! A driveshaft and its centre bearings come onto the truck from the page: from the shelf, in fields, and
//! off again; what is not possible is refused with its reason.

use crate::shipped::{root, text};
use axlewright_core::plan::{Edit, Plan};
use axlewright_core::quantity::Units;
use axlewright_core::web::{Session, ViewOptions};
use serde_json::Value;

const PART: &str = "DR-SHAFT-S";

fn session(example: &str) -> Session {
    let mut session = Session::new().unwrap();
    let path = root().join("examples").join(example);
    session.open_plan(example, &text(&path)).unwrap();
    session
}

/// As the shelf's button does it.
fn place(session: &mut Session, part: &str) -> Result<(), String> {
    let spot = session.spot(part).map_err(|why| why.words().to_owned())?;
    let edit = Edit::Place {
        part: part.to_owned(),
        x_mm: spot.x_mm,
        y_mm: spot.y_mm,
        z_mm: spot.z_mm,
        zone: spot.zone,
        turn: 0,
        tag: None,
    };
    session.apply(&edit).map_err(|why| why.0)
}

fn without_shaft() -> (Session, Plan) {
    let mut session = session("prairie-loop.json");
    let before = session.plan().clone();
    let tag = before.shafts[0].tag.clone();
    session.apply(&Edit::Delete { tag }).unwrap();
    assert!(session.plan().shafts.is_empty());
    (session, before)
}

fn fields(session: &Session, tag: &str) -> Vec<Value> {
    let view = session.view(&ViewOptions::default()).unwrap().words;
    let view = serde_json::to_value(&view).unwrap();
    let placed = view["placed"].as_array().unwrap();
    let shaft = placed.iter().find(|p| p["tag"] == tag).unwrap();
    shaft["fields"].as_array().unwrap().clone()
}

#[test]
fn a_shaft_from_the_shelf_runs_from_the_drive_to_the_axle() {
    let (mut session, before) = without_shaft();
    place(&mut session, &before.shafts[0].part).unwrap();
    let run = &session.plan().shafts[0];
    assert_eq!(run.from, before.shafts[0].from);
    assert_eq!(run.to_axle, before.shafts[0].to_axle);
    assert_eq!(
        session.plan().placed,
        before.placed,
        "no loose part beside it"
    );
    // The only one that fits there; a second has nothing to drive it.
    let again = place(&mut session, PART).unwrap_err();
    assert!(again.contains("turns a shaft already"), "{again}");
    assert!(session.undo());
    assert!(session.plan().shafts.is_empty());
    assert!(session.redo());
    assert_eq!(session.plan().shafts.len(), 1);
}

#[test]
fn without_a_drive_or_an_axle_to_turn_no_shaft_is_run() {
    // Two e-axles: nothing has an output.
    let mut demo = Session::new().unwrap();
    let before = demo.plan().clone();
    let why = place(&mut demo, PART).unwrap_err();
    assert!(why.contains("place a central drive first"), "{why}");
    assert_eq!(*demo.plan(), before);
    // A drive, and the axles are off.
    let mut session = Session::new().unwrap();
    session.start("daycab-6x4").unwrap();
    let hardware = session.library().chassis["daycab-6x4"].hardware.clone();
    let axles: Vec<_> = hardware.iter().filter(|h| h.drive_axle).collect();
    assert_eq!(axles.len(), 2);
    let mut drives = session.library().parts.values();
    let drive = drives.find(|p| p.output.is_some()).unwrap().id.clone();
    let edit = Edit::Place {
        part: drive,
        x_mm: 1_500.0,
        y_mm: 0.0,
        z_mm: 600.0,
        zone: None,
        turn: 0,
        tag: None,
    };
    session.apply(&edit).unwrap();
    for item in axles {
        let item = item.id.clone();
        session.apply(&Edit::Strip { item }).unwrap();
    }
    let why = place(&mut session, PART).unwrap_err();
    assert!(why.contains("the donor's drive axles are off"), "{why}");
}

#[test]
fn centre_bearings_are_added_moved_and_taken_off_in_fields() {
    let mut session = session("wrong/millbrook-long-shaft.json");
    let tag = session.plan().shafts[0].tag.clone();
    let before = session.plan().clone();
    let had = before.shafts[0].bearings.len();
    let enter = |session: &mut Session, name: &str, typed: &str| {
        session.enter(&format!("part.{tag}.{name}"), typed, Units::Metric)
    };
    let count = (had + 1).to_string();
    enter(&mut session, "bearings", &count).unwrap();
    let run = session.plan().shafts[0].clone();
    assert_eq!(run.bearings.len(), had + 1);
    // On the line between the two joints beside it.
    let view = session.view(&ViewOptions::default()).unwrap();
    let ids: Vec<String> = fields(&session, &tag)
        .iter()
        .map(|f| f["id"].as_str().unwrap().to_owned())
        .collect();
    drop(view);
    assert!(ids.contains(&format!("part.{tag}.bearing-1-x")), "{ids:?}");
    enter(&mut session, "bearing-1-z", "655").unwrap();
    assert_eq!(session.plan().shafts[0].bearings[0].z_mm, 655.0);
    let why = enter(&mut session, "bearing-1-z", "high").unwrap_err();
    assert!(why.0.contains("bearing-1-z"), "{why}");
    let why = enter(&mut session, "bearings", "9").unwrap_err();
    assert!(why.0.contains("0 to 3"), "{why}");
    let why = enter(&mut session, "bearing-7-x", "100").unwrap_err();
    assert!(why.0.contains("not a field"), "{why}");
    enter(&mut session, "bearings", "0").unwrap();
    assert!(session.plan().shafts[0].bearings.is_empty());
    // What was refused is no step.
    for _ in 0..3 {
        assert!(session.undo());
    }
    assert_eq!(session.plan().shafts, before.shafts);
}

#[test]
fn the_ends_of_a_shaft_are_chosen_from_what_there_is() {
    let mut session = session("prairie-loop.json");
    let run = session.plan().shafts[0].clone();
    let field = |name: &str| format!("part.{}.{name}", run.tag);
    let of = fields(&session, &run.tag);
    let choices = |name: &str| -> Vec<String> {
        let found = of.iter().find(|f| f["id"] == field(name).as_str()).unwrap();
        let list = found["choices"].as_array().unwrap();
        list.iter()
            .map(|c| c["id"].as_str().unwrap().to_owned())
            .collect()
    };
    assert_eq!(choices("from"), std::slice::from_ref(&run.from));
    assert!(choices("axle").contains(&run.to_axle));
    assert!(choices("shaft").len() >= 3 && choices("shaft").contains(&run.part));
    session
        .enter(&field("shaft"), "DR-SHAFT-H", Units::Metric)
        .unwrap();
    assert_eq!(session.plan().shafts[0].part, "DR-SHAFT-H");
    let before = session.plan().clone();
    for (name, typed) in [
        ("from", "B1"),
        ("axle", "axle-1"),
        ("shaft", "PK-S118"),
        ("axle", "no-axle"),
    ] {
        let why = session
            .enter(&field(name), typed, Units::Metric)
            .unwrap_err();
        assert!(!why.0.is_empty());
        assert_eq!(*session.plan(), before, "{name} {typed}: {why}");
    }
    session.enter(&field("tag"), "S9", Units::Metric).unwrap();
    assert_eq!(session.plan().shafts[0].tag, "S9");
}
