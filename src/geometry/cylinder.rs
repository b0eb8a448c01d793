//! What a round body with any axis reaches: its bounds and its farthest point.
//!
//! A cylinder without length has no axis. It counts as the ball of its radius: the smallest body
//! that holds the disc whichever way it faces. A negative radius counts as 0.

use super::{Aabb, Point};
use crate::numeric::{bisect, cos, hypot, sin};
use std::f64::consts::FRAC_PI_2;

/// A cylinder with its axis worked out.
#[derive(Clone, Copy, Debug)]
pub(super) struct Round {
    pub from: Point,
    pub to: Point,
    pub radius: f64,
    /// Unit vector from one end to the other; `None` for a ball.
    pub axis: Option<Point>,
}

impl Round {
    pub fn new(from: Point, to: Point, radius: f64) -> Self {
        Self {
            from,
            to,
            radius: radius.max(0.0),
            axis: (to - from).direction(),
        }
    }

    /// Half extents of a rim (or of the ball) along x, y, z, mm.
    fn rim_reach(&self) -> Point {
        let all = Point::new(1.0, 1.0, 1.0);
        let share = self.axis.map_or(all, |u| {
            Point::new(hypot(u.y, u.z), hypot(u.x, u.z), hypot(u.x, u.y))
        });
        share * self.radius
    }

    pub fn aabb(&self) -> Aabb {
        let reach = self.rim_reach();
        Aabb {
            min: self.from.lower(self.to) - reach,
            max: self.from.upper(self.to) + reach,
        }
    }

    /// A point of the cylinder farthest along `direction`.
    pub fn support(&self, direction: Point) -> Point {
        let Some(axis) = self.axis else {
            let out = direction.direction().unwrap_or_default();
            return self.from + out * self.radius;
        };
        let along = direction.dot(axis);
        let end = if along >= 0.0 { self.to } else { self.from };
        // Twice, since for a direction close to the axis rounding leaves a part along it.
        let level = |v: Point| (v - axis * v.dot(axis)).direction();
        let sideways = direction - axis * along;
        // Below this the direction is the axis itself and any point of the cap will do.
        let enough = sideways.length() > 1e-14 * direction.length();
        let out = sideways.direction().filter(|_| enough).and_then(level);
        let out = out.unwrap_or_default();
        end + out * self.radius
    }

    /// Horizontal distance, mm, and place of the point farthest from the upright line through
    /// (`x`, `y`).
    pub fn farthest_horizontal_from(&self, x: f64, y: f64) -> (f64, Point) {
        let first = self.farthest_on_rim(self.from, x, y);
        let second = self.farthest_on_rim(self.to, x, y);
        if second.0 > first.0 { second } else { first }
    }

    /// Seen from above a rim is an ellipse: half-axis `radius` across the axis, and less along it
    /// the more level the axis lies. Its farthest point lies in the quadrant away from (x, y),
    /// where the derivative of the distance has exactly one zero.
    fn farthest_on_rim(&self, centre: Point, x: f64, y: f64) -> (f64, Point) {
        let upright = Point::new(0.0, 0.0, 1.0);
        let away = Point::new(centre.x - x, centre.y - y, 0.0);
        let level = self
            .axis
            .and_then(|u| Point::new(u.x, u.y, 0.0).direction());
        let (Some(axis), Some(level)) = (self.axis, level) else {
            let out = away.direction().unwrap_or(Point::new(1.0, 0.0, 0.0));
            return (away.length() + self.radius, centre + out * self.radius);
        };
        let across = upright.cross(level);
        // Where on the rim the point lies above or below its centre as one walks along the axis.
        let inward = across.cross(axis);
        let (wide, narrow) = (self.radius, self.radius * axis.z.abs());
        let (off_wide, off_narrow) = (away.dot(across), away.dot(level));
        let slope = |t: f64| {
            -(wide * cos(t) + off_wide.abs()) * wide * sin(t)
                + (narrow * sin(t) + off_narrow.abs()) * narrow * cos(t)
        };
        // Without a change of sign the farthest point is at an end of the quadrant.
        let end = if slope(FRAC_PI_2) > 0.0 {
            FRAC_PI_2
        } else {
            0.0
        };
        let t = bisect(slope, 0.0, FRAC_PI_2, 0.0).unwrap_or(end);
        let toward_level = if (inward.dot(level) < 0.0) == (off_narrow < 0.0) {
            1.0
        } else {
            -1.0
        };
        let toward_across = if off_wide < 0.0 { -1.0 } else { 1.0 };
        let place = centre
            + across * (toward_across * self.radius * cos(t))
            + inward * (toward_level * self.radius * sin(t));
        (hypot(place.x - x, place.y - y), place)
    }
}
