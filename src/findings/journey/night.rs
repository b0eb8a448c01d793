//! Are the packs full again in the time at the plug?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "charge-time",
    title: "Charging in the time at the plug",
    question: "Are the packs full again in the time at the plug?",
    method: "Constant current and then constant voltage from the charge at the end of the day, within plug, inlet and packs.",
    source: "voltage behind a resistance; limits of the plugs as their standards are described (memory)",
    applies: "trucks that are plugged in",
    assumes: &[
        "packs at the temperature of the start",
        "the whole time at the plug is used",
    ],
    run,
};

fn run(journey: &Journey, report: &mut Report) {
    match &journey.plugged {
        Err(missing) => report.not_assessed("plug", missing),
        Ok(plugged) => {
            let hours = plugged.hours * 3_600.0;
            let time = plugged.night.time_s;
            let severity = Severity::of_margin(Some(hours - time), 0.05 * hours);
            let sentence = Phrase::new()
                .text(format!(
                    "{} fills the packs from the day's end in ",
                    plugged.feed.by
                ))
                .quantity(Measure::Time, time)
                .text(", and from 10 to 80 % in ")
                .quantity(Measure::Time, plugged.quick.time_s)
                .text("; ")
                .quantity(Measure::Time, hours)
                .text(" are available.");
            report.add(Finding::new(severity, "plug", sentence).at_most(
                Amount::of(Measure::Time, time),
                Amount::of(Measure::Time, hours),
            ));
        }
    }
}
