//! A convex body as the general method sees it: how far it reaches in a direction.

use super::cylinder::Round;
use super::{Aabb, Point, Solid};

/// A body about an origin near both bodies of a pair, so that their own size sets the rounding
/// and not their place on the chassis.
#[derive(Clone, Copy)]
pub(super) struct Placed<'a> {
    form: Form<'a>,
    pub bounds: Aabb,
    pub origin: Point,
}

#[derive(Clone, Copy)]
enum Form<'a> {
    Block(Aabb),
    Round(Round),
    Hull(&'a [Point]),
}

impl<'a> Placed<'a> {
    /// The two bodies about the middle between them.
    pub fn pair(first: &'a Solid, second: &'a Solid) -> (Self, Self) {
        let (bounds_a, bounds_b) = (first.aabb(), second.aabb());
        let origin = (bounds_a.centre() + bounds_b.centre()) * 0.5;
        (
            Self::new(first, bounds_a, origin),
            Self::new(second, bounds_b, origin),
        )
    }

    fn new(solid: &'a Solid, bounds: Aabb, origin: Point) -> Self {
        let form = match solid {
            Solid::Block(_) => Form::Block(bounds),
            Solid::Cylinder { from, to, radius } => Form::Round(Round::new(*from, *to, *radius)),
            Solid::Hull(points) => Form::Hull(points),
        };
        Self {
            form,
            bounds,
            origin,
        }
    }

    /// A point farthest along `n`, about the shared origin.
    pub fn farthest(&self, n: Point) -> Point {
        let point = match &self.form {
            Form::Block(block) => {
                let pick = |n: f64, min: f64, max: f64| if n >= 0.0 { max } else { min };
                Point::new(
                    pick(n.x, block.min.x, block.max.x),
                    pick(n.y, block.min.y, block.max.y),
                    pick(n.z, block.min.z, block.max.z),
                )
            }
            Form::Round(round) => round.support(n),
            Form::Hull(points) => {
                let mut best = (f64::NEG_INFINITY, self.origin);
                for point in *points {
                    let along = point.dot(n);
                    if along > best.0 {
                        best = (along, *point);
                    }
                }
                best.1
            }
        };
        point - self.origin
    }

    /// Moved by a vector.
    pub fn moved(mut self, by: Point) -> Self {
        self.origin = self.origin - by;
        self
    }

    /// The axis of a cylinder.
    pub fn own_axis(&self) -> Option<Point> {
        match &self.form {
            Form::Round(round) => round.axis,
            _ => None,
        }
    }
}

/// How far `b` lies beyond `a` along the unit vector `n`, mm: for any `n` no more than their
/// distance, and if negative, minus the length of a move along `n` that parts them.
pub(super) fn apart_along(a: &Placed, b: &Placed, n: Point) -> f64 {
    (b.farthest(-n) - a.farthest(n)).dot(n)
}
