//! Does heat take power away from motors and inverters?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "drive-heat",
    title: "Cooling of motors and inverters",
    question: "Does heat take power away from motors and inverters?",
    method: "Coolant temperature over the route from the losses in motors, inverters and gears; above 65 °C power is taken back over 5 K.",
    source: "common practice: coolant at 65 °C at the most",
    applies: "every drive",
    assumes: &[
        "one thermal mass",
        "without a source the whole of each radiator serves motors and inverters, else a quarter",
    ],
    run,
};

/// Hottest coolant of motors and inverters, °C (common practice).
const LIMIT_C: f64 = 65.0;

fn run(journey: &Journey, report: &mut Report) {
    if let Err(missing) = &journey.truck.cooling {
        report.not_assessed("drive", missing);
        return;
    }
    let run = &journey.run;
    let severity = if run.drive_hot_s > 0.02 * run.time_s {
        Severity::Fails
    } else if run.drive_hot_s > 0.0 {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text("The coolant of motors and inverters reaches ")
        .quantity(Measure::Temperature, run.drive_most_c)
        .text(".");
    report.add(Finding::new(severity, "drive", sentence).at_most(
        Amount::of(Measure::Temperature, run.drive_most_c),
        Amount::of(Measure::Temperature, LIMIT_C),
    ));
}
