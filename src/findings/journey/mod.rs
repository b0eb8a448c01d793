//! Checks of a drive, one file each.

mod cable_reach;
mod completed;
mod drive_heat;
mod grade_speed;
mod launch;
mod life;
mod load;
mod motor_power;
mod night;
mod on_way;
mod pack_power;
mod reserve;
mod short_power;
mod source_heat;
mod source_power;
mod tank_mass;
mod tank_range;
mod traction;
mod voltage;

use super::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::assessment::Journey;
use crate::quantity::Measure;

/// Share of the time with a spent budget before somebody should look (common practice).
const SPENT: f64 = 0.02;

/// Every check of a drive, in the order of findings that are equally bad.
pub static JOURNEY_CHECKS: &[&Check<Journey>] = &[
    &completed::CHECK,
    &load::CHECK,
    &reserve::CHECK,
    &short_power::CHECK,
    &motor_power::CHECK,
    &pack_power::CHECK,
    &traction::CHECK,
    &source_power::CHECK,
    &tank_range::CHECK,
    &tank_mass::CHECK,
    &source_heat::CHECK,
    &drive_heat::CHECK,
    &launch::CHECK,
    &grade_speed::CHECK,
    &life::CHECK,
    &on_way::CHECK,
    &night::CHECK,
    &cable_reach::CHECK,
    &voltage::CHECK,
];

/// Judges a short-time budget by how long it was spent; `made_for` begins the sentence with what is given
/// and what it is made for.
fn short_time(
    journey: &Journey,
    subject: &str,
    (left, spent_s): (f64, f64),
    made_for: Phrase,
    report: &mut Report,
) {
    let share = spent_s / journey.run.time_s.max(1.0);
    let severity = if share > SPENT {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let sentence = made_for
        .text("; of their short-time budget ")
        .share(left)
        .text(" is left at the least, and it is spent for ")
        .quantity(Measure::Time, spent_s)
        .text(".");
    report.add(
        Finding::new(severity, subject, sentence)
            .at_most(Amount::share(share), Amount::share(SPENT)),
    );
}
