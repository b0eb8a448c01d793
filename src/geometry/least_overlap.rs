//! The direction along which two bodies are least deep in each other, or farthest apart.
//!
//! Whatever is proposed, the answer is the length of a move that really parts the bodies. Each
//! proposal is improved by parting: move the second body along it until the two are clear of each
//! other and take the direction of their distance there. Along that direction they are never deeper
//! than before: if clear by c at first, the distance there is at least c. This only needs distances,
//! which are dependable, and ends where no small change of direction helps.

use super::placed::{Placed, apart_along};
use super::{Point, Separation};
use crate::numeric::sort_by;

/// Proposals improved, the best first.
const MOST_STARTS: usize = 6;
/// Partings of each proposal, and then of the best.
const FIRST_PARTINGS: usize = 3;
const MOST_PARTINGS: usize = 40;
/// How far the bodies are moved clear of each other, mm and as a share of the overlap.
const CLEAR_MM: f64 = 1.0;
const CLEAR_SHARE: f64 = 0.1;
/// Improvement below which a proposal is left, mm.
const ENOUGH_MM: f64 = 1e-8;

/// How far apart along which unit vector; negative when overlapping.
#[derive(Clone, Copy)]
pub(super) struct Along {
    pub apart: f64,
    pub n: Point,
}

impl Along {
    pub fn of(a: &Placed, b: &Placed, n: Point) -> Self {
        Self {
            apart: apart_along(a, b, n),
            n,
        }
    }
}

/// The best direction found from the proposals, the axes of space and the bodies' own axes, each
/// either way. `roughly` and `closely` give the direction of the distance between two bodies that
/// are clear of each other.
pub(super) fn best(
    a: &Placed,
    b: &Placed,
    proposals: &[Point],
    roughly: impl Fn(&Placed, &Placed, Point) -> Option<Point>,
    closely: impl Fn(&Placed, &Placed, Point) -> Option<Point>,
) -> Along {
    let axes = [
        Point::new(1.0, 0.0, 0.0),
        Point::new(0.0, 1.0, 0.0),
        Point::new(0.0, 0.0, 1.0),
    ];
    let own = [a.own_axis(), b.own_axis()];
    let others = axes.into_iter().chain(own.into_iter().flatten());
    let all = proposals.iter().copied().chain(others);
    let mut starts: Vec<Along> = all
        .filter_map(Point::direction)
        .flat_map(|n| [n, -n])
        .map(|n| Along::of(a, b, n))
        .collect();
    sort_by(&mut starts, |one, other| other.apart.total_cmp(&one.apart));
    let mut best = starts.first().copied().unwrap_or(Along::of(a, b, axes[0]));
    for start in starts.iter().take(MOST_STARTS) {
        let end = parted(a, b, *start, FIRST_PARTINGS, &roughly);
        if end.apart > best.apart {
            best = end;
        }
    }
    let best = parted(a, b, best, MOST_PARTINGS, &roughly);
    parted(a, b, best, FIRST_PARTINGS, &closely)
}

fn parted(
    a: &Placed,
    b: &Placed,
    start: Along,
    most: usize,
    nearest: &impl Fn(&Placed, &Placed, Point) -> Option<Point>,
) -> Along {
    let mut best = start;
    for _ in 0..most {
        let clear = CLEAR_MM - best.apart.min(0.0) * (1.0 + CLEAR_SHARE);
        let Some(n) = nearest(a, &b.moved(best.n * clear), best.n) else {
            break;
        };
        let next = Along::of(a, b, n);
        let enough = next.apart <= best.apart + ENOUGH_MM;
        if next.apart > best.apart {
            best = next;
        }
        if enough {
            break;
        }
    }
    best
}

/// The separation along that direction, marked in the middle of the region both bounds share.
pub(super) fn marked(a: &Placed, b: &Placed, along: Along, contact_mm: f64) -> Separation {
    let Along { apart, n } = along;
    let distance_mm = if apart.abs() <= contact_mm {
        0.0
    } else {
        apart
    };
    let low = a.bounds.min.upper(b.bounds.min);
    let high = a.bounds.max.lower(b.bounds.max);
    let middle = (low + high) * 0.5 - a.origin;
    let on_first = middle + n * (a.farthest(n) - middle).dot(n);
    Separation {
        distance_mm,
        on_first: on_first + a.origin,
        on_second: on_first + n * distance_mm + a.origin,
    }
}
