//! Is the short-time rating of the motors enough for the route?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "motor-power",
    title: "Peak and continuous power of the motors",
    question: "Is the short-time rating of the motors enough for the route?",
    method: "A budget of 30 seconds at peak torque, spent by torque squared above the continuous rating and given back below it; while it is spent, only the continuous rating is left.",
    source: "common practice: 30 seconds, heat with torque squared",
    applies: "every drive",
    assumes: &[
        "one budget for motor and inverter",
        "continuous torque below the base speed, continuous power above",
    ],
    run,
};

/// Share of the time with a spent budget before somebody should look (common practice).
const LOOK: f64 = 0.02;

fn run(journey: &Journey, report: &mut Report) {
    let run = &journey.run;
    let drive = &journey.truck.drive;
    let (left, spent_s) = run.drive_peak;
    let share = spent_s / run.time_s.max(1.0);
    let severity = if share > LOOK {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text("The motors give up to ")
        .quantity(Measure::Power, run.motor_most_w)
        .text(" together, made for ")
        .quantity(Measure::Power, drive.count * drive.continuous_w)
        .text(" continuous and ")
        .quantity(Measure::Power, drive.count * drive.peak_w)
        .text(" peak; of their short-time budget ")
        .share(left)
        .text(" is left at the least, and it is spent for ")
        .quantity(Measure::Time, spent_s)
        .text(".");
    report.add(
        Finding::new(severity, "motors", sentence)
            .at_most(Amount::share(share), Amount::share(LOOK)),
    );
}
