//! Cab and hood from the side.

use super::super::plane::Path;
use super::super::scene::{Group, Owner, Role};
use super::{front_radius, side_rect, xz};
use crate::chassis::CabKind;
use crate::numeric::sqrt;
use crate::vehicle::{Body, Vehicle};

/// The lines that everything on a cab hangs on, mm.
struct Lines {
    /// Foremost point of the bumper.
    bumper: f64,
    /// Front of the shell.
    front: f64,
    /// Back of the shell.
    back: f64,
    /// Underside of the shell.
    floor: f64,
    /// Roof.
    roof: f64,
    /// Bottom of the windscreen and the windows.
    belt: f64,
    /// Top of the glass.
    glass: f64,
    /// How far the windscreen leans back between belt and glass top.
    lean: f64,
    /// Rear edge of the door.
    door: f64,
    /// Free radius of the front tyre.
    tyre: f64,
    /// Height of the front wheel's centre.
    hub: f64,
}

/// The whole cab with its hood, bumper and front fender.
pub fn cab(vehicle: &Vehicle, body: &Body) -> Group {
    let cab = &vehicle.chassis.cab;
    let d = &vehicle.chassis.dimensions;
    let conventional = cab.kind == CabKind::Conventional;
    let box_ = body.bounds();
    let (front, back) = (box_.min.x, box_.max.x);
    let (floor, roof) = (box_.min.z, box_.max.z);
    let belt = if conventional {
        cab.hood_top_z_mm.clamp(floor + 300.0, roof - 500.0)
    } else {
        floor + (roof - floor) * 0.42
    };
    let glass = (roof - 260.0).min(belt + 830.0).max(belt + 200.0);
    let lines = Lines {
        bumper: d.bumper_x_mm(),
        front,
        back,
        floor,
        roof,
        belt,
        glass,
        lean: ((glass - belt) * if conventional { 0.26 } else { 0.1 }).min((back - front) * 0.25),
        door: (back - 70.0).min(front + 1_080.0),
        tyre: front_radius(vehicle),
        hub: vehicle
            .chassis
            .axles
            .first()
            .map_or(500.0, |a| a.tyres.loaded_radius_mm),
    };
    let mut group = Group::new(Owner::Body(body.id.clone()));
    if conventional {
        hood(&mut group, &lines);
    } else {
        apron(&mut group, &lines);
    }
    shell(&mut group, &lines, conventional);
    door(&mut group, &lines);
    mirror(&mut group, &lines);
    group
}

/// Over the front wheel from behind to ahead, at this distance from the tyre.
fn arch(p: &mut Path, l: &Lines, gap: f64, low: f64) {
    let radius = l.tyre + gap;
    let drop = l.hub - low;
    let half = sqrt(radius * radius - drop * drop);
    p.to(xz(half, low))
        .arc(radius, false, xz(0.0, l.hub + radius));
    p.arc(radius, false, xz(-half, low));
}

fn bumper_heights(l: &Lines) -> (f64, f64) {
    (l.hub * 0.62, l.hub * 1.28)
}

fn hood(group: &mut Group, l: &Lines) {
    let (low, high) = bumper_heights(l);
    let nose = l.bumper + 95.0;
    // Nearly level, as are the zones under the hood: what fits there must not seem to pierce it.
    let crown = l.belt - 40.0;
    let radius = l.tyre + 85.0;
    group.draw(Role::Cab, |p| {
        p.from(xz(nose, high - 10.0))
            .to(xz(nose + 15.0, crown - 260.0));
        p.bend(xz(nose + 30.0, crown - 20.0), xz(nose + 330.0, crown));
        p.bend(xz(l.front * 0.4, l.belt - 25.0), xz(l.front, l.belt + 10.0));
        p.to(xz(l.front, l.floor - 60.0))
            .to(xz(radius + 110.0, l.floor - 150.0));
        p.to(xz(radius + 70.0, l.hub * 0.8))
            .to(xz(radius - 20.0, l.hub * 0.8));
        arch(p, l, 85.0, l.hub * 0.84);
        p.to(xz(-radius - 20.0, high - 10.0)).close();
    });
    group.draw(Role::Trim, |p| {
        // Fender line, seam of the hood, louvres, edge of the grille.
        let flare = radius + 45.0;
        p.from(xz(flare, l.hub + 40.0))
            .arc(flare, false, xz(0.0, l.hub + flare));
        p.bend(
            xz(-flare * 0.8, l.hub + flare),
            xz(nose + 190.0, l.hub + flare * 0.72),
        );
        p.line(xz(nose + 150.0, high), xz(nose + 150.0, crown - 90.0));
        let seam = l.belt - (l.belt - l.hub - flare) * 0.45;
        p.line(xz(nose + 150.0, seam - 60.0), xz(l.front, seam));
        for i in 0..4 {
            let x = l.front - 330.0 + f64::from(i) * 60.0;
            p.line(xz(x, seam - 60.0), xz(x + 25.0, seam - 190.0));
        }
        p.rounded(
            &side_rect(l.front - 75.0, l.front - 35.0, seam - 10.0, seam + 90.0),
            15.0,
        );
        for i in 1..5 {
            let z = high + (crown - 200.0 - high) * f64::from(i) / 5.0;
            p.line(xz(nose + 8.0, z), xz(nose + 150.0, z));
        }
    });
    group.draw(Role::Glass, |p| {
        let (a, b) = (nose + 190.0, nose + 430.0);
        p.from(xz(a, high + 90.0)).to(xz(b - 30.0, high + 130.0));
        p.bend(xz(b, high + 290.0), xz(b - 110.0, high + 300.0));
        p.bend(xz(a + 10.0, high + 270.0), xz(a, high + 90.0))
            .close();
    });
    group.draw(Role::Cab, |p| {
        p.from(xz(l.bumper + 20.0, low))
            .to(xz(-radius - 60.0, low + 30.0));
        p.to(xz(-radius - 30.0, high)).to(xz(l.bumper + 40.0, high));
        p.bend(xz(l.bumper, high), xz(l.bumper, high - 70.0));
        p.to(xz(l.bumper, low + 60.0))
            .bend(xz(l.bumper, low), xz(l.bumper + 20.0, low))
            .close();
    });
    lamp(group, l, low, high);
}

