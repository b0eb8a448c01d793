//! What the checks of lengths, width and height share: a size against the law's limit.

use super::gap::lower_first;
use crate::assessment::Answers;
use crate::findings::{Amount, Finding, Phrase, Report, Severity};
use crate::legality;

/// Key of a size, the verb after its name, and a word after the figure.
pub(super) type Words = (&'static str, &'static str, &'static str);

/// What half a millimetre more is, nobody measures.
const SLACK_MM: f64 = 0.5;

/// Holds these sizes against the law.
pub(super) fn against(answers: &Answers, report: &mut Report, keys: &[Words]) {
    let sizes = legality::sizes(&answers.vehicle);
    let law = answers.vehicle.law.as_ref();
    let insulated = law.and_then(|law| law.sizes.width_conditioned.mm());
    for (key, verb, word) in keys {
        for size in sizes.iter().filter(|s| s.id == *key) {
            let over = size.mm > size.limit_mm + SLACK_MM;
            // Bodies with thick insulated walls may be wider; the files do not say which are.
            let maybe = insulated.filter(|mm| word.contains("wide") && size.mm <= mm + SLACK_MM);
            let severity = match (over, maybe) {
                (false, _) => Severity::Holds,
                (true, Some(_)) => Severity::Caution,
                (true, None) => Severity::Fails,
            };
            let sentence = Phrase::new()
                .text(format!("{}{verb}", size.what))
                .length(size.mm)
                .text(format!("{word}; "))
                .length(size.limit_mm)
                .text(" are allowed");
            let sentence = match maybe.filter(|_| over) {
                Some(mm) => sentence
                    .text(", ")
                    .length(mm)
                    .text(" only with thick insulated walls"),
                None => sentence,
            };
            let sentence = sentence.text(if size.may_differ {
                " (states or countries may set another figure)."
            } else {
                "."
            });
            let what = size.what.strip_prefix("The ").unwrap_or(size.what);
            let finding = Finding::new(severity, size.id, sentence)
                .which(lower_first(what))
                .at_most(Amount::length(size.mm), Amount::length(size.limit_mm))
                .by(size.source.clone())
                .pointing(size.between.0, size.between.1);
            report.add(finding);
        }
    }
}
