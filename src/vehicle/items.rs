//! Parts at their places.

use super::Vehicle;
use crate::chassis::Spot;
use crate::geometry::{Aabb, Point, Solid};
use crate::part::{Part, Sides};
use crate::plan::{Place, Placed};
use crate::shared::Shared;

/// A part, or a driveshaft made for this truck, at its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// As the plan puts it; `None` for a shaft.
    pub placed: Option<Shared<Placed>>,
    /// Mark on the drawing.
    pub tag: String,
    /// The part as the library has it.
    pub part: Shared<Part>,
    /// Zone that it was put in; `None` when it stands free.
    pub zone: Option<String>,
    /// Front face, middle, underside.
    pub origin: Point,
    /// Quarter turns.
    pub turn: u8,
    /// Solids that it occupies, in truck axes.
    pub solids: Vec<Solid>,
    /// Box around them.
    pub bounds: Aabb,
    /// Centre of gravity without contents.
    pub cg: Point,
    /// Mass without contents.
    pub mass_kg: f64,
    /// Mass of full contents.
    pub full_kg: f64,
    /// Share of the contents aboard, as planned.
    pub fill: f64,
    /// Free space that it needs on each side, after the turn.
    pub clearance: Sides,
    /// Rides on this axle and not on the springs.
    pub unsprung_axle: Option<String>,
    /// Tags of what it is flanged to; touching them is meant.
    pub joined_to: Vec<String>,
    /// Axle that it drives, on a driveshaft.
    pub joined_axle: Option<String>,
}

impl Item {
    /// Puts a part at its place.
    pub(super) fn put(vehicle: &Vehicle, placed: &Shared<Placed>, part: &Shared<Part>) -> Self {
        let origin = vehicle.position(&placed.place);
        let bounds = part.bounds();
        let about = bounds.centre();
        let turned: Vec<Solid> = part
            .solids()
            .iter()
            .map(|solid| solid.turned(placed.turn, about))
            .collect();
        let boxed = turned
            .iter()
            .map(Solid::aabb)
            .reduce(|sum, one| sum.union(&one))
            .unwrap_or_default();
        // The place says where the front face, the middle and the underside are after the turn.
        let size = boxed.size();
        let by = Point::new(
            origin.x - boxed.min.x,
            origin.y - (boxed.min.y + size.y / 2.0),
            origin.z - boxed.min.z,
        );
        let cg = Solid::Hull(vec![part.centre_of_gravity().point()]).turned(placed.turn, about);
        let cg = match cg {
            Solid::Hull(points) => points.first().copied().unwrap_or_default(),
            Solid::Block(_) | Solid::Cylinder { .. } => about,
        } + by;
        let on_axle = part.axle.is_some();
        let zone = match &placed.place {
            Place::Zone { id, .. } => Some(id.clone()),
            Place::Free { .. } => None,
        };
        Self {
            placed: Some(placed.clone()),
            tag: placed.tag.clone(),
            part: part.clone(),
            unsprung_axle: zone
                .clone()
                .filter(|id| on_axle && vehicle.axle(id).is_some()),
            zone,
            origin,
            turn: placed.turn,
            solids: turned.iter().map(|solid| solid.translated(by)).collect(),
            bounds: boxed.translated(by),
            cg,
            mass_kg: part.mass_kg,
            full_kg: part.contents.as_ref().map_or(0.0, |c| c.full_kg),
            fill: placed.fill.unwrap_or(1.0),
            clearance: turned_sides(&part.clearance, placed.turn),
            joined_to: Vec::new(),
            joined_axle: None,
        }
    }

    /// Mass with this share of the full contents.
    #[must_use]
    pub fn mass_at(&self, fill: f64) -> f64 {
        self.mass_kg + self.full_kg * fill
    }

    /// Mass as planned.
    #[must_use]
    pub fn planned_kg(&self) -> f64 {
        self.mass_at(self.fill)
    }

    /// Place for a person: front face, middle, underside.
    #[must_use]
    pub fn spot(&self) -> Spot {
        self.origin.into()
    }
}

impl Vehicle {
    /// Truck coordinates of a place: front face, middle, underside. A zone that does not exist
    /// counts from the front axle.
    #[must_use]
    pub fn position(&self, place: &Place) -> Point {
        let at = match place {
            Place::Free { x_mm, y_mm, z_mm } => Point::new(*x_mm, *y_mm, *z_mm),
            Place::Zone {
                id,
                from_front_mm,
                y_mm,
                z_mm,
            } => {
                let front = self.zone(id).map_or(0.0, |zone| zone.volume.min.x);
                Point::new(front + from_front_mm, *y_mm, *z_mm)
            }
        };
        // A minus 0 equals 0 and is written otherwise: what is equal shall read alike.
        at + Point::default()
    }
}

/// One quarter turn counter-clockwise seen from above takes rear (+x) to right (+y), right to
/// front, front to left, left to rear.
fn turned_sides(sides: &Sides, turns: u8) -> Sides {
    let mut out = *sides;
    for _ in 0..turns % 4 {
        out = Sides {
            right_mm: out.rear_mm,
            front_mm: out.right_mm,
            left_mm: out.front_mm,
            rear_mm: out.left_mm,
            ..out
        };
    }
    out
}

impl Vehicle {
    /// A part as it would stand at a place, without putting it on the truck.
    #[must_use]
    pub fn trial(&self, placed: Placed, part: &Shared<Part>) -> Item {
        Item::put(self, &placed.into(), part)
    }
}
