//! Every example and a crowded truck, worked out and drawn, each answer as one number of its bytes.
//!
//! The native and the browser's test hold themselves to the same frozen lines, so that both builds
//! give equal bytes.

use super::crowded;
use axlewright_core::assessment::Assessment;
use axlewright_core::drawing::View;
use axlewright_core::library::Library;
use axlewright_core::plan::Plan;
use axlewright_core::quantity::Units;
use axlewright_core::report;
use axlewright_core::web::{Session, ViewOptions};
use std::fmt::Write as _;

macro_rules! example {
    ($name:literal) => {
        ($name, include_str!(concat!("../../examples/", $name)))
    };
}

/// Every example; `tests/parity.rs` sees that none is left out.
pub const EXAMPLES: [(&str, &str); 37] = [
    example!("carrowmere-pass.json"),
    example!("five-faults.json"),
    example!("gullwharf-drayage.json"),
    example!("harbour-hydrogen.json"),
    example!("lakeside-lift-axle.json"),
    example!("lowfield-relay.json"),
    example!("millbrook-parcel.json"),
    example!("orchard-lane-shuttle.json"),
    example!("prairie-loop.json"),
    example!("quarry-road-tipper.json"),
    example!("vinterdal-bakery.json"),
    example!("wrong/gullwharf-coils-on-the-nose.json"),
    example!("wrong/gullwharf-first-guess.json"),
    example!("wrong/gullwharf-light-cradle.json"),
    example!("wrong/gullwharf-narrow-tyres.json"),
    example!("wrong/gullwharf-sales-sketch.json"),
    example!("wrong/gullwharf-short-bridge.json"),
    example!("wrong/gullwharf-steep-ramp.json"),
    example!("wrong/gullwharf-welded-rails.json"),
    example!("wrong/harbour-claimed-allowance.json"),
    example!("wrong/harbour-hot-hill.json"),
    example!("wrong/millbrook-load-on-the-tail.json"),
    example!("wrong/millbrook-long-shaft.json"),
    example!("wrong/millbrook-narrow-yard.json"),
    example!("wrong/millbrook-press.json"),
    example!("wrong/millbrook-short-bay.json"),
    example!("wrong/millbrook-third-pack.json"),
    example!("wrong/millbrook-top-heavy.json"),
    example!("wrong/prairie-axles-forward.json"),
    example!("wrong/prairie-tank-in-the-nose.json"),
    example!("wrong/prairie-tight-catalyst.json"),
    example!("wrong/quarry-road-low-packs.json"),
    example!("wrong/quarry-steep-shaft.json"),
    example!("wrong/tarnwick-borrowed-trailer.json"),
    example!("wrong/tarnwick-light-drive.json"),
    example!("wrong/tarnwick-too-long.json"),
    example!("wrong/vinterdal-nose-light.json"),
];
/// What both builds must give.
pub const FROZEN: &str = include_str!("../frozen/parity.txt");

/// FNV-1a, 64 bits.
fn fingerprint(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
    })
}

/// One line for each answer: plan, what, bytes, fingerprint.
pub fn lines() -> String {
    let library = Library::shipped();
    let crowded = crowded::plan(&library, EXAMPLES[0].1, 120).to_json();
    let mut out = String::new();
    for (name, text) in EXAMPLES.into_iter().chain([("crowded", crowded.as_str())]) {
        let plan = Plan::from_json(name, text).unwrap_or_else(|p| panic!("{p}"));
        let mut line = |what: &str, bytes: &str| {
            let _ = writeln!(
                out,
                "{name} {what} {} {:016x}",
                bytes.len(),
                fingerprint(bytes)
            );
        };
        line("file", &plan.to_json());
        let assessment = Assessment::of(&plan, &library).unwrap_or_else(|p| panic!("{p}"));
        let data = report::evaluation(&assessment, Units::Metric);
        line(
            "evaluation",
            &serde_json::to_string(&data).unwrap_or_default(),
        );
        line("words", &report::text(&assessment, Units::Us));
        for view in View::ALL {
            let date = "2026-02-03".to_owned();
            line(
                view.word(),
                &report::sheet(&assessment, view, date, Units::Metric),
            );
        }
        let turn = report::sheet(&assessment, View::Turn, String::new(), Units::Us);
        line("turn", &turn);
        let mut session = Session::new().unwrap_or_else(|p| panic!("{p}"));
        session.open(name, text).unwrap_or_else(|p| panic!("{p}"));
        let options = ViewOptions {
            selected: plan.placed.first().map(|placed| placed.tag.clone()),
            finding: assessment
                .findings
                .first()
                .map(|f| format!("{} {}", f.check, f.subject)),
            whole: true,
            ..ViewOptions::default()
        };
        let shown = session.view(&options).unwrap_or_else(|p| panic!("{p}"));
        line(
            "page",
            &serde_json::to_string(&shown.words).unwrap_or_default(),
        );
        line("stage", &View::ALL.map(|view| shown.drawing(view)).concat());
        let pages = report::PAGES
            .iter()
            .filter_map(|kind| report::page(kind.id, &assessment, Units::Us));
        let pages: Vec<_> = pages.collect();
        line(
            "answers",
            &serde_json::to_string(&pages).unwrap_or_default(),
        );
    }
    out
}

/// Lines of ours that are not the frozen ones, beside these.
pub fn differences(ours: &str) -> Vec<String> {
    let (mut ours, mut frozen) = (ours.lines(), FROZEN.lines());
    let mut found = Vec::new();
    loop {
        match (ours.next(), frozen.next()) {
            (None, None) => return found,
            (one, other) if one == other => {}
            (one, other) => found.push(format!(
                "{}, frozen: {}",
                one.unwrap_or("nothing"),
                other.unwrap_or("nothing")
            )),
        }
    }
}
