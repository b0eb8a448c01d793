//! The room between a body and a wheel, over every angle that the wheel is steered to.
//!
//! Method: the angles are halved until no piece can hide anything nearer. For one piece the room is
//! measured at its middle; the plane that parts the two there bounds the room over the whole piece
//! from below, because how far a wheel reaches beyond a plane has a closed form for any angle. So
//! the answer is a sure bound, not the best of some angles that were tried.

use super::placed::Placed;
use super::{Point, Separation, Solid, separation, yawed};
use crate::numeric::{atan2, cos, hypot, sqrt};
use std::f64::consts::{FRAC_PI_2, PI};

/// The bound is at most this much below a room that is really there, mm.
const WITHIN_MM: f64 = 0.1;
/// Pieces that are looked at before the bound is taken as it is: never reached by a wheel beside a
/// part, a guard against bodies deep inside each other.
const MOST_PIECES: u32 = 400;

/// Smallest separation of a body from a wheel that steers by up to `lock_rad` either way about the
/// upright line through its middle; `None` when it is more than `reach_mm`.
///
/// A lower bound that is at most 0.1 mm below the true one, so that nothing passes by an angle that
/// was not tried. The points are those of the nearest angle that was measured. A wheel that is not a
/// cylinder counts as the whole drum that it can sweep.
#[must_use]
pub fn separation_steered(
    body: &Solid,
    wheel: &Solid,
    lock_rad: f64,
    reach_mm: f64,
) -> Option<Separation> {
    let about = wheel.aabb().centre();
    let Some(wheel) = Wheel::of(wheel).filter(|_| body.has_place() && lock_rad.is_finite()) else {
        let within = |s: &Separation| s.distance_mm <= reach_mm;
        return Some(separation(body, &drum(wheel, about))).filter(within);
    };
    let lock = lock_rad.abs();
    let at = |angle: f64| separation(body, &yawed(&wheel.solid(), about, angle));
    let mut best = at(0.0);
    let mut sure = f64::INFINITY;
    let mut open = vec![(-lock, lock)];
    let mut pieces = 0;
    while let Some((from, to)) = open.pop() {
        pieces += 1;
        let middle = f64::midpoint(from, to);
        let found = if pieces == 1 { best } else { at(middle) };
        if found.distance_mm < best.distance_mm {
            best = found;
        }
        // No point of the wheel moves farther than its corner.
        let by_corner = found.distance_mm - wheel.corner() * (to - middle);
        let bound = normal(&found).map_or(by_corner, |n| {
            wheel.beyond(body, n, from, to).max(by_corner)
        });
        let enough = bound >= reach_mm || bound >= best.distance_mm - WITHIN_MM;
        if enough || pieces >= MOST_PIECES {
            sure = sure.min(bound);
        } else {
            open.push((middle, to));
            open.push((from, middle));
        }
    }
    best.distance_mm = best.distance_mm.min(sure);
    Some(best).filter(|s| s.distance_mm <= reach_mm)
}

/// Direction in which the second lies beyond the first.
fn normal(s: &Separation) -> Option<Point> {
    let line = (s.on_second - s.on_first).direction()?;
    Some(if s.distance_mm < 0.0 { -line } else { line })
}

/// The upright drum about a line that holds the body at every angle.
fn drum(solid: &Solid, about: Point) -> Solid {
    let bounds = solid.aabb();
    let at = |z: f64| Point::new(about.x, about.y, z);
    Solid::Cylinder {
        from: at(bounds.min.z),
        to: at(bounds.max.z),
        radius: solid.farthest_horizontal_from(about.x, about.y).0,
    }
}

/// A cylinder with a level axis.
#[derive(Clone, Copy)]
struct Wheel {
    from: Point,
    to: Point,
    radius: f64,
}

impl Wheel {
    fn of(solid: &Solid) -> Option<Self> {
        match solid {
            Solid::Cylinder { from, to, radius }
                if solid.has_place() && from.z == to.z && from != to =>
            {
                Some(Self {
                    from: *from,
                    to: *to,
                    radius: radius.max(0.0),
                })
            }
            _ => None,
        }
    }

    const fn solid(self) -> Solid {
        Solid::Cylinder {
            from: self.from,
            to: self.to,
            radius: self.radius,
        }
    }

    fn half(&self) -> f64 {
        (self.to - self.from).length() / 2.0
    }

    /// Horizontal distance of its corners from the steering axis.
    fn corner(&self) -> f64 {
        hypot(self.radius, self.half())
    }

