//! How far things are apart, at rest and in motion, through the whole planner: a plan goes in, gaps
//! and findings come out. *Hand*: every figure can be followed on paper from the bare chassis of
//! `tests/loads/yard.rs`. *Property*: order and common moves do not matter.

#![allow(clippy::unwrap_used, clippy::panic, clippy::disallowed_methods)] // tests

mod crowded;
#[path = "clearance/kept.rs"]
mod kept;
#[path = "clearance/known.rs"]
mod known;
#[path = "clearance/motion.rs"]
mod motion;
#[path = "clearance/properties.rs"]
mod properties;
#[path = "clearance/reach.rs"]
mod reach;
#[path = "clearance/rest.rs"]
mod rest;
#[path = "clearance/said.rs"]
mod said;
#[path = "clearance/shelf.rs"]
mod shelf;
#[path = "clearance/sides.rs"]
mod sides;
#[path = "clearance/trailer.rs"]
mod trailer;
#[path = "loads/yard.rs"]
mod yard;

use axlewright_core::assessment::Assessment;
use axlewright_core::clearance::{Gap, State};
use axlewright_core::quantity::Units;

/// The gap between two things in a state, by their names in either order.
fn gap<'a>(assessment: &'a Assessment, state: State, a: &str, b: &str) -> Option<&'a Gap> {
    assessment
        .answers
        .clearances
        .gaps
        .iter()
        .find(|g| {
            let names = (g.first.name(), g.second.name());
            g.state == state && (names == (a, b) || names == (b, a))
        })
        .map(|g| &**g)
}

#[track_caller]
fn must<'a>(assessment: &'a Assessment, state: State, a: &str, b: &str) -> &'a Gap {
    gap(assessment, state, a, b).unwrap_or_else(|| {
        panic!(
            "no gap {state:?} between {a} and {b}: {:#?}",
            assessment.answers.clearances.gaps
        )
    })
}

/// Distance and what is asked for.
#[track_caller]
fn measures(gap: &Gap, distance_mm: f64, required_mm: f64) {
    yard::close(gap.distance_mm, distance_mm, 1e-6);
    yard::close(gap.required_mm, required_mm, 0.0);
}

/// The sentences of one check.
fn sentences(assessment: &Assessment, check: &str) -> Vec<String> {
    let of = assessment.findings.iter().filter(|f| f.check == check);
    of.map(|f| f.sentence.words(Units::Metric)).collect()
}
