//! At rest: part against part, part against what stays.

use super::known::{Chapter, Parts, Which};
use super::required::{Asked, between_parts, is_even, most_asked, most_on_sides, or_own};
use super::worst::worst;
use super::{Clearances, LISTED_BEYOND_MM, State, Thing, far, gap};
use crate::geometry::Aabb;
use crate::vehicle::{Body, BodyKind, Item};

/// Flanged together, or on the same axle: touching is meant.
fn belong_together(a: &Item, b: &Item) -> bool {
    a.joined_to.contains(&b.tag)
        || b.joined_to.contains(&a.tag)
        || (a.unsprung_axle.is_some()
            && (a.unsprung_axle == b.unsprung_axle || a.unsprung_axle == b.joined_axle))
        || (b.unsprung_axle.is_some() && b.unsprung_axle == a.joined_axle)
}

/// Part against part. What rides on an axle is measured over its travel instead.
pub(super) fn part_pairs(parts: &Parts<'_>, found: &mut Clearances) {
    let items = &parts.all;
    let reach = items.iter().map(|i| most_asked(i)).fold(0.0, f64::max) + LISTED_BEYOND_MM;
    for (i, j) in parts.near_pairs(reach) {
        let (a, b) = (items[i], items[j]);
        let most = most_asked(a).max(most_asked(b));
        let sprung = a.unsprung_axle.is_none() && b.unsprung_axle.is_none();
        if far(&a.bounds, &b.bounds, most) || !sprung || belong_together(a, b) {
            continue;
        }
        let even = is_even(a) && is_even(b);
        let Some((s, asked)) = worst(&a.solids, &b.solids, most, even, &|towards| {
            between_parts(a, b, towards)
        }) else {
            continue;
        };
        let (first, second) = (Thing::Part(a.tag.clone()), Thing::Part(b.tag.clone()));
        found.put(
            (Chapter::Parts, Which::Part(i), Which::Part(j)),
            Some(gap(State::Parts, first, second, s, asked)),
        );
    }
}

/// Part against frame, cab, body, obstacles, kept hardware. What rides on an axle is measured over
/// its travel instead.
pub(super) fn fixed_pairs(bodies: &[(&Body, Aabb)], parts: &Parts<'_>, found: &mut Clearances) {
    let bodies = || {
        bodies
            .iter()
            .enumerate()
            .filter(|(_, b)| b.0.axle.is_none())
    };
    for (i, item) in parts
        .facing(false)
        .filter(|(_, i)| i.unsprung_axle.is_none())
    {
        let own = most_on_sides(item);
        for (j, (body, bounds)) in bodies() {
            // Parts hang on the rails: touching them is how they are held.
            let held = body.kind == BodyKind::Rail;
            let most = if held {
                0.0
            } else {
                own.max(body.clearance_mm)
            };
            if far(&item.bounds, bounds, most) {
                continue;
            }
            let even = held || is_even(item);
            let demand = |towards| {
                if held {
                    return Asked::new(0.0, "parts are bolted to the rails");
                }
                // A kept part of the donor asks nothing itself.
                let asked = Asked::new(body.clearance_mm, "asked by the chassis");
                or_own(asked, item, towards)
            };
            if let Some((s, asked)) = worst(&item.solids, &body.solids, most, even, &demand) {
                let (first, second) = (Thing::Part(item.tag.clone()), Thing::Body(body.id.clone()));
                found.put(
                    (Chapter::Fixed, Which::Part(i), Which::Rest(j)),
                    Some(gap(State::Fixed, first, second, s, asked)),
                );
            }
        }
    }
}
