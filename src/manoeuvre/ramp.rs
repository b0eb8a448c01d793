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
    thing: Thing,
}

/// Whose it is, in the order in which things are looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Thing {
    Item(usize),
    Body(usize),
}

/// What is farther than this is not listed, mm.
const REACH_MM: f64 = 150.0;
/// Depth of the landing legs along the trailer, mm; only their front matters here.
const LEG_MM: f64 = 150.0;

type Answer = Option<Result<Vec<OnRamp>, String>>;

/// Works it out for the plan's ramp; `None` for a truck that pulls no trailer.
pub(super) fn ramp(vehicle: &Vehicle, before: Option<(&Vehicle, &Answer)>) -> Answer {
    vehicle.chassis.fifth_wheel.as_ref()?;
    let Some(coupled) = &vehicle.trailer else {
        return Some(Err("no trailer is coupled".to_owned()));
    };
    let percent = |of: &Vehicle| of.moving.ramp_percent.unwrap_or(Moving::RAMP_PERCENT);
    let known = before.and_then(|(old, answer)| {
        let alike = vehicle.stands_on(old) && percent(vehicle) == percent(old);
        let known = answer.as_ref()?.as_ref().ok()?;
        alike.then_some((old, &**known))
    });
    Some(Ok(measured(vehicle, coupled, percent(vehicle), known)))
}

/// Everything that a trailer pitched by this grade comes near, nearest first of each pitch.
#[must_use]
pub fn on_ramp(vehicle: &Vehicle, coupled: &Coupled, percent: f64) -> Vec<OnRamp> {
    measured(vehicle, coupled, percent, None)
}

/// The same; what is known of items that stay where they are and of the chassis is not measured again.
fn measured(
    vehicle: &Vehicle,
    coupled: &Coupled,
    percent: f64,
    known: Option<(&Vehicle, &[OnRamp])>,
) -> Vec<OnRamp> {
    let stays = |thing: Thing| {
        known.is_some_and(|(old, _)| match thing {
            Thing::Item(index) => vehicle.keeps_item(index, old),
            Thing::Body(_) => true,
        })
    };
    let of_before = known.into_iter().flat_map(|(_, found)| found);
    let mut found: Vec<OnRamp> = of_before
        .filter(|near| stays(near.thing))
        .cloned()
        .collect();
    let angle = pitch_rad(vehicle, coupled, percent / 100.0);
    for (pitch, sign) in [(Pitch::Dip, 1.0), (Pitch::Crest, -1.0)] {
        let bodies = pitched(coupled, sign * angle);
        let around = bodies.map(|(name, solid)| (name, solid.aabb().inflated(REACH_MM), [solid]));
        let mut see = |thing: Thing, tag: &str, name: &str, solids: &[Solid], bounds: &Aabb| {
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
                        thing,
                    });
                }
            }
        };
        for (index, item) in vehicle.items.iter().enumerate() {
            let thing = Thing::Item(index);
            if !item.part.soft && !stays(thing) {
                see(thing, &item.tag, &item.tag, &item.solids, &item.bounds);
            }
        }
        for (index, body) in vehicle.bodies.iter().enumerate() {
            let thing = Thing::Body(index);
            // The fifth wheel carries the trailer and pitches with it.
            let carries = body.kind == BodyKind::Obstacle(ObstacleKind::FifthWheel);
            if !carries && !stays(thing) {
                see(thing, "", &body.name, &body.solids, &body.bounds());
            }
        }
    }
    sort_by(&mut found, |a, b| {
        let order = a.pitch.cmp(&b.pitch);
        let order = order.then(a.distance_mm.total_cmp(&b.distance_mm));
        order.then(a.thing.cmp(&b.thing))
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
