//! How fast does it climb 6 % for ever?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "speed-on-grade",
    title: "Speed on 6 %",
    question: "How fast does it climb 6 % for ever?",
    method: "Pull and resistance meet: with the continuous ratings of motors and packs and the source at full power; the speed on peak power is told beside it.",
    source: "balance of forces; limit 40 km/h common practice",
    applies: "every drive",
    assumes: &["packs at half charge"],
    run,
};

/// Speed to be kept on 6 %, metre per second (common practice: 40 km/h).
const LEAST_MPS: f64 = 40.0 / 3.6;

fn run(journey: &Journey, report: &mut Report) {
    let (peak, lasting) = journey.grades.on_6;
    let (peak, lasting) = (peak.unwrap_or(0.0), lasting.unwrap_or(0.0));
    let severity = Severity::of_margin(Some(lasting - LEAST_MPS), 0.5);
    let sentence = Phrase::new()
        .text("It holds ")
        .quantity(Measure::RoadSpeed, lasting)
        .text(" on 6 % on continuous power, ")
        .quantity(Measure::RoadSpeed, peak)
        .text(" on peak power; ")
        .quantity(Measure::RoadSpeed, LEAST_MPS)
        .text(" is usual.");
    report.add(Finding::new(severity, "grade", sentence).at_least(
        Amount::of(Measure::RoadSpeed, lasting),
        Amount::of(Measure::RoadSpeed, LEAST_MPS),
    ));
}
