//! The fifth wheel.

use super::super::View;
use super::super::plane::{Rect, at};
use super::super::scene::{Group, Owner, Role};
use super::{side_rect, xz};
use crate::vehicle::{Body, Vehicle};

/// The plate with its throat and mounting, around the kingpin's seat.
pub fn fifth_wheel(vehicle: &Vehicle, body: &Body, view: View) -> Option<Group> {
    let kingpin = vehicle.kingpin()?;
    let box_ = body.bounds();
    let mut group = Group::new(Owner::Body(body.id.clone()));
    let (x, top) = (kingpin.x, kingpin.z);
    let half = (box_.size().y / 2.0).clamp(200.0, 600.0);
    match view {
        View::Side => {
            let base = box_.min.z.min(top - 120.0);
            let front = (x - box_.min.x).clamp(250.0, 520.0);
            let rear = (box_.max.x - x).clamp(250.0, 560.0);
            group.draw(Role::Coupling, |p| {
                p.polygon(&[
                    xz(x - 250.0, top - 60.0),
                    xz(x + 250.0, top - 60.0),
                    xz(x + 330.0, base),
                    xz(x - 330.0, base),
                ]);
                p.from(xz(x - front, top - 25.0))
                    .bend(xz(x - front, top), xz(x - front + 60.0, top));
                p.to(xz(x + rear * 0.55, top)).to(xz(x + rear, top - 115.0));
                p.to(xz(x + rear - 30.0, top - 145.0))
                    .to(xz(x + rear * 0.5, top - 62.0));
                p.to(xz(x - front, top - 62.0)).close();
            });
            group.draw(Role::Dark, |p| {
                p.circle(xz(x, top - 110.0), 26.0);
                p.rect(&side_rect(x - 360.0, x + 360.0, base, base + 22.0));
            });
        }
        View::Plan | View::Turn => {
            let c = view.at(kingpin);
            let front = (x - box_.min.x).clamp(250.0, 520.0);
            let rear = (box_.max.x - x).clamp(250.0, 560.0);
            group.draw(Role::Coupling, |p| {
                p.from(at(c.x + rear, c.y - half * 0.62))
                    .to(at(c.x + rear * 0.4, c.y - half));
                p.to(at(c.x - front * 0.5, c.y - half));
                p.bend(at(c.x - front, c.y - half * 0.9), at(c.x - front, c.y));
                p.bend(
                    at(c.x - front, c.y + half * 0.9),
                    at(c.x - front * 0.5, c.y + half),
                );
                p.to(at(c.x + rear * 0.4, c.y + half))
                    .to(at(c.x + rear, c.y + half * 0.62));
                // The throat, open to the rear.
                p.to(at(c.x + rear, c.y + half * 0.3))
                    .to(at(c.x + 40.0, c.y + 45.0));
                p.arc(45.0, true, at(c.x + 40.0, c.y - 45.0));
                p.to(at(c.x + rear, c.y - half * 0.3)).close();
            });
            group.draw(Role::CentreLine, |p| {
                p.line(at(c.x - 90.0, c.y), at(c.x + 90.0, c.y));
                p.line(at(c.x, c.y - 90.0), at(c.x, c.y + 90.0));
            });
        }
        View::Rear => {
            group.draw(Role::Coupling, |p| {
                p.rect(&Rect::new(at(-half, -top), at(half, -(top - 55.0))));
                let foot = -(box_.min.z.min(top - 120.0));
                p.polygon(&[
                    at(-half * 0.8, -(top - 55.0)),
                    at(-half * 0.45, -(top - 55.0)),
                    at(-half * 0.75, foot),
                    at(-half, foot),
                ]);
                p.polygon(&[
                    at(half * 0.8, -(top - 55.0)),
                    at(half * 0.45, -(top - 55.0)),
                    at(half * 0.75, foot),
                    at(half, foot),
                ]);
            });
        }
    }
    Some(group)
}
