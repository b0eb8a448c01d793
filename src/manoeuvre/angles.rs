//! Approach, breakover and departure angle, and the part that limits each.

use super::stance::on_road;
use super::underside::Low;
use crate::chassis::Axle;
use crate::geometry::Point;
use crate::numeric::{asin, atan2, cos, hypot, sin};
use crate::vehicle::Vehicle;

/// One angle and what limits it.
#[derive(Clone, Debug, PartialEq)]
pub struct Angle {
    /// Degrees.
    pub deg: f64,
    /// Tag of the part that limits it; empty for the truck itself.
    pub tag: String,
    /// What limits it, in words.
    pub by: String,
    /// The place that touches first, laden.
    pub at: Point,
    /// The line touches the tyre here; for breakover the front tyre.
    pub tyre: Point,
    /// Where the other line touches the tyre behind, for breakover.
    pub other: Option<Point>,
    /// Smallest when the truck is empty, so that its tail rides high.
    pub unladen: bool,
}

/// The three angles.
#[derive(Clone, Debug)]
pub struct Angles {
    /// Of the front end, or what is missing for it.
    pub approach: Result<Angle, String>,
    /// Between the axles; an error when nothing hangs there.
    pub breakover: Result<Angle, String>,
    /// Of the rear end; an error when nothing stands there.
    pub departure: Result<Angle, String>,
}

/// Angle in degrees at which a line from a point at the height `z_mm`, `away_mm` from the axle, touches
/// the tyre's arc of radius `arc_mm` from below; a tyre of radius 0 is the point where it stands.
/// `None` for a point within the tyre's own silhouette, which the tyre keeps clear of any ramp.
///
/// The tangent: the line to the wheel's centre, turned by the angle whose sine is radius over
/// distance.
#[must_use]
pub fn tangent_deg(away_mm: f64, z_mm: f64, arc_mm: f64) -> Option<f64> {
    let far = hypot(away_mm, z_mm - arc_mm);
    if far <= arc_mm || away_mm <= 0.0 {
        return None;
    }
    let to_centre = atan2(z_mm - arc_mm, away_mm);
    Some((to_centre + asin(arc_mm / far)).to_degrees())
}

/// More than sines of a few metres are off by, mm.
const ROUNDING_MM: f64 = 1e-3;

/// Where the line of this angle touches the tyre; `way` is −1 ahead of the axle, 1 behind it.
fn touches(axle: &Axle, deg: f64, way: f64) -> Point {
    let (r, t) = (axle.tyres.loaded_radius_mm, deg.to_radians());
    Point::new(axle.x_mm + way * r * sin(t), 0.0, r - r * cos(t))
}

