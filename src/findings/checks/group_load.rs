//! What the checks of axle-group loads share: the worst case of each group against one limit.

use crate::assessment::{Answers, LimitKind};
use crate::findings::{Amount, Finding, Phrase, Report, Severity};
use crate::loads::{Case, CaseLoads};

/// Cases that a finished truck can be in.
pub(super) fn finished(answers: &Answers) -> impl Iterator<Item = &CaseLoads> {
    answers
        .loads
        .cases
        .iter()
        .filter(|c| c.case >= Case::Unladen)
}

/// Why no load of an axle group can be judged, if so: what is missing, or a group that would lift off,
/// because the others do not carry what the figures say then.
pub(super) fn missing_loads(answers: &Answers) -> Option<String> {
    let missing = missing_masses(answers).map(str::to_owned);
    missing.or_else(|| {
        let lifted = |c: &CaseLoads| c.groups.iter().find(|g| g.load_kg < -1e-6).cloned();
        let group = finished(answers).find_map(lifted)?;
        let name = group_name(answers, &group.id);
        Some(format!("the {name} would lift off the road"))
    })
}

/// Name of an axle group, for people.
pub(super) fn group_name<'a>(answers: &'a Answers, id: &'a str) -> &'a str {
    let known = answers.road.limits.iter().find(|l| l.id == id);
    known.map_or(id, |l| l.name.as_str())
}

/// Why no mass can be judged, if so.
pub(super) fn missing_masses(answers: &Answers) -> Option<&str> {
    answers
        .loads
        .missing
        .as_deref()
        .or_else(|| finished(answers).find_map(|c| c.missing.as_deref()))
}

/// Holds the worst case of every group against its limit of one kind.
pub(super) fn against(answers: &Answers, report: &mut Report, kind: LimitKind) {
    if let Some(missing) = missing_loads(answers) {
        report.not_assessed("truck", &missing);
        return;
    }
    for limits in &answers.road.limits {
        let Some(limit) = limits.of(kind) else {
            if limits.missing.contains(&kind) {
                let missing = format!("the {} of the {} is not known", kind.words(), limits.name);
                report.not_assessed(limits.id.clone(), &missing);
            }
            continue;
        };
        let Some((case, group)) = answers.loads.heaviest_of(&limits.id) else {
            continue;
        };
        let margin = limit.kg - group.load_kg;
        let severity = Severity::of_margin(Some(margin), group.thin_kg());
        let sentence = Phrase::new().text(format!("The {} carries ", limits.name));
        let sentence = sentence
            .mass(group.load_kg)
            .text(format!(" ({}), ", case.words()));
        let sentence = match severity {
            Severity::Fails => sentence
                .mass(-margin)
                .text(format!(" over {} of ", kind.in_sentence())),
            _ => sentence
                .mass(margin)
                .text(format!(" under {} of ", kind.in_sentence())),
        };
        let sentence = and_uncertain(sentence.mass(limit.kg), severity, group.sigma_kg);
        let finding = Finding::new(severity, limits.id.clone(), sentence)
            .at_most(Amount::mass(group.load_kg), Amount::mass(limit.kg))
            .by(limit.source.clone())
            .about([limits.id.clone()]);
        report.add(finding);
    }
}

/// Ends a sentence about a load: with what it is uncertain by where that is more than the margin.
pub(super) fn and_uncertain(sentence: Phrase, severity: Severity, sigma_kg: f64) -> Phrase {
    match severity {
        Severity::Caution => sentence
            .text("; the masses are uncertain by about ")
            .mass(sigma_kg)
            .text(", so weigh it."),
        _ => sentence.text("."),
    }
}
