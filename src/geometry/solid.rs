//! Convex bodies: box, cylinder, hull.

use super::cylinder::Round;
use super::{Aabb, Point};

/// A convex body, mm.
///
/// Degenerate bodies are allowed and mean what they look like: a box without thickness is a plate,
/// a cylinder of radius 0 a line, a hull of one point a point. A cylinder without length has no
/// axis and counts as a ball of its radius; a negative radius counts as 0.
#[derive(Clone, Debug, PartialEq)]
pub enum Solid {
    /// A box along the axes.
    Block(Aabb),
    /// A round bar between two end centres, with flat ends and any axis.
    Cylinder {
        /// Centre of one end.
        from: Point,
        /// Centre of the other end.
        to: Point,
        /// Radius, mm, 0 or more.
        radius: f64,
    },
    /// The smallest convex body around the points, of which there must be at least one.
    Hull(Vec<Point>),
}

impl Solid {
    /// The smallest box around it; exact for all three kinds. A body without a place
    /// ([`Solid::has_place`]) may be anywhere: it gives all the room there is, a thousand kilometres
    /// either way.
    #[must_use]
    pub fn aabb(&self) -> Aabb {
        if !self.has_place() {
            return Aabb::EVERYWHERE;
        }
        match self {
            Self::Block(block) => Aabb::new(block.min, block.max),
            Self::Cylinder { from, to, radius } => Round::new(*from, *to, *radius).aabb(),
            Self::Hull(points) => Aabb::around(points).unwrap_or(Aabb::EVERYWHERE),
        }
    }

    /// Whether it can be placed at all: at least one point, every number finite and within a
    /// thousand kilometres. A body without a place counts as touching everything.
    #[must_use]
    pub fn has_place(&self) -> bool {
        match self {
            Self::Block(block) => block.has_place(),
            Self::Cylinder { from, to, radius } => {
                from.has_place() && to.has_place() && radius.abs() <= super::FARTHEST_MM
            }
            Self::Hull(points) => !points.is_empty() && points.iter().all(|p| p.has_place()),
        }
    }

    /// Moved by a vector, mm.
    #[must_use]
    pub fn translated(&self, by: Point) -> Self {
        match self {
            Self::Block(block) => Self::Block(block.translated(by)),
            Self::Cylinder { from, to, radius } => Self::Cylinder {
                from: *from + by,
                to: *to + by,
                radius: *radius,
            },
            Self::Hull(points) => Self::Hull(points.iter().map(|p| *p + by).collect()),
        }
    }

    /// Volume in mm³ of a box or cylinder (0 if it has no thickness); `None` for a hull.
    #[must_use]
    pub fn volume_mm3(&self) -> Option<f64> {
        match self {
            Self::Block(_) => {
                let size = self.aabb().size();
                Some(size.x * size.y * size.z)
            }
            Self::Cylinder { from, to, radius } => {
                let radius = radius.max(0.0);
                Some(std::f64::consts::PI * radius * radius * (*to - *from).length())
            }
            Self::Hull(_) => None,
        }
    }

    /// Horizontal distance, mm, from the upright line through (`x`, `y`) to the body's farthest
    /// point, and that point: the radius the body sweeps when it turns about that line.
    ///
    /// Exact for all three kinds, a slanted cylinder by its rims. When several points are equally
    /// far, the first in a fixed order. A hull without points gives 0 at the line, at z = 0.
    ///
    /// ```
    /// use axlewright_core::geometry::{Point, Solid};
    /// let tank = Solid::Cylinder {
    ///     from: Point::new(300.0, 400.0, 0.0),
    ///     to: Point::new(300.0, 400.0, 900.0),
    ///     radius: 250.0,
    /// };
    /// assert_eq!(tank.farthest_horizontal_from(0.0, 0.0).0, 750.0);
    /// ```
    #[must_use]
    pub fn farthest_horizontal_from(&self, x: f64, y: f64) -> (f64, Point) {
        match self {
            Self::Block(block) => farthest(&block.corners(), x, y),
            Self::Cylinder { from, to, radius } => {
                Round::new(*from, *to, *radius).farthest_horizontal_from(x, y)
            }
            Self::Hull(points) => farthest(points, x, y),
        }
    }

    /// Height of the lowest point above the ground, mm.
    #[must_use]
    pub fn lowest_z(&self) -> f64 {
        self.aabb().min.z
    }

    /// Height of the highest point above the ground, mm.
    #[must_use]
    pub fn highest_z(&self) -> f64 {
        self.aabb().max.z
    }

    /// x of the foremost point, mm.
    #[must_use]
    pub fn front_x(&self) -> f64 {
        self.aabb().min.x
    }

    /// x of the rearmost point, mm.
    #[must_use]
    pub fn rear_x(&self) -> f64 {
        self.aabb().max.x
    }
}

fn farthest(points: &[Point], x: f64, y: f64) -> (f64, Point) {
    let start = (
        0.0,
        points.first().copied().unwrap_or(Point::new(x, y, 0.0)),
    );
    points.iter().fold(start, |best, p| {
        let distance = Point::new(p.x - x, p.y - y, 0.0).length();
        if distance > best.0 {
            (distance, *p)
        } else {
            best
        }
    })
}
