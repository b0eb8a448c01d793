//! From where the truck is seen: projections of points and solids into the drawing plane.

use super::View;
use super::plane::{At, Path, Rect, at};
use crate::geometry::{Aabb, Point, Solid};
use crate::numeric::{hypot, sort_by};

impl View {
    /// The point in the drawing plane.
    #[must_use]
    pub const fn at(self, p: Point) -> At {
        match self {
            Self::Side => at(p.x, -p.z),
            Self::Plan | Self::Turn => at(p.x, -p.y),
            Self::Rear => at(p.y, -p.z),
        }
    }

    /// How near a point is to the eye: larger is nearer. The side is seen from the left, since the
    /// front of the truck points to the left of the sheet.
    #[must_use]
    pub const fn nearness(self, p: Point) -> f64 {
        match self {
            Self::Side => -p.y,
            Self::Plan | Self::Turn => p.z,
            Self::Rear => p.x,
        }
    }

    /// Nearness of the face of a box that looks at the eye.
    #[must_use]
    pub const fn near_face(self, b: &Aabb) -> f64 {
        match self {
            Self::Side => -b.min.y,
            Self::Plan | Self::Turn => b.max.z,
            Self::Rear => b.max.x,
        }
    }

    /// A box in the drawing plane.
    #[must_use]
    pub fn rect(self, b: &Aabb) -> Rect {
        Rect::new(self.at(b.min), self.at(b.max))
    }

    /// Outline of a solid in the drawing plane. A slanted bar is drawn as the band between its end
    /// centres.
    #[must_use]
    pub fn outline(self, solid: &Solid) -> Path {
        let mut path = Path::new();
        match solid {
            Solid::Block(b) => {
                path.rect(&self.rect(b));
            }
            Solid::Cylinder { from, to, radius } => {
                let (a, b) = (self.at(*from), self.at(*to));
                match across(a, b, *radius) {
                    Some(n) => path.polygon(&[
                        at(a.x + n.x, a.y + n.y),
                        at(b.x + n.x, b.y + n.y),
                        at(b.x - n.x, b.y - n.y),
                        at(a.x - n.x, a.y - n.y),
                    ]),
                    None => path.circle(a, *radius),
                };
            }
            Solid::Hull(points) => {
                let flat: Vec<At> = points.iter().map(|p| self.at(*p)).collect();
                path.polygon(&hull(flat));
            }
        }
        path
    }
}

/// Vector of this length square to the line from `a` to `b`; `None` when they coincide.
pub(super) fn across(a: At, b: At, length: f64) -> Option<At> {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let far = hypot(dx, dy);
    (far > 1.0).then(|| at(-dy / far * length, dx / far * length))
}

/// Convex hull, by Andrew's monotone chain.
fn hull(mut points: Vec<At>) -> Vec<At> {
    sort_by(&mut points, |a, b| {
        a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y))
    });
    let turn = |o: At, a: At, b: At| (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
    let mut chain: Vec<At> = Vec::new();
    for pass in 0..2 {
        let start = chain.len();
        for p in &points {
            while chain.len() >= start + 2
                && turn(chain[chain.len() - 2], chain[chain.len() - 1], *p) <= 0.0
            {
                chain.pop();
            }
            chain.push(*p);
        }
        chain.pop();
        if pass == 0 {
            points.reverse();
        }
    }
    chain
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_side_is_seen_from_the_left_and_the_rear_from_behind() {
        let p = Point::new(1.0, 2.0, 3.0);
        assert_eq!(View::Side.at(p), at(1.0, -3.0));
        assert_eq!(View::Plan.at(p), at(1.0, -2.0));
        assert_eq!(View::Rear.at(p), at(2.0, -3.0));
        let left = Point::new(0.0, -900.0, 0.0);
        assert!(View::Side.nearness(left) > View::Side.nearness(p));
    }

    #[test]
    fn the_hull_of_a_square_and_its_middle_is_the_square() {
        let points = vec![
            at(0.0, 0.0),
            at(2.0, 0.0),
            at(1.0, 1.0),
            at(2.0, 2.0),
            at(0.0, 2.0),
        ];
        assert_eq!(hull(points).len(), 4);
    }
}
