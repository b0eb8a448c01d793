//! How much energy is left at the end of the day?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "reserve",
    title: "Energy reserve",
    question: "How much energy is left at the end of the day?",
    method: "Energy above the lowest state of charge at the end, held against the share of the usable energy that is to be kept.",
    source: "common practice: 10 to 20 % of the usable energy",
    applies: "drives without a source that refills the packs",
    assumes: &[
        "energy between the states of charge in use, at the plan's state of health",
        "in the cold a part of it cannot be drawn (common practice, by chemistry), at the temperature that the packs have at the end",
    ],
    run,
};

fn run(journey: &Journey, report: &mut Report) {
    let bank = &journey.truck.bank;
    let usable = bank.usable_at_j(journey.run.pack_end_c);
    let wanted = usable * journey.reserve;
    let left = journey.left_j();
    let severity = if left < 0.0 {
        Severity::Fails
    } else {
        Severity::of_margin(Some(left - wanted), 0.05 * wanted)
    };
    let sentence = Phrase::new()
        .quantity(Measure::Energy, left)
        .text(" of ")
        .quantity(Measure::Energy, usable)
        .text(" usable are left at the end of the day; ")
        .quantity(Measure::Energy, wanted)
        .text(" are to be kept.");
    report.add(Finding::new(severity, "packs", sentence).at_least(
        Amount::of(Measure::Energy, left),
        Amount::of(Measure::Energy, wanted),
    ));
}
