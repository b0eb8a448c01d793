//! In motion: tyres over jounce and lock, what rides on the axles over its travel, hood and cab.

use super::required::{between_part_and_body, between_parts, most_asked};
use super::{Asked, Clearances, Gap, LISTED_BEYOND_MM, State, Thing, bounds_of, gap, near};
use crate::chassis::{Axle, Shape};
use crate::geometry::{Aabb, Broad, Point, Solid, yawed};
use crate::vehicle::{Body, BodyKind, Item, Vehicle};

/// Distance to a tyre at rest, common practice.
const AT_REST_MM: f64 = 75.0;
/// Distance to a tyre at full jounce and lock, common practice.
const MOVING_MM: f64 = 25.0;
/// Distance of what rides on an axle from what does not, at full jounce, common practice.
const TRAVEL_MM: f64 = 25.0;
/// Distance to what hood or cab sweep when they open, common practice.
const OPENING_MM: f64 = 50.0;
/// Steering angles that are tried between straight ahead and each lock.
const LOCK_STEPS: u32 = 3;

/// Parts against tyres, at rest and moving.
pub(super) fn tyres(vehicle: &Vehicle, items: &[&Item], gaps: &mut Vec<Gap>) {
    let tyres: Vec<(&Body, &Axle)> = vehicle
        .bodies
        .iter()
        .filter_map(|body| match &body.kind {
            BodyKind::Tyre(axle) => vehicle.axle(axle).map(|axle| (body, axle)),
            _ => None,
        })
        .collect();
    let moving: Vec<Vec<Solid>> = tyres
        .iter()
        .map(|(body, axle)| moving_tyre(&body.solids, axle))
        .collect();
    let boxes: Vec<Aabb> = moving
        .iter()
        .zip(&tyres)
        .map(|(solids, (body, _))| bounds_of(solids).union(&body.bounds()))
        .collect();
    let parts: Vec<Aabb> = items.iter().map(|i| i.bounds).collect();
    let reach = AT_REST_MM + LISTED_BEYOND_MM;
    for (i, j) in Broad::near_pairs_between(&parts, &boxes, reach) {
        let (item, (body, axle)) = (items[i], tyres[j]);
        let on_axle = item.unsprung_axle.as_deref() == Some(axle.id.as_str());
        if on_axle || item.joined_axle.as_deref() == Some(axle.id.as_str()) {
            continue;
        }
        let things = || (Thing::Part(item.tag.clone()), Thing::Body(body.id.clone()));
        if let Some(s) = near(&item.solids, &body.solids, reach) {
            let (first, second) = things();
            let asked = Asked::new(AT_REST_MM, "tyre at rest");
            gaps.push(gap(State::TyreAtRest, first, second, s, asked));
        }
        if let Some(s) = near(&item.solids, &moving[j], MOVING_MM + LISTED_BEYOND_MM) {
            let (first, second) = things();
            let asked = Asked::new(MOVING_MM, "tyre at full jounce and lock");
            gaps.push(gap(State::TyreMoving, first, second, s, asked));
        }
    }
}

/// A tyre at full jounce, and when it steers also at rest, at steps over the whole lock.
fn moving_tyre(solids: &[Solid], axle: &Axle) -> Vec<Solid> {
    let up = Point::new(0.0, 0.0, axle.suspension.jounce_mm);
    let lock = axle.steer_angle_deg.to_radians();
    let mut all = Vec::new();
    for solid in solids {
        let raised = solid.translated(up);
        if lock <= 0.0 {
            all.push(raised);
            continue;
        }
        let about = solid.aabb().centre();
        for step in 0..=2 * LOCK_STEPS {
            let angle = lock * (f64::from(step) / f64::from(LOCK_STEPS) - 1.0);
            all.push(yawed(solid, about, angle));
            all.push(yawed(&raised, about, angle));
        }
    }
    all
}

