//! The frame rails, with their flanges and the bolts of the crossmembers.

use super::super::View;
use super::super::plane::{Rect, at};
use super::super::scene::{Group, Owner, Role};
use super::{side_rect, xz};
use crate::chassis::ObstacleKind;
use crate::vehicle::{Body, BodyKind, Vehicle};

/// One rail. From the side the far one lies exactly behind the near one and is left out.
pub fn rail(vehicle: &Vehicle, body: &Body, view: View) -> Option<Group> {
    let box_ = body.bounds();
    let left = box_.centre().y < 0.0;
    let wall = vehicle.chassis.rail.wall_mm;
    let mut group = Group::new(Owner::Body(body.id.clone()));
    match view {
        View::Side if !left => return None,
        View::Side => {
            let (top, bottom) = (box_.max.z, box_.min.z);
            group.draw(Role::Rail, |p| {
                p.rect(&side_rect(box_.min.x, box_.max.x, bottom, top));
            });
            group.draw(Role::Flange, |p| {
                p.line(
                    xz(box_.min.x, top - wall * 1.6),
                    xz(box_.max.x, top - wall * 1.6),
                );
                p.line(
                    xz(box_.min.x, bottom + wall * 1.6),
                    xz(box_.max.x, bottom + wall * 1.6),
                );
            });
            group.draw(Role::Dark, |p| {
                for member in vehicle.bodies.iter() {
                    if member.kind != BodyKind::Obstacle(ObstacleKind::Crossmember) {
                        continue;
                    }
                    let m = member.bounds();
                    let x = m.centre().x;
                    let half = (m.size().x * 0.3).clamp(18.0, 55.0);
                    for z in [0.28, 0.72] {
                        let z = bottom + (top - bottom) * z;
                        p.circle(xz(x - half, z), 9.0).circle(xz(x + half, z), 9.0);
                    }
                }
            });
        }
        View::Plan | View::Turn => {
            let r = view.rect(&box_);
            group.draw(Role::Rail, |p| {
                p.rect(&r);
            });
            // The web stands at the outside; the flange's lip points inward.
            let y = if left { r.bottom - wall } else { r.top + wall };
            group.draw(Role::Flange, |p| {
                p.line(at(r.left, y), at(r.right, y));
            });
        }
        View::Rear => {
            let r = view.rect(&box_);
            let out = if left { r.left } else { r.right };
            let lip = if left { r.right } else { r.left };
            // Drawn a little thicker than it is, so that the channel can be read.
            let wall = wall.max(r.width() * 0.14);
            group.draw(Role::Rail, |p| {
                p.rect(&Rect::new(at(out, r.top), at(lip, r.top + wall)));
                p.rect(&Rect::new(at(out, r.bottom), at(lip, r.bottom - wall)));
                let web = if left { out + wall } else { out - wall };
                p.rect(&Rect::new(at(out, r.top), at(web, r.bottom)));
            });
        }
    }
    Some(group)
}
