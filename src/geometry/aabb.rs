//! Boxes along the axes, as bodies and as the bounds of other bodies.

use super::{FARTHEST_MM, Point};

/// A box along the axes, mm. Zero thickness is allowed.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Aabb {
    /// Corner in front, left and below.
    pub min: Point,
    /// Corner behind, right and above.
    pub max: Point,
}

/// How far one box sticks out of another on each side, mm, 0 where it does not.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Outset {
    /// Towards the front (smaller x), mm.
    pub front: f64,
    /// Towards the rear (larger x), mm.
    pub rear: f64,
    /// To the left (smaller y), mm.
    pub left: f64,
    /// To the right (larger y), mm.
    pub right: f64,
    /// Downward (smaller z), mm.
    pub below: f64,
    /// Upward (larger z), mm.
    pub above: f64,
}

impl Outset {
    /// The largest of the six, mm.
    #[must_use]
    pub fn largest(&self) -> f64 {
        [self.rear, self.left, self.right, self.below, self.above]
            .iter()
            .fold(self.front, |big, side| big.max(*side))
    }
}

impl Aabb {
    /// All the room there is: a thousand kilometres either way. The bounds of a body that may be
    /// anywhere.
    pub const EVERYWHERE: Self = Self {
        min: Point::new(-FARTHEST_MM, -FARTHEST_MM, -FARTHEST_MM),
        max: Point::new(FARTHEST_MM, FARTHEST_MM, FARTHEST_MM),
    };

    /// The box with these two opposite corners, in whichever order they come.
    #[must_use]
    pub fn new(corner: Point, opposite: Point) -> Self {
        Self {
            min: corner.lower(opposite),
            max: corner.upper(opposite),
        }
    }

    /// The smallest box around the points; `None` if there are none.
    #[must_use]
    pub fn around(points: &[Point]) -> Option<Self> {
        let first = *points.first()?;
        let start = Self {
            min: first,
            max: first,
        };
        Some(points.iter().fold(start, |bounds, point| Self {
            min: bounds.min.lower(*point),
            max: bounds.max.upper(*point),
        }))
    }

    /// Its middle.
    #[must_use]
    pub fn centre(&self) -> Point {
        (self.min + self.max) * 0.5
    }

    /// Length, width and height, mm.
    #[must_use]
    pub fn size(&self) -> Point {
        self.max - self.min
    }

    /// The eight corners.
    #[must_use]
    pub fn corners(&self) -> [Point; 8] {
        std::array::from_fn(|i| {
            Point::new(
                if i & 1 == 0 { self.min.x } else { self.max.x },
                if i & 2 == 0 { self.min.y } else { self.max.y },
                if i & 4 == 0 { self.min.z } else { self.max.z },
            )
        })
    }

    /// The smallest box around both.
    #[must_use]
    pub fn union(&self, other: &Self) -> Self {
        Self {
            min: self.min.lower(other.min),
            max: self.max.upper(other.max),
        }
    }

    /// Larger by `mm` on all six sides; smaller if negative, but never turned inside out: a side
    /// that would vanish shrinks to its middle.
    #[must_use]
    pub fn inflated(&self, mm: f64) -> Self {
        let by = Point::new(mm, mm, mm);
        let (min, max, middle) = (self.min - by, self.max + by, self.centre());
        Self {
            min: min.lower(middle),
            max: max.upper(middle),
        }
    }

    /// Moved by a vector.
    #[must_use]
    pub fn translated(&self, by: Point) -> Self {
        Self {
            min: self.min + by,
            max: self.max + by,
        }
    }

    /// Whether they share at least a point (touching counts).
    #[must_use]
    pub fn overlaps(&self, other: &Self) -> bool {
        self.gap(other) == 0.0
    }

    /// Lower bound, mm, of the distance between anything inside one and anything inside the other:
    /// the distance of the boxes, exact when they are apart along one axis only. 0 if they touch
    /// or overlap, and 0 if a coordinate is not finite.
    #[must_use]
    pub fn gap(&self, other: &Self) -> f64 {
        let apart = (other.min - self.max).upper(self.min - other.max);
        let length = apart.upper(Point::default()).length();
        if self.has_place() && other.has_place() {
            length
        } else {
            0.0
        }
    }

    /// Whether `inner` lies within this box, or sticks out by no more than `slack_mm`.
    #[must_use]
    pub fn contains(&self, inner: &Self, slack_mm: f64) -> bool {
        self.has_place()
            && inner.has_place()
            && inner.outset_beyond(self).largest() <= slack_mm.max(0.0)
    }

    /// How far this box sticks out of `outer` on each side.
    #[must_use]
    pub fn outset_beyond(&self, outer: &Self) -> Outset {
        let low = (outer.min - self.min).upper(Point::default());
        let high = (self.max - outer.max).upper(Point::default());
        Outset {
            front: low.x,
            rear: high.x,
            left: low.y,
            right: high.y,
            below: low.z,
            above: high.z,
        }
    }

    /// Whether all its coordinates are finite and within a thousand kilometres.
    #[must_use]
    pub fn has_place(&self) -> bool {
        self.min.has_place() && self.max.has_place()
    }
}
