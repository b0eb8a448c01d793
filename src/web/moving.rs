//! Fields of the turn, the ramp and the bump; an empty field stands for what is usual.

use super::fields::Field;
use crate::plan::{Edit, Moving, Refusal};
use crate::quantity::{Measure, Units};

/// One field: its id behind `moving.`, its name, what it measures, its range, what is usual, and where it
/// stands.
struct Entry {
    id: &'static str,
    label: &'static str,
    measure: Measure,
    range: [f64; 2],
    usual: Option<f64>,
    of: fn(&mut Moving) -> &mut Option<f64>,
}

macro_rules! entry {
    ($field:ident, $label:literal, $measure:ident, $range:expr, $usual:expr) => {
        Entry {
            id: stringify!($field),
            label: $label,
            measure: Measure::$measure,
            range: $range,
            usual: $usual,
            of: |moving| &mut moving.$field,
        }
    };
}

const LEAST: Option<f64> = Some(Moving::LEAST_DEG);

static ENTRIES: [Entry; 11] = [
    entry!(
        turn_deg,
        "Turn drawn",
        Angle,
        [10.0, 360.0],
        Some(Moving::TURN_DEG)
    ),
    entry!(
        turn_outer_mm,
        "Turn within radius",
        Length,
        [3e3, 6e4],
        Some(Moving::OUTER_MM)
    ),
    entry!(
        turn_inner_mm,
        "Free inside of the turn",
        Length,
        [0.0, 6e4],
        None
    ),
    entry!(
        kerb_circle_mm,
        "Kerb circle at most",
        Length,
        [5e3, 1e5],
        None
    ),
    entry!(
        tail_swing_mm,
        "Tail swing at most",
        Length,
        [0.0, 5e3],
        Some(Moving::TAIL_SWING_MM)
    ),
    entry!(approach_deg, "Approach at least", Angle, [0.0, 60.0], LEAST),
    entry!(
        breakover_deg,
        "Breakover at least",
        Angle,
        [0.0, 90.0],
        LEAST
    ),
    entry!(
        departure_deg,
        "Departure at least",
        Angle,
        [0.0, 60.0],
        LEAST
    ),
    entry!(
        ramp_percent,
        "Ramp, percent",
        Count,
        [0.0, 50.0],
        Some(Moving::RAMP_PERCENT)
    ),
    entry!(
        bump_height_mm,
        "Bump, height",
        Length,
        [0.0, 1e3],
        Some(Moving::BUMP_HEIGHT_MM)
    ),
    entry!(
        bump_length_mm,
        "Bump, length",
        Length,
        [50.0, 5e4],
        Some(Moving::BUMP_LENGTH_MM)
    ),
];

/// The fields as they stand.
pub(super) fn fields(moving: &Moving, units: Units) -> Vec<Field> {
    let mut own = moving.clone();
    let mut fields: Vec<Field> = ENTRIES
        .iter()
        .map(|e| {
            let id = format!("moving.{}", e.id);
            let hint = e.usual.map_or_else(
                || "empty: held against nothing".to_owned(),
                |usual| format!("empty: {}", e.measure.text(usual, units)),
            );
            Field::number(&id, e.label, e.measure, *(e.of)(&mut own), units)
                .within(e.measure, e.range[0], e.range[1], units)
                .hinting(hint)
        })
        .collect();
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
    let entry = ENTRIES.iter().find(|e| e.id == field)?;
    let value = if typed.is_empty() {
        None
    } else {
        match read(entry.measure) {
            Ok(value) => Some(value),
            Err(refusal) => return Some(Err(refusal)),
        }
    };
    *(entry.of)(&mut moving) = value;
    Some(Ok(Edit::Moving(Box::new(moving))))
}
