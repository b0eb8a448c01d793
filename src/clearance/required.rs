//! How much room two things ask of each other: the larger of the two sides' demands.

use crate::geometry::{Aabb, Point, Separation};
use crate::part::Sides;
use crate::vehicle::Item;

/// A clearance and why it is asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked {
    /// How much.
    pub mm: f64,
    /// Why, in a few words.
    pub why: String,
}

impl Asked {
    pub(super) fn new(mm: f64, why: impl Into<String>) -> Self {
        Self {
            mm,
            why: why.into(),
        }
    }
}

/// What a part asks on the side that faces a direction.
#[must_use]
pub fn side_towards(sides: &Sides, towards: Point) -> f64 {
    let (x, y, z) = (towards.x.abs(), towards.y.abs(), towards.z.abs());
    let named = if x >= y && x >= z {
        if towards.x < 0.0 {
            sides.front_mm
        } else {
            sides.rear_mm
        }
    } else if y >= z {
        if towards.y < 0.0 {
            sides.left_mm
        } else {
            sides.right_mm
        }
    } else if towards.z < 0.0 {
        sides.bottom_mm
    } else {
        sides.top_mm
    };
    named.unwrap_or(sides.all_mm)
}

/// Direction from the first to the second: along the gap, or along the shallowest overlap.
fn direction(a: &Aabb, b: &Aabb, s: &Separation) -> Point {
    let along = s.on_second - s.on_first;
    if s.distance_mm > 1e-6 && along.length() > 1e-9 {
        return along;
    }
    let between = b.centre() - a.centre();
    let overlap = |amin: f64, amax: f64, bmin: f64, bmax: f64| (amax - bmin).min(bmax - amin);
    let x = overlap(a.min.x, a.max.x, b.min.x, b.max.x);
    let y = overlap(a.min.y, a.max.y, b.min.y, b.max.y);
    let z = overlap(a.min.z, a.max.z, b.min.z, b.max.z);
    if x <= y && x <= z {
        Point::new(between.x, 0.0, 0.0)
    } else if y <= z {
        Point::new(0.0, between.y, 0.0)
    } else {
        Point::new(0.0, 0.0, between.z)
    }
}

/// Most that a part asks of anything: the reach of the broad phase.
pub(super) fn most_asked(item: &Item) -> f64 {
    let s = &item.clearance;
    [
        s.front_mm,
        s.rear_mm,
        s.left_mm,
        s.right_mm,
        s.top_mm,
        s.bottom_mm,
    ]
    .into_iter()
    .flatten()
    .chain(item.part.keep_away.iter().map(|rule| rule.mm))
    .fold(s.all_mm, f64::max)
}

/// What two parts ask of each other.
pub(super) fn between_parts(a: &Item, b: &Item, s: &Separation) -> Asked {
    let towards = direction(&a.bounds, &b.bounds, s);
    let mut asked = Asked::new(
        side_towards(&a.clearance, towards),
        format!("asked by {}", a.tag),
    );
    let back = side_towards(&b.clearance, towards * -1.0);
    if back > asked.mm {
        asked = Asked::new(back, format!("asked by {}", b.tag));
    }
    for (one, other) in [(a, b), (b, a)] {
        for rule in one
            .part
            .keep_away
            .iter()
            .filter(|rule| rule.kind == other.part.kind)
        {
            if rule.mm > asked.mm {
                asked = Asked::new(rule.mm, rule.why.clone());
            }
        }
    }
    asked
}

/// What a part and a fixed thing ask of each other.
pub(super) fn between_part_and_body(a: &Item, body: &Aabb, mm: f64, s: &Separation) -> Asked {
    let own = side_towards(&a.clearance, direction(&a.bounds, body, s));
    if own > mm {
        Asked::new(own, format!("asked by {}", a.tag))
    } else {
        Asked::new(mm, "asked by the chassis")
    }
}
