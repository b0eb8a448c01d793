//! Numbers of a plan that may be left out: one row of a list for each, from which come its field on the
//! page and the edit of what was typed into it.

use super::fields::Field;
use crate::plan::Refusal;
use crate::quantity::{Measure, Units};

/// One number: its id behind the list's prefix, its name, what it measures, its range, what an empty field
/// stands for, and where it stands.
pub(super) struct Entry<T> {
    pub id: &'static str,
    pub label: &'static str,
    pub measure: Measure,
    pub range: [f64; 2],
    pub empty: Empty,
    pub of: fn(&mut T) -> &mut Option<f64>,
}

/// What an empty field stands for.
#[derive(Clone, Copy)]
pub(super) enum Empty {
    /// A usual value, in the measure's inside unit.
    Usual(f64),
    /// A value that is usual, between words.
    Told(&'static str, f64, &'static str),
    /// As told in words.
    Words(&'static str),
}

impl<T> Entry<T> {
    /// Its field as it stands in `own`.
    pub fn field(&self, prefix: &str, own: &mut T, units: Units) -> Field {
        let hint = match self.empty {
            Empty::Usual(usual) => format!("empty: {}", self.measure.text(usual, units)),
            Empty::Told(before, usual, after) => {
                let usual = self.measure.text(usual, units);
                format!("empty: {before}{usual}{after}")
            }
            Empty::Words(words) => format!("empty: {words}"),
        };
        let id = format!("{prefix}.{}", self.id);
        let [low, high] = self.range;
        Field::number(&id, self.label, self.measure, *(self.of)(own), units)
            .within(self.measure, low, high, units)
            .hinting(hint)
    }
}

/// Sets what was typed into a field of a list; `None` where the list has no such field.
pub(super) fn set<T>(
    entries: &[Entry<T>],
    own: &mut T,
    field: &str,
    typed: &str,
    read: &dyn Fn(Measure) -> Result<f64, Refusal>,
) -> Option<Result<(), Refusal>> {
    let entry = entries.iter().find(|e| e.id == field)?;
    let value = match typed {
        "" => Ok(None),
        _ => read(entry.measure).map(Some),
    };
    Some(value.map(|value| *(entry.of)(own) = value))
}

/// A row of such a list whose id is the name of the plan's own field.
macro_rules! entry {
    ($of:ident, $field:ident, $label:literal, $measure:ident, $range:expr, $empty:expr) => {
        $crate::web::entries::Entry {
            id: stringify!($field),
            label: $label,
            measure: $crate::quantity::Measure::$measure,
            range: $range,
            empty: $empty,
            of: |own: &mut $of| &mut own.$field,
        }
    };
}
pub(super) use entry;
