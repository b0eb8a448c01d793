//! Does a tank stand ahead of the front axle?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "gas-ahead-of-axle",
    title: "Gas ahead of the front axle",
    question: "Does a tank stand ahead of the front axle?",
    method: "Foremost point of each part that must stay behind the front axle.",
    source: "common practice; California 13 CCR on fuel tanks says so for liquid fuel (read in an excerpt)",
    applies: "parts marked so in the catalogue",
    assumes: &["truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    for reach in answers
        .clearances
        .extents
        .ahead_of_axle
        .iter()
        .filter(|r| r.mm > 0.05)
    {
        let sentence = Phrase::new()
            .text(format!("{} reaches ", reach.tag))
            .length(reach.mm)
            .text(" ahead of the front axle, into the crash zone.");
        let finding = Finding::new(Severity::Fails, reach.tag.clone(), sentence)
            .at_most(Amount::length(reach.mm), Amount::length(0.0))
            .about([reach.tag.clone()]);
        report.add(finding);
    }
}
