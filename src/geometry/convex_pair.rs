//! Two convex bodies of any kind. The only file that knows the collision library.
//!
//! Method: Gilbert, Johnson and Keerthi (1988) for the distance, van den Bergen's expanding
//! polytope (2001) for the depth of an overlap, both from `parry3d-f64`, asked only for the
//! farthest point of each body in a direction. Neither is taken at its word. For any direction n,
//! the farthest points alone say how far the bodies are apart along n; that number is a certain
//! lower bound of the distance, and if negative, the length of a move along n that certainly parts
//! them. So a distance counts only when its own direction confirms it, and a depth is the best of
//! the library's direction and of a fixed set of others (axes of space and of the bodies, line of
//! centres), improved step by step. What cannot be confirmed is answered by the lower bound: too
//! little room rather than too much.

use super::cylinder::Round;
use super::{Aabb, Point, Separation, Solid};
use parry3d_f64::math::{Pose, Vector};
use parry3d_f64::query::epa::EPA;
use parry3d_f64::query::gjk::{self, CsoPoint, GJKResult, VoronoiSimplex};
use parry3d_f64::shape::SupportMap;

/// Distances below this are contact, mm: the rounding of coordinates of a few metres.
const CONTACT_MM: f64 = 1e-9;
/// How closely a distance must be confirmed, as a share of itself or in mm.
const CONFIRMED: f64 = 1e-6;

/// A body about a shared origin near both, so that their own size sets the rounding and not their
/// place on the chassis.
struct Placed<'a> {
    form: Form<'a>,
    origin: Point,
}

enum Form<'a> {
    Block(Aabb),
    Round(Round),
    Hull(&'a [Point]),
}

impl<'a> Placed<'a> {
    fn new(solid: &'a Solid, origin: Point) -> Self {
        let form = match solid {
            Solid::Block(_) => Form::Block(solid.aabb()),
            Solid::Cylinder { from, to, radius } => Form::Round(Round::new(*from, *to, *radius)),
            Solid::Hull(points) => Form::Hull(points),
        };
        Self { form, origin }
    }

    /// A point farthest along `n`, about the shared origin.
    fn farthest(&self, n: Point) -> Point {
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

    fn own_axis(&self) -> Option<Point> {
        match &self.form {
            Form::Round(round) => round.axis,
            _ => None,
        }
    }
}

impl SupportMap for Placed<'_> {
    fn local_support_point(&self, dir: Vector) -> Vector {
        outward(self.farthest(inward(dir)))
    }
}

fn inward(v: Vector) -> Point {
    Point::new(v.x, v.y, v.z)
}

fn outward(p: Point) -> Vector {
    Vector::new(p.x, p.y, p.z)
}

/// How far `b` lies beyond `a` along the unit vector `n`, mm.
fn apart_along(a: &Placed, b: &Placed, n: Point) -> f64 {
    (b.farthest(-n) - a.farthest(n)).dot(n)
}

pub(super) fn separation(first: &Solid, second: &Solid) -> Separation {
    let (bounds_a, bounds_b) = (first.aabb(), second.aabb());
    let origin = (bounds_a.centre() + bounds_b.centre()) * 0.5;
    let (a, b) = (Placed::new(first, origin), Placed::new(second, origin));
    let centres = (bounds_b.centre() - bounds_a.centre()).direction();
    let start = centres.unwrap_or(Point::new(1.0, 0.0, 0.0));

    let mut simplex = VoronoiSimplex::new();
    simplex.reset(CsoPoint::from_shapes(
        &Pose::IDENTITY,
        &a,
        &b,
        outward(start),
    ));
    let answer = gjk::closest_points(&Pose::IDENTITY, &a, &b, f64::MAX, true, &mut simplex);
    let mut directions = vec![start];
    match answer {
        GJKResult::ClosestPoints(p, q, n) => {
            let (p, q) = (inward(p), inward(q));
            let distance = (q - p).length();
            if let Some(n) = (q - p).direction() {
                let sure = apart_along(&a, &b, n);
                if distance > CONTACT_MM && distance - sure <= CONFIRMED * distance.max(1.0) {
                    return Separation {
                        distance_mm: distance,
                        on_first: p + origin,
                        on_second: q + origin,
                    };
                }
                directions.push(n);
            }
            directions.push(inward(n));
        }
        GJKResult::Proximity(n) | GJKResult::NoIntersection(n) => directions.push(inward(n)),
        GJKResult::Intersection => {}
    }
    let mut polytope = EPA::new();
    if let Some((_, _, n)) = polytope.closest_points(&Pose::IDENTITY, &a, &b, &simplex) {
        directions.push(inward(n));
    }
    along_best(&a, &b, &directions, &bounds_a, &bounds_b)
}

/// The direction along which the bodies are farthest apart or least deep in each other.
fn along_best(
    a: &Placed,
    b: &Placed,
    found: &[Point],
    bounds_a: &Aabb,
    bounds_b: &Aabb,
) -> Separation {
    let axes = [
        Point::new(1.0, 0.0, 0.0),
        Point::new(0.0, 1.0, 0.0),
        Point::new(0.0, 0.0, 1.0),
    ];
    let own = [a.own_axis(), b.own_axis()];
    let others = axes.into_iter().chain(own.into_iter().flatten());
    let mut best = (f64::NEG_INFINITY, axes[0]);
    for n in found
        .iter()
        .copied()
        .chain(others)
        .filter_map(Point::direction)
    {
        for n in [n, -n] {
            let apart = apart_along(a, b, n);
            if apart > best.0 {
                best = (apart, n);
            }
        }
    }
    let (apart, n) = improved(a, b, best);
    let distance_mm = if apart.abs() <= CONTACT_MM {
        0.0
    } else {
        apart
    };
    // Mark the middle of the region both bounds share.
    let low = bounds_a.min.upper(bounds_b.min);
    let high = bounds_a.max.lower(bounds_b.max);
    let middle = (low + high) * 0.5 - a.origin;
    let on_first = middle + n * (a.farthest(n) - middle).dot(n);
    Separation {
        distance_mm,
        on_first: on_first + a.origin,
        on_second: on_first + n * distance_mm + a.origin,
    }
}

/// Tilts the direction in ever smaller steps as long as that helps.
fn improved(a: &Placed, b: &Placed, mut best: (f64, Point)) -> (f64, Point) {
    let mut tilt = 0.05;
    while tilt > 1e-8 {
        let n = best.1;
        let helper = if n.z.abs() < 0.7 {
            Point::new(0.0, 0.0, 1.0)
        } else {
            Point::new(1.0, 0.0, 0.0)
        };
        let side = n.cross(helper).direction().unwrap_or(helper);
        let other = n.cross(side);
        let mut better = best;
        for step in [side, -side, other, -other] {
            if let Some(tilted) = (n + step * tilt).direction() {
                let apart = apart_along(a, b, tilted);
                if apart > better.0 {
                    better = (apart, tilted);
                }
            }
        }
        if better.0 > best.0 {
            best = better;
        } else {
            tilt *= 0.4;
        }
    }
    best
}
