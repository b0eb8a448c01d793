//! Is the gross weight within the chosen road law?

use super::group_load::finished;
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "road-gross",
    title: "Road law, gross weight",
    question: "Is the gross weight within the chosen road law?",
    method: "Largest such mass over all cases of the finished truck, against the limit.",
    source: "the road law named in the plan",
    applies: "when the limit is known",
    assumes: &["masses are estimates until the truck is weighed"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let Some(law) = &answers.vehicle.law else {
        report.not_assessed("combination", "the plan names no road law");
        return;
    };
    let Some(limit) = crate::legality::gross_limit_kg(&answers.vehicle) else {
        return;
    };
    let source = if answers.vehicle.allowance {
        Source::new(
            Basis::Standard,
            format!("{}; {}", law.source.document, law.allowance_source.document),
        )
    } else {
        law.source.clone()
    };
    let heaviest = finished(answers)
        .map(|c| (c.case, c.gross_kg))
        .reduce(|a, b| if b.1 > a.1 { b } else { a });
    let Some((case, kg)) = heaviest else { return };
    let over = kg - limit;
    let severity = if over > 1e-6 {
        Severity::Fails
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text("Gross weight is ")
        .mass(kg)
        .text(format!(" ({}), ", case.words()));
    let sentence = if over > 1e-6 {
        sentence.mass(over).text(" over the legal limit of ")
    } else {
        sentence.mass(-over).text(" under the legal limit of ")
    };
    let finding = Finding::new(severity, "combination", sentence.mass(limit).text("."))
        .at_most(Amount::mass(kg), Amount::mass(limit))
        .by(source);
    report.add(finding);
}
