//! What the checks of the three angles share.

use crate::assessment::Answers;
use crate::findings::{Amount, Finding, Phrase, Report, Severity};
use crate::manoeuvre::Angle;
use crate::source::{Basis, Source};

/// Limits that the user may set: what is set, or what is customary, and who says so.
pub(super) fn or_usual(own: Option<f64>, usual: f64) -> (f64, Source, &'static str) {
    match own {
        Some(own) => {
            let source = Source::new(Basis::CommonPractice, "set in the plan");
            (own, source, "is asked for in the plan")
        }
        None => (usual, Source::common_practice(), "is usual"),
    }
}

/// Holds one angle against its limit.
pub(super) fn against(
    answers: &Answers,
    report: &mut Report,
    what: &'static str,
    angle: &Result<Angle, String>,
    (own, usual): (Option<f64>, f64),
) {
    let angle = match angle {
        Ok(angle) => angle,
        Err(missing) => return report.not_assessed(what, missing),
    };
    let (limit, source, word) = or_usual(own, usual);
    let severity = if angle.deg < limit - 1e-6 {
        Severity::Fails
    } else {
        Severity::Holds
    };
    let state = if angle.unladen {
        "empty, tail high"
    } else {
        "laden"
    };
    let sentence = Phrase::new()
        .text(format!("The {what} angle is "))
        .angle(angle.deg)
        .text(format!(
            ", limited by {} ({state}); at least ",
            thing(answers, &angle.tag, &angle.by)
        ))
        .angle(limit)
        .text(format!(" {word}."));
    let mut finding = Finding::new(severity, what, sentence)
        .at_least(Amount::angle(angle.deg), Amount::angle(limit))
        .by(source)
        .pointing(angle.at, angle.tyre);
    if !angle.tag.is_empty() {
        finding = finding.about([angle.tag.clone()]);
    }
    report.add(finding);
}

/// A part by its tag, anything else of the truck within a sentence.
pub(super) fn thing(answers: &Answers, tag: &str, name: &str) -> String {
    if answers.vehicle.item(tag).is_some() {
        tag.to_owned()
    } else {
        format!("the {}", super::gap::lower_first(name))
    }
}
