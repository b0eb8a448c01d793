//! Parts against the space that hood or cab need to open.

use super::known::{Chapter, Parts, Which};
use super::required::{Asked, is_even, most_on_sides, or_own};
use super::worst::worst;
use super::{Clearances, State, Thing, bounds_of, far, gap};
use crate::chassis::Shape;
use crate::geometry::Solid;
use crate::vehicle::Vehicle;

/// Distance to what hood or cab sweep when they open, common practice.
const OPENING_MM: f64 = 50.0;

pub(super) fn opening(vehicle: &Vehicle, parts: &Parts<'_>, found: &mut Clearances) {
    let shapes = &vehicle.chassis.cab.opening;
    if shapes.is_empty() {
        let missing = "the chassis file does not say what hood or cab sweep".to_owned();
        found.missing.push((State::Opening, missing));
        return;
    }
    let space: Vec<Solid> = shapes.iter().map(Shape::solid).collect();
    let around = bounds_of(&space);
    let asked = Asked::new(OPENING_MM, "hood and cab must open");
    for (at, item) in parts.facing(false) {
        let most = most_on_sides(item).max(OPENING_MM);
        if far(&around, &item.bounds, most) {
            continue;
        }
        let Some((s, asked)) = worst(&item.solids, &space, most, is_even(item), &|towards| {
            or_own(asked, item, towards)
        }) else {
            continue;
        };
        let first = Thing::Part(item.tag.clone());
        let second = Thing::Sweep("opening of hood and cab".to_owned());
        found.put(
            (Chapter::Opening, Which::Part(at), Which::Rest(0)),
            Some(gap(State::Opening, first, second, s, asked)),
        );
    }
}
