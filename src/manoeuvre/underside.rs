//! What hangs low on the truck, as points of the side view.

use crate::geometry::Solid;
use crate::numeric::{cos, sin};
use crate::vehicle::{BodyKind, Vehicle};
use std::f64::consts::{PI, TAU};

/// Sides of the polygon that stands for a round thing that lies across.
const SIDES: u32 = 24;

/// A low point, or a level edge.
#[derive(Clone, Copy, Debug)]
pub(super) struct Low {
    /// From and to, behind the front axle, mm; the same for a point.
    pub x: [f64; 2],
    /// Middle of the thing across the truck, mm; for pointers.
    pub y: f64,
    /// Above ground, laden, mm.
    pub z: f64,
    /// Whose it is.
    pub whose: Whose,
    /// Rides on an axle and not on the springs.
    pub unsprung: bool,
}

/// Whose point it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Whose {
    Bumper,
    Body(usize),
    Item(usize),
}

impl Whose {
    /// Tag of a part, and the words for anything.
    pub(super) fn words(self, vehicle: &Vehicle) -> (String, String) {
        match self {
            Self::Bumper => (String::new(), "front bumper".to_owned()),
            Self::Body(i) => (String::new(), vehicle.bodies[i].name.clone()),
            Self::Item(i) => {
                let tag = vehicle.items[i].tag.clone();
                (tag.clone(), tag)
            }
        }
    }
}

/// Low points of everything hard but the tyres that stand on the road.
pub(super) fn points(vehicle: &Vehicle) -> Vec<Low> {
    let mut low = Vec::with_capacity(256);
    let d = &vehicle.chassis.dimensions;
    if let Some(z) = d.bumper_bottom_mm {
        low.push(Low {
            x: [d.bumper_x_mm(); 2],
            y: 0.0,
            z,
            whose: Whose::Bumper,
            unsprung: false,
        });
    }
    for (i, body) in vehicle.bodies.iter().enumerate() {
        let standing = matches!(&body.kind, BodyKind::Tyre(id) if !vehicle.is_raised(id));
        if !standing {
            let unsprung = body.axle.is_some();
            of(&mut low, &body.solids, Whose::Body(i), unsprung);
        }
    }
    for i in 0..vehicle.items.len() {
        item(&mut low, vehicle, i);
    }
    low
}

/// Low points of one item.
pub(super) fn item(low: &mut Vec<Low>, vehicle: &Vehicle, index: usize) {
    let item = &vehicle.items[index];
    if !item.part.soft {
        let unsprung = item.unsprung_axle.is_some();
        of(low, &item.solids, Whose::Item(index), unsprung);
    }
}

fn of(low: &mut Vec<Low>, solids: &[Solid], whose: Whose, unsprung: bool) {
    for solid in solids.iter().filter(|s| s.has_place()) {
        let b = solid.aabb();
        let y = b.centre().y;
        let mut add = |x: [f64; 2], z: f64| {
            low.push(Low {
                x,
                y,
                z,
                whose,
                unsprung,
            });
        };
        match solid {
            Solid::Cylinder { from, to, radius } if from.x == to.x && from.z == to.z => {
                // Lower half of a polygon about the rim: never smaller than the round thing.
                let step = TAU / f64::from(SIDES);
                let reach = radius / cos(step / 2.0);
                for i in 0..=SIDES / 2 {
                    let angle = PI + (f64::from(i) - 0.5) * step;
                    add(
                        [from.x + reach * cos(angle); 2],
                        from.z + reach * sin(angle),
                    );
                }
            }
            Solid::Hull(points) => points.iter().for_each(|p| add([p.x; 2], p.z)),
            _ => add([b.min.x, b.max.x], b.min.z),
        }
    }
}
