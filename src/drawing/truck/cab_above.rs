//! Cab and hood from above, and the cab from behind.

use super::super::View;
use super::super::plane::{Rect, at};
use super::super::scene::{Group, Owner, Role};
use super::front_radius;
use crate::chassis::CabKind;
use crate::vehicle::{Body, Vehicle};

/// From above.
pub fn plan(vehicle: &Vehicle, body: &Body) -> Group {
    let mut group = Group::new(Owner::Body(body.id.clone()));
    let d = &vehicle.chassis.dimensions;
    let shell = View::Plan.rect(&body.bounds());
    let half = shell.height() / 2.0;
    let bumper = d.bumper_x_mm();
    let wide = d.overall_width_mm / 2.0;
    if vehicle.chassis.cab.kind == CabKind::Conventional {
        hood(&mut group, vehicle, &shell, bumper, wide);
    } else {
        group.draw(Role::Trim, |p| {
            p.rounded(
                &Rect::new(at(bumper, -half * 0.97), at(bumper + 160.0, half * 0.97)),
                70.0,
            );
        });
    }
    group.draw(Role::Cab, |p| {
        let round = 130.0_f64.min(shell.width() * 0.2);
        p.from(at(shell.left + round, -half))
            .to(at(shell.right - 70.0, -half));
        p.bend(at(shell.right, -half), at(shell.right, -half + 70.0));
        p.to(at(shell.right, half - 70.0))
            .bend(at(shell.right, half), at(shell.right - 70.0, half));
        p.to(at(shell.left + round, half));
        p.bend(
            at(shell.left - 10.0, half * 0.96),
            at(shell.left, half * 0.7),
        );
        p.bend(at(shell.left - 70.0, 0.0), at(shell.left, -half * 0.7));
        p.bend(
            at(shell.left - 10.0, -half * 0.96),
            at(shell.left + round, -half),
        )
        .close();
    });
    let lean = (shell.width() * 0.2).min(230.0);
    group.draw(Role::Glass, |p| {
        p.from(at(shell.left + 25.0, -half * 0.72)).bend(
            at(shell.left - 40.0, 0.0),
            at(shell.left + 25.0, half * 0.72),
        );
        p.to(at(shell.left + lean + 25.0, half * 0.66));
        p.bend(
            at(shell.left + lean - 35.0, 0.0),
            at(shell.left + lean + 25.0, -half * 0.66),
        )
        .close();
    });
    group.draw(Role::Trim, |p| {
        let roof = Rect::new(
            at(shell.left + lean + 80.0, -half * 0.8),
            at(shell.right - 70.0, half * 0.8),
        );
        if roof.width() > 100.0 {
            p.rounded(&roof, 90.0);
            for y in [-0.3, 0.0, 0.3] {
                p.line(
                    at(roof.left + 90.0, y * half),
                    at(roof.right - 90.0, y * half),
                );
            }
        }
    });
    group.draw(Role::Cab, |p| {
        // Mirrors.
        for sign in [-1.0, 1.0] {
            let y = sign * (half + 120.0);
            p.rounded(&Rect::about(at(shell.left - 95.0, y), 90.0, 210.0), 35.0);
        }
    });
    group
}

fn hood(group: &mut Group, vehicle: &Vehicle, shell: &Rect, bumper: f64, wide: f64) {
    let half = shell.height() / 2.0;
    let nose = bumper + 95.0;
    let tyre = front_radius(vehicle) + 60.0;
    let out = vehicle
        .chassis
        .axles
        .first()
        .map_or(half, |a| a.outer_half_width_mm() + 25.0);
    let out = out.min(wide.max(half));
    group.draw(Role::Cab, |p| {
        // Fenders and hood in one: waist at the cowl, bulge over the wheels, narrow nose.
        p.from(at(shell.left, -half * 0.86))
            .to(at(tyre + 60.0, -out));
        p.to(at(-tyre, -out))
            .bend(at(nose + 40.0, -out * 0.98), at(nose, -half * 0.62));
        p.bend(at(nose - 35.0, 0.0), at(nose, half * 0.62));
        p.bend(at(nose + 40.0, out * 0.98), at(-tyre, out))
            .to(at(tyre + 60.0, out));
        p.to(at(shell.left, half * 0.86)).close();
    });
    group.draw(Role::Trim, |p| {
        for sign in [-1.0, 1.0] {
            p.from(at(nose + 120.0, sign * half * 0.46));
            p.bend(
                at(nose + 500.0, sign * half * 0.6),
                at(shell.left, sign * half * 0.72),
            );
            p.line(
                at(nose + 60.0, sign * half * 0.2),
                at(shell.left - 30.0, sign * half * 0.3),
            );
        }
    });
    group.draw(Role::Cab, |p| {
        p.from(at(bumper + 150.0, -wide * 0.96))
            .bend(at(bumper, -wide * 0.85), at(bumper, -wide * 0.5));
        p.to(at(bumper, wide * 0.5))
            .bend(at(bumper, wide * 0.85), at(bumper + 150.0, wide * 0.96));
        p.to(at(bumper + 190.0, wide * 0.93));
        p.bend(at(bumper + 75.0, wide * 0.8), at(bumper + 75.0, wide * 0.5));
        p.to(at(bumper + 75.0, -wide * 0.5));
        p.bend(
            at(bumper + 75.0, -wide * 0.8),
            at(bumper + 190.0, -wide * 0.93),
        )
        .close();
    });
}

/// From behind.
pub fn rear(_vehicle: &Vehicle, body: &Body) -> Group {
    let mut group = Group::new(Owner::Body(body.id.clone()));
    let r = View::Rear.rect(&body.bounds());
    let half = r.width() / 2.0;
    group.draw(Role::Cab, |p| {
        p.from(at(r.left, r.bottom)).to(at(r.left, r.top + 260.0));
        p.bend(at(r.left + 20.0, r.top), at(r.left + 330.0, r.top))
            .to(at(r.right - 330.0, r.top));
        p.bend(at(r.right - 20.0, r.top), at(r.right, r.top + 260.0))
            .to(at(r.right, r.bottom));
        p.close();
        for sign in [-1.0, 1.0] {
            let middle = at(sign * (half + 120.0), r.top + r.height() * 0.42);
            p.rounded(&Rect::about(middle, 210.0, 420.0), 45.0);
        }
    });
    group.draw(Role::Glass, |p| {
        let middle = at(0.0, r.top + r.height() * 0.3);
        p.rounded(
            &Rect::about(middle, half * 1.1, (r.height() * 0.22).min(480.0)),
            60.0,
        );
    });
    group.draw(Role::Trim, |p| {
        p.line(
            at(r.left + 30.0, r.top + 300.0),
            at(r.left + 30.0, r.bottom - 30.0),
        );
        p.line(
            at(r.right - 30.0, r.top + 300.0),
            at(r.right - 30.0, r.bottom - 30.0),
        );
        p.line(
            at(r.left + 40.0, r.bottom - 260.0),
            at(r.right - 40.0, r.bottom - 260.0),
        );
    });
    group
}