/// Fog lamp in the bumper.
fn lamp(group: &mut Group, l: &Lines, low: f64, high: f64) {
    let z = f64::midpoint(low, high);
    group.draw(Role::Trim, |p| {
        p.circle(xz(l.bumper + 140.0, z), 45.0);
        p.line(
            xz(l.bumper + 5.0, high - 90.0),
            xz(-l.tyre - 120.0, high - 75.0),
        );
    });
}

/// Front panel, bumper and wheel arch of a cab-over.
fn apron(group: &mut Group, l: &Lines) {
    let (low, high) = bumper_heights(l);
    let radius = l.tyre + 75.0;
    let front = l.front.max(l.bumper + 30.0);
    group.draw(Role::Cab, |p| {
        p.from(xz(front, high))
            .to(xz(front, l.floor + 20.0))
            .to(xz(l.back - 60.0, l.floor + 20.0));
        p.to(xz((radius + 120.0).min(l.back - 60.0), l.floor - 160.0));
        p.to(xz(radius + 40.0, l.hub))
            .to(xz(radius - 20.0, l.hub * 0.9));
        arch(p, l, 75.0, l.hub * 0.9);
        p.to(xz(-radius - 20.0, high)).close();
    });
    group.draw(Role::Cab, |p| {
        p.from(xz(l.bumper + 20.0, low * 0.9))
            .to(xz(-radius - 40.0, low));
        p.to(xz(-radius - 10.0, high + 40.0))
            .to(xz(l.bumper + 40.0, high + 40.0));
        p.bend(xz(l.bumper, high + 40.0), xz(l.bumper, high - 40.0));
        p.to(xz(l.bumper, low + 40.0))
            .bend(xz(l.bumper, low * 0.9), xz(l.bumper + 20.0, low * 0.9));
        p.close();
    });
    group.draw(Role::Glass, |p| {
        p.rounded(
            &side_rect(l.bumper + 60.0, l.bumper + 300.0, high - 150.0, high - 20.0),
            40.0,
        );
    });
    lamp(group, l, low, low + 120.0);
}

