//! What the checks of whole masses share: the heaviest case of truck, trailer or kingpin against one
//! limit.

use super::group_load::{finished, missing_masses};
use crate::assessment::Answers;
use crate::findings::{Amount, Finding, Phrase, Report, Severity};
use crate::loads::CaseLoads;
use crate::source::Source;

/// What is held against a limit, and the words for it.
pub(super) struct Whole {
    /// Subject of the finding.
    pub(super) subject: &'static str,
    /// Beginning of the sentence, such as "The truck weighs".
    pub(super) says: &'static str,
    /// The limit after "over" or "under", such as "its GVWR".
    pub(super) limited_by: &'static str,
    /// The limit, kg.
    pub(super) limit_kg: f64,
    /// Who sets it.
    pub(super) source: Source,
}

/// Holds the largest such mass over all cases of the finished truck against the limit.
pub(super) fn against(
    answers: &Answers,
    report: &mut Report,
    whole: Whole,
    measure: impl Fn(&CaseLoads) -> Option<f64>,
) {
    let heaviest = finished(answers)
        .filter_map(|c| measure(c).map(|kg| (c.case, kg)))
        .reduce(|a, b| if b.1 > a.1 { b } else { a });
    let Some((case, kg)) = heaviest else {
        let missing = missing_masses(answers).unwrap_or("no load case gives this mass");
        return report.not_assessed(whole.subject, missing);
    };
    let margin = whole.limit_kg - kg;
    let severity = Severity::of_margin(Some(margin), 0.0);
    let side = if severity == Severity::Fails {
        "over"
    } else {
        "under"
    };
    let sentence = Phrase::new()
        .text(format!("{} ", whole.says))
        .mass(kg)
        .text(format!(" ({}), ", case.words()))
        .mass(margin.abs())
        .text(format!(" {side} {} of ", whole.limited_by))
        .mass(whole.limit_kg)
        .text(".");
    let finding = Finding::new(severity, whole.subject, sentence)
        .at_most(Amount::mass(kg), Amount::mass(whole.limit_kg))
        .by(whole.source);
    report.add(finding);
}
