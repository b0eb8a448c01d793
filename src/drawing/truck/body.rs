//! The body of a rigid truck.

use super::super::View;
use super::super::plane::{Rect, at};
use super::super::scene::{Group, Owner, Role};
use crate::vehicle::{Body, Vehicle};

/// Distance between the ribs of a box body, an ornament, mm.
const RIB_MM: f64 = 610.0;

/// A box with ribs, or a platform with a headboard when it is low.
pub fn body(_vehicle: &Vehicle, body: &Body, view: View) -> Group {
    let mut group = Group::new(Owner::Body(body.id.clone()));
    let box_ = body.bounds();
    let r = view.rect(&box_);
    let high = box_.size().z > 900.0;
    match view {
        View::Side => {
            group.draw(Role::Body, |p| {
                p.rounded(&r, if high { 45.0 } else { 10.0 });
            });
            let sill = r.bottom - 150.0_f64.min(r.height() * 0.5);
            group.draw(Role::Rib, |p| {
                p.line(at(r.left, sill), at(r.right, sill));
                if high {
                    p.line(
                        at(r.left + 20.0, r.top + 90.0),
                        at(r.right - 20.0, r.top + 90.0),
                    );
                    let mut x = r.left + RIB_MM;
                    while x < r.right - RIB_MM * 0.5 {
                        p.line(at(x, r.top + 90.0), at(x, sill));
                        x += RIB_MM;
                    }
                    p.line(
                        at(r.right - 60.0, r.top + 30.0),
                        at(r.right - 60.0, r.bottom),
                    );
                }
            });
        }
        View::Plan | View::Turn => {
            group.draw(Role::Phantom, |p| {
                p.rounded(&r, 30.0);
            });
        }
        View::Rear => {
            group.draw(Role::Body, |p| {
                p.rounded(&r, 30.0);
            });
            group.draw(Role::Rib, |p| {
                let inner = r.grown(-70.0);
                p.rounded(&inner, 15.0);
                p.line(at(0.0, inner.top), at(0.0, inner.bottom));
                if high {
                    for x in [-0.25, -0.1, 0.1, 0.25] {
                        let x = r.width() * x;
                        p.line(at(x, inner.top + 25.0), at(x, inner.bottom - 25.0));
                    }
                    let bar = Rect::about(at(0.0, r.bottom - 400.0), r.width() * 0.24, 50.0);
                    p.rect(&bar);
                }
            });
        }
    }
    group
}
