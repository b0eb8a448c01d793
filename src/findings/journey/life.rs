//! How many years until a fifth of the energy is gone?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "pack-life",
    title: "Life of the packs",
    question: "How many years until a fifth of the energy is gone?",
    method: "Rainflow counting of the day's state of charge, linear damage by depth, and loss by time.",
    source: "ASTM E1049-85, 5.4.4; cycle life of the part, depth exponent and loss by time are common practice",
    applies: "every drive",
    assumes: &[
        "250 days a year unless the plan says otherwise",
        "the packs are charged full once a day",
        "warmth of the start",
    ],
    run,
};

/// Years that packs are to last (common practice).
const LEAST_YEARS: f64 = 8.0;

fn run(journey: &Journey, report: &mut Report) {
    let years = journey.wear.years;
    let severity = if years < LEAST_YEARS {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text("The packs last ")
        .quantity(Measure::Years, years)
        .text(" at this duty until a fifth of the energy is gone; ")
        .quantity(Measure::Years, LEAST_YEARS)
        .text(" are usual.");
    report.add(Finding::new(severity, "packs", sentence).at_least(
        Amount::of(Measure::Years, years),
        Amount::of(Measure::Years, LEAST_YEARS),
    ));
}
