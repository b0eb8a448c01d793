//! On which grade does it start?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "launch-grade",
    title: "Starting on a grade",
    question: "On which grade does it start?",
    method: "sin θ + Crr cos θ = F / m g with the most pull at a standstill, lowest gear, held to the grip of the driven axles.",
    source: "balance of forces; limit 15 % common practice",
    applies: "every drive",
    assumes: &["grip 0.6 on the driven axles' static load (common practice)"],
    run,
};

/// Grade on which a laden truck is to start (common practice).
const LEAST: f64 = 0.15;

fn run(journey: &Journey, report: &mut Report) {
    let grades = &journey.grades;
    let launch = grades.launch.unwrap_or(0.0);
    let severity = Severity::of_margin(Some((launch - LEAST) * 1e3), 5.0);
    let by = if grades.launch_n >= grades.grip_n * (1.0 - 1e-9) {
        "the grip of the driven axles"
    } else {
        "the torque of the drive"
    };
    let sentence = Phrase::new()
        .text("It pulls away on ")
        .share(launch)
        .text(format!(", limited by {by}; "))
        .share(LEAST)
        .text(" is usual.");
    report.add(
        Finding::new(severity, "launch", sentence)
            .at_least(Amount::share(launch), Amount::share(LEAST)),
    );
}
