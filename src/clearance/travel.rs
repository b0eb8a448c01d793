//! What rides on an axle, placed or kept from the donor, over the axle's travel, against what does
//! not ride on it.

use super::known::{Chapter, Parts, Which};
use super::required::{Asked, between_parts, is_even, most_asked, most_on_sides, or_own};
use super::worst::worst;
use super::{Clearances, Gap, State, Thing, far, gap};
use crate::chassis::{Axle, Hardware};
use crate::geometry::{Aabb, Point, Solid};
use crate::vehicle::{Body, BodyKind, Item, Vehicle};
use std::cell::OnceCell;

/// Distance of what rides on an axle from what does not, over its travel, common practice.
pub(super) const TRAVEL_MM: f64 = 25.0;

const ASKED: Asked<'static> = Asked::new(TRAVEL_MM, "suspension travel");

/// Most of its longest side that anything round takes more while it moves; a little more than
/// [`ROUND_SIDES`](crate::geometry::ROUND_SIDES) asks for, which costs a measurement and no gap.
const ROUNDED: f64 = 0.003;

/// Something that rides on an axle.
struct Rider<'a> {
    what: What<'a>,
    which: Which,
    /// It is not known from before.
    fresh: bool,
    axle: &'a Axle,
    /// Box that holds it from full rebound to full jounce.
    space: Aabb,
    /// Room that it takes meanwhile, worked out when something is near.
    swept: OnceCell<Vec<Solid>>,
}

#[derive(Clone, Copy)]
enum What<'a> {
    Part(&'a Item),
    Kept(&'a Body),
}

impl<'a> Rider<'a> {
    /// `rest` is the box around it, at design height or raised.
    fn new(
        vehicle: &Vehicle,
        what: What<'a>,
        at: (Which, bool),
        rest: &Aabb,
        axle: &'a Axle,
    ) -> Self {
        let size = rest.size();
        let mut space = rest.inflated(size.x.max(size.y).max(size.z) * ROUNDED);
        space.min.z -= axle.suspension.rebound_mm + vehicle.lifted_mm(axle);
        space.max.z += axle.suspension.jounce_mm;
        Self {
            what,
            which: at.0,
            fresh: at.1,
            axle,
            space,
            swept: OnceCell::new(),
        }
    }

    fn swept(&self, vehicle: &Vehicle) -> &[Solid] {
        self.swept.get_or_init(|| match self.what {
            What::Part(item) => over_travel(&item.solids, self.axle),
            What::Kept(body) => kept_over_travel(vehicle, body, self.axle),
        })
    }

    fn thing(&self) -> Thing {
        match self.what {
            What::Part(item) => Thing::Part(item.tag.clone()),
            What::Kept(body) => Thing::Body(body.id.clone()),
        }
    }

    /// Most that it asks of another part.
    fn most(&self) -> f64 {
        match self.what {
            What::Part(item) => most_asked(item).max(TRAVEL_MM),
            What::Kept(_) => TRAVEL_MM,
        }
    }
}

/// Solids from full rebound to full jounce of this axle.
fn over_travel(solids: &[Solid], axle: &Axle) -> Vec<Solid> {
    let s = &axle.suspension;
    let swept = |solid: &Solid| solid.swept_z(s.rebound_mm, s.jounce_mm);
    solids.iter().map(swept).collect()
}

/// The same of what is kept on an axle, whether that axle is raised or not.
pub(super) fn kept_over_travel(vehicle: &Vehicle, body: &Body, axle: &Axle) -> Vec<Solid> {
    if body.kind != BodyKind::Axle {
        return over_travel(&body.solids, axle);
    }
    let down = Point::new(0.0, 0.0, -vehicle.lifted_mm(axle));
    let solids: Vec<Solid> = body.solids.iter().map(|s| s.translated(down)).collect();
    over_travel(&solids, axle)
}

/// The axle that something kept rides on: an axle that stays, or donor hardware on it.
fn kept_on<'a>(vehicle: &'a Vehicle, body: &Body) -> Option<&'a Axle> {
    let rides = matches!(body.kind, BodyKind::Hardware | BodyKind::Axle);
    vehicle.axle(body.axle.as_deref().filter(|_| rides)?)
}

