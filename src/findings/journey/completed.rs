//! Does the truck reach the end of the route?

use crate::assessment::Journey;
use crate::energy::End;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "route-completed",
    title: "Route completed",
    question: "Does the truck reach the end of the route?",
    method: "The route is driven in time steps; the truck slows down where power is short and stops where the packs are empty or a grade is too steep.",
    source: "balance of forces and energy; resistances as the chassis or the plan states them",
    applies: "every drive",
    assumes: &[
        "one mass on one point of the road",
        "static axle loads limit the grip",
        "driver: 0.8 m/s² and 0.6 m/s² of braking (common practice)",
    ],
    run,
};

fn run(journey: &Journey, report: &mut Report) {
    let run = &journey.run;
    let sentence = Phrase::new()
        .text("It drives ")
        .quantity(Measure::Way, run.distance_m);
    let (severity, sentence) = match &run.end {
        End::Finished => (
            Severity::Holds,
            sentence
                .text(" in ")
                .quantity(Measure::Time, run.time_s)
                .text(" and reaches the end of the route."),
        ),
        End::Stranded { why } => (
            Severity::Fails,
            sentence
                .text(" of ")
                .quantity(Measure::Way, run.route_m)
                .text(format!(" and stays there: {why}.")),
        ),
        End::Cancelled => (
            Severity::NotAssessed,
            Phrase::new().text("Not assessed: the computation was stopped."),
        ),
    };
    report.add(
        Finding::new(severity, "route", sentence)
            .at_least(
                Amount::of(Measure::Way, run.distance_m),
                Amount::of(Measure::Way, run.route_m),
            )
            .by(journey.resistance.2.clone()),
    );
}
