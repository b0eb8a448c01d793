//! Is the truck allowed and able to carry the heaviest load of the day?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Report, Severity, payload_possible};
use crate::quantity::Measure;
use crate::source::Source;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "load-on-the-way",
    title: "Load on the way",
    question: "Is the heaviest load of the day one that axles, tyres, ratings and the road law can take?",
    method: "The plan's load and what each stop puts on or takes off, summed from stop to stop through all trips of the day; the most of it against the payload that is possible by the limits of axles, groups, gross weight and road law.",
    source: "the limits named, as for the payload",
    applies: "drives with a load aboard",
    assumes: &[
        "load that a stop puts on lies where the plan's payload lies, and is taken off from there",
        "limits as at the start of the way: tanks as planned, driver aboard",
    ],
    run,
};

fn run(journey: &Journey, report: &mut Report) {
    let aboard = &journey.aboard;
    if aboard.most_kg <= 0.0 {
        return;
    }
    let capacity = match &journey.answers.capacity {
        Ok(capacity) => capacity,
        Err(missing) => return report.not_assessed("load", missing),
    };
    if capacity.rows.is_empty() && capacity.passed.is_empty() {
        return report.not_assessed("load", "no limit is known");
    }
    let possible_kg = capacity.payload_kg();
    let severity = if aboard.most_kg > possible_kg + 0.5 {
        Severity::Fails
    } else {
        Severity::Holds
    };
    let sentence = payload_possible(capacity)
        .text("; the most that is carried is ")
        .mass(aboard.most_kg);
    let sentence = match aboard.most_from_m {
        None => sentence.text(", from the start."),
        Some(from_m) => sentence
            .text(", from the stop at ")
            .quantity(Measure::Way, from_m)
            .text(" on (at the start ")
            .mass(aboard.start_kg)
            .text(")."),
    };
    report.add(
        Finding::new(severity, "load", sentence)
            .at_most(Amount::mass(aboard.most_kg), Amount::mass(possible_kg))
            .by(Source::common_practice()),
    );
}
