//! At rest: part against part, part against what stays.

use super::required::{Asked, between_parts, is_even, most_asked, most_on_sides, or_own};
use super::worst::worst;
use super::{Gap, LISTED_BEYOND_MM, State, Thing, gap};
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
        let most = most_asked(a).max(most_asked(b));
        let even = is_even(a) && is_even(b);
        let Some((s, asked)) = worst(&a.solids, &b.solids, most, even, &|towards| {
            between_parts(a, b, towards)
        }) else {
            continue;
        };
        let (first, second) = (Thing::Part(a.tag.clone()), Thing::Part(b.tag.clone()));
        gaps.push(gap(State::Parts, first, second, s, asked));
    }
}

/// Part against frame, cab, body, obstacles, kept hardware. What rides on an axle is measured over
/// its travel instead.
pub(super) fn fixed_pairs(vehicle: &Vehicle, items: &[&Item], gaps: &mut Vec<Gap>) {
    let items: Vec<&Item> = items
        .iter()
        .copied()
        .filter(|i| i.unsprung_axle.is_none())
        .collect();
    let bodies: Vec<&Body> = vehicle.bodies.iter().filter(|b| b.axle.is_none()).collect();
    let reach = items
        .iter()
        .map(|i| most_on_sides(i))
        .chain(bodies.iter().map(|b| b.clearance_mm))
        .fold(0.0, f64::max)
        + LISTED_BEYOND_MM;
    let first: Vec<Aabb> = items.iter().map(|i| i.bounds).collect();
    let second: Vec<Aabb> = bodies.iter().map(|b| b.bounds()).collect();
    for (i, j) in Broad::near_pairs_between(&first, &second, reach) {
        let (item, body) = (items[i], bodies[j]);
        // Parts hang on the rails: touching them is how they are held.
        let held = body.kind == BodyKind::Rail;
        let most = if held {
            0.0
        } else {
            most_on_sides(item).max(body.clearance_mm)
        };
        let found = worst(
            &item.solids,
            &body.solids,
            most,
            held || is_even(item),
            &|towards| {
                if held {
                    return Asked::new(0.0, "parts are bolted to the rails");
                }
                // A kept part of the donor asks nothing itself.
                or_own(
                    Asked::new(body.clearance_mm, "asked by the chassis"),
                    item,
                    towards,
                )
            },
        );
        if let Some((s, asked)) = found {
            let (first, second) = (Thing::Part(item.tag.clone()), Thing::Body(body.id.clone()));
            gaps.push(gap(State::Fixed, first, second, s, asked));
        }
    }
}
