//! Does the cable of the charging post come to the inlet?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "charge-reach",
    title: "Inlet and charging bay",
    question: "Does the cable of the charging post come to the inlet?",
    method: "The shortest way from post to inlet, straight or around the front of the truck, with 15 % for hanging and bending, against the cable's reach.",
    source: "common practice",
    applies: "plans that state the bay",
    assumes: &[
        "the truck stands as it is charged; behind it stands its trailer, or nothing may be laid",
        "a cable does not go over or under the truck",
    ],
    run,
};

/// A cable that is this much longer than needed is enough without a thought, mm (common practice).
const EASY_MM: f64 = 300.0;

fn run(journey: &Journey, report: &mut Report) {
    let cables = match &journey.cables {
        Ok(cables) => cables,
        Err(missing) => return report.not_assessed("bay", missing),
    };
    for cable in cables {
        let margin = cable.reach_mm - cable.needed_mm;
        let severity = Severity::of_margin(Some(margin), EASY_MM);
        let way = if cable.around {
            ", around the front of the truck"
        } else {
            ""
        };
        let sentence = Phrase::new()
            .text(format!("{} needs ", cable.tag))
            .length(cable.needed_mm)
            .text(format!(" of cable{way}; the post has "))
            .length(cable.reach_mm)
            .text(". The inlet's middle is ")
            .length(cable.height_mm)
            .text(" above ground.");
        report.add(
            Finding::new(severity, format!("inlet {}", cable.tag), sentence)
                .at_most(
                    Amount::length(cable.needed_mm),
                    Amount::length(cable.reach_mm),
                )
                .about([cable.tag.as_str()]),
        );
    }
}
