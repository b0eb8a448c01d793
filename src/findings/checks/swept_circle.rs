//! Do truck and trailer turn within the ring that is asked for?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::geometry::Point;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "swept-circle",
    title: "Swept circle",
    question: "Do truck and trailer turn within the ring that is asked for?",
    method: "A full circle with the outermost corner on the outer radius: that radius must be possible at full lock, and nothing may come within the inner one. Axles square to the lines to the centre; where the trailer has no steady turn this tight, the circle is followed step by step.",
    source: "the plan's radii; 12.50 m and 5.30 m are those of Council Directive 96/53/EC, annex I, 1.5",
    applies: "when an outer and an inner radius are asked for",
    assumes: &[
        "crawling on a firm level road, every tyre equally stiff sideways",
        "mirrors left out; the trailer's inside is taken where its axles turn",
    ],
    run,
};

/// What misses by less than this is a matter of the tape measure.
const TAPE_MM: f64 = 0.5;

fn run(answers: &Answers, report: &mut Report) {
    let found = match &answers.manoeuvre.ring {
        None => return,
        Some(Err(missing)) => return report.not_assessed("ring", missing),
        Some(Ok(found)) => found,
    };
    let ring = &found.ring;
    let of = |fails: bool| {
        if fails {
            Severity::Fails
        } else {
            Severity::Holds
        }
    };
    let wide = of(found.outer_mm > ring.outer_mm + TAPE_MM);
    let words = Phrase::new()
        .text("Turning in a circle the outermost corner reaches a radius of ")
        .length(found.outer_mm)
        .text("; within ")
        .length(ring.outer_mm)
        .text(" is asked for.");
    let mut outer = Finding::new(wide, "outer radius", words)
        .which("outer radius")
        .at_most(
            Amount::length(found.outer_mm),
            Amount::length(ring.outer_mm),
        )
        .by(ring.source.clone());
    if let Ok(lock) = &answers.manoeuvre.turning {
        let corner = &lock.turn.outer_by;
        let side = if answers.vehicle.moving.turn_left {
            1.0
        } else {
            -1.0
        };
        let at = Point::new(corner.x, side * corner.y, corner.z);
        outer = outer.pointing(at, at);
    }
    report.add(outer);
    let near = of(found.inner_mm < ring.inner_mm - TAPE_MM);
    let who = if found.by_trailer { "trailer" } else { "truck" };
    let words = Phrase::new()
        .text(format!("Turning in that circle the {who} comes within "))
        .length(found.inner_mm)
        .text(" of its centre; ")
        .length(ring.inner_mm)
        .text(" must stay free.");
    let inner = Finding::new(near, "inner radius", words)
        .which("inner radius")
        .at_least(
            Amount::length(found.inner_mm),
            Amount::length(ring.inner_mm),
        )
        .by(ring.source.clone());
    report.add(inner);
}
