//! How far two bodies are apart, or how deep they overlap.
//!
//! Two boxes have a closed form; all other pairs go to the general method for convex bodies.

use super::placed::{Placed, apart_along};
use super::{Aabb, Point, Solid, block_pair, convex_pair};
use crate::numeric::sort_by;

/// More than a measurement may be off, as a share of itself or in mm.
const SLACK: f64 = 1e-5;

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
    separation_within(a, b, f64::INFINITY)
}

/// The same where only separations up to `reach_mm` matter: `None` as well when the sets are
/// farther apart, without measuring what is certainly beyond it.
#[must_use]
pub fn separation_within(a: &[Solid], b: &[Solid], reach_mm: f64) -> Option<Separation> {
    if let ([one], [other]) = (a, b) {
        // The most frequent case, without lists.
        let placed = one.has_place() && other.has_place();
        let far = placed && one.aabb().gap(&other.aabb()) > reach_mm;
        let found = (!far).then(|| separation(one, other));
        return found.filter(|found| found.distance_mm <= reach_mm);
    }
    let bounds = |set: &[Solid]| set.iter().map(Solid::aabb).collect::<Vec<Aabb>>();
    let (bounds_a, bounds_b) = (bounds(a), bounds(b));
    let mut pairs = Vec::with_capacity(a.len() * b.len());
    for (i, bound) in bounds_a.iter().enumerate() {
        for (j, other) in bounds_b.iter().enumerate() {
            let placed = a[i].has_place() && b[j].has_place();
            let gap = if placed { bound.gap(other) } else { 0.0 };
            if gap <= reach_mm {
                pairs.push((gap, i, j));
            }
        }
    }
    sort_by(&mut pairs, |first, second| first.0.total_cmp(&second.0));
    let mut best: Option<Separation> = None;
    for (gap, i, j) in pairs {
        // Bounds farther apart than the best so far cannot hold anything nearer.
        if best.is_some_and(|best| gap > best.distance_mm.max(0.0)) {
            break;
        }
        if best.is_some_and(|best| certainly_farther(&a[i], &b[j], &best)) {
            continue;
        }
        let found = separation(&a[i], &b[j]);
        if best.is_none_or(|best| found.distance_mm < best.distance_mm) {
            best = Some(found);
        }
    }
    best.filter(|best| best.distance_mm <= reach_mm)
}

/// Whether two bodies are apart by more (or overlap by less) than a pair that was measured, as far
/// as the line between that pair's points tells: a sure bound for the price of two lookups.
fn certainly_farther(a: &Solid, b: &Solid, best: &Separation) -> bool {
    let blocks = matches!((a, b), (Solid::Block(_), Solid::Block(_)));
    if blocks || !a.has_place() || !b.has_place() {
        return false;
    }
    let Some(line) = (best.on_second - best.on_first).direction() else {
        return false;
    };
    let n = if best.distance_mm < 0.0 { -line } else { line };
    let (a, b) = Placed::pair(a, b);
    // More by what a measurement may be off, so that leaving it out changes nothing.
    apart_along(&a, &b, n) > best.distance_mm + SLACK * best.distance_mm.abs().max(1.0)
}