/// Works out the three angles.
pub(super) fn angles(vehicle: &Vehicle, under: &[Low]) -> Angles {
    let axles: Vec<&Axle> = on_road(vehicle).collect();
    let d = &vehicle.chassis.dimensions;
    // Empty, the tail rises about the front axle: seen from the road, the nose dips.
    let rise = (d.frame_top_unladen_mm - d.frame_top_laden_mm) / d.wheelbase_mm.max(1.0);
    let lifted = |p: &Low, x: f64| if p.unsprung { p.z } else { p.z + rise * x };
    let arc = |axle: &Axle| axle.tyres.loaded_radius_mm;
    let found = |p: &Low, x: f64, deg: f64, tyre: Point, other: Option<Point>, unladen: bool| {
        let (tag, by) = p.whose.words(vehicle);
        Angle {
            deg,
            tag,
            by,
            at: Point::new(x, p.y, p.z),
            tyre,
            other,
            unladen,
        }
    };
    let end = |axle: &Axle, way: f64| {
        let mut least: Option<(f64, &Low, f64, bool)> = None;
        // The line of the least angle so far, as sine and cosine: what does not lie below it needs no
        // angle of its own.
        let mut line = (0.0, 0.0);
        for p in under {
            // Of a level edge the far end touches first.
            let x = if way < 0.0 { p.x[0] } else { p.x[1] };
            for (z, unladen) in [(p.z, false), (lifted(p, x), true)] {
                let away = way * (x - axle.x_mm);
                let below = away * line.0 - (z - arc(axle)) * line.1 > arc(axle) - ROUNDING_MM;
                if (least.is_none() || below)
                    && let Some(deg) = tangent_deg(away, z, arc(axle))
                    && least.is_none_or(|l| deg < l.0 - 1e-9)
                {
                    least = Some((deg, p, x, unladen));
                    line = (sin(deg.to_radians()), cos(deg.to_radians()));
                }
            }
        }
        least.map(|(deg, p, x, unladen)| found(p, x, deg, touches(axle, deg, way), None, unladen))
    };
    let mut breakover: Option<(f64, &Low, [&Axle; 2], [f64; 3])> = None;
    // Sine and cosine of an angle that is not worth a closer look.
    let mut dull: Option<(f64, f64)> = None;
    for pair in axles.windows(2) {
        let [front, rear] = [pair[0], pair[1]];
        for p in under {
            let middle = f64::midpoint(front.x_mm, rear.x_mm).max(p.x[0]).min(p.x[1]);
            let (d, e) = (middle - front.x_mm, rear.x_mm - middle);
            // Lines to where the tyres stand rise less than those that touch the tyres: by the sum of
            // their tangents.
            let rises = |(s, c): (f64, f64)| p.z * (d + e) * c > s * (d * e - p.z * p.z);
            if d > 0.0 && e > 0.0 && p.z > 0.0 && dull.is_some_and(rises) {
                continue;
            }
            let both = |x: f64| {
                let one = tangent_deg(x - front.x_mm, p.z, arc(front))?;
                let two = tangent_deg(rear.x_mm - x, p.z, arc(rear))?;
                Some([one, two, x])
            };
            let least = breakover.map_or(180.0, |b| b.0);
            if let Some(now) = lowest(p.x, [front.x_mm, rear.x_mm], least, both)
                && breakover.is_none_or(|b| now[0] + now[1] < b.0)
            {
                breakover = Some((now[0] + now[1], p, [front, rear], now));
                let deg = now[0] + now[1] + WORTH_DEG + ROUNDING_MM;
                dull = (deg < 90.0).then(|| (sin(deg.to_radians()), cos(deg.to_radians())));
            }
        }
    }
    let nothing = |where_: &str| format!("nothing of known height stands {where_}");
    let approach = match axles.first() {
        Some(axle) if vehicle.chassis.dimensions.bumper_bottom_mm.is_some() => {
            end(axle, -1.0).ok_or_else(|| nothing("ahead of the front axle"))
        }
        _ => Err("the height of the bumper's underside is not stated".to_owned()),
    };
    let rear = axles.last().and_then(|axle| end(axle, 1.0));
    Angles {
        approach,
        breakover: breakover
            .map(|(deg, p, [front, rear], [one, two, x])| {
                let other = touches(rear, two, -1.0);
                found(p, x, deg, touches(front, one, 1.0), Some(other), false)
            })
            .ok_or_else(|| nothing("between the axles")),
        departure: rear.ok_or_else(|| nothing("behind the last axle")),
    }
}

/// Angles within which the middle of the axles must come to the least so far before the place is
/// looked for more closely, degrees.
const WORTH_DEG: f64 = 0.5;

/// Where along a level edge both angles together are least. Their sum is convex between the axles and
/// least near the middle: the place is narrowed down by thirds from there. `None` when it cannot be
/// less than `least`.
fn lowest(
    edge: [f64; 2],
    between: [f64; 2],
    least: f64,
    both: impl Fn(f64) -> Option<[f64; 3]>,
) -> Option<[f64; 3]> {
    let (mut low, mut high) = (edge[0].max(between[0]), edge[1].min(between[1]));
    if low > high {
        return None;
    }
    // What lies within a tyre's silhouette is no place where the line could touch.
    let sum = |x: f64| both(x).map_or(f64::INFINITY, |b| b[0] + b[1]);
    let middle = f64::midpoint(between[0], between[1]).clamp(low, high);
    if sum(middle) > least + WORTH_DEG {
        return None;
    }
    (low, high) = ((middle - 400.0).max(low), (middle + 400.0).min(high));
    while high - low > 0.1 {
        let third = (high - low) / 3.0;
        if sum(low + third) <= sum(high - third) {
            high -= third;
        } else {
            low += third;
        }
    }
    both(f64::midpoint(low, high))
}