/// All that is kept on axles, with these.
pub(super) fn kept_on_axles<'a>(
    vehicle: &'a Vehicle,
    bodies: &'a [Body],
) -> impl Iterator<Item = (&'a Body, &'a Axle)> {
    let kept = bodies.iter();
    kept.filter_map(|body| Some((body, kept_on(vehicle, body)?)))
}

/// Axles of which only the tyres have a shape: no e-axle stands there, nothing of the donor that is
/// kept has an envelope, and nothing was taken off that would leave the place empty.
fn without_shape(vehicle: &Vehicle) -> Vec<&str> {
    let known = |axle: &Axle| {
        let here = |on: &Option<String>| on.as_deref() == Some(axle.id.as_str());
        let off = |h: &Hardware| h.drive_axle && vehicle.stripped.contains(&h.id);
        vehicle.items.iter().any(|i| here(&i.unsprung_axle))
            || kept_on_axles(vehicle, &vehicle.bodies).any(|(_, on)| on.id == axle.id)
            || vehicle
                .donor
                .hardware
                .iter()
                .any(|h| here(&h.unsprung_axle) && off(h))
    };
    let axles = vehicle.chassis.axles.iter();
    axles.filter(|a| !known(a)).map(|a| a.id.as_str()).collect()
}

pub(super) fn travel(
    vehicle: &Vehicle,
    bodies: &[(&Body, Aabb)],
    parts: &Parts<'_>,
    found: &mut Clearances,
) {
    let unknown = without_shape(vehicle);
    if !unknown.is_empty() && !parts.all.is_empty() {
        let names = unknown.join(", ").replace('-', " ");
        let missing = format!("the chassis file gives no shape of {names} but the tyres");
        found.missing.push((State::Travel, missing));
    }
    let mut riders: Vec<Rider<'_>> = Vec::new();
    for (i, item) in parts.facing(true) {
        let on = item.unsprung_axle.as_deref();
        if let Some(axle) = on.and_then(|id| vehicle.axle(id)) {
            let at = (Which::Part(i), parts.fresh[i]);
            riders.push(Rider::new(
                vehicle,
                What::Part(item),
                at,
                &item.bounds,
                axle,
            ));
        }
    }
    for (i, (body, bounds)) in bodies.iter().enumerate() {
        if let Some(axle) = kept_on(vehicle, body) {
            let at = (Which::Rest(i), parts.anew);
            riders.push(Rider::new(vehicle, What::Kept(body), at, bounds, axle));
        }
    }
    for (n, rider) in riders.iter().enumerate() {
        let sprung = parts
            .facing(rider.fresh)
            .filter(|(_, i)| i.unsprung_axle.is_none());
        for (j, other) in sprung {
            // Whoever asks: neither may be out of reach of the other's demand.
            if !far(
                &rider.space,
                &other.bounds,
                rider.most().max(most_asked(other)),
            ) {
                let place = (Chapter::RiderAndPart, rider.which, Which::Part(j));
                found.put(place, against_part(vehicle, rider, other));
            }
        }
        for other in &riders[n + 1..] {
            let either = rider.fresh || other.fresh;
            if either && !far(&rider.space, &other.space, rider.most().max(other.most())) {
                let place = (Chapter::Riders, rider.which, other.which);
                found.put(place, against_rider(vehicle, rider, other));
            }
        }
        let fixed = bodies
            .iter()
            .enumerate()
            .filter(|(_, b)| b.0.axle.is_none());
        for (j, (body, bounds)) in fixed.filter(|_| rider.fresh) {
            if !far(&rider.space, bounds, rider.most()) {
                let place = (Chapter::RiderAndRest, rider.which, Which::Rest(j));
                found.put(place, against_chassis(vehicle, rider, body));
            }
        }
    }
}

