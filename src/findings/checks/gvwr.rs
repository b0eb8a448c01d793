//! Is the truck, with what rests on its fifth wheel, within GVWR?

use super::group_load::finished;
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "gvwr",
    title: "Gross vehicle weight rating",
    question: "Is the truck, with what rests on its fifth wheel, within GVWR?",
    method: "Largest such mass over all cases of the finished truck, against the limit.",
    source: "certification label of the donor (49 CFR 567)",
    applies: "when the limit is known",
    assumes: &["masses are estimates until the truck is weighed"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let Some(limit) = answers.vehicle.chassis.ratings.gvwr_kg else {
        report.not_assessed("truck", "the chassis file names no GVWR");
        return;
    };
    let heaviest = finished(answers)
        .map(|c| (c.case, c.truck.mass_kg + c.kingpin_kg.unwrap_or(0.0)))
        .reduce(|a, b| if b.1 > a.1 { b } else { a });
    let Some((case, kg)) = heaviest else { return };
    let over = kg - limit;
    let severity = if over > 1e-6 {
        Severity::Fails
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text("The truck weighs ")
        .mass(kg)
        .text(format!(" ({}), ", case.words()));
    let sentence = if over > 1e-6 {
        sentence.mass(over).text(" over its GVWR of ")
    } else {
        sentence.mass(-over).text(" under its GVWR of ")
    };
    let finding = Finding::new(severity, "truck", sentence.mass(limit).text("."))
        .at_most(Amount::mass(kg), Amount::mass(limit))
        .by(Source::new(
            Basis::Datasheet,
            "GVWR, certification label of the donor",
        ));
    report.add(finding);
}