fn shell(group: &mut Group, l: &Lines, conventional: bool) {
    let (lean, top) = (l.lean, l.glass);
    group.draw(Role::Cab, |p| {
        p.from(xz(l.front, l.floor))
            .to(xz(l.front, l.belt))
            .to(xz(l.front + lean, top));
        // Roof: straight on for a low one, a raised cap for a high one.
        let rise = l.roof - top;
        let crown = (l.front + lean + rise * 0.55 + 60.0).min(l.back - 220.0);
        p.bend(
            xz(l.front + lean + rise * 0.22, l.roof - 20.0),
            xz(crown.max(l.front + lean), l.roof),
        );
        p.to(xz(l.back - 150.0, l.roof - 10.0));
        p.bend(xz(l.back, l.roof - 20.0), xz(l.back, l.roof - 190.0));
        p.to(xz(l.back, l.floor + 70.0))
            .bend(xz(l.back, l.floor), xz(l.back - 70.0, l.floor));
        p.close();
    });
    group.draw(Role::Glass, |p| {
        // The windscreen, seen nearly edge on.
        let (a, b) = (l.belt + 25.0, top - 15.0);
        let x = |z: f64| l.front + lean * (z - l.belt) / (top - l.belt);
        p.polygon(&[
            xz(x(a) + 14.0, a),
            xz(x(b) + 14.0, b),
            xz(x(b) + 62.0, b),
            xz(x(a) + 74.0, a),
        ]);
    });
    group.draw(Role::Trim, |p| {
        // Sun visor, drip rail, roof seam.
        p.polyline(&[
            xz(l.front + lean - 60.0, top - 60.0),
            xz(l.front + lean + 10.0, top + 25.0),
            xz(l.front + lean + 90.0, top + 25.0),
        ]);
        p.line(
            xz(l.front + lean + 90.0, top + 25.0),
            xz(l.back - 25.0, top + 25.0),
        );
        let panel = l.back - l.door;
        if panel > 500.0 {
            // A sleeper: seam, luggage door, vent.
            let (a, b) = (l.door + 90.0, l.back - 110.0);
            p.line(
                xz(l.door + 45.0, l.floor + 20.0),
                xz(l.door + 45.0, top + 25.0),
            );
            p.rounded(&side_rect(a, b, l.floor + 90.0, l.floor + 520.0), 40.0);
            p.rounded(
                &side_rect(b - 120.0, b - 60.0, l.floor + 420.0, l.floor + 450.0),
                12.0,
            );
        }
        if !conventional {
            p.line(
                xz(l.front + 30.0, l.belt - 60.0),
                xz(l.back - 40.0, l.belt - 60.0),
            );
        }
    });
    if l.back - l.door > 500.0 {
        let middle = f64::midpoint(l.door + 90.0, l.back - 110.0);
        group.draw(Role::Glass, |p| {
            let r = side_rect(
                middle - 190.0,
                middle + 190.0,
                l.belt + 220.0,
                l.belt + 600.0,
            );
            p.rounded(&r, 60.0);
        });
    }
}

fn door(group: &mut Group, l: &Lines) {
    let lean = |z: f64| l.lean * ((z - l.belt) / (l.glass - l.belt)).max(0.0);
    let (front, rear) = (l.front + 60.0, l.door);
    let (low, top) = (l.floor + 35.0, l.glass - 30.0);
    group.draw(Role::Trim, |p| {
        p.from(xz(front, low))
            .to(xz(front, l.belt))
            .to(xz(front + 20.0 + lean(top), top));
        p.to(xz(rear - 60.0, top))
            .bend(xz(rear, top), xz(rear, top - 60.0));
        p.to(xz(rear, low + 60.0))
            .bend(xz(rear, low), xz(rear - 60.0, low))
            .close();
        p.rounded(
            &side_rect(rear - 230.0, rear - 90.0, l.belt - 170.0, l.belt - 130.0),
            18.0,
        );
        p.line(
            xz(front + 15.0, l.belt - 70.0),
            xz(rear - 15.0, l.belt - 70.0),
        );
    });
    let (sill, head) = (l.belt + 10.0, top - 60.0);
    group.draw(Role::Glass, |p| {
        p.from(xz(front + 65.0, sill))
            .to(xz(front + 80.0 + lean(head), head - 20.0));
        p.bend(
            xz(front + 85.0 + lean(head), head),
            xz(front + 110.0 + lean(head), head),
        );
        p.to(xz(rear - 110.0, head))
            .bend(xz(rear - 65.0, head), xz(rear - 65.0, head - 50.0));
        p.to(xz(rear - 65.0, sill + 40.0))
            .bend(xz(rear - 65.0, sill), xz(rear - 105.0, sill));
        p.close();
    });
    group.draw(Role::Trim, |p| {
        let post = front + 120.0 + lean(head) * 0.9;
        p.line(xz(post, sill), xz(post + 25.0, head));
        // Reflections on the glass.
        let x = f64::midpoint(post, rear - 65.0);
        p.line(xz(x - 60.0, sill + 150.0), xz(x + 70.0, sill + 330.0));
        p.line(xz(x, sill + 130.0), xz(x + 90.0, sill + 255.0));
    });
}

fn mirror(group: &mut Group, l: &Lines) {
    let x = l.front - 95.0;
    group.draw(Role::Cab, |p| {
        p.rounded(
            &side_rect(x - 60.0, x + 60.0, l.belt + 140.0, l.belt + 560.0),
            45.0,
        );
    });
    group.draw(Role::Trim, |p| {
        p.line(
            xz(x + 20.0, l.belt + 140.0),
            xz(l.front + 40.0, l.belt + 30.0),
        );
        p.line(
            xz(x + 60.0, l.belt + 500.0),
            xz(l.front + l.lean * 0.6, l.belt + 520.0),
        );
        p.line(xz(x - 60.0, l.belt + 270.0), xz(x + 60.0, l.belt + 270.0));
    });
}
