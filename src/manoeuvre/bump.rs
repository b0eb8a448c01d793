//! The lowest thing above a bump that the truck drives over.
//!
//! The bump is an arc of this height and length on a level road. It stands right under each thing in
//! turn (under a long level one at nine places); wheels that stand on it too lift the truck. Once with the springs at rest, laden, and once
//! with all of them at their stops, as after driving over it too fast.

use super::stance::on_road;
use super::underside::Low;
use crate::chassis::Axle;
use crate::geometry::Point;
use crate::numeric::sqrt;
use crate::plan::Moving;
use crate::vehicle::Vehicle;

/// What comes nearest to the bump.
#[derive(Clone, Debug, PartialEq)]
pub struct OverBump {
    /// Height of the bump, mm.
    pub height_mm: f64,
    /// Length of the bump, mm.
    pub length_mm: f64,
    /// Room above it with the springs at rest, laden, mm.
    pub at_rest_mm: f64,
    /// Room above it with the springs at their stops, mm.
    pub at_stops_mm: f64,
    /// Tag of the part that comes nearest at the stops; empty for the truck itself.
    pub tag: String,
    /// The same in words.
    pub by: String,
    /// Its lowest point, at rest.
    pub at: Point,
}

/// Height, mm, of an arc of this height and length at a distance from its top; 0 beside it.
///
/// The arc's radius is (length²/4 + height²) / (2 height).
#[must_use]
pub fn rise_mm(height_mm: f64, length_mm: f64, from_top_mm: f64) -> f64 {
    let half = length_mm / 2.0;
    if height_mm <= 0.0 || from_top_mm.abs() >= half {
        return 0.0;
    }
    let radius = (half * half + height_mm * height_mm) / (2.0 * height_mm);
    sqrt(radius * radius - from_top_mm * from_top_mm) - (radius - height_mm)
}

/// Places along a level edge at which it is looked at, from end to end.
const SHARES: [f64; 9] = [0.0, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1.0];

/// Works it out; `None` when nothing hangs under the truck.
pub(super) fn over(vehicle: &Vehicle, under: &[Low]) -> Option<OverBump> {
    let height_mm = vehicle
        .moving
        .bump_height_mm
        .unwrap_or(Moving::BUMP_HEIGHT_MM);
    let length_mm = vehicle
        .moving
        .bump_length_mm
        .unwrap_or(Moving::BUMP_LENGTH_MM);
    let axles: Vec<&Axle> = on_road(vehicle).collect();
    let (first, last) = (*axles.first()?, *axles.last()?);
    let sinks = axles.iter().map(|a| a.suspension.jounce_mm);
    let sinks = sinks.fold(0.0, f64::max);
    let mut nearest: Option<(f64, f64, &Low, f64)> = None;
    for p in under {
        // Between the axles wheels on the bump only lift: what is as high as this comes no nearer.
        let between = p.x[0] >= first.x_mm && p.x[1] <= last.x_mm;
        let high = p.z - height_mm - sinks - 1e-3;
        if between && nearest.is_some_and(|n| high > n.0) {
            continue;
        }
        let [from, to] = p.x;
        for share in SHARES {
            let x = from + (to - from) * share;
            // The two axles beside the place, or the outermost two for what overhangs.
            let behind = axles.partition_point(|a| a.x_mm <= x);
            let (a, b) = match behind {
                0 => (first, last),
                n if n == axles.len() => (first, last),
                n => (axles[n - 1], axles[n]),
            };
            let long = (b.x_mm - a.x_mm).max(1.0);
            let line = |at_a: f64, at_b: f64| at_a + (at_b - at_a) * (x - a.x_mm) / long;
            let road = |axle: &Axle| rise_mm(height_mm, length_mm, axle.x_mm - x);
            let at_rest = p.z + line(road(a), road(b)) - height_mm;
            let sunk = if p.unsprung {
                0.0
            } else {
                line(a.suspension.jounce_mm, b.suspension.jounce_mm).max(0.0)
            };
            if nearest.is_none_or(|n| at_rest - sunk < n.0) {
                nearest = Some((at_rest - sunk, at_rest, p, x));
            }
            if from == to {
                break;
            }
        }
    }
    let (at_stops_mm, at_rest_mm, p, x) = nearest?;
    let (tag, by) = p.whose.words(vehicle);
    Some(OverBump {
        height_mm,
        length_mm,
        at_rest_mm,
        at_stops_mm,
        tag,
        by,
        at: Point::new(x, p.y, p.z),
    })
}
