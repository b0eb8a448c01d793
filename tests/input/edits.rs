//! Edits from code and from fields: what is not possible is refused and changes nothing.

use axlewright_core::chassis::Spot;
use axlewright_core::plan::{Edit, LawChoice, Payload, PayloadPlace, ShaftRun, TrailerLoad};
use axlewright_core::quantity::Units;
use axlewright_core::web::{Session, ViewOptions};

const ODD: [f64; 7] = [
    f64::NAN,
    f64::INFINITY,
    f64::NEG_INFINITY,
    1e308,
    -1e308,
    1e9,
    f64::MIN_POSITIVE,
];

/// Every edit with every number in it replaced by an odd one.
fn edits_with(v: f64, tag: &str, part: &str) -> Vec<(&'static str, Edit)> {
    let tag = || tag.to_owned();
    let place = |x_mm, y_mm, z_mm, zone: Option<&str>| Edit::Place {
        part: part.to_owned(),
        x_mm,
        y_mm,
        z_mm,
        zone: zone.map(str::to_owned),
        turn: 0,
        tag: None,
    };
    let to = |x_mm, y_mm, z_mm, zone: Option<&str>| Edit::Move {
        tag: tag(),
        x_mm,
        y_mm,
        z_mm,
        zone: zone.map(str::to_owned),
    };
    let level = |front_x_mm, rear_x_mm, z_mm| {
        Edit::Payload(Some(Payload {
            mass_kg: 100.0,
            at: PayloadPlace::Level {
                front_x_mm,
                rear_x_mm,
                z_mm,
            },
        }))
    };
    let trailer = |payload_kg, load_cg| {
        Edit::Trailer(Some(TrailerLoad {
            id: "van-53".to_owned(),
            payload_kg,
            load_cg,
            kingpin_to_axles_mm: None,
        }))
    };
    let spot = PayloadPlace::Cg(Spot::new(1.0, v, 1.0));
    vec![
        ("place x", place(v, 0.0, 500.0, None)),
        ("place y", place(0.0, v, 500.0, None)),
        ("place z", place(0.0, 0.0, v, None)),
        ("place in a zone", place(v, 0.0, 500.0, Some("saddle-left"))),
        ("move x", to(v, 0.0, 500.0, None)),
        ("move y", to(0.0, v, 500.0, None)),
        ("move z", to(0.0, 0.0, v, Some("saddle-left"))),
        (
            "fill",
            Edit::Fill {
                tag: tag(),
                share: v,
            },
        ),
        ("wheelbase", Edit::Wheelbase { mm: v }),
        ("splice", Edit::Splice { x_mm: v }),
        ("fifth wheel", Edit::FifthWheel { ahead_mm: v }),
        ("driver", Edit::Driver { kg: Some(v) }),
        (
            "payload",
            Edit::Payload(Some(Payload {
                mass_kg: v,
                at: spot.clone(),
            })),
        ),
        (
            "payload place",
            Edit::Payload(Some(Payload {
                mass_kg: 1.0,
                at: spot,
            })),
        ),
        ("payload front", level(v, 9_000.0, 1_000.0)),
        ("payload rear", level(0.0, v, 1_000.0)),
        ("payload height", level(0.0, 9_000.0, v)),
        ("target", Edit::Target { kg: Some(v) }),
        ("trailer payload", trailer(v, None)),
        ("trailer load place", trailer(1_000.0, Some(v))),
    ]
}

#[test]
fn edits_with_odd_numbers_are_refused_and_change_nothing() {
    let mut session = Session::new().unwrap();
    let before = session.plan().to_json();
    let tag = session.plan().placed[0].tag.clone();
    let part = session.plan().placed[0].part.clone();
    for v in ODD {
        for (what, edit) in edits_with(v, &tag, &part) {
            // The smallest number of all is no more than nought, and is as welcome.
            if v == f64::MIN_POSITIVE {
                let _ = session.probe(&edit, &ViewOptions::default());
                continue;
            }
            let refusal = session.apply(&edit).expect_err(what).to_string();
            assert!(!refusal.is_empty(), "{what} of {v}");
            assert_eq!(session.plan().to_json(), before, "{what} of {v}");
            assert!(
                session.probe(&edit, &ViewOptions::default()).is_err(),
                "{what} of {v}"
            );
        }
    }
    assert!(!session.undo(), "no step was made");
}

#[test]
fn negative_masses_are_refused_with_the_range() {
    let mut session = Session::new().unwrap();
    let before = session.plan().to_json();
    let trailer = TrailerLoad {
        id: "van-53".to_owned(),
        payload_kg: -1.0,
        load_cg: None,
        kingpin_to_axles_mm: None,
    };
    let at = PayloadPlace::Cg(Spot::new(0.0, 0.0, 0.0));
    for (edit, says) in [
        (
            Edit::Driver { kg: Some(-80.0) },
            "loads.driver_kg = -80: is outside",
        ),
        (
            Edit::Target { kg: Some(-1.0) },
            "loads.target_payload_kg = -1: is outside",
        ),
        (
            Edit::Trailer(Some(trailer)),
            "loads.trailer.payload_kg = -1: is outside",
        ),
        (
            Edit::Payload(Some(Payload { mass_kg: -1.0, at })),
            "loads.payload.mass_kg = -1: is",
        ),
    ] {
        let said = session.apply(&edit).unwrap_err().to_string();
        assert!(said.contains(says), "{said}");
        assert!(said.contains("0 to "), "{said}");
    }
    assert_eq!(session.plan().to_json(), before);
}

