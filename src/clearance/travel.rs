//! What rides on an axle, placed or kept from the donor, over the axle's travel, against what does
//! not ride on it.

use super::required::{Asked, between_parts, is_even, most_asked, most_on_sides, or_own};
use super::worst::worst;
use super::{Clearances, Gap, LISTED_BEYOND_MM, State, Thing, bounds_of, gap};
use crate::chassis::{Axle, Hardware};
use crate::geometry::{Aabb, Broad, Point, Solid};
use crate::vehicle::{Body, BodyKind, Item, Vehicle};

/// Distance of what rides on an axle from what does not, over its travel, common practice.
pub(super) const TRAVEL_MM: f64 = 25.0;

const ASKED: Asked<'static> = Asked::new(TRAVEL_MM, "suspension travel");

/// Something that rides on an axle.
struct Rider<'a> {
    what: What<'a>,
    axle: &'a Axle,
    /// Room that it takes from full rebound to full jounce.
    swept: Vec<Solid>,
    space: Aabb,
}

#[derive(Clone, Copy)]
enum What<'a> {
    Part(&'a Item),
    Kept(&'a Body),
}

impl<'a> Rider<'a> {
    fn new(what: What<'a>, swept: Vec<Solid>, axle: &'a Axle) -> Self {
        let space = bounds_of(&swept);
        Self {
            what,
            axle,
            swept,
            space,
        }
    }

    fn thing(&self) -> Thing {
        match self.what {
            What::Part(item) => Thing::Part(item.tag.clone()),
            What::Kept(body) => Thing::Body(body.id.clone()),
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

/// Axles that stay and donor hardware that rides on an axle and was kept, with that axle.
pub(super) fn kept_on_axles<'a>(
    vehicle: &'a Vehicle,
    bodies: &'a [Body],
) -> impl Iterator<Item = (&'a Body, &'a Axle)> {
    let rides = |b: &&Body| matches!(b.kind, BodyKind::Hardware | BodyKind::Axle);
    let kept = bodies.iter().filter(rides);
    kept.filter_map(|body| Some((body, vehicle.axle(body.axle.as_deref()?)?)))
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

pub(super) fn travel(vehicle: &Vehicle, items: &[&Item], found: &mut Clearances) {
    let unknown = without_shape(vehicle);
    if !unknown.is_empty() && !items.is_empty() {
        let names = unknown.join(", ").replace('-', " ");
        let missing = format!("the chassis file gives no shape of {names} but the tyres");
        found.missing.push((State::Travel, missing));
    }
    let gaps = &mut found.gaps;
    let mut riders: Vec<Rider<'_>> = Vec::new();
    for item in items {
        if let Some(axle) = item
            .unsprung_axle
            .as_deref()
            .and_then(|id| vehicle.axle(id))
        {
            riders.push(Rider::new(
                What::Part(item),
                over_travel(&item.solids, axle),
                axle,
            ));
        }
    }
    riders.extend(kept_on_axles(vehicle, &vehicle.bodies).map(|(body, axle)| {
        let swept = kept_over_travel(vehicle, body, axle);
        Rider::new(What::Kept(body), swept, axle)
    }));
    if riders.is_empty() {
        return;
    }
    // Whoever asks, rider or neighbour: neither may be out of reach of the other's demand.
    let most = items
        .iter()
        .map(|i| most_asked(i))
        .fold(TRAVEL_MM, f64::max);
    let reach = most + LISTED_BEYOND_MM;
    let spaces: Vec<Aabb> = riders.iter().map(|r| r.space).collect();

    let sprung: Vec<&Item> = items
        .iter()
        .copied()
        .filter(|i| i.unsprung_axle.is_none())
        .collect();
    let boxes: Vec<Aabb> = sprung.iter().map(|i| i.bounds).collect();
    for (i, j) in Broad::near_pairs_between(&spaces, &boxes, reach) {
        gaps.extend(against_part(&riders[i], sprung[j]));
    }
    for (i, j) in Broad::near_pairs(&spaces, reach) {
        gaps.extend(against_rider(vehicle, &riders[i], &riders[j]));
    }
    let fixed: Vec<&Body> = vehicle.bodies.iter().filter(|b| b.axle.is_none()).collect();
    let boxes: Vec<Aabb> = fixed.iter().map(|b| b.bounds()).collect();
    for (i, j) in Broad::near_pairs_between(&spaces, &boxes, reach) {
        gaps.extend(against_chassis(&riders[i], fixed[j]));
    }
}

/// A rider against a part on the springs; what it is flanged to or drives moves along.
fn against_part(rider: &Rider<'_>, other: &Item) -> Option<Gap> {
    if other.joined_axle.as_deref() == Some(rider.axle.id.as_str()) {
        return None;
    }
    match rider.what {
        What::Part(item) if other.joined_to.contains(&item.tag) => None,
        What::Part(item) => {
            let most = most_asked(item).max(most_asked(other)).max(TRAVEL_MM);
            let even = is_even(item) && is_even(other);
            let demand = |towards| ASKED.or(between_parts(item, other, towards));
            let (s, asked) = worst(&rider.swept, &other.solids, most, even, &demand)?;
            let second = Thing::Part(other.tag.clone());
            Some(gap(State::Travel, rider.thing(), second, s, asked))
        }
        What::Kept(_) => {
            let most = most_on_sides(other).max(TRAVEL_MM);
            let demand = |towards| or_own(ASKED, other, towards);
            let (s, asked) = worst(&other.solids, &rider.swept, most, is_even(other), &demand)?;
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
            let (s, asked) = worst(&a.swept, &b.swept, most, even, &demand)?;
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
            let (s, asked) = worst(&a.swept, &b.swept, most, is_even(item), &demand)?;
            Some(gap(State::Travel, a.thing(), b.thing(), s, asked))
        }
        // Parts come first in the list; two kept ones are the chassis maker's.
        (What::Kept(_), _) => None,
    }
}

/// A placed rider against what stays. What the donor's own axles come near is the chassis maker's,
/// unless the plan has moved it.
fn against_chassis(rider: &Rider<'_>, body: &Body) -> Option<Gap> {
    let What::Part(item) = rider.what else {
        return None;
    };
    let most = most_on_sides(item).max(TRAVEL_MM);
    let demand = |towards| or_own(ASKED, item, towards);
    let (s, asked) = worst(&rider.swept, &body.solids, most, is_even(item), &demand)?;
    let second = Thing::Body(body.id.clone());
    Some(gap(State::Travel, rider.thing(), second, s, asked))
}
