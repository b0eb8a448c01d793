//! Does any part make the truck wider than it may be?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "overall-width",
    title: "Overall width",
    question: "Does any part make the truck wider than it may be?",
    method: "Twice the farthest distance of each part from the middle, against the width of the road law, else of the chassis.",
    source: "the road law named in the plan, else the width of the donor",
    applies: "hard parts",
    assumes: &["truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let parts = &answers.clearances.extents.width;
    let law = answers.vehicle.law.as_ref();
    let by_law = law.and_then(|law| Some((law.sizes.width.mm()?, law.source_of(&law.sizes.width))));
    let (limit, source) = match by_law {
        Some((mm, source)) => (mm, source.clone()),
        None => (
            answers.vehicle.chassis.dimensions.overall_width_mm,
            answers.vehicle.chassis.source.clone(),
        ),
    };
    let Some(widest) = parts.iter().reduce(|a, b| if b.mm > a.mm { b } else { a }) else {
        return;
    };
    for reach in parts
        .iter()
        .filter(|r| r.mm > limit + 0.5 || r.tag == widest.tag)
    {
        let severity = if reach.mm > limit + 0.5 {
            Severity::Fails
        } else {
            Severity::Holds
        };
        let sentence = Phrase::new()
            .text(format!("With {} the truck is ", reach.tag))
            .length(reach.mm)
            .text(" wide; ")
            .length(limit)
            .text(" is allowed.");
        let finding = Finding::new(severity, reach.tag.clone(), sentence)
            .at_most(Amount::length(reach.mm), Amount::length(limit))
            .by(source.clone())
            .about([reach.tag.clone()]);
        report.add(finding);
    }
}
