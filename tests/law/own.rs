//! A law that a user fills in: from another law, from nothing, as a file; tyre widths.

use super::{assess, read, yard};
use axlewright_core::findings::Severity;
use axlewright_core::law::{Figure, Regime};
use axlewright_core::legality::group_limit_kg;
use axlewright_core::library::{FileKind, Library};
use axlewright_core::plan::Plan;
use axlewright_core::quantity::Units;
use axlewright_core::web::{Session, ViewOptions};
use serde::Deserialize;
use std::collections::BTreeMap;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Width {
    source: String,
    known: String,
    lb_per_in: f64,
    width_in: f64,
    axles: usize,
    tyres: u32,
    cap_lb: f64,
    limit_lb: f64,
}

fn pounds(lb: f64) -> Figure {
    Figure {
        lb: Some(lb),
        ..Figure::default()
    }
}

/// A figure entered for both steered and other axles: the rows do not say which they mean.
#[test]
fn every_published_limit_by_tyre_width_comes_out() {
    let rows: BTreeMap<String, Width> =
        toml::from_str(include_str!("../published/law/tyre_width.toml")).unwrap();
    assert_eq!(rows.len(), 4);
    for (id, row) in rows {
        assert!(row.source.len() > 4 && row.known.len() > 3);
        let mut law = Regime::blank();
        let width = law.tyre_width.as_mut().unwrap();
        width.steered.lb_per_in = Some(row.lb_per_in);
        width.others.lb_per_in = Some(row.lb_per_in);
        law.single_axle = pounds(20_000.0);
        law.groups[0].step[0].limit = pounds(row.cap_lb);
        let mut vehicle = yard::resolve(&yard::plan(yard::bare()));
        vehicle.law = Some(law.into());
        let mut axle = vehicle.chassis.axles[1].clone();
        axle.tyres.width_mm = row.width_in * yard::MM_PER_IN;
        axle.tyres.dual = row.tyres as usize / row.axles == 4;
        let mut group = vehicle.chassis.groups[1].clone();
        vehicle.chassis.axles.truncate(1);
        group.axles.clear();
        for number in 0..row.axles {
            axle.id = format!("axle-{}", number + 2);
            axle.x_mm = 5_000.0 + 1_300.0 * number as f64;
            group.axles.push(axle.id.clone());
            vehicle.chassis.axles.push(axle.clone());
        }
        vehicle.chassis.groups[1] = group.clone();
        let found = group_limit_kg(&vehicle, &group).unwrap() / yard::KG_PER_LB;
        let wanted = row.limit_lb;
        assert!(
            (found - wanted).abs() < 1e-6,
            "{id}: {found} lb, {wanted} wanted"
        );
    }
}

fn session(plan: &Plan) -> Session {
    let mut session = Session::new().unwrap();
    session.open("plan.json", &plan.to_json()).unwrap();
    session
}

fn enter(session: &mut Session, field: &str, typed: &str) {
    session
        .enter(field, typed, Units::Us)
        .unwrap_or_else(|r| panic!("{field}: {r}"));
}

#[test]
fn own_limits_begin_with_the_chosen_law_and_keep_its_sources() {
    let plan = read("gullwharf-drayage.json");
    let mut session = session(&plan);
    enter(&mut session, "law", "own");
    let own = session.plan().law.own.clone().unwrap();
    let us = &session.library().laws["us-interstate"];
    assert_eq!(own.single_axle.lb, us.single_axle.lb);
    assert_eq!(own.source_of(&own.single_axle), &us.source);
    assert_eq!(own.bridge, us.bridge);
    let before = assess(&plan);
    let after = assess(session.plan());
    let said = |a: &axlewright_core::assessment::Assessment| {
        let findings = a.findings.iter();
        findings
            .map(|f| (f.check, f.subject.clone(), f.severity))
            .collect::<Vec<_>>()
    };
    assert_eq!(
        said(&before),
        said(&after),
        "the same figures, the same verdict"
    );

    enter(&mut session, "own.tyre_width.steered", "550");
    enter(&mut session, "own.gross[0].limit", "70,000 lb");
    let own = session.plan().law.own.clone().unwrap();
    assert_eq!(
        own.source_of(&own.gross[0].limit).document,
        "entered by the user"
    );
    let assessment = assess(session.plan());
    let gross = yard::finding(&assessment, "road-gross", "combination");
    assert_eq!(gross.severity, Severity::Fails);
    assert!(gross.source.document.contains("entered by the user"));
    yard::finding(&assessment, "road-tyre-width", "axle-1");
    // And back: the own figures wait in the plan.
    enter(&mut session, "law", "us-interstate");
    assert_eq!(said(&before), said(&assess(session.plan())));
    enter(&mut session, "law", "own");
    assert!(
        session.plan().law.own.as_ref().unwrap().gross[0]
            .limit
            .kg
            .is_some()
    );
    // The plan with its law survives the way through a file.
    let text = session.plan().to_json();
    assert_eq!(&Plan::from_json("own", &text).unwrap(), session.plan());
}

