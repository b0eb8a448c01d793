//! The truck itself, before any part is on it: what a person recognises at a glance.
//!
//! Every outline hangs on the chassis's own dimensions. Ornaments (window, handle, wheel holes) are
//! shares of those and carry no measure.

mod body;
mod cab_above;
mod cab_side;
mod coupling;
mod frame;
mod obstacles;
mod springs;
mod trailer;
mod wheels;

pub use coupling::fifth_wheel;
pub use trailer::{swing_words, trailer};

use super::View;
use super::plane::{At, Rect, at};
use super::scene::Group;
use crate::vehicle::{Body, BodyKind, Vehicle};

/// Groups of the bare truck, in painter's order for the view.
#[must_use]
pub fn truck(vehicle: &Vehicle, view: View) -> Vec<Group> {
    let mut groups = Vec::new();
    let of = |wanted: fn(&BodyKind) -> bool| vehicle.bodies.iter().filter(move |b| wanted(&b.kind));
    let is_cab = |kind: &BodyKind| *kind == BodyKind::Cab;
    let is_tyre = |kind: &BodyKind| matches!(kind, BodyKind::Tyre(_));
    let is_rail = |kind: &BodyKind| *kind == BodyKind::Rail;
    let is_body = |kind: &BodyKind| *kind == BodyKind::Body;
    let is_rest = |kind: &BodyKind| matches!(kind, BodyKind::Obstacle(_) | BodyKind::Hardware);
    if view == View::Rear {
        groups.extend(of(is_cab).map(|b| cab_above::rear(vehicle, b)));
    }
    if view != View::Side {
        groups.extend(of(is_tyre).filter_map(|b| wheels::tyre(vehicle, b, view)));
    }
    groups.push(springs::axles(vehicle, view));
    let low = |b: &&Body| obstacles::is_low(b);
    groups.extend(
        of(is_rest)
            .filter(low)
            .filter_map(|b| obstacles::obstacle(vehicle, b, view)),
    );
    groups.extend(of(is_rail).filter_map(|b| frame::rail(vehicle, b, view)));
    groups.extend(
        of(is_rest)
            .filter(|b| !low(b))
            .filter_map(|b| obstacles::obstacle(vehicle, b, view)),
    );
    groups.extend(of(is_body).map(|b| body::body(vehicle, b, view)));
    match view {
        View::Side => {
            groups.extend(of(is_cab).map(|b| cab_side::cab(vehicle, b)));
            groups.extend(of(is_tyre).filter_map(|b| wheels::tyre(vehicle, b, view)));
        }
        View::Plan | View::Turn => groups.extend(of(is_cab).map(|b| cab_above::plan(vehicle, b))),
        View::Rear => {}
    }
    groups
}

/// Donor hardware that comes off, as ghosts.
#[must_use]
pub fn ghosts(vehicle: &Vehicle, view: View) -> Group {
    obstacles::ghosts(vehicle, view)
}

/// A point of the side view from x and height.
const fn xz(x: f64, z: f64) -> At {
    at(x, -z)
}

/// A rectangle of the side view from two x and two heights.
fn side_rect(x0: f64, x1: f64, z0: f64, z1: f64) -> Rect {
    Rect::new(xz(x0, z0), xz(x1, z1))
}

/// Radius of the front tyres.
fn front_radius(vehicle: &Vehicle) -> f64 {
    vehicle
        .chassis
        .axles
        .first()
        .map_or(500.0, |a| a.tyres.diameter_mm / 2.0)
}
