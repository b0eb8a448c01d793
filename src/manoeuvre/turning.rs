//! Turning circles: at full lock, and within an outer radius.
//!
//! Turns are reckoned to the left (forward is −x, so left is −y): the centre lies at negative y; a
//! turn to the right is the same with left and right of the truck exchanged.

use super::outline::{Hull, Vertex};
use super::stance::{Stance, on_road, stance, trailer_mm};
use crate::numeric::{atan, hypot, sqrt, tan};
use crate::plan::Moving;
use crate::shared::Shared;
use crate::vehicle::Vehicle;

/// A steady turn.
#[derive(Clone, Debug, PartialEq)]
pub struct Turn {
    /// Radius on which the middle of the truck passes abreast of the turning centre, mm.
    pub centre_radius_mm: f64,
    /// Radius of the outermost corner, mm.
    pub outer_mm: f64,
    /// Which corner that is.
    pub outer_by: Vertex,
    /// Radius of the innermost point of the truck, mm; 0 when it turns over the centre.
    pub inner_mm: f64,
    /// How far the tail swings out when the turn begins from straight ahead, mm.
    pub tail_swing_mm: f64,
    /// Which corner that is; `None` when nothing behind the axles swings out.
    pub tail_by: Option<Vertex>,
    /// The outer radius was wished for smaller than full lock permits.
    pub locked: bool,
    /// Axles and trailer in this turn.
    pub steady: Steady,
}

/// Radii of the axles in a steady turn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steady {
    /// Middle of the front axle, mm.
    pub front_mm: f64,
    /// Kingpin, mm.
    pub kingpin_mm: Option<f64>,
    /// Middle of the trailer where it turns; `None` without a trailer, and when there is no steady
    /// turn this tight, so that the path has to be followed.
    pub trailer_mm: Option<f64>,
    /// How far the last axles run inside of the front axle's track, mm; `None` like the trailer's.
    pub off_tracking_mm: Option<f64>,
    /// There is a trailer, and it has no steady turn this tight.
    pub needs_path: bool,
}

/// At full lock.
#[derive(Clone, Debug)]
pub struct Turning {
    /// How the truck stands.
    pub stance: Stance,
    /// Angle of the inner wheel, degrees.
    pub inner_deg: f64,
    /// Angle of the outer wheel, degrees.
    pub outer_deg: f64,
    /// Middle of the outer front tyre's tread, mm: half of the turning diameter of SAE J695,
    /// 2 (wheelbase / sin outer angle + offset).
    pub wheel_mm: f64,
    /// Outside of the outer front tyre: kerb to kerb, mm.
    pub kerb_mm: f64,
    /// The offset of the steered wheels from their pivots is known.
    pub offset_known: bool,
    /// The whole truck: wall to wall.
    pub turn: Turn,
    /// The truck from above, for a turn to the left.
    pub hull: Hull,
}

/// Works out the circle at full lock, to the side that the plan states.
pub(super) fn at_lock(vehicle: &Vehicle) -> Result<Turning, String> {
    let stance = stance(vehicle)?;
    let hull = Hull::of_truck(vehicle).for_turn(vehicle.moving.turn_left);
    let front = on_road(vehicle)
        .next()
        .ok_or("it has no axle on the road")?;
    let offset = front.steer_offset_mm.unwrap_or(0.0);
    let pivots = (front.track_mm - 2.0 * offset).max(0.0);
    // The cotangent rule: both wheels stand square to the lines to one centre.
    let l = stance.equivalent_mm;
    let by_inner = l / tan(front.steer_angle_deg.to_radians()) + pivots / 2.0;
    let by_outer = front
        .steer_outer_deg
        .map_or(0.0, |deg| l / tan(deg.to_radians()) - pivots / 2.0);
    let radius = by_inner.max(by_outer);
    let angle = |r: f64| atan(l / r.max(1e-6)).to_degrees();
    let wheel_mm = hypot(radius + pivots / 2.0, stance.centre_x_mm) + offset;
    Ok(Turning {
        inner_deg: angle(radius - pivots / 2.0),
        outer_deg: angle(radius + pivots / 2.0),
        wheel_mm,
        kerb_mm: wheel_mm + front.tyres.width_mm / 2.0,
        offset_known: front.steer_offset_mm.is_some(),
        turn: turn(vehicle, &hull, &stance, radius, false)?,
        stance,
        hull,
    })
}

