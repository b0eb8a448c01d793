//! The truck that a plan describes: everything resolved to places, solids and masses.
//!
//! Resolving does not fail: what cannot be resolved becomes a [`Problem`] and the rest stands. A
//! vehicle is never saved; it is made again from the plan.

mod bodies;
mod case;
mod coupling;
mod items;
mod masses;
mod resolve;
mod shaft;

pub use bodies::{Body, BodyKind};
pub use case::Case;
pub use coupling::Coupled;
pub use items::Item;
pub use masses::{Aboard, MassPoint};
pub(crate) use resolve::{find_part, listed};
pub use shaft::ShaftLine;

use crate::chassis::{Axle, Chassis, Zone};
use crate::geometry::Point;
use crate::law::Regime;
use crate::plan::{Duty, FrameChoice, Loads, Moving};
use crate::shared::{Along, Maybe, Shared};
use crate::source::Problem;

/// A plan resolved against a library.
#[derive(Clone, Debug)]
pub struct Vehicle {
    /// Name of the plan.
    pub name: String,
    /// The donor as it came, before any change.
    pub donor: Shared<Chassis>,
    /// The chassis with the plan's wheelbase and fifth-wheel position.
    pub chassis: Shared<Chassis>,
    /// How much longer than the donor's the wheelbase is (negative: shorter).
    pub stretch_mm: f64,
    /// Where the rails are cut, if they are.
    pub splice_x_mm: f64,
    /// Zones of the changed chassis.
    pub zones: Shared<Vec<Zone>>,
    /// Ids of donor hardware that comes off.
    pub stripped: Vec<String>,
    /// Ids of lift axles that are up.
    pub raised: Vec<String>,
    /// Parts and shafts on the truck, in the order of the plan.
    pub items: Vec<Shared<Item>>,
    /// Lines of the driveshafts that could be made, those between two axles last.
    pub shafts: Vec<ShaftLine>,
    /// Everything with a shape that stays: rails, tyres, cab, obstacles, kept hardware.
    pub bodies: Shared<Vec<Body>>,
    /// Point masses of the whole truck; which of them count depends on the load case.
    pub masses: Vec<MassPoint>,
    /// Trailer, where the plan names one and the truck can pull it.
    pub trailer: Option<Shared<Coupled>>,
    /// Loads as the plan states them.
    pub loads: Loads,
    /// What the plan says about the frame: factors, reinforcements, accelerations.
    pub frame: FrameChoice,
    /// Road law that the plan names.
    pub law: Option<Shared<Regime>>,
    /// The plan claims the law's allowance for the driveline.
    pub allowance: bool,
    /// Which one; the law's first when not given.
    pub which_allowance: Option<String>,
    /// The plan states intermodal transport of containers.
    pub intermodal: bool,
    /// The turn, the ramp and the bump that it must take.
    pub moving: Moving,
    /// What it is to drive.
    pub duty: Duty,
    /// What could not be resolved.
    pub problems: Vec<Problem>,
}

impl Vehicle {
    /// Axle by id.
    #[must_use]
    pub fn axle(&self, id: &str) -> Option<&Axle> {
        self.chassis.axles.iter().find(|a| a.id == id)
    }

    /// Zone by id.
    #[must_use]
    pub fn zone(&self, id: &str) -> Option<&Zone> {
        self.zones.iter().find(|z| z.id == id)
    }

    fn settle(&mut self, before: &Self) {
        self.bodies.settle(&before.bodies);
        if let (Some(now), Some(then)) = (&mut self.trailer, &before.trailer) {
            now.settle(then);
        }
        if let (Some(now), Some(then)) = (&mut self.law, &before.law) {
            now.settle(then);
        }
        // A part that was added or taken off moves the places of those behind it in the plan.
        let mut then = Along::new(&before.items);
        for item in &mut self.items {
            if let Some((old, _)) = then.next(|old| old.tag == item.tag) {
                item.settle(old);
            }
        }
    }

    /// True when the item at this index is the same as the one there before.
    #[must_use]
    pub fn keeps_item(&self, index: usize, before: &Self) -> bool {
        let pair = self.items.get(index).zip(before.items.get(index));
        pair.is_some_and(|(now, then)| now.is(then))
    }

    /// True when everything but the parts is the same as it was before (see [`Vehicle::resolve_after`]):
    /// chassis, what stays on it, zones, trailer, and which axles are raised.
    #[must_use]
    pub fn stands_on(&self, before: &Self) -> bool {
        let trailer = self.trailer.as_ref();
        trailer.stays(before.trailer.as_ref())
            && self.has_chassis_of(before)
            && self.zones.is(&before.zones)
            && self.bodies.is(&before.bodies)
    }

    fn has_chassis_of(&self, before: &Self) -> bool {
        self.donor.is(&before.donor)
            && self.chassis.is(&before.chassis)
            && self.stripped == before.stripped
            && self.raised == before.raised
    }

    /// Parts and shafts on the truck, in the order of the plan.
    pub fn each_item(&self) -> impl Iterator<Item = &Item> {
        self.items.iter().map(|item| &**item)
    }

    /// Item by tag.
    #[must_use]
    pub fn item(&self, tag: &str) -> Option<&Item> {
        self.each_item().find(|i| i.tag == tag)
    }

    /// Centre of the kingpin's seat on the fifth wheel, on a tractor.
    #[must_use]
    pub fn kingpin(&self) -> Option<Point> {
        let fw = self.chassis.fifth_wheel.as_ref()?;
        Some(Point::new(
            self.chassis.dimensions.wheelbase_mm - fw.ahead_mm,
            0.0,
            fw.top_z_mm,
        ))
    }

    /// True when this axle is a lift axle that the plan has up.
    #[must_use]
    pub fn is_raised(&self, axle: &str) -> bool {
        self.raised.iter().any(|id| id == axle)
    }
}
