//! Of two things made of several solids: the pair with the least room beyond what is asked for.

use super::required::{Asked, direction};
use super::{LISTED_BEYOND_MM, bounds_of};
use crate::geometry::{Aabb, Point, Separation, Solid, separation, separation_within};
use crate::numeric::sort_by;

/// What is asked when the second lies in this direction from the first.
pub(super) type Demand<'d, 'a> = &'d dyn Fn(Point) -> Asked<'a>;

/// A measurement and what is asked for there.
pub(super) type Found<'a> = (Separation, Asked<'a>);

/// The worst pair, if it is near enough to be listed. `most_mm` is the most that is asked on any
/// side; `even` says that it is asked on all of them, so that the nearest pair is the worst.
pub(super) fn worst<'a>(
    a: &[Solid],
    b: &[Solid],
    most_mm: f64,
    even: bool,
    demand: Demand<'_, 'a>,
) -> Option<Found<'a>> {
    if even || (a.len() == 1 && b.len() == 1) {
        let s = separation_within(a, b, most_mm + LISTED_BEYOND_MM)?;
        // Asked for alike on every side, the direction does not matter.
        let towards = if even {
            Point::default()
        } else {
            direction(&bounds_of(a), &bounds_of(b), &s)
        };
        return Some((s, demand(towards))).filter(is_listed);
    }
    let boxes = |set: &[Solid]| set.iter().map(Solid::aabb).collect::<Vec<Aabb>>();
    let (first, second) = (boxes(a), boxes(b));
    let mut pairs = Vec::new();
    for (i, one) in first.iter().enumerate() {
        for (j, other) in second.iter().enumerate() {
            let gap = one.gap(other);
            if gap <= most_mm + LISTED_BEYOND_MM {
                pairs.push((gap, i, j));
            }
        }
    }
    sort_by(&mut pairs, |one, other| one.0.total_cmp(&other.0));
    let mut found: Option<Found<'a>> = None;
    for (gap, i, j) in pairs {
        // What is this far apart cannot be worse any more, nor can anything after it.
        if found.is_some_and(|best| gap > 0.0 && gap - most_mm > rank(&best).1) {
            break;
        }
        let s = separation(&a[i], &b[j]);
        let asked = demand(direction(&first[i], &second[j], &s));
        found = worse(found, (s, asked));
    }
    found.filter(is_listed)
}

/// The worse of two measurements.
pub(super) fn worse<'a>(best: Option<Found<'a>>, new: Found<'a>) -> Option<Found<'a>> {
    match best {
        Some(best) if rank(&best) <= rank(&new) => Some(best),
        _ => Some(new),
    }
}

/// An overlap is worse than any gap that is too small: it is what has to be mended first.
fn rank((s, asked): &Found<'_>) -> (bool, f64) {
    (s.distance_mm >= 0.0, s.distance_mm - asked.mm)
}

pub(super) fn is_listed((s, asked): &Found<'_>) -> bool {
    s.distance_mm <= asked.mm + LISTED_BEYOND_MM
}
