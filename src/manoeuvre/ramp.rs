//! The coupled truck where a ramp begins or ends: the trailer pitches about the fifth wheel.
//!
//! Most when the tractor's last axle has just reached the one side of the break and the trailer's axles
//! stand on the other, straight ahead. The kingpin, d ahead of that axle, then lies on the tractor's
//! side already, so that the trailer pitches with it by its share d/L: in all atan(g) − atan(g d/L).
//! The pivot is the kingpin's seat. Suspensions stay at design height.

use super::stance::on_road;
use crate::chassis::ObstacleKind;
use crate::geometry::{Aabb, Point, Solid, separation_within};
use crate::numeric::{atan, cos, sin, sort_by};
use crate::plan::Moving;
use crate::vehicle::{BodyKind, Coupled, Vehicle};

/// Which way the trailer pitches against the tractor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pitch {
    /// The tractor begins to climb, or the trailer still descends: the nose dips towards the cab.
    Dip,
    /// The tractor is over the crest: the trailer's underside comes down behind.
    Crest,
}

/// Something on the tractor that the pitched trailer comes near.
#[derive(Clone, Debug)]
pub struct OnRamp {
    /// Which way.
    pub pitch: Pitch,
    /// Tag of the part; empty for the truck itself.
    pub tag: String,
    /// The thing, in words.
    pub name: String,
    /// Near what of the trailer.
    pub near: &'static str,
    /// Room, mm; negative is the depth of overlap.
    pub distance_mm: f64,
    /// Closest point on the tractor.
    pub on_tractor: Point,
    /// Closest point on the trailer.
    pub on_trailer: Point,
}

/// What is farther than this is not listed, mm.
const REACH_MM: f64 = 150.0;
/// Depth of the landing legs along the trailer, mm; only their front matters here.
const LEG_MM: f64 = 150.0;

/// Works it out for the plan's ramp; `None` for a truck that pulls no trailer.
pub(super) fn ramp(vehicle: &Vehicle) -> Option<Result<Vec<OnRamp>, String>> {
    vehicle.chassis.fifth_wheel.as_ref()?;
    let Some(coupled) = &vehicle.trailer else {
        return Some(Err("no trailer is coupled".to_owned()));
    };
    let percent = vehicle.moving.ramp_percent.unwrap_or(Moving::RAMP_PERCENT);
    Some(Ok(on_ramp(vehicle, coupled, percent)))
}

/// Everything that a trailer pitched by this grade comes near, nearest first of each pitch.
#[must_use]
pub fn on_ramp(vehicle: &Vehicle, coupled: &Coupled, percent: f64) -> Vec<OnRamp> {
    let mut found = Vec::new();
    let angle = pitch_rad(vehicle, coupled, percent / 100.0);
    for (pitch, sign) in [(Pitch::Dip, 1.0), (Pitch::Crest, -1.0)] {
        let bodies = pitched(coupled, sign * angle);
        let around = bodies.map(|(name, solid)| (name, solid.aabb().inflated(REACH_MM), [solid]));
        let mut see = |tag: &str, name: &str, solids: &[Solid], bounds: &Aabb| {
            for (near, room, solid) in &around {
                if !room.overlaps(bounds) {
                    continue;
                }
                if let Some(s) = separation_within(solids, solid, REACH_MM) {
                    found.push(OnRamp {
                        pitch,
                        tag: tag.to_owned(),
                        name: name.to_owned(),
                        near,
                        distance_mm: s.distance_mm,
                        on_tractor: s.on_first,
                        on_trailer: s.on_second,
                    });
                }
            }
        };
        for item in vehicle.items.iter().filter(|i| !i.part.soft) {
            see(&item.tag, &item.tag, &item.solids, &item.bounds);
        }
        for body in vehicle.bodies.iter() {
            // The fifth wheel carries the trailer and pitches with it.
            if body.kind != BodyKind::Obstacle(ObstacleKind::FifthWheel) {
                see("", &body.name, &body.solids, &body.bounds());
            }
        }
    }
    sort_by(&mut found, |a, b| {
        let order = a.pitch.cmp(&b.pitch);
        order.then(a.distance_mm.total_cmp(&b.distance_mm))
    });
    found
}

/// Largest angle between tractor and trailer, side view, at a break of this grade.
fn pitch_rad(vehicle: &Vehicle, coupled: &Coupled, grade: f64) -> f64 {
    let last = on_road(vehicle)
        .last()
        .map_or(coupled.kingpin.x, |a| a.x_mm);
    let share = (last - coupled.kingpin.x) / coupled.trailer.kingpin_to_axles_mm.max(1.0);
    atan(grade) - atan(grade * share)
}

/// Trailer and landing legs pitched about the kingpin, nose down positive.
fn pitched(coupled: &Coupled, angle: f64) -> [(&'static str, Solid); 2] {
    let t = &coupled.trailer;
    let pin = coupled.kingpin;
    let legs_x = pin.x + t.legs.behind_kingpin_mm;
    let half = t.legs.width_mm / 2.0;
    let legs = Aabb::new(
        Point::new(legs_x, -half, t.legs.bottom_z_mm),
        Point::new(legs_x + LEG_MM, half, t.nose_z_mm),
    );
    let (c, s) = (cos(angle), sin(angle));
    let turned = |b: Aabb| {
        let corner = |p: Point| {
            let (x, z) = (p.x - pin.x, p.z - pin.z);
            Point::new(pin.x + c * x - s * z, p.y, pin.z + s * x + c * z)
        };
        Solid::Hull(b.corners().map(corner).to_vec())
    };
    [
        ("the trailer", turned(coupled.box_ahead())),
        ("the landing legs", turned(legs)),
    ]
}
