//! The direction along which two bodies are least deep in each other, or farthest apart.
//!
//! Method: the best of the directions proposed, of the axes of space and of the bodies' own axes,
//! then tilted in ever smaller steps as long as that helps. Whatever the proposals are worth, the
//! answer is the length of a move that really parts the bodies.

use super::placed::{Placed, apart_along};
use super::{Point, Separation};

/// Tilts of the direction tried, four ways each.
const MOST_TILTS: usize = 200;
/// First tilt, rad.
const FIRST_TILT: f64 = 0.05;
/// Tilts are given up below this, rad: it changes a depth by its square.
const LAST_TILT: f64 = 1e-8;

/// How far apart along which unit vector; negative when overlapping.
#[derive(Clone, Copy)]
pub(super) struct Along {
    pub apart: f64,
    pub n: Point,
}

/// The best direction found from the proposals. `settled` says that the first of them is known to
/// be exact, so that it needs no tilting unless another beats it.
pub(super) fn best(a: &Placed, b: &Placed, proposals: &[Point], settled: bool) -> Along {
    let axes = [
        Point::new(1.0, 0.0, 0.0),
        Point::new(0.0, 1.0, 0.0),
        Point::new(0.0, 0.0, 1.0),
    ];
    let mut best = Along {
        apart: f64::NEG_INFINITY,
        n: axes[0],
    };
    let mut first = f64::INFINITY;
    let own = [a.own_axis(), b.own_axis()];
    let others = axes.into_iter().chain(own.into_iter().flatten());
    let all = proposals.iter().copied().chain(others);
    for (rank, n) in all.filter_map(Point::direction).enumerate() {
        for n in [n, -n] {
            let apart = apart_along(a, b, n);
            if apart > best.apart {
                best = Along { apart, n };
            }
        }
        if rank == 0 {
            first = best.apart;
        }
    }
    if settled && best.apart <= first {
        best
    } else {
        tilted(a, b, best)
    }
}

fn tilted(a: &Placed, b: &Placed, mut best: Along) -> Along {
    let mut tilt = FIRST_TILT;
    for _ in 0..MOST_TILTS {
        if tilt < LAST_TILT {
            break;
        }
        let n = best.n;
        let helper = if n.z.abs() < 0.7 {
            Point::new(0.0, 0.0, 1.0)
        } else {
            Point::new(1.0, 0.0, 0.0)
        };
        let side = n.cross(helper).direction().unwrap_or(helper);
        let other = n.cross(side);
        let mut better = best;
        for step in [side, -side, other, -other] {
            if let Some(n) = (n + step * tilt).direction() {
                let apart = apart_along(a, b, n);
                if apart > better.apart {
                    better = Along { apart, n };
                }
            }
        }
        if better.apart > best.apart {
            best = better;
        } else {
            tilt *= 0.4;
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
