//! How tightly does the truck turn?

use super::angle;
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::geometry::Point;
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "turning-circle",
    title: "Turning circle",
    question: "How tightly does the truck turn?",
    method: "At full lock, diameters: to the middle of the outer front tyre 2 (wheelbase / sin outer angle + wheel offset); between kerbs to that tyre's outside; between walls to the outermost corner. Inner and outer angle by the cotangent rule; several rear axles by their equivalent wheelbase. Told, and held against the plan's limit where it has one.",
    source: "SAE J695 (form of the turning diameter, read in a description); equivalent wheelbase after C. B. Winkler, 1998",
    applies: "trucks whose steering angle is known",
    assumes: &[
        "crawling on a firm level road, every tyre equally stiff sideways",
        "a steered wheel turns about its own middle where the pivot's offset is not stated, which tells the circle smaller by twice the offset",
        "mirrors left out; the front counts as square-cornered over the full width",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let lock = match &answers.manoeuvre.turning {
        Ok(lock) => lock,
        Err(missing) => return report.not_assessed("truck", missing),
    };
    let kerb = 2.0 * lock.kerb_mm;
    let corner = &lock.turn.outer_by;
    let name = angle::thing(answers, &corner.tag, &corner.name);
    let mut sentence = Phrase::new()
        .text("Turning circle between kerbs ")
        .length(kerb)
        .text(", between walls ")
        .length(2.0 * lock.turn.outer_mm)
        .text(format!(" ({name}), wheels at "))
        .angle(lock.inner_deg)
        .text(" and ")
        .angle(lock.outer_deg);
    let limit = answers.vehicle.moving.kerb_circle_mm;
    let mut severity = Severity::Holds;
    if let Some(limit) = limit {
        sentence = sentence
            .text("; at most ")
            .length(limit)
            .text(" between kerbs is asked for");
        if kerb > limit + 0.5 {
            severity = Severity::Fails;
        }
    }
    let side = if answers.vehicle.moving.turn_left {
        1.0
    } else {
        -1.0
    };
    let at = Point::new(corner.x, side * corner.y, corner.z);
    let mut finding = Finding::new(severity, "truck", sentence.text(".")).pointing(at, at);
    if let Some(limit) = limit {
        finding = finding
            .at_most(Amount::length(kerb), Amount::length(limit))
            .by(Source::new(Basis::CommonPractice, "set in the plan"));
    } else {
        finding.measured = Some(Amount::length(kerb));
    }
    if !corner.tag.is_empty() {
        finding = finding.about([corner.tag.clone()]);
    }
    report.add(finding);
}