    /// Least room along the unit vector `n` from the body to the wheel at any angle of a piece: for
    /// any `n` no more than their separation there.
    ///
    /// Along a direction that makes an angle with its axis whose cosine is c (either way), a wheel
    /// reaches half its width times c and its radius times √(1 − c²) from its middle. Over a piece, c
    /// takes all values between two; the sum is largest at the corner's own c, or at the end next to
    /// it.
    fn beyond(&self, body: &Solid, n: Point, from: f64, to: f64) -> f64 {
        let level = hypot(n.x, n.y).min(1.0);
        let axis = self.to - self.from;
        // The axis, turned by an angle, makes that angle more with the level part of `n`.
        let start = atan2(axis.y, axis.x) - atan2(n.y, n.x);
        let (low, high) = range_of_cosine(start + from, start + to);
        let half = self.half();
        let corner = self.corner();
        let own = if corner > 0.0 { half / corner } else { 0.0 };
        let c = own.clamp(level * low, level * high);
        let reach = half * c + self.radius * sqrt((1.0 - c * c).max(0.0));
        let solid = self.solid();
        let (first, second) = Placed::pair(body, &solid);
        let middle = (self.from + self.to) * 0.5 - second.origin;
        middle.dot(n) - reach - first.farthest(n).dot(n)
    }
}

/// Smallest and largest |cos| between two angles.
fn range_of_cosine(from: f64, to: f64) -> (f64, f64) {
    let passes = |at: f64| ((to - at) / PI).floor() > ((from - at) / PI).floor();
    let (a, b) = (cos(from).abs(), cos(to).abs());
    let low = if passes(FRAC_PI_2) { 0.0 } else { a.min(b) };
    let high = if passes(0.0) { 1.0 } else { a.max(b) };
    (low, high)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Aabb;
    use crate::numeric::{acos, sin};

    fn wheel() -> Solid {
        Solid::Cylinder {
            from: Point::new(0.0, 850.0, 500.0),
            to: Point::new(0.0, 1_150.0, 500.0),
            radius: 500.0,
        }
    }

    /// A thin post at hub height, this far ahead of and beside the steering axis.
    fn post(ahead: f64, beside: f64) -> Solid {
        let at = Point::new(ahead, 1_000.0 + beside, 500.0);
        Solid::Block(Aabb::new(at, at + Point::new(0.001, 0.001, 1.0)))
    }

    /// *Hand.* The corner of the tyre describes a circle of √(500² + 150²) = 522.015 mm. A post
    /// that this circle passes at any angle within the lock is as far from the tyre as from the
    /// circle.
    #[test]
    fn a_post_outside_the_corners_circle_is_as_far_as_from_the_circle() {
        let corner = hypot(500.0, 150.0);
        let lock = 0.7;
        // The corner stands 0.2915 rad beside the tyre's plane: all these are within the lock.
        for step in 0..40 {
            let angle = -0.9 + 0.045 * f64::from(step);
            let r = corner + 20.0;
            let found =
                separation_steered(&post(r * cos(angle), r * sin(angle)), &wheel(), lock, 1e9);
            let found = found.map_or(f64::NAN, |s| s.distance_mm);
            assert!((found - 20.0).abs() < 0.102, "{angle}: {found}");
            assert!(found < 20.002, "{angle}: {found}");
        }
    }

    /// *Second road.* Never more than the least of ten thousand angles, and less by no more than is
    /// promised.
    #[test]
    fn it_is_never_more_than_what_many_angles_find() {
        let lock = acos(0.76);
        for (x, y) in [
            (540.0, 0.0),
            (300.0, -330.0),
            (-480.0, 260.0),
            (100.0, 250.0),
            (430.0, 60.0),
        ] {
            for size in [1.0, 120.0] {
                let at = Point::new(x, 1_000.0 + y, 420.0);
                let part = Solid::Block(Aabb::new(at, at + Point::new(size, size, size)));
                let found = separation_steered(&part, &wheel(), lock, 1e9);
                let found = found.map_or(f64::NAN, |s| s.distance_mm);
                let about = wheel().aabb().centre();
                let tried = (0..=10_000)
                    .map(|i| lock * (f64::from(i) / 5_000.0 - 1.0))
                    .map(|angle| separation(&part, &yawed(&wheel(), about, angle)).distance_mm)
                    .fold(f64::INFINITY, f64::min);
                assert!(found <= tried + 1e-9, "{x} {y} {size}: {found} {tried}");
                assert!(found >= tried - 0.11, "{x} {y} {size}: {found} {tried}");
            }
        }
    }

    #[test]
    fn beyond_the_reach_there_is_nothing() {
        assert!(separation_steered(&post(2_000.0, 0.0), &wheel(), 0.7, 500.0).is_none());
    }
}
