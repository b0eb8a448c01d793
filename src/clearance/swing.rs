//! The trailer: its nose swings ahead of the kingpin, its landing legs behind.

use super::{Asked, Clearances, LISTED_BEYOND_MM, State, Thing, gap, near};
use crate::chassis::ObstacleKind;
use crate::geometry::{Aabb, Point, Separation, Solid};
use crate::numeric;
use crate::vehicle::{BodyKind, Coupled, Item, Vehicle};

/// Anything behind the cab against the circle of the trailer's nose.
pub(super) fn nose(vehicle: &Vehicle, items: &[&Item], found: &mut Clearances) {
    let Some(coupled) = &vehicle.trailer else {
        if vehicle.chassis.fifth_wheel.is_some() {
            found
                .missing
                .push((State::Swing, "no trailer is coupled".to_owned()));
        }
        return;
    };
    let swept = [coupled.swing_solid()];
    let asked_mm = coupled.trailer.swing_clearance_mm;
    let reach = asked_mm + LISTED_BEYOND_MM;
    let around = swept[0].aabb().inflated(reach);
    let mut measure = |first: Thing, solids: &[Solid], bounds: &Aabb| {
        if !around.overlaps(bounds) {
            return;
        }
        if let Some(s) = near(solids, &swept, reach) {
            let second = Thing::Sweep("swing of the trailer nose".to_owned());
            let asked = Asked::new(asked_mm, "trailer swing");
            found.gaps.push(gap(State::Swing, first, second, s, asked));
        }
    };
    for item in items {
        measure(Thing::Part(item.tag.clone()), &item.solids, &item.bounds);
    }
    for body in &vehicle.bodies {
        // The fifth wheel carries the trailer; tyres and rails are below it.
        let counts = !matches!(
            body.kind,
            BodyKind::Obstacle(ObstacleKind::FifthWheel) | BodyKind::Tyre(_) | BodyKind::Rail
        );
        if counts {
            measure(Thing::Body(body.id.clone()), &body.solids, &body.bounds());
        }
    }
}

/// Anything behind the kingpin against the circle that the landing legs describe about it.
pub(super) fn legs(vehicle: &Vehicle, items: &[&Item], found: &mut Clearances) {
    let Some(coupled) = &vehicle.trailer else {
        if vehicle.chassis.fifth_wheel.is_some() {
            found
                .missing
                .push((State::Legs, "no trailer is coupled".to_owned()));
        }
        return;
    };
    let things = items
        .iter()
        .map(|i| (Thing::Part(i.tag.clone()), i.bounds))
        .chain(
            vehicle
                .bodies
                .iter()
                .map(|b| (Thing::Body(b.id.clone()), b.bounds())),
        );
    for (first, bounds) in things {
        let Some(s) = to_legs(coupled, &bounds) else {
            continue;
        };
        let asked_mm = coupled.trailer.legs.clearance_mm;
        if s.distance_mm <= asked_mm + LISTED_BEYOND_MM {
            let second = Thing::Sweep("landing legs".to_owned());
            let asked = Asked::new(asked_mm, "landing legs in a tight turn");
            found.gaps.push(gap(State::Legs, first, second, s, asked));
        }
    }
}

/// Room between a box and the inside of the legs' circle. Only what stands where the legs can come
/// counts: behind the kingpin, or beside it within half the width of the legs, and at their height.
fn to_legs(coupled: &Coupled, bounds: &Aabb) -> Option<Separation> {
    let legs = &coupled.trailer.legs;
    let pin = coupled.kingpin;
    let foremost = pin.x - legs.width_mm / 2.0;
    let below = bounds.max.z <= legs.bottom_z_mm || bounds.min.z >= coupled.trailer.nose_z_mm;
    if below || bounds.max.x <= foremost {
        return None;
    }
    let x = [bounds.min.x.max(foremost), bounds.max.x];
    let y = [bounds.min.y, bounds.max.y];
    let (mut radius, mut far) = (0.0, bounds.max);
    for x in x {
        for y in y {
            let r = numeric::hypot(x - pin.x, y - pin.y);
            if r > radius {
                radius = r;
                far = Point::new(x, y, bounds.max.z.min(pin.z));
            }
        }
    }
    if radius <= 0.0 {
        return None;
    }
    let scale = legs.behind_kingpin_mm / radius;
    let on_legs = Point::new(
        pin.x + (far.x - pin.x) * scale,
        pin.y + (far.y - pin.y) * scale,
        far.z,
    );
    let distance_mm = legs.behind_kingpin_mm - radius;
    Some(Separation {
        distance_mm,
        on_first: far,
        on_second: on_legs,
    })
}
