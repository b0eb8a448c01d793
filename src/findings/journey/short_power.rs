//! Is there enough power to drive as fast as is wanted?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "power-short",
    title: "Power on the route",
    question: "Is there enough power to drive as fast as is wanted?",
    method: "Time in which motor, packs or grip gave less than was wanted, held against a twentieth of the driving time; the slowest speed on the way is named.",
    source: "common practice: a few per cent on climbs are usual",
    applies: "every drive",
    assumes: &[
        "peak torque and power for 30 seconds, then the continuous rating (common practice)",
    ],
    run,
};

/// Share of the time for which power may be short before somebody should look (common practice).
const LOOK: f64 = 0.05;

fn run(journey: &Journey, report: &mut Report) {
    let run = &journey.run;
    let share = run.short_s / run.time_s.max(1.0);
    let severity = if share > LOOK {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let mut sentence = Phrase::new()
        .text("Power was short for ")
        .share(share)
        .text(" of the time");
    if let Some((slow, at)) = run.slowest {
        sentence = sentence
            .text("; speed fell to ")
            .quantity(Measure::RoadSpeed, slow)
            .text(" at ")
            .quantity(Measure::Way, at);
    }
    report.add(
        Finding::new(severity, "drive", sentence.text("."))
            .at_most(Amount::share(share), Amount::share(LOOK)),
    );
}
