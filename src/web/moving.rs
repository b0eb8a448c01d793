//! Fields of the turn, the ramp and the bump; an empty field stands for what is usual.

use super::entries::{Empty, Entry, entry, set};
use super::fields::Field;
use crate::plan::{Edit, Moving, Refusal};
use crate::quantity::{Measure, Units};

const LEAST: Empty = Empty::Usual(Moving::LEAST_DEG);
const NOTHING: Empty = Empty::Words("held against nothing");

static ENTRIES: [Entry<Moving>; 11] = [
    entry!(
        Moving,
        turn_deg,
        "Turn drawn",
        Angle,
        [10.0, 360.0],
        Empty::Usual(Moving::TURN_DEG)
    ),
    entry!(
        Moving,
        turn_outer_mm,
        "Turn within radius",
        Length,
        [3e3, 6e4],
        Empty::Usual(Moving::OUTER_MM)
    ),
    entry!(
        Moving,
        turn_inner_mm,
        "Free inside of the turn",
        Length,
        [0.0, 6e4],
        NOTHING
    ),
    entry!(
        Moving,
        kerb_circle_mm,
        "Kerb circle at most",
        Length,
        [5e3, 1e5],
        NOTHING
    ),
    entry!(
        Moving,
        tail_swing_mm,
        "Tail swing at most",
        Length,
        [0.0, 5e3],
        Empty::Usual(Moving::TAIL_SWING_MM)
    ),
    entry!(
        Moving,
        approach_deg,
        "Approach at least",
        Angle,
        [0.0, 60.0],
        LEAST
    ),
    entry!(
        Moving,
        breakover_deg,
        "Breakover at least",
        Angle,
        [0.0, 90.0],
        LEAST
    ),
    entry!(
        Moving,
        departure_deg,
        "Departure at least",
        Angle,
        [0.0, 60.0],
        LEAST
    ),
    entry!(
        Moving,
        ramp_percent,
        "Ramp, percent",
        Count,
        [0.0, 50.0],
        Empty::Usual(Moving::RAMP_PERCENT)
    ),
    entry!(
        Moving,
        bump_height_mm,
        "Bump, height",
        Length,
        [0.0, 1e3],
        Empty::Usual(Moving::BUMP_HEIGHT_MM)
    ),
    entry!(
        Moving,
        bump_length_mm,
        "Bump, length",
        Length,
        [50.0, 5e4],
        Empty::Usual(Moving::BUMP_LENGTH_MM)
    ),
];

/// The fields as they stand.
pub(super) fn fields(moving: &Moving, units: Units) -> Vec<Field> {
    let mut own = moving.clone();
    let all = ENTRIES.iter().map(|e| e.field("moving", &mut own, units));
    let mut fields: Vec<Field> = all.collect();
    fields.push(Field::switch(
        "moving.left",
        "Turn to the left",
        moving.turn_left,
    ));
    fields
}

/// The edit that a field behind `moving.` and a text stand for.
pub(super) fn edit(
    moving: &Moving,
    field: &str,
    typed: &str,
    read: &dyn Fn(Measure) -> Result<f64, Refusal>,
) -> Option<Result<Edit, Refusal>> {
    let mut moving = moving.clone();
    if field == "left" {
        moving.turn_left = typed == "on";
        return Some(Ok(Edit::Moving(Box::new(moving))));
    }
    let set = set(&ENTRIES, &mut moving, field, typed, read)?;
    Some(set.map(|()| Edit::Moving(Box::new(moving))))
}
