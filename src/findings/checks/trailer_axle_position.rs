//! Do the trailer's axles stand in a hole of their slider in which every limit is kept?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "trailer-axle-position",
    title: "Trailer-axle position",
    question: "Do the trailer's axles stand in a hole of their slider in which every limit is kept?",
    method: "Every hole is worked out with the planned load against all limits at once: ratings, tyres, road law with its groups of axles and lengths.",
    source: "moments about the kingpin and the limits named",
    applies: "trailers whose axles slide",
    assumes: &[
        "body and load stay where they are; what slides takes its mass along",
        "the fifth wheel stays where it is",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let Some(holes) = &answers.trailer_axles else {
        return;
    };
    let holes = match holes {
        Ok(holes) => holes,
        Err(missing) => return report.not_assessed("trailer axles", missing),
    };
    let subject = "trailer axles";
    let (Some(first), Some(last)) = (holes.pass_mm.first(), holes.pass_mm.last()) else {
        let over = holes.always_over.join(", ");
        let sentence = if over.is_empty() {
            "No hole of the trailer's slider keeps every limit.".to_owned()
        } else {
            format!("In every hole of the trailer's slider this stays over its limit: {over}.")
        };
        let finding = Finding::new(Severity::Fails, subject, Phrase::new().text(sentence));
        return report.add(finding);
    };
    let now = holes.now_mm;
    let inside = holes.pass_mm.iter().any(|hole| (hole - now).abs() < 1.0);
    let severity = if inside {
        Severity::Holds
    } else {
        Severity::Fails
    };
    let sentence = Phrase::new()
        .text(format!(
            "{} of {} holes keep every limit, with the axles from ",
            holes.pass_mm.len(),
            holes.holes
        ))
        .length(*first)
        .text(" to ")
        .length(*last)
        .text(" behind the kingpin; they stand ")
        .length(now)
        .text(" behind it.");
    let finding = Finding::new(severity, subject, sentence);
    let now_at = Amount::length(now);
    report.add(if now > *last {
        finding.at_most(now_at, Amount::length(*last))
    } else {
        finding.at_least(now_at, Amount::length(*first))
    });
}
