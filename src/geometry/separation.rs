//! How far two bodies are apart, or how deep they overlap.
//!
//! Two boxes have a closed form; all other pairs go to the general method for convex bodies.

use super::{Aabb, Point, Solid, block_pair, convex_pair};

/// The room between two bodies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Separation {
    /// Shortest distance, mm; 0 when touching; negative when overlapping: minus the length of the
    /// shortest move that parts them.
    pub distance_mm: f64,
    /// Where on the first body the distance is taken.
    pub on_first: Point,
    /// Where on the second body.
    pub on_second: Point,
}

impl Separation {
    /// Seen from the other body.
    #[must_use]
    pub fn swapped(self) -> Self {
        Self {
            distance_mm: self.distance_mm,
            on_first: self.on_second,
            on_second: self.on_first,
        }
    }
}

/// Distance between two bodies, or how deep they overlap, with the points it is measured between.
///
/// Two boxes: exact to the rounding of a subtraction. Other pairs: a distance is confirmed to 1e-6
/// of itself, or 1e-6 mm if that is more. A depth is always that of a move that really parts the
/// bodies; beyond the shortest such move it lay by less than 1e-6 mm in all the pairs of
/// `tests/published/solid_pairs.csv`. Closer than 1e-9 mm, in or out, is 0.
///
/// When overlapping, the two points lie at the ends of that move, in the middle of the region
/// both bounds share; they mark the place and need not be on the surface.
///
/// A body without a place ([`Solid::has_place`]) counts as touching: 0 mm, both points at the
/// other body's middle, or at the origin if neither has a place.
#[must_use]
pub fn separation(a: &Solid, b: &Solid) -> Separation {
    if !a.has_place() || !b.has_place() {
        let known = [a, b].into_iter().find(|solid| solid.has_place());
        let place = known.map_or(Point::default(), |solid| solid.aabb().centre());
        return Separation {
            distance_mm: 0.0,
            on_first: place,
            on_second: place,
        };
    }
    match (a, b) {
        (Solid::Block(_), Solid::Block(_)) => block_pair::separation(&a.aabb(), &b.aabb()),
        _ => convex_pair::separation(a, b),
    }
}

/// The smallest separation between any body of one set and any of the other, or the deepest
/// overlap; `None` if a set is empty. Of equals, the pair whose bounds are nearest, then the first.
#[must_use]
pub fn separation_of_sets(a: &[Solid], b: &[Solid]) -> Option<Separation> {
    let bounds = |set: &[Solid]| set.iter().map(Solid::aabb).collect::<Vec<Aabb>>();
    let (bounds_a, bounds_b) = (bounds(a), bounds(b));
    let mut pairs = Vec::with_capacity(a.len() * b.len());
    for (i, bound) in bounds_a.iter().enumerate() {
        for (j, other) in bounds_b.iter().enumerate() {
            let placed = a[i].has_place() && b[j].has_place();
            let gap = if placed { bound.gap(other) } else { 0.0 };
            pairs.push((gap, i, j));
        }
    }
    pairs.sort_by(|first, second| first.0.total_cmp(&second.0));
    let mut best: Option<Separation> = None;
    for (gap, i, j) in pairs {
        // Bounds farther apart than the best so far cannot hold anything nearer.
        if best.is_some_and(|best| gap > best.distance_mm.max(0.0)) {
            break;
        }
        let found = separation(&a[i], &b[j]);
        if best.is_none_or(|best| found.distance_mm < best.distance_mm) {
            best = Some(found);
        }
    }
    best
}
