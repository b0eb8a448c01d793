//! Chassis against chassis: what a new wheelbase or fifth-wheel position has brought nearer.
//!
//! How near the maker lets a tyre come to a step or an axle to a hanger is the maker's business. So
//! each pair is measured as the plan has it and as the donor was, and counts only where it has come
//! nearer. Rails are left out: they are cut to length.

use super::known::{Chapter, Which};
use super::required::Asked;
use super::travel::{TRAVEL_MM, kept_on_axles, kept_over_travel};
use super::tyres::{MOVING_MM, Wheel, wheels};
use super::worst::{Found, worst};
use super::{Clearances, LISTED_BEYOND_MM, State, Thing, bounds_of, gap};
use crate::geometry::{Aabb, Broad, Solid};
use crate::vehicle::{Body, BodyKind, Vehicle};

/// Nearer by less than this is not nearer.
const NEARER_MM: f64 = 0.05;

/// A body of the chassis and the room that it takes as it moves.
struct Mover<'a> {
    body: &'a Body,
    wheel: Option<&'a Wheel<'a>>,
    /// Its solids, over the travel when it rides on an axle.
    solids: Vec<Solid>,
    space: Aabb,
}

pub(super) fn moved(vehicle: &Vehicle, new_wheels: &[Wheel<'_>], gaps: &mut Clearances) {
    if !vehicle.has_moved() {
        return;
    }
    let donor_bodies = vehicle.donor_bodies();
    let donor_wheels = wheels(vehicle, &donor_bodies);
    let new = movers(vehicle, &vehicle.bodies, new_wheels);
    let old = movers(vehicle, &donor_bodies, &donor_wheels);
    let boxes: Vec<Aabb> = new.iter().map(|m| m.space).collect();
    let most = new
        .iter()
        .map(|m| m.body.clearance_mm)
        .fold(TRAVEL_MM, f64::max);
    for (i, j) in Broad::near_pairs(&boxes, most + LISTED_BEYOND_MM) {
        // Both by the same: nothing between them has changed.
        if old.len() != new.len() || shift(&new[i], &old[i]) == shift(&new[j], &old[j]) {
            continue;
        }
        let Some((s, asked)) = room(&new[i], &new[j]) else {
            continue;
        };
        let before = room(&old[i], &old[j]).map_or(f64::INFINITY, |(s, _)| s.distance_mm);
        if s.distance_mm > before - NEARER_MM {
            continue;
        }
        let name = |m: &Mover<'_>| Thing::Body(m.body.id.clone());
        gaps.put(
            (Chapter::Moved, Which::Rest(i), Which::Rest(j)),
            Some(gap(State::Moved, name(&new[i]), name(&new[j]), s, asked)),
        );
    }
}

/// Tyres and kept axles first, then what stays.
fn movers<'a>(vehicle: &'a Vehicle, bodies: &'a [Body], wheels: &'a [Wheel<'a>]) -> Vec<Mover<'a>> {
    let tyre = |wheel: &'a Wheel<'a>| Mover {
        body: wheel.body,
        wheel: Some(wheel),
        solids: wheel.body.solids.clone(),
        space: wheel.space,
    };
    let with = |body: &'a Body, solids: Vec<Solid>| Mover {
        body,
        wheel: None,
        space: bounds_of(&solids),
        solids,
    };
    let riding = kept_on_axles(vehicle, bodies)
        .map(|(body, axle)| with(body, kept_over_travel(vehicle, body, axle)));
    let staying = bodies
        .iter()
        .filter(|b| b.axle.is_none() && b.kind != BodyKind::Rail)
        .map(|b| with(b, b.solids.clone()));
    wheels
        .iter()
        .map(tyre)
        .chain(riding)
        .chain(staying)
        .collect()
}

/// How far the front and the rear of a body have moved, in whole micrometres.
fn shift(new: &Mover<'_>, old: &Mover<'_>) -> (i64, i64) {
    #[expect(clippy::cast_possible_truncation, reason = "a few metres")]
    let whole = |mm: f64| (mm * 1e3).round() as i64;
    let (new, old) = (new.body.bounds(), old.body.bounds());
    (whole(new.min.x - old.min.x), whole(new.max.x - old.max.x))
}

/// Room between two of them; two on one axle move together.
fn room(a: &Mover<'_>, b: &Mover<'_>) -> Option<Found<'static>> {
    if a.body.axle.is_some() && a.body.axle == b.body.axle {
        return None;
    }
    let own = a.body.clearance_mm.max(b.body.clearance_mm);
    match (a.wheel, b.wheel) {
        (Some(_), Some(_)) => None,
        (Some(wheel), None) | (None, Some(wheel)) => {
            let other = if a.wheel.is_some() { b } else { a };
            let asked = Asked::new(MOVING_MM, "tyre over its travel and lock")
                .or(Asked::new(other.body.clearance_mm, "asked by the chassis"));
            let found = wheel.moving(&other.solids, None, asked.mm, &|_| asked);
            found.map(|(s, asked)| {
                if a.wheel.is_some() {
                    (s.swapped(), asked)
                } else {
                    (s, asked)
                }
            })
        }
        (None, None) => {
            let mut asked = Asked::new(own, "asked by the chassis");
            if a.body.axle.is_some() || b.body.axle.is_some() {
                asked = Asked::new(TRAVEL_MM, "suspension travel").or(asked);
            }
            worst(&a.solids, &b.solids, asked.mm, true, &|_| asked)
        }
    }
}
