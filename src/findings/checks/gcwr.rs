//! Are truck and trailer together within GCWR?

use super::group_load::finished;
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "gcwr",
    title: "Gross combination weight rating",
    question: "Are truck and trailer together within GCWR?",
    method: "Largest such mass over all cases of the finished truck, against the limit.",
    source: "rating of the chassis maker",
    applies: "when the limit is known",
    assumes: &["masses are estimates until the truck is weighed"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    if answers.vehicle.trailer.is_none() {
        return;
    }
    let Some(limit) = answers.vehicle.chassis.ratings.gcwr_kg else {
        report.not_assessed("combination", "the chassis file names no GCWR");
        return;
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
        .text("Truck and trailer weigh ")
        .mass(kg)
        .text(format!(" ({}), ", case.words()));
    let sentence = if over > 1e-6 {
        sentence.mass(over).text(" over the GCWR of ")
    } else {
        sentence.mass(-over).text(" under the GCWR of ")
    };
    let finding = Finding::new(severity, "combination", sentence.mass(limit).text("."))
        .at_most(Amount::mass(kg), Amount::mass(limit))
        .by(Source::new(Basis::Datasheet, "GCWR of the chassis maker"));
    report.add(finding);
}
