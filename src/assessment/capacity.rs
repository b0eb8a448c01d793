//! How much payload is possible, and what stops it.

use super::bounds::{Bounds, LIFTS_OFF};
use crate::numeric::sort_by;

/// Payload at which one limit is reached.
#[derive(Clone, Debug, PartialEq)]
pub struct CapacityRow {
    /// What is limited, in words.
    pub name: String,
    /// Which of its limits governs, in words.
    pub by: &'static str,
    /// The limit, kg.
    pub limit_kg: f64,
    /// Payload at which it is reached, kg; negative when it is passed already without payload.
    pub payload_kg: f64,
}

/// A limit that is passed without any payload.
#[derive(Clone, Debug, PartialEq)]
pub struct Passed {
    /// What is limited, in words.
    pub name: String,
    /// What sets the limit, in words.
    pub by: &'static str,
    /// The limit, kg.
    pub limit_kg: f64,
    /// By how much it is passed, kg.
    pub over_kg: f64,
}

/// Payload capacity.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Capacity {
    /// Every limit that payload brings nearer, smallest payload first.
    pub rows: Vec<CapacityRow>,
    /// Every limit that is passed without any payload, farthest first: none is possible then, whether
    /// or not payload brings that limit nearer.
    pub passed: Vec<Passed>,
}

impl Capacity {
    /// The limit that governs.
    #[must_use]
    pub fn governing(&self) -> Option<&CapacityRow> {
        self.rows.first()
    }

    /// Largest payload, kg; 0 when a limit is passed without any.
    #[must_use]
    pub fn payload_kg(&self) -> f64 {
        if !self.passed.is_empty() {
            return 0.0;
        }
        self.governing().map_or(0.0, |row| row.payload_kg.max(0.0))
    }
}

/// Works out the payload at every limit. Of the groups of axles that payload fills, the first stands for
/// all: the others would only make the list long, and every one that is over is a finding of its own.
///
/// # Errors
/// A group that would lift off the road without payload: no load can then be trusted.
pub fn capacity(bounds: &Bounds<'_>) -> Result<Capacity, String> {
    let stand = bounds.as_planned();
    let mut found = Capacity::default();
    let mut group: Option<CapacityRow> = None;
    for bound in bounds.list.iter().filter(|b| b.under_payload) {
        let held = Bounds::group_held(bound);
        if held == Some(true) {
            continue;
        }
        let (base, share) = bound.trend.under(0.0, 0.0, &stand.split);
        let limit_kg = bounds.limit(bound, &stand);
        let over_kg = base - limit_kg;
        if over_kg > 1e-6 {
            if bound.by == LIFTS_OFF {
                let name = &bound.name;
                return Err(format!(
                    "the {name} would lift off the road without payload"
                ));
            }
            found.passed.push(Passed {
                name: bound.name.to_string(),
                by: bound.by,
                limit_kg,
                over_kg,
            });
        }
        if share <= 1e-9 || !limit_kg.is_finite() {
            continue;
        }
        let row = CapacityRow {
            name: bound.name.to_string(),
            by: bound.by,
            limit_kg,
            payload_kg: -over_kg / share,
        };
        if held.is_none() {
            found.rows.push(row);
        } else if group.as_ref().is_none_or(|g| row.payload_kg < g.payload_kg) {
            group = Some(row);
        }
    }
    found.rows.extend(group);
    sort_by(&mut found.rows, |a, b| {
        a.payload_kg.total_cmp(&b.payload_kg)
    });
    sort_by(&mut found.passed, |a, b| b.over_kg.total_cmp(&a.over_kg));
    Ok(found)
}
