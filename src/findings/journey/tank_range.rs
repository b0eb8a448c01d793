//! Do tanks and packs last for the day?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "tank-range",
    title: "Range on fuel and packs",
    question: "Do tanks and packs last for the day?",
    method: "Usable fuel times the source's efficiency at three quarters of its power, and the packs with the reserve kept, over the energy of a metre; against the way of the day.",
    source: "balance of energy",
    applies: "trucks with a generator or fuel cell",
    assumes: &[
        "the source has the power that the average asks for (a check of its own)",
        "efficiency at three quarters of full power",
    ],
    run,
};

fn run(journey: &Journey, report: &mut Report) {
    let truck = &journey.truck;
    if truck.source.is_none() {
        return;
    }
    if truck.tanks.is_empty() {
        report.not_assessed(
            "tanks",
            "no tank with the fuel of the source is on the truck",
        );
        return;
    }
    let (range, day) = (journey.range_m, journey.run.route_m);
    let severity = Severity::of_margin(Some(range - day), 0.1 * day);
    let sentence = Phrase::new()
        .quantity(Measure::Way, range)
        .text(" on ")
        .mass(truck.fuel_kg)
        .text(" of usable fuel and the packs; the day has ")
        .quantity(Measure::Way, day)
        .text(".");
    report.add(
        Finding::new(severity, "tanks", sentence)
            .at_least(
                Amount::of(Measure::Way, range),
                Amount::of(Measure::Way, day),
            )
            .about(truck.tanks.iter().map(|(tag, _)| tag.as_str())),
    );
}
