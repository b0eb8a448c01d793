//! Fixed things on the frame, kept donor hardware, and ghosts of what was taken off.

use super::super::View;
use super::super::plane::{Path, Rect, at};
use super::super::scene::{Group, Owner, Role};
use super::super::symbol;
use crate::chassis::{ObstacleKind, Shape};
use crate::geometry::Solid;
use crate::vehicle::{Body, BodyKind, Vehicle};

/// Drawn below the rails: what ties them together or lies between them.
pub fn is_low(body: &Body) -> bool {
    matches!(
        body.kind,
        BodyKind::Obstacle(ObstacleKind::Crossmember | ObstacleKind::AirTank)
    )
}

/// An obstacle or a piece of kept hardware. The fifth wheel has its own drawing.
pub fn obstacle(vehicle: &Vehicle, body: &Body, view: View) -> Option<Group> {
    let mut group = Group::new(Owner::Body(body.id.clone()));
    match &body.kind {
        BodyKind::Obstacle(ObstacleKind::FifthWheel) => {
            return super::fifth_wheel(vehicle, body, view);
        }
        BodyKind::Obstacle(ObstacleKind::Step) if view == View::Side => {
            if body.bounds().centre().y > 0.0 {
                return None;
            }
            steps(&mut group, &view.rect(&body.bounds()));
        }
        BodyKind::Obstacle(ObstacleKind::Crossmember) => {
            group.draw(Role::Member, |p| outlines(p, &body.solids, view));
            if view == View::Plan {
                let r = view.rect(&body.bounds());
                let x = r.centre().x;
                group.draw(Role::Flange, |p| {
                    p.line(at(x, r.top), at(x, r.bottom));
                });
            }
        }
        _ => group.draw(Role::Kept, |p| outlines(p, &body.solids, view)),
    }
    (!group.shapes.is_empty()).then_some(group)
}

/// Stripped hardware, where it was.
pub fn ghosts(vehicle: &Vehicle, view: View) -> Group {
    let mut group = Group::layer("ghosts");
    group.draw(Role::Ghost, |p| {
        for item in &vehicle.chassis.hardware {
            if vehicle.stripped.contains(&item.id) {
                let solids: Vec<Solid> = item.envelope.iter().map(Shape::solid).collect();
                outlines(p, &solids, view);
            }
        }
    });
    group
}

fn outlines(p: &mut Path, solids: &[Solid], view: View) {
    for solid in solids {
        if !solid.has_place() {
            continue;
        }
        let box_ = view.rect(&solid.aabb());
        match solid {
            Solid::Cylinder { from, to, radius } => {
                let (a, b) = (view.at(*from), view.at(*to));
                let (dx, dy) = ((a.x - b.x).abs(), (a.y - b.y).abs());
                if dx > 2.5 * radius && dy < 1.0 {
                    symbol::bottle(p, &box_, true);
                } else if dy > 2.5 * radius && dx < 1.0 {
                    symbol::bottle(p, &box_, false);
                } else {
                    p.join(&view.outline(solid));
                }
            }
            Solid::Block(_) => {
                p.rounded(&box_, 14.0);
            }
            Solid::Hull(_) => {
                p.join(&view.outline(solid));
            }
        }
    }
}

/// Entry steps: a fairing with treads.
fn steps(group: &mut Group, r: &Rect) {
    group.draw(Role::Cab, |p| {
        p.rounded(r, 30.0);
    });
    let (left, right) = (r.left + r.width() * 0.12, r.right - r.width() * 0.12);
    group.draw(Role::Glass, |p| {
        for share in [0.14, 0.44, 0.74] {
            let top = r.top + r.height() * share;
            p.rounded(
                &Rect::new(at(left, top), at(right, top + r.height() * 0.15)),
                24.0,
            );
        }
    });
    group.draw(Role::Dark, |p| {
        for share in [0.26, 0.56, 0.86] {
            let top = r.top + r.height() * share;
            p.rect(&Rect::new(
                at(left, top),
                at(right, top + r.height() * 0.03),
            ));
        }
    });
}
