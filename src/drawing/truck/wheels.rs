//! Wheels: tread, rim, hub and bolts from the side; tyres with grooves from above and behind.

use super::super::View;
use super::super::plane::{Path, Rect, at};
use super::super::scene::{Group, Owner, Role};
use super::xz;
use crate::chassis::{Axle, AxleKind};
use crate::numeric::{cos, sin, sqrt};
use crate::vehicle::{Body, BodyKind, Vehicle};

/// The tyres of one side of an axle. The far side is left out in the side view: it lies exactly
/// behind the near one.
pub fn tyre(vehicle: &Vehicle, body: &Body, view: View) -> Option<Group> {
    let BodyKind::Tyre(id) = &body.kind else {
        return None;
    };
    let axle = vehicle.axle(id)?;
    let box_ = body.bounds();
    let left = box_.centre().y < 0.0;
    let mut group = Group::new(Owner::Body(body.id.clone()));
    if view == View::Side {
        if !left {
            return None;
        }
        let lift = box_.centre().z - axle.tyres.loaded_radius_mm;
        side(&mut group, axle, lift.max(0.0));
    } else {
        let around = view.rect(&box_);
        let (low, high) = match view {
            View::Plan | View::Turn => (around.top, around.bottom),
            _ => (around.left, around.right),
        };
        let width = axle.tyres.width_mm;
        let mut bands = vec![(low, high)];
        if axle.tyres.dual && high - low > width {
            bands = vec![(low, low + width), (high - width, high)];
        }
        for (a, b) in bands {
            let tyre = match view {
                View::Plan | View::Turn => Rect::new(at(around.left, a), at(around.right, b)),
                // The tyre stands on the ground: its loaded radius is shorter than its free one.
                _ => Rect::new(at(a, around.top), at(b, around.bottom.min(0.0))),
            };
            band(&mut group, &tyre, view);
        }
    }
    Some(group)
}

/// One tyre from above or behind.
fn band(group: &mut Group, tyre: &Rect, view: View) {
    group.draw(Role::Tyre, |p| {
        p.rounded(tyre, 55.0);
    });
    group.draw(Role::Tread, |p| {
        for share in [0.2, 0.4, 0.6, 0.8] {
            if view == View::Plan {
                let y = tyre.top + share * tyre.height();
                p.line(at(tyre.left + 18.0, y), at(tyre.right - 18.0, y));
            } else {
                let x = tyre.left + share * tyre.width();
                p.line(at(x, tyre.top + 18.0), at(x, tyre.bottom - 12.0));
            }
        }
    });
}

fn side(group: &mut Group, axle: &Axle, lift: f64) {
    let free = axle.tyres.diameter_mm / 2.0;
    let height = axle.tyres.loaded_radius_mm + lift;
    let middle = xz(axle.x_mm, height);
    group.draw(Role::Tyre, |p| {
        if height < free {
            let half = sqrt(free * free - height * height);
            p.from(at(middle.x - half, 0.0))
                .arc(free, true, at(middle.x - free, middle.y));
            // Over the top in two quarters, then down to the flat of the tread on the ground.
            p.arc(free, true, at(middle.x, middle.y - free));
            p.arc(free, true, at(middle.x + free, middle.y));
            p.arc(free, true, at(middle.x + half, 0.0)).close();
        } else {
            p.circle(middle, free);
        }
    });
    group.draw(Role::Tread, |p| {
        p.circle(middle, free * 0.92);
        p.circle(middle, free * 0.68);
    });
    group.draw(Role::Rim, |p| {
        p.circle(middle, free * 0.59);
    });
    let steer = axle.kind == AxleKind::Steer;
    let dished = if axle.tyres.dual { 0.5 } else { 0.54 };
    group.draw(Role::Hub, |p| {
        p.circle(middle, free * dished);
        p.circle(middle, free * if steer { 0.19 } else { 0.22 });
        p.circle(middle, free * if steer { 0.1 } else { 0.13 });
        around(p, middle.x, middle.y, free * 0.28, 10, free * 0.022);
    });
    group.draw(Role::Dark, |p| {
        around(p, middle.x, middle.y, free * 0.41, 10, free * 0.047)
    });
}

/// A ring of small circles.
fn around(p: &mut Path, x: f64, y: f64, radius: f64, count: u32, each: f64) {
    for i in 0..count {
        let angle = (f64::from(i) + 0.5) * std::f64::consts::TAU / f64::from(count);
        p.circle(at(x + radius * cos(angle), y + radius * sin(angle)), each);
    }
}