/// A rider against a part on the springs; what it is flanged to or drives moves along.
fn against_part(vehicle: &Vehicle, rider: &Rider<'_>, other: &Item) -> Option<Gap> {
    if other.joined_axle.as_deref() == Some(rider.axle.id.as_str()) {
        return None;
    }
    match rider.what {
        What::Part(item) if other.joined_to.contains(&item.tag) => None,
        What::Part(item) => {
            let most = most_asked(item).max(most_asked(other)).max(TRAVEL_MM);
            let even = is_even(item) && is_even(other);
            let demand = |towards| ASKED.or(between_parts(item, other, towards));
            let (s, asked) = worst(rider.swept(vehicle), &other.solids, most, even, &demand)?;
            let second = Thing::Part(other.tag.clone());
            Some(gap(State::Travel, rider.thing(), second, s, asked))
        }
        What::Kept(_) => {
            let most = most_on_sides(other).max(TRAVEL_MM);
            let demand = |towards| or_own(ASKED, other, towards);
            let (s, asked) = worst(
                &other.solids,
                rider.swept(vehicle),
                most,
                is_even(other),
                &demand,
            )?;
            let first = Thing::Part(other.tag.clone());
            Some(gap(State::Travel, first, rider.thing(), s, asked))
        }
    }
}

/// Two riders. On different axles one may be down while the other is up; on one axle they move
/// together and may touch.
fn against_rider(vehicle: &Vehicle, a: &Rider<'_>, b: &Rider<'_>) -> Option<Gap> {
    let together = a.axle.id == b.axle.id;
    match (a.what, b.what) {
        // Two parts on one axle are two axles in one place, which has a check of its own.
        (What::Part(_), What::Part(_)) if together => None,
        (What::Part(one), What::Part(other)) => {
            let (a, b, one, other) = if other.tag < one.tag {
                (b, a, other, one)
            } else {
                (a, b, one, other)
            };
            let most = most_asked(one).max(most_asked(other)).max(TRAVEL_MM);
            let even = is_even(one) && is_even(other);
            let demand = |towards| ASKED.or(between_parts(one, other, towards));
            let (s, asked) = worst(a.swept(vehicle), b.swept(vehicle), most, even, &demand)?;
            Some(gap(State::Travel, a.thing(), b.thing(), s, asked))
        }
        (What::Part(item), What::Kept(body)) if together => {
            let is_axle = |h: &Hardware| h.id == body.id && h.drive_axle;
            if body.kind == BodyKind::Axle || vehicle.donor.hardware.iter().any(is_axle) {
                return None;
            }
            let asked = Asked::new(0.0, "both ride on one axle");
            let (s, asked) = worst(&item.solids, &body.solids, 0.0, true, &|_| asked)?;
            Some(gap(State::Travel, a.thing(), b.thing(), s, asked))
        }
        (What::Part(item), What::Kept(_)) => {
            let most = most_on_sides(item).max(TRAVEL_MM);
            let demand = |towards| or_own(ASKED, item, towards);
            let (s, asked) = worst(
                a.swept(vehicle),
                b.swept(vehicle),
                most,
                is_even(item),
                &demand,
            )?;
            Some(gap(State::Travel, a.thing(), b.thing(), s, asked))
        }
        // Parts come first in the list; two kept ones are the chassis maker's.
        (What::Kept(_), _) => None,
    }
}

/// A placed rider against what stays. What the donor's own axles come near is the chassis maker's,
/// unless the plan has moved it.
fn against_chassis(vehicle: &Vehicle, rider: &Rider<'_>, body: &Body) -> Option<Gap> {
    let What::Part(item) = rider.what else {
        return None;
    };
    let most = most_on_sides(item).max(TRAVEL_MM);
    let demand = |towards| or_own(ASKED, item, towards);
    let (s, asked) = worst(
        rider.swept(vehicle),
        &body.solids,
        most,
        is_even(item),
        &demand,
    )?;
    let second = Thing::Body(body.id.clone());
    Some(gap(State::Travel, rider.thing(), second, s, asked))
}
