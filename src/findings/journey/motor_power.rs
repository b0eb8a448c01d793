//! Is the short-time rating of the motors enough for the route?

use super::short_time;
use crate::assessment::Journey;
use crate::findings::{Check, Phrase, Report};
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

fn run(journey: &Journey, report: &mut Report) {
    let run = &journey.run;
    let drive = &journey.truck.drive;
    let made_for = Phrase::new()
        .text("The motors give up to ")
        .quantity(Measure::Power, run.motor_most_w)
        .text(" together, made for ")
        .quantity(Measure::Power, drive.count * drive.continuous_w)
        .text(" continuous and ")
        .quantity(Measure::Power, drive.count * drive.peak_w)
        .text(" peak");
    short_time(journey, "motors", run.drive_peak, made_for, report);
}
