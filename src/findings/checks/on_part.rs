//! What checks of places share: a finding about one part, pointing at it.

use crate::assessment::Answers;
use crate::findings::{Amount, Finding, Phrase, Severity};
use crate::geometry::{Aabb, Point};

/// Names the part and points at it: from one end to the other of what is measured on its box.
pub(super) fn pointed(
    finding: Finding,
    answers: &Answers,
    tag: &str,
    ends: &dyn Fn(&Aabb) -> [Point; 2],
) -> Finding {
    let finding = finding.about([tag]);
    match answers.vehicle.item(tag) {
        Some(item) => {
            let [from, to] = ends(&item.bounds);
            finding.pointing(from, to)
        }
        None => finding,
    }
}

/// Both ends at the part's middle, where nothing is measured.
pub(super) fn middle(bounds: &Aabb) -> [Point; 2] {
    [bounds.centre(); 2]
}

/// How far a part may reach: no farther than nothing at all.
pub(super) fn beyond(severity: Severity, subject: String, words: Phrase, by_mm: f64) -> Finding {
    Finding::new(severity, subject, words).at_most(Amount::length(by_mm), Amount::length(0.0))
}

/// One finding that says that all is well.
pub(super) fn fine(subject: &str, words: String) -> Finding {
    Finding::new(Severity::Holds, subject, Phrase::new().text(words))
}
