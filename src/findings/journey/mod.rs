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

use super::Check;
use crate::assessment::Journey;

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