#[test]
fn a_blank_law_is_not_assessed_and_every_figure_has_a_field() {
    let mut plan = read("gullwharf-drayage.json");
    plan.law = Default::default();
    let mut session = session(&plan);
    enter(&mut session, "law", "own");
    let assessment = assess(session.plan());
    for check in ["road-axle", "road-gross"] {
        let found = super::of_check(&assessment, check);
        assert!(!found.is_empty(), "{check}");
        assert!(
            found.iter().all(|f| f.severity == Severity::NotAssessed),
            "{check}"
        );
    }
    let view = session.view(&ViewOptions::default()).unwrap();
    let view = serde_json::to_value(&view.words).unwrap();
    let ids: Vec<&str> = view["controls"]
        .as_array()
        .unwrap()
        .iter()
        .map(|f| f["id"].as_str().unwrap())
        .collect();
    for id in [
        "own.single_axle",
        "own.group[0].step[0].limit",
        "own.group[1].step[0].limit",
        "own.gross[0].limit",
        "own.tyre_width.steered",
        "own.sizes.width",
        "own.sizes.height",
        "own.sizes.articulated",
        "own.sizes.kingpin_to_rear_axle",
    ] {
        assert!(ids.contains(&id), "{id} is no field: {ids:?}");
        let typed = if id.contains("sizes") {
            "100 in"
        } else if id.contains("tyre") {
            "600"
        } else {
            "20000 lb"
        };
        enter(&mut session, id, typed);
    }
    let assessment = assess(session.plan());
    let found = super::of_check(&assessment, "road-axle");
    assert!(found.iter().all(|f| f.severity != Severity::NotAssessed));
    yard::finding(&assessment, "road-length", "kingpin_to_rear_axle");
    enter(&mut session, "own.sizes.height", "");
    assert!(super::of_check(&assess(session.plan()), "road-height").is_empty());
    assert!(session.enter("own.nothing", "1", Units::Us).is_err());
    assert!(
        session
            .enter("own.single_axle", "12 in", Units::Us)
            .is_err()
    );
    // Nobody may weigh a negative amount.
    assert!(
        session
            .enter("own.single_axle", "-5 lb", Units::Us)
            .is_err()
    );
}

#[test]
fn a_law_comes_as_a_file_and_a_wrong_one_says_what_is_wrong() {
    let law = |extra: &str| {
        format!(
            "law_format = 2\nid = \"county\"\nname = \"Example county\"\nsingle_axle = {{ t = 9 }}\n{extra}\n\
             [source]\nbasis = \"standard\"\ndocument = \"invented county code\"\n"
        )
    };
    let mut library = Library::shipped();
    let tandem = "[[group]]\nname = \"tandem\"\naxles = 2\n\
        step = [{ below = { m = 1.2 }, limit = { t = 15 } }, { to = { m = 1.9 }, limit = { t = 17 } }]";
    let kind = library.add_toml("county.toml", &law(tandem)).unwrap();
    assert_eq!(kind, FileKind::Law("county".to_owned()));
    for (wrong, says) in [
        ("driven_axle = { t = 9, lb = 20000 }", "more than one unit"),
        ("driven_axle = { m = 9 }", "wrong unit"),
        ("driven_axle = { t = 900 }", "outside"),
        (
            &tandem.replace("t = 17", "t = 14"),
            "less than for axles that stand closer",
        ),
        (&tandem.replace("m = 1.9", "m = 1.1"), "ends before"),
    ] {
        let problems = library.add_toml("county.toml", &law(wrong)).unwrap_err();
        assert!(problems.to_string().contains(says), "{wrong}: {problems}");
    }
}

#[test]
fn claims_are_held_against_the_driveline() {
    let severity = |name: &str, law: &str, which: Option<&str>| {
        let mut plan = read(name);
        plan.law.regime = Some(law.to_owned());
        plan.law.allowance = true;
        plan.law.which = which.map(str::to_owned);
        let assessment = assess(&plan);
        yard::finding(&assessment, "road-allowance", "allowance").severity
    };
    let (battery, generator) = ("gullwharf-drayage.json", "prairie-loop.json");
    let hydrogen = "harbour-hydrogen.json";
    assert_eq!(severity(battery, "us-interstate", None), Severity::Holds);
    assert_eq!(
        severity(generator, "us-interstate", None),
        Severity::Caution
    );
    assert_eq!(severity(hydrogen, "us-interstate", None), Severity::Fails);
    assert_eq!(
        severity(hydrogen, "eu-96-53", Some("zero-emission")),
        Severity::Holds
    );
    assert_eq!(
        severity(generator, "eu-96-53", Some("zero-emission")),
        Severity::Fails
    );
    assert_eq!(
        severity(generator, "eu-96-53", Some("alternative-fuel")),
        Severity::Holds
    );
}
