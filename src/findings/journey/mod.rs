//! Checks of a drive, one file each.

mod completed;
mod drive_heat;
mod grade_speed;
mod launch;
mod life;
mod night;
mod reserve;
mod short_power;
mod source_heat;
mod source_power;
mod voltage;

use super::Check;
use crate::assessment::Journey;

/// Every check of a drive, in the order of findings that are equally bad.
pub static JOURNEY_CHECKS: &[&Check<Journey>] = &[
    &completed::CHECK,
    &reserve::CHECK,
    &short_power::CHECK,
    &source_power::CHECK,
    &source_heat::CHECK,
    &drive_heat::CHECK,
    &launch::CHECK,
    &grade_speed::CHECK,
    &life::CHECK,
    &night::CHECK,
    &voltage::CHECK,
];
