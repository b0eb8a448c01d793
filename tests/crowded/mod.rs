//! Plans with many parts, made the same way each time: catalogue parts set down one after another
//! around the chassis wherever there is room, upward when there is none left.
#![allow(dead_code, reason = "each test takes what it needs")]

use axlewright_core::geometry::{Aabb, Point};
use axlewright_core::library::Library;
use axlewright_core::plan::{Place, Placed, Plan};
use axlewright_core::vehicle::{Body, BodyKind, Vehicle};

/// Room that is kept around each part.
const APART_MM: f64 = 40.0;
/// Room around each tyre, for steering and suspension.
const TYRE_ROOM_MM: f64 = 320.0;
/// Where parts may stand: front, rear, half the width, lowest.
const FRONT_MM: f64 = -900.0;
const REAR_MM: f64 = 8_000.0;
const HALF_WIDTH_MM: f64 = 1_250.0;
const LOWEST_MM: f64 = 320.0;
const STEP_MM: f64 = 60.0;

/// An example with parts added until there are this many, shafts not counted.
///
/// # Panics
/// When the example cannot be read.
pub fn plan(library: &Library, example: &str, parts: usize) -> Plan {
    let mut plan = Plan::from_json("crowded", example).unwrap_or_else(|p| panic!("{p}"));
    plan.name = format!("{parts} parts");
    let vehicle = Vehicle::resolve(&plan, library).unwrap_or_else(|p| panic!("{p}"));
    let room = |body: &Body| match body.kind {
        BodyKind::Tyre(_) => body.bounds().inflated(TYRE_ROOM_MM),
        _ => body.bounds(),
    };
    let mut taken: Vec<Aabb> = vehicle.bodies.iter().map(room).collect();
    taken.extend(vehicle.items.iter().map(|item| item.bounds));
    // The trailer: from where its nose swings to its end.
    taken.extend(vehicle.trailer.as_ref().map(|coupled| {
        let nose = coupled.nose_sweep()[0].aabb();
        Aabb::new(nose.min, Point::new(30_000.0, nose.max.y, nose.max.z))
    }));
    // The room that hood or cab need to open.
    let opening = &vehicle.chassis.cab.opening;
    taken.extend(
        opening
            .iter()
            .map(|shape| shape.solid().aabb().inflated(60.0)),
    );

    let fits = |part: &&axlewright_core::part::Part| {
        let size = part.bounds().size();
        part.axle.is_none()
            && part.shaft.is_none()
            && !part.soft
            && size.x < 1_000.0
            && size.y < 900.0
            && size.z < 900.0
    };
    let shelf: Vec<_> = library
        .parts
        .values()
        .map(|part| &**part)
        .filter(fits)
        .collect();
    let (mut x, mut y, mut z) = (FRONT_MM, -HALF_WIDTH_MM, LOWEST_MM);
    let mut highest = z;
    let mut row = 0.0_f64;
    for index in plan.placed.len()..parts {
        let part = shelf[index % shelf.len()];
        let size = part.bounds().size();
        loop {
            if x + size.x > REAR_MM {
                (x, y, row) = (FRONT_MM, y + row.max(STEP_MM) + APART_MM, 0.0);
            }
            if y + size.y > HALF_WIDTH_MM {
                (x, y, z) = (
                    FRONT_MM,
                    -HALF_WIDTH_MM,
                    (z + STEP_MM).max(highest + APART_MM),
                );
            }
            let at = Aabb::new(
                Point::new(x, y, z),
                Point::new(x + size.x, y + size.y, z + size.z),
            );
            let wide = at.inflated(APART_MM);
            if !taken.iter().any(|one| one.overlaps(&wide)) {
                taken.push(at);
                break;
            }
            x += STEP_MM;
        }
        plan.placed.push(
            Placed {
                tag: format!("N{index}"),
                part: part.id.clone(),
                place: Place::Free {
                    x_mm: x,
                    y_mm: y + size.y / 2.0,
                    z_mm: z,
                },
                turn: 0,
                fill: None,
                locked: false,
            }
            .into(),
        );
        highest = highest.max(z + size.z);
        row = row.max(size.y);
        x += size.x + APART_MM;
    }
    plan
}
