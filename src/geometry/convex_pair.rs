//! Two convex bodies of any kind. The only file that knows the collision library.
//!
//! Method: Gilbert, Johnson and Keerthi (1988) for the distance, van den Bergen's expanding
//! polytope (2001) for the depth of an overlap, both from `parry3d-f64`, asked only for the
//! farthest point of each body in a direction. Neither is taken at its word. For any direction n,
//! the farthest points alone say how far the bodies are apart along n; that number is a certain
//! lower bound of the distance, and if negative, the length of a move along n that certainly parts
//! them. So a distance counts only when its own direction confirms it, and the polytope's depth is
//! one proposal among several (`least_overlap`): for thin bodies that touch it was seen to name the
//! far side. What cannot be confirmed is answered by the lower bound: too little room rather than
//! too much.

use super::least_overlap::{self, Along};
use super::placed::{Placed, apart_along};
use super::{Point, Separation, Solid};
use parry3d_f64::math::{Pose, Vector};
use parry3d_f64::query::epa::EPA;
use parry3d_f64::query::gjk::{self, CsoPoint, GJKResult, VoronoiSimplex};
use parry3d_f64::shape::SupportMap;

/// Distances below this are contact, mm: the rounding of coordinates of a few metres.
const CONTACT_MM: f64 = 1e-9;
/// How closely a distance must be confirmed, as a share of itself or in mm.
const CONFIRMED: f64 = 1e-6;
/// How closely it is sought.
const TIGHT: f64 = 1e-10;
/// Steps after which seeking ends.
const MOST_STEPS: usize = 50;
/// Fresh starts from the best direction when seeking got stuck.
const MOST_RESTARTS: usize = 3;

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

fn simplex_along(a: &Placed, b: &Placed, n: Point) -> VoronoiSimplex {
    let mut simplex = VoronoiSimplex::new();
    simplex.reset(CsoPoint::from_shapes(&Pose::IDENTITY, a, b, outward(n)));
    simplex.project_origin_and_reduce();
    simplex
}

/// See [`super::separation`]; both bodies must have a place.
pub(super) fn separation(first: &Solid, second: &Solid) -> Separation {
    let (a, b) = Placed::pair(first, second);
    let centres = b.bounds.centre() - a.bounds.centre();
    let start = centres.direction().unwrap_or(Point::new(1.0, 0.0, 0.0));
    let (near, simplex) = nearest(&a, &b, start);
    let mut proposals = vec![start];
    if let Some(near) = near {
        if near.confirmed() {
            return near.separation(a.origin);
        }
        proposals.push(near.along);
    }
    let deepest = EPA::new().closest_points(&Pose::IDENTITY, &a, &b, &simplex);
    proposals.extend(deepest.map(|(_, _, n)| inward(n)));
    let along = least_overlap::best(
        &a,
        &b,
        &proposals,
        |a, b, start| roughly_nearest(a, b, start).0.map(|near| near.along),
        |a, b, start| nearest(a, b, start).0.map(|near| near.along),
    );
    if along.apart > CONTACT_MM {
        // Apart after all: a narrow gap where the first search got stuck.
        let near = Near::unknown(along).or_restarted(&a, &b);
        if near.confirmed() {
            return near.separation(a.origin);
        }
    }
    least_overlap::marked(&a, &b, along, CONTACT_MM)
}

/// The nearest points as far as can be found, or `None` for an overlap, and the simplex they rest on.
fn nearest(a: &Placed, b: &Placed, start: Point) -> (Option<Near>, VoronoiSimplex) {
    let (near, mut simplex) = roughly_nearest(a, b, start);
    let near = near.map(|near| near.tightened(a, b, &mut simplex).or_restarted(a, b));
    (near, simplex)
}

/// The same as far as the library goes.
fn roughly_nearest(a: &Placed, b: &Placed, start: Point) -> (Option<Near>, VoronoiSimplex) {
    let mut simplex = simplex_along(a, b, start);
    let answer = gjk::closest_points(&Pose::IDENTITY, a, b, f64::MAX, true, &mut simplex);
    let near = match answer {
        GJKResult::ClosestPoints(p, q, _) => Some(Near::of(a, b, inward(p), inward(q))),
        // It gave up after many steps: what it had by then is a start.
        GJKResult::Proximity(_) | GJKResult::NoIntersection(_) => Near::in_simplex(a, b, &simplex),
        GJKResult::Intersection => None,
    };
    (near, simplex)
}

/// Two points that may be the nearest, and what the direction between them proves.
struct Near {
    on_a: Point,
    on_b: Point,
    along: Point,
    /// Between the points: no less than the true distance.
    distance: f64,
    /// Along the line through them: no more than the true distance.
    sure: f64,
}

impl Near {
    fn of(a: &Placed, b: &Placed, on_a: Point, on_b: Point) -> Self {
        let along = (on_b - on_a).direction().unwrap_or_default();
        Self {
            on_a,
            on_b,
            along,
            distance: (on_b - on_a).length(),
            sure: apart_along(a, b, along),
        }
    }

    /// Only a direction is known.
    fn unknown(along: Along) -> Self {
        Self {
            on_a: Point::default(),
            on_b: Point::default(),
            along: along.n,
            distance: f64::MAX,
            sure: along.apart,
        }
    }

    /// The points the simplex stands for; `None` if it encloses the origin (an overlap).
    fn in_simplex(a: &Placed, b: &Placed, simplex: &VoronoiSimplex) -> Option<Self> {
        let (mut on_a, mut on_b) = (Point::default(), Point::default());
        if simplex.dimension() > 2 {
            return None;
        }
        for i in 0..=simplex.dimension() {
            let (corner, share) = (simplex.point(i), simplex.proj_coord(i));
            on_a = on_a + inward(corner.orig1) * share;
            on_b = on_b + inward(corner.orig2) * share;
        }
        Some(Self::of(a, b, on_a, on_b))
    }

    fn within(&self, share: f64) -> bool {
        self.distance - self.sure <= share * self.distance.max(1.0)
    }

    fn confirmed(&self) -> bool {
        self.distance > CONTACT_MM && self.within(CONFIRMED)
    }

    /// Goes on where the library stops (at 5e-8 of the distance), which only round bodies need.
    fn tightened(self, a: &Placed, b: &Placed, simplex: &mut VoronoiSimplex) -> Self {
        let mut best = self;
        for _ in 0..MOST_STEPS {
            if best.within(TIGHT) || simplex.dimension() > 2 {
                break;
            }
            let next = CsoPoint::from_shapes(&Pose::IDENTITY, a, b, outward(best.along));
            if !simplex.add_point(next) {
                break;
            }
            simplex.project_origin_and_reduce();
            match Self::in_simplex(a, b, simplex) {
                Some(nearer) if nearer.distance < best.distance => best = nearer,
                _ => break,
            }
        }
        best
    }

    /// If stuck short of confirmation, seeks again from the best direction alone.
    fn or_restarted(self, a: &Placed, b: &Placed) -> Self {
        let mut best = self;
        for _ in 0..MOST_RESTARTS {
            if best.confirmed() || best.distance <= CONTACT_MM {
                break;
            }
            let mut simplex = simplex_along(a, b, best.along);
            let Some(again) = Self::in_simplex(a, b, &simplex) else {
                break;
            };
            let again = again.tightened(a, b, &mut simplex);
            if again.distance - again.sure < best.distance - best.sure {
                best = again;
            }
        }
        best
    }

    fn separation(&self, origin: Point) -> Separation {
        Separation {
            distance_mm: self.distance,
            on_first: self.on_a + origin,
            on_second: self.on_b + origin,
        }
    }
}
