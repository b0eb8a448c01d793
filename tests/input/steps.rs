//! *Hand.* Steps that can be taken back: what they are called, what is one step, and what comes back.

use axlewright_core::plan::Edit;
use axlewright_core::quantity::Units;
use axlewright_core::web::{Session, ViewOptions};

fn undo_name(session: &Session) -> String {
    let view = serde_json::to_value(session.view(&ViewOptions::default()).unwrap().words).unwrap();
    view["file"]["undo"].as_str().unwrap_or_default().to_owned()
}

fn enter(session: &mut Session, field: &str, typed: &str) {
    session.enter(field, typed, Units::Metric).unwrap();
}

#[test]
fn steps_are_called_by_the_names_that_people_see() {
    let mut session = Session::new().unwrap();
    let item = session.plan().changes.stripped[0].clone();
    let ids: Vec<String> = session.library().parts.keys().cloned().collect();
    let keep = Edit::Keep { item: item.clone() };
    session.apply(&keep).unwrap();
    let name = undo_name(&session);
    assert!(name.starts_with("Keep ") && !name.contains(&item), "{name}");
    let part = ids[0].clone();
    session
        .apply(&Edit::Place {
            part: part.clone(),
            x_mm: 3_000.0,
            y_mm: 0.0,
            z_mm: 500.0,
            zone: None,
            turn: 0,
            tag: None,
        })
        .unwrap();
    let shown = &session.library().parts[&part].name;
    assert_eq!(undo_name(&session), format!("Place {shown}"));
    session.start("lift-6x2").unwrap();
    let chassis = session.library().chassis["lift-6x2"].name.clone();
    assert_eq!(undo_name(&session), format!("New plan on {chassis}"));
    let axle = "axle-3".to_owned();
    session.apply(&Edit::Raise { axle }).unwrap();
    assert_eq!(undo_name(&session), "Raise axle 3");
}

/// Ten presses of a key on a slider are one step; what is typed, and a second gesture, are their own.
#[test]
fn one_gesture_is_one_step() {
    let mut session = Session::new().unwrap();
    let start = session.plan().to_json();
    enter(&mut session, "wheelbase", "4710");
    for mm in 4_711..4_720 {
        session.go_on();
        enter(&mut session, "wheelbase", &mm.to_string());
    }
    let slid = session.plan().to_json();
    enter(&mut session, "wheelbase", "4800");
    assert!(session.undo());
    assert_eq!(session.plan().to_json(), slid, "what was typed is a step");
    assert!(session.undo());
    assert_eq!(session.plan().to_json(), start, "the gesture is one step");
    assert!(!session.undo());
    // A gesture does not go on over an undo, nor into another field, nor is it kept for a later one.
    session.go_on();
    enter(&mut session, "wheelbase", "4710");
    session.go_on();
    enter(&mut session, "driver", "80");
    enter(&mut session, "driver", "90");
    for _ in 0..3 {
        assert!(session.undo());
    }
    assert!(!session.undo());
    assert_eq!(session.plan().to_json(), start);
}

#[test]
fn a_gesture_that_ends_where_it_began_is_no_step() {
    let mut session = Session::new().unwrap();
    let start = session.plan().to_json();
    enter(&mut session, "driver", "80");
    session.go_on();
    enter(&mut session, "driver", "100");
    assert_eq!(session.plan().to_json(), start);
    assert!(!session.undo());
    // The next press begins a step of its own.
    session.go_on();
    enter(&mut session, "driver", "80");
    assert!(session.undo());
    assert_eq!(session.plan().to_json(), start);
}

#[test]
fn a_refused_edit_ends_no_gesture_of_the_next() {
    let mut session = Session::new().unwrap();
    session.go_on();
    assert!(session.enter("wheelbase", "-1", Units::Metric).is_err());
    enter(&mut session, "wheelbase", "4710");
    enter(&mut session, "wheelbase", "4720");
    assert!(session.undo());
    assert!(session.undo());
    assert!(!session.undo());
}

/// The load is still on the trailer when it is put back; a plan opened since has none to give.
#[test]
fn a_trailer_taken_off_and_put_back_still_has_its_load() {
    let mut session = Session::new().unwrap();
    let load = session.plan().loads.trailer.clone().unwrap();
    assert!(load.payload_kg > 0.0);
    enter(&mut session, "load-place", "60");
    let with = session.plan().loads.trailer.clone();
    enter(&mut session, "trailer", "");
    assert!(session.plan().loads.trailer.is_none());
    assert_eq!(undo_name(&session), "Uncouple trailer");
    enter(&mut session, "trailer", &load.id);
    assert_eq!(session.plan().loads.trailer, with);
    let other = session
        .library()
        .trailers
        .keys()
        .find(|id| **id != load.id)
        .unwrap()
        .clone();
    enter(&mut session, "trailer", &other);
    let now = session.plan().loads.trailer.clone().unwrap();
    assert_eq!((now.payload_kg, now.load_cg), (load.payload_kg, None));
    session.start("daycab-6x4").unwrap();
    enter(&mut session, "trailer", &load.id);
    assert_eq!(
        session.plan().loads.trailer.clone().unwrap().payload_kg,
        0.0
    );
}

#[test]
fn behind_the_driven_axles_is_called_so() {
    let mut session = Session::new().unwrap();
    session.start("lift-6x2").unwrap();
    let refused = session.enter("fifth-wheel", "-9000", Units::Metric);
    let words = refused.unwrap_err().to_string();
    assert!(words.contains("700 mm (27.6 in) behind"), "{words}");
    enter(&mut session, "trailer", "van-53");
    let whole = ViewOptions {
        whole: true,
        ..ViewOptions::default()
    };
    let view = serde_json::to_string(&session.view(&whole).unwrap().words).unwrap();
    assert!(view.contains("700 mm behind (end of the slider)"), "{view}");
}