/// What rides on an axle, from full rebound to full jounce, against everything that does not.
pub(super) fn travel(vehicle: &Vehicle, items: &[&Item], gaps: &mut Vec<Gap>) {
    // Whoever asks, rider or neighbour: neither may be out of reach of the other's demand.
    let most = items
        .iter()
        .map(|i| most_asked(i))
        .fold(TRAVEL_MM, f64::max);
    for rider in items.iter().filter(|i| i.unsprung_axle.is_some()) {
        let Some(axle) = rider
            .unsprung_axle
            .as_deref()
            .and_then(|id| vehicle.axle(id))
        else {
            continue;
        };
        let swept = over_travel(&rider.solids, axle);
        let reach = most + LISTED_BEYOND_MM;
        let space = bounds_of(&swept).inflated(reach);
        let first = || Thing::Part(rider.tag.clone());
        for other in items.iter().filter(|o| o.tag != rider.tag) {
            let joined = other.joined_axle == rider.unsprung_axle
                || other.joined_to.contains(&rider.tag)
                || other.unsprung_axle == rider.unsprung_axle;
            // Two axles that both move are measured once, by the one that comes first, and one of
            // them may be down while the other is up.
            if joined || (other.unsprung_axle.is_some() && other.tag < rider.tag) {
                continue;
            }
            let moving = other
                .unsprung_axle
                .as_deref()
                .and_then(|id| vehicle.axle(id));
            let solids = match moving {
                Some(axle) => over_travel(&other.solids, axle),
                None if space.overlaps(&other.bounds) => other.solids.clone(),
                None => continue,
            };
            let within = most_asked(rider).max(most_asked(other)).max(TRAVEL_MM) + LISTED_BEYOND_MM;
            let Some(s) = near(&swept, &solids, within) else {
                continue;
            };
            let mut asked = between_parts(rider, other, &s);
            if TRAVEL_MM > asked.mm {
                asked = Asked::new(TRAVEL_MM, "suspension travel");
            }
            gaps.push(gap(
                State::Travel,
                first(),
                Thing::Part(other.tag.clone()),
                s,
                asked,
            ));
        }
        let fixed = vehicle.bodies.iter().filter(|b| b.axle.is_none());
        for body in fixed.filter(|b| space.overlaps(&b.bounds())) {
            let within = most_asked(rider).max(TRAVEL_MM) + LISTED_BEYOND_MM;
            let Some(s) = near(&swept, &body.solids, within) else {
                continue;
            };
            let mut asked = between_part_and_body(rider, &body.bounds(), TRAVEL_MM, &s);
            if asked.mm <= TRAVEL_MM {
                asked = Asked::new(TRAVEL_MM, "suspension travel");
            }
            gaps.push(gap(
                State::Travel,
                first(),
                Thing::Body(body.id.clone()),
                s,
                asked,
            ));
        }
    }
}

/// Solids from full rebound to full jounce of this axle.
fn over_travel(solids: &[Solid], axle: &Axle) -> Vec<Solid> {
    let s = &axle.suspension;
    solids
        .iter()
        .map(|solid| solid.swept_z(s.rebound_mm, s.jounce_mm))
        .collect()
}

/// Parts against the space that hood or cab need to open.
pub(super) fn opening(vehicle: &Vehicle, items: &[&Item], found: &mut Clearances) {
    let shapes = &vehicle.chassis.cab.opening;
    if shapes.is_empty() {
        let missing = "the chassis file does not say what hood or cab sweep".to_owned();
        found.missing.push((State::Opening, missing));
        return;
    }
    let space: Vec<Solid> = shapes.iter().map(Shape::solid).collect();
    let reach = OPENING_MM + LISTED_BEYOND_MM;
    let around = bounds_of(&space).inflated(reach);
    for item in items.iter().filter(|i| around.overlaps(&i.bounds)) {
        let Some(s) = near(&item.solids, &space, reach) else {
            continue;
        };
        let (first, second) = (
            Thing::Part(item.tag.clone()),
            Thing::Sweep("opening of hood and cab".to_owned()),
        );
        let asked = Asked::new(OPENING_MM, "hood and cab must open");
        found
            .gaps
            .push(gap(State::Opening, first, second, s, asked));
    }
}
