//! At rest: part against part, part against what stays.

use super::required::{between_part_and_body, between_parts, most_asked};
use super::{Asked, Gap, LISTED_BEYOND_MM, State, Thing, candidates, gap, near};
use crate::geometry::{Aabb, Broad};
use crate::vehicle::{Body, BodyKind, Item, Vehicle};

/// Flanged together, or on the same axle: touching is meant.
fn belong_together(a: &Item, b: &Item) -> bool {
    a.joined_to.contains(&b.tag)
        || b.joined_to.contains(&a.tag)
        || (a.unsprung_axle.is_some()
            && (a.unsprung_axle == b.unsprung_axle || a.unsprung_axle == b.joined_axle))
        || (b.unsprung_axle.is_some() && b.unsprung_axle == a.joined_axle)
}

/// Part against part. What rides on an axle is measured over its travel instead.
pub(super) fn part_pairs(items: &[&Item], gaps: &mut Vec<Gap>) {
    let boxes: Vec<Aabb> = items.iter().map(|i| i.bounds).collect();
    let reach = items.iter().map(|i| most_asked(i)).fold(0.0, f64::max) + LISTED_BEYOND_MM;
    for (i, j) in Broad::near_pairs(&boxes, reach) {
        let (a, b) = (items[i], items[j]);
        let sprung = a.unsprung_axle.is_none() && b.unsprung_axle.is_none();
        if !sprung || belong_together(a, b) {
            continue;
        }
        let within = most_asked(a).max(most_asked(b)) + LISTED_BEYOND_MM;
        let Some(s) = near(&a.solids, &b.solids, within) else {
            continue;
        };
        let asked = between_parts(a, b, &s);
        let (first, second) = (Thing::Part(a.tag.clone()), Thing::Part(b.tag.clone()));
        gaps.push(gap(State::Parts, first, second, s, asked));
    }
}

/// Part against frame, cab, body, obstacles, kept hardware.
pub(super) fn fixed_pairs(vehicle: &Vehicle, items: &[&Item], gaps: &mut Vec<Gap>) {
    let bodies: Vec<&Body> = vehicle
        .bodies
        .iter()
        .filter(|b| !matches!(b.kind, BodyKind::Tyre(_)) && b.axle.is_none())
        .collect();
    let asked_by = |b: &Body| b.clearance_mm;
    let reach = items
        .iter()
        .map(|i| most_asked(i))
        .chain(bodies.iter().map(|b| asked_by(b)))
        .fold(0.0, f64::max)
        + LISTED_BEYOND_MM;
    for (i, j) in candidates(items, &bodies, reach) {
        let (item, body) = (items[i], bodies[j]);
        if item.unsprung_axle.is_some() {
            continue;
        }
        let within = most_asked(item).max(asked_by(body)) + LISTED_BEYOND_MM;
        let Some(s) = near(&item.solids, &body.solids, within) else {
            continue;
        };
        let asked = match body.kind {
            // Parts hang on the rails: touching them is how they are held.
            BodyKind::Rail => Asked::new(0.0, "parts are bolted to the rails"),
            // A kept part of the donor asks nothing itself.
            _ => between_part_and_body(item, &body.bounds(), body.clearance_mm, &s),
        };
        if s.distance_mm > asked.mm + LISTED_BEYOND_MM {
            continue;
        }
        let (first, second) = (Thing::Part(item.tag.clone()), Thing::Body(body.id.clone()));
        gaps.push(gap(State::Fixed, first, second, s, asked));
    }
}
