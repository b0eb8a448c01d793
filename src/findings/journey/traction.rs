//! Do the driven axles have the grip that the route asks for?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "traction",
    title: "Grip of the driven axles",
    question: "Do the driven axles have the grip that the route asks for?",
    method: "The largest force at the driven wheels, pulling or braking by motor, against the load that was worked out for these axles times the friction.",
    source: "friction 0.6, wet road: common practice",
    applies: "every drive",
    assumes: &["static axle loads; what a stop puts on or takes off is counted"],
    run,
};

fn run(journey: &Journey, report: &mut Report) {
    let run = &journey.run;
    let severity = if run.grip_short_s > 0.0 {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text("The route uses up to ")
        .share(run.grip_most)
        .text(" of the grip under ")
        .mass(journey.truck.driven_kg)
        .text(" on the driven axles; grip was short for ")
        .quantity(Measure::Time, run.grip_short_s)
        .text(".");
    report.add(
        Finding::new(severity, "driven axles", sentence)
            .at_most(Amount::share(run.grip_most), Amount::share(1.0)),
    );
}
