//! Does the kingpin press on the fifth wheel with more than its rating?

use super::group_load::finished;
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "fifth-wheel-load",
    title: "Fifth-wheel load",
    question: "Does the kingpin press on the fifth wheel with more than its rating?",
    method: "Largest such mass over all cases of the finished truck, against the limit.",
    source: "rating of the fifth-wheel maker",
    applies: "when the limit is known",
    assumes: &["masses are estimates until the truck is weighed"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let Some(fw) = &answers.vehicle.chassis.fifth_wheel else {
        return;
    };
    if answers.vehicle.trailer.is_none() {
        report.not_assessed("fifth wheel", "no trailer is coupled");
        return;
    }
    let limit = fw.rating_kg;
    let heaviest = finished(answers)
        .filter_map(|c| c.kingpin_kg.map(|kg| (c.case, kg)))
        .reduce(|a, b| if b.1 > a.1 { b } else { a });
    let Some((case, kg)) = heaviest else { return };
    let over = kg - limit;
    let severity = if over > 1e-6 {
        Severity::Fails
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text("The kingpin load is ")
        .mass(kg)
        .text(format!(" ({}), ", case.words()));
    let sentence = if over > 1e-6 {
        sentence.mass(over).text(" over the rating of ")
    } else {
        sentence.mass(-over).text(" under the rating of ")
    };
    let finding = Finding::new(severity, "fifth wheel", sentence.mass(limit).text("."))
        .at_most(Amount::mass(kg), Amount::mass(limit))
        .by(Source::new(Basis::Datasheet, "rating of the fifth wheel"));
    report.add(finding);
}