/// The turn within the stated outer radius; full lock when that is not possible.
pub(super) fn stated(
    vehicle: &Vehicle,
    lock: &Result<Shared<Turning>, String>,
) -> Result<Turn, String> {
    let lock = lock.as_ref().map_err(Clone::clone)?;
    at_outer(vehicle, lock, outer_mm(vehicle))
}

/// Outer radius that the plan states, else the road law, else the customary one.
pub(super) fn outer_mm(vehicle: &Vehicle) -> f64 {
    let by_law = || vehicle.law.as_ref()?.sizes.turning_outer.mm();
    let stated = vehicle.moving.turn_outer_mm.or_else(by_law);
    stated.unwrap_or(Moving::OUTER_MM)
}

/// The steady turn with the outermost corner on this radius; full lock when it is too tight.
///
/// # Errors
/// What is missing.
pub fn at_outer(vehicle: &Vehicle, lock: &Turning, outer_mm: f64) -> Result<Turn, String> {
    let c = lock.stance.centre_x_mm;
    let hull = &lock.hull;
    // Every corner has to stay within: the smallest radius that one of them leaves.
    let room = hull.0.iter().map(|v| {
        let ahead = v.x - c;
        if outer_mm * outer_mm < ahead * ahead {
            return f64::NEG_INFINITY;
        }
        sqrt(outer_mm * outer_mm - ahead * ahead) - v.y
    });
    let radius = room.fold(f64::INFINITY, f64::min);
    let least = lock.turn.centre_radius_mm;
    if radius < least {
        return turn(
            vehicle,
            hull,
            &lock.stance,
            least,
            outer_mm < lock.turn.outer_mm - 0.5,
        );
    }
    turn(vehicle, hull, &lock.stance, radius, false)
}

/// The steady turn on this radius.
fn turn(
    vehicle: &Vehicle,
    hull: &Hull,
    stance: &Stance,
    radius: f64,
    locked: bool,
) -> Result<Turn, String> {
    let c = stance.centre_x_mm;
    let nothing = || "the truck has no outline".to_owned();
    let (outer_mm, outer_by) = hull.farthest(c, -radius).ok_or_else(nothing)?;
    let (inner_mm, _) = hull.nearest(c, -radius).ok_or_else(nothing)?;
    let side = hull.0.iter().map(|v| v.y).fold(f64::NEG_INFINITY, f64::max);
    let behind = hull.0.iter().filter(|v| v.x > c);
    let swings = behind.map(|v| (hypot(radius + v.y, v.x - c) - radius - side, v));
    let most = swings.reduce(|a, b| if b.0 > a.0 { b } else { a });
    let most = most.filter(|(mm, _)| *mm > 0.0);
    Ok(Turn {
        centre_radius_mm: radius,
        outer_mm,
        outer_by: outer_by.clone(),
        inner_mm,
        tail_swing_mm: most.map_or(0.0, |(mm, _)| mm),
        tail_by: most.map(|(_, v)| v.clone()),
        locked,
        steady: steady(vehicle, stance, radius),
    })
}

/// Radii of the axles when the middle of the truck passes the turning centre on this radius: sums and
/// differences of squares, each axle square to the line to the centre.
#[must_use]
pub fn steady(vehicle: &Vehicle, stance: &Stance, radius: f64) -> Steady {
    let front_mm = hypot(radius, stance.centre_x_mm);
    let mut all = Steady {
        front_mm,
        kingpin_mm: None,
        trailer_mm: None,
        off_tracking_mm: Some(front_mm - radius),
        needs_path: false,
    };
    if let Some(coupled) = &vehicle.trailer {
        let t = &coupled.trailer;
        let kingpin = hypot(radius, stance.centre_x_mm - coupled.kingpin.x);
        let long = trailer_mm(t.kingpin_to_axles_mm, t.axle_spacing_mm, t.axle_count);
        all.kingpin_mm = Some(kingpin);
        all.needs_path = kingpin <= long;
        all.trailer_mm = (!all.needs_path).then(|| sqrt(kingpin * kingpin - long * long));
        all.off_tracking_mm = all.trailer_mm.map(|mm| front_mm - mm);
    }
    all
}
