//! What the checks of whole masses share: the heaviest case of truck, trailer or kingpin against one
//! limit.

use super::group_load::{and_uncertain, finished, missing_masses};
use crate::assessment::Answers;
use crate::findings::{Amount, Finding, Phrase, Report, Severity};
use crate::loads::{CaseLoads, thin_kg};
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

/// A mass in one case, and one standard deviation of it.
pub(super) struct Load {
    kg: f64,
    sigma_kg: f64,
}

impl Load {
    /// With the truck in it, whose masses are estimates.
    pub(super) fn with_truck(case: &CaseLoads, kg: f64) -> Self {
        let sigma_kg = case.sigma_kg(|_| 1.0);
        Self { kg, sigma_kg }
    }

    /// Of the trailer's load alone, which is stated.
    pub(super) const fn stated(kg: f64) -> Self {
        Self { kg, sigma_kg: 0.0 }
    }
}

/// Holds the largest such mass over all cases of the finished truck against the limit.
pub(super) fn against(
    answers: &Answers,
    report: &mut Report,
    whole: Whole,
    measure: impl Fn(&CaseLoads) -> Option<Load>,
) {
    let heaviest = finished(answers)
        .filter_map(|c| measure(c).map(|load| (c.case, load)))
        .reduce(|a, b| if b.1.kg > a.1.kg { b } else { a });
    let Some((case, Load { kg, sigma_kg })) = heaviest else {
        let missing = missing_masses(answers).unwrap_or("no load case gives this mass");
        return report.not_assessed(whole.subject, missing);
    };
    let margin = whole.limit_kg - kg;
    let severity = Severity::of_margin(Some(margin), thin_kg(sigma_kg));
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
        .mass(whole.limit_kg);
    let sentence = and_uncertain(sentence, severity, sigma_kg);
    let finding = Finding::new(severity, whole.subject, sentence)
        .which(whole.subject)
        .at_most(Amount::mass(kg), Amount::mass(whole.limit_kg))
        .by(whole.source);
    report.add(finding);
}