#[test]
fn edits_that_name_what_does_not_exist_are_refused_by_name() {
    let mut session = Session::new().unwrap();
    let before = session.plan().to_json();
    let first = session.plan().placed[0].clone();
    let second = session.plan().placed[1].tag.clone();
    let name = || "no-such".to_owned();
    let tag = || first.tag.clone();
    let place = |part: String, zone, tag| Edit::Place {
        part,
        x_mm: 0.0,
        y_mm: 0.0,
        z_mm: 0.0,
        zone,
        turn: 0,
        tag,
    };
    let shaft = |part: &str, from: &str, to: &str| {
        Edit::Shaft(ShaftRun {
            tag: "Z9".to_owned(),
            part: part.to_owned(),
            from: from.to_owned(),
            to_axle: to.to_owned(),
        })
    };
    let trailer = TrailerLoad {
        id: name(),
        payload_kg: 1.0,
        load_cg: None,
        kingpin_to_axles_mm: None,
    };
    for edit in [
        place(name(), None, None),
        place(first.part.clone(), Some(name()), None),
        place(first.part.clone(), None, Some(tag())),
        place(first.part.clone(), None, Some("<b>".to_owned())),
        Edit::Move {
            tag: name(),
            x_mm: 0.0,
            y_mm: 0.0,
            z_mm: 0.0,
            zone: None,
        },
        Edit::Move {
            tag: tag(),
            x_mm: 0.0,
            y_mm: 0.0,
            z_mm: 0.0,
            zone: Some(name()),
        },
        Edit::Zone {
            tag: tag(),
            zone: Some(name()),
        },
        Edit::Zone {
            tag: name(),
            zone: None,
        },
        Edit::Turn { tag: name() },
        Edit::Delete { tag: name() },
        Edit::Duplicate { tag: name() },
        Edit::Mirror { tag: name() },
        Edit::Lock {
            tag: name(),
            on: true,
        },
        Edit::Fill {
            tag: name(),
            share: 0.5,
        },
        Edit::Retag {
            tag: name(),
            new: "Z1".to_owned(),
        },
        Edit::Retag {
            tag: tag(),
            new: second,
        },
        Edit::Retag {
            tag: tag(),
            new: String::new(),
        },
        Edit::Retag {
            tag: tag(),
            new: "a b".to_owned(),
        },
        shaft("no-such", &first.tag, "axle-2"),
        shaft("DR-SHAFT-S", "no-such", "axle-2"),
        shaft("DR-SHAFT-S", &first.tag, "no-such"),
        Edit::Strip { item: name() },
        Edit::Keep { item: name() },
        Edit::Raise { axle: name() },
        Edit::Lower { axle: name() },
        Edit::Trailer(Some(trailer)),
        Edit::Law(LawChoice {
            regime: Some(name()),
            ..LawChoice::default()
        }),
        Edit::Rename {
            name: "x".repeat(201),
        },
        Edit::Rename {
            name: "a\u{0}b".to_owned(),
        },
        Edit::Notes {
            text: "x".repeat(20_001),
        },
    ] {
        let name = edit.name(session.plan(), session.library());
        let refusal = session.apply(&edit).expect_err(&name).to_string();
        assert!(refusal.len() > 5, "{refusal}");
        assert_eq!(session.plan().to_json(), before, "{name}");
    }
    assert!(!session.undo());
}

#[test]
fn fields_refuse_what_is_not_a_number_and_say_which_field() {
    let mut session = Session::new().unwrap();
    let before = session.plan().to_json();
    let tag = session.plan().placed[0].tag.clone();
    let fields = [
        "wheelbase",
        "splice",
        "fifth-wheel",
        "driver",
        "target",
        "payload",
        "trailer-payload",
        "load-place",
    ];
    let of_part = ["x", "y", "z", "fill"].map(|what| format!("part.{tag}.{what}"));
    let fields = fields.map(str::to_owned).into_iter().chain(of_part);
    for field in fields {
        for typed in [
            "NaN",
            "inf",
            "-inf",
            "1e308",
            "heavy",
            "--5",
            "12 parsecs",
            "<b>",
            "٣",
            "99999999999999999999999",
            &"9".repeat(400),
            &"x".repeat(100_000),
        ] {
            for units in [Units::Metric, Units::Us] {
                let said = session
                    .enter(&field, typed, units)
                    .expect_err(&field)
                    .to_string();
                assert!(
                    said.chars().count() < 400,
                    "{field}: a sentence, not {}",
                    said.len()
                );
                assert_eq!(session.plan().to_json(), before, "{field} = {typed}");
            }
        }
    }
    for field in [
        "",
        "no-such",
        "part",
        "part.",
        "part..x",
        "part.no-such.x",
        "raised.no-such",
    ] {
        assert!(session.enter(field, "1", Units::Metric).is_err(), "{field}");
    }
    for steps in [f64::NAN, f64::INFINITY, 1e308, 1e9] {
        assert!(session.nudge(&tag, "x", steps, true).is_err(), "{steps}");
    }
    assert!(session.nudge(&tag, "w", 1.0, false).is_err());
    assert!(session.nudge("no-such", "x", 1.0, false).is_err());
    assert_eq!(session.plan().to_json(), before);
    assert!(!session.undo());
}
