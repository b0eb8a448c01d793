//! The trailer: its nose swings ahead of the kingpin, its box turns above the frame, its landing
//! legs behind.

use super::known::{Chapter, Parts, Which};
use super::required::{Asked, is_even, most_on_sides, or_own};
use super::worst::{Demand, Found, worse, worst};
use super::{Clearances, Gap, State, Thing, bounds_of, far, gap};
use crate::chassis::ObstacleKind;
use crate::geometry::{Aabb, Point, Separation, Solid};
use crate::numeric;
use crate::vehicle::{Body, BodyKind, Coupled, Vehicle};

/// The trailer, or why what it sweeps could not be examined.
fn coupled<'a>(vehicle: &'a Vehicle, state: State, found: &mut Clearances) -> Option<&'a Coupled> {
    if vehicle.trailer.is_none() && vehicle.chassis.fifth_wheel.is_some() {
        found
            .missing
            .push((state, "no trailer is coupled".to_owned()));
    }
    vehicle.trailer.as_deref()
}

/// Anything at the trailer's height against the circle of its nose, and against its box as it turns.
pub(super) fn turning(
    vehicle: &Vehicle,
    bodies: &[(&Body, Aabb)],
    parts: &Parts<'_>,
    found: &mut Clearances,
) {
    let Some(coupled) = coupled(vehicle, State::Swing, found) else {
        return;
    };
    let sweeps = [
        ("swing of the trailer nose", coupled.nose_sweep()),
        ("turning trailer", coupled.box_sweep()),
    ];
    let spaces = sweeps.each_ref().map(|(_, solids)| bounds_of(solids));
    let asked = Asked::new(coupled.trailer.swing_clearance_mm, "trailer swing");
    // One gap for each thing: from whichever of the two it is nearer to.
    let measure =
        |first: Thing, solids: &[Solid], bounds: &Aabb, most: f64, even, demand: Demand<'_, '_>| {
            let mut nearest: Option<(&str, Found<'_>)> = None;
            for ((name, sweep), space) in sweeps.iter().zip(&spaces) {
                if far(space, bounds, most) {
                    continue;
                }
                if let Some(new) = worst(solids, sweep, most, even, demand) {
                    let is_worse = match &nearest {
                        Some((_, old)) => worse(Some(*old), new) != Some(*old),
                        None => true,
                    };
                    if is_worse {
                        nearest = Some((name, new));
                    }
                }
            }
            let (name, (s, asked)) = nearest?;
            let second = Thing::Sweep(name.to_owned());
            Some(gap(State::Swing, first, second, s, asked))
        };
    for (at, item) in parts.facing(false) {
        let most = most_on_sides(item).max(asked.mm);
        let demand = |towards| or_own(asked, item, towards);
        let first = Thing::Part(item.tag.clone());
        let even = is_even(item);
        let gap = measure(first, &item.solids, &item.bounds, most, even, &demand);
        found.put((Chapter::Swing, Which::Part(at), Which::Rest(0)), gap);
    }
    for (at, (body, bounds)) in parts.rest(bodies) {
        // The fifth wheel carries the trailer; tyres, axles and rails are below it.
        let counts = !matches!(
            body.kind,
            BodyKind::Obstacle(ObstacleKind::FifthWheel)
                | BodyKind::Tyre(_)
                | BodyKind::Axle
                | BodyKind::Rail
        );
        if counts {
            let asked = of_chassis(asked, body);
            let first = Thing::Body(body.id.clone());
            let gap = measure(first, &body.solids, bounds, asked.mm, true, &|_| asked);
            found.put((Chapter::Swing, Which::Rest(at), Which::Rest(0)), gap);
        }
    }
}

/// The larger of what is asked and what the body of the chassis asks.
fn of_chassis<'a>(asked: Asked<'a>, body: &Body) -> Asked<'a> {
    asked.or(Asked::new(body.clearance_mm, "asked by the chassis"))
}

/// Anything behind the kingpin against the circle that the landing legs describe about it.
pub(super) fn legs(
    vehicle: &Vehicle,
    bodies: &[(&Body, Aabb)],
    parts: &Parts<'_>,
    found: &mut Clearances,
) {
    let Some(coupled) = coupled(vehicle, State::Legs, found) else {
        return;
    };
    let asked = Asked::new(
        coupled.trailer.legs.clearance_mm,
        "landing legs in a tight turn",
    );
    for (at, item) in parts.facing(false) {
        let first = Thing::Part(item.tag.clone());
        let demand = |towards| or_own(asked, item, towards);
        let gap = to_legs(coupled, first, &item.bounds, &demand);
        found.put((Chapter::Legs, Which::Part(at), Which::Rest(0)), gap);
    }
    for (at, (body, bounds)) in parts.rest(bodies) {
        let first = Thing::Body(body.id.clone());
        let asked = of_chassis(asked, body);
        let gap = to_legs(coupled, first, bounds, &|_| asked);
        found.put((Chapter::Legs, Which::Rest(at), Which::Rest(0)), gap);
    }
}

/// Room between a box and the inside of the legs' circle, at the corner where it is worst. Only what
/// stands where the legs can come counts: behind the kingpin, or beside it within half the width of
/// the legs, and at their height.
fn to_legs(coupled: &Coupled, first: Thing, bounds: &Aabb, demand: Demand<'_, '_>) -> Option<Gap> {
    let legs = &coupled.trailer.legs;
    let pin = coupled.kingpin;
    let foremost = pin.x - legs.width_mm / 2.0;
    let below = bounds.max.z <= legs.bottom_z_mm || bounds.min.z >= coupled.trailer.nose_z_mm;
    if below || bounds.max.x <= foremost {
        return None;
    }
    let mut found: Option<Found<'_>> = None;
    for x in [bounds.min.x.max(foremost), bounds.max.x] {
        for y in [bounds.min.y, bounds.max.y] {
            let (dx, dy) = (x - pin.x, y - pin.y);
            let radius = numeric::hypot(dx, dy);
            if radius <= 0.0 {
                continue;
            }
            let corner = Point::new(x, y, bounds.max.z.min(pin.z));
            let outward = Point::new(dx, dy, 0.0);
            let at_legs = pin + outward * (legs.behind_kingpin_mm / radius);
            let s = Separation {
                distance_mm: legs.behind_kingpin_mm - radius,
                on_first: corner,
                on_second: Point::new(at_legs.x, at_legs.y, corner.z),
            };
            found = worse(found, (s, demand(outward)));
        }
    }
    let (s, asked) = found.filter(super::worst::is_listed)?;
    let second = Thing::Sweep("landing legs".to_owned());
    Some(gap(State::Legs, first, second, s, asked))
}
