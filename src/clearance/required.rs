//! How much room two things ask of each other: the larger of the two sides' demands.

use crate::geometry::{Aabb, Point, Separation};
use crate::part::Sides;
use crate::vehicle::Item;

/// A clearance and why it is asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Asked<'a> {
    /// How much.
    pub mm: f64,
    by_tag: bool,
    words: &'a str,
}

impl<'a> Asked<'a> {
    pub const fn new(mm: f64, words: &'a str) -> Self {
        Self {
            mm,
            by_tag: false,
            words,
        }
    }

    const fn by(mm: f64, tag: &'a str) -> Self {
        Self {
            mm,
            by_tag: true,
            words: tag,
        }
    }

    /// Why, in a few words.
    pub fn why(self) -> String {
        if self.by_tag {
            format!("asked by {}", self.words)
        } else {
            self.words.to_owned()
        }
    }

    /// The larger of two demands; of equals, this one.
    pub fn or(self, other: Self) -> Self {
        if other.mm > self.mm { other } else { self }
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
pub(super) fn direction(a: &Aabb, b: &Aabb, s: &Separation) -> Point {
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

/// The six sides, where they are named.
const fn named(s: &Sides) -> [Option<f64>; 6] {
    [
        s.front_mm,
        s.rear_mm,
        s.left_mm,
        s.right_mm,
        s.top_mm,
        s.bottom_mm,
    ]
}

/// Whether a part asks the same on every side.
pub(super) fn is_even(item: &Item) -> bool {
    let s = &item.clearance;
    named(s).into_iter().flatten().all(|mm| mm == s.all_mm)
}

/// Most that a part asks on any side.
pub(super) fn most_on_sides(item: &Item) -> f64 {
    let sides = named(&item.clearance).into_iter().flatten();
    sides.fold(item.clearance.all_mm, f64::max)
}

/// Most that a part asks of another part: the reach of the broad phase.
pub(super) fn most_asked(item: &Item) -> f64 {
    let rules = item.part.keep_away.iter().map(|rule| rule.mm);
    rules.fold(most_on_sides(item), f64::max)
}

/// What two parts ask of each other when the second lies in this direction.
pub(super) fn between_parts<'a>(a: &'a Item, b: &'a Item, towards: Point) -> Asked<'a> {
    let mut asked = Asked::by(side_towards(&a.clearance, towards), &a.tag).or(Asked::by(
        side_towards(&b.clearance, towards * -1.0),
        &b.tag,
    ));
    for (one, other) in [(a, b), (b, a)] {
        let rules = one.part.keep_away.iter();
        for rule in rules.filter(|rule| rule.kind == other.part.kind) {
            asked = asked.or(Asked::new(rule.mm, &rule.why));
        }
    }
    asked
}

/// The larger of what is asked of a part and what the part itself asks in this direction.
pub(super) fn or_own<'a>(asked: Asked<'a>, item: &'a Item, towards: Point) -> Asked<'a> {
    asked.or(Asked::by(side_towards(&item.clearance, towards), &item.tag))
}
