//! How far things on the truck are apart, at rest and in motion.
//!
//! Real solids, not boxes around them; the answer is a signed distance with the closest points, and
//! the clearance that is asked for beside it. Which of the two is enough is a finding's business.
//!
//! Each pair of things is measured solid by solid, and the pair with the least room beyond what is
//! asked for on its sides counts: the nearest need not be the one that misses most.
//!
//! Assumptions. Parts are rigid and stand where the plan says. Steered wheels turn about the
//! upright line through the tyre's centre, and the room to them holds for every angle
//! ([`separation_steered`](crate::geometry::separation_steered): at most 0.1 mm too small).
//! Suspension moves straight up and down; what is round and lies takes up to 0.2 % of its radius
//! more while it moves. Everything is at design (laden) height. Soft parts (cables, hoses, brackets)
//! are left out. The trailer is a box from the underside of its nose up, over its whole length, on
//! level ground; what hangs lower is left out but for the landing legs, which are taken to reach as
//! near to the kingpin as their front, over their whole width.

mod extents;
mod known;
mod moved;
mod opening;
mod pairs;
mod required;
mod swing;
mod travel;
mod tyres;
mod worst;

pub use extents::{Extents, Outside, Reach, ZoneUse, extents};
pub use required::side_towards;

use crate::geometry::{Aabb, Point, Separation, Solid};
use crate::shared::Shared;
use crate::vehicle::{Body, Vehicle};
use known::{Parts, Place};
use required::Asked;
use serde::Serialize;

/// One of two things between which a gap is measured.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Thing {
    /// A placed part, by tag.
    Part(String),
    /// A fixed body, by id.
    Body(String),
    /// Space that something sweeps, by name.
    Sweep(String),
}

impl Thing {
    /// Tag, id or name.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Self::Part(name) | Self::Body(name) | Self::Sweep(name) => name,
        }
    }
}

/// In which state of the truck a gap was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum State {
    /// Part against part, at rest.
    Parts,
    /// Part against frame, cab, body, obstacle or kept hardware, at rest.
    Fixed,
    /// Part against a tyre at rest.
    TyreAtRest,
    /// Part against a tyre over its whole travel and at any steering angle.
    TyreMoving,
    /// Something that rides on an axle, over its travel, against what does not.
    Travel,
    /// Part against the space that hood or cab need to open.
    Opening,
    /// Part, or part of the tractor, against the trailer as it turns about its kingpin.
    Swing,
    /// Part, or part of the tractor, against the trailer's landing legs.
    Legs,
    /// Chassis against chassis, where the plan has moved them nearer to each other.
    Moved,
}

/// A measured gap and what is asked for.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Gap {
    /// Measured in this state.
    pub state: State,
    /// The part.
    pub first: Thing,
    /// What it is near.
    pub second: Thing,
    /// Distance; negative is the depth of overlap.
    pub distance_mm: f64,
    /// Clearance asked for.
    pub required_mm: f64,
    /// Why that much, in a few words.
    pub why: String,
    /// Closest point on the first.
    pub on_first: Point,
    /// Closest point on the second.
    pub on_second: Point,
}

impl Gap {
    /// Positive when there is room.
    #[must_use]
    pub fn margin_mm(&self) -> f64 {
        self.distance_mm - self.required_mm
    }
}

/// All gaps that are near enough to matter.
#[derive(Clone, Debug, Default)]
pub struct Clearances {
    /// Gaps, in the order of the plan.
    pub gaps: Vec<Shared<Gap>>,
    /// Where each of them belongs.
    places: Vec<Place>,
    /// States that could not be examined, with what is missing.
    pub missing: Vec<(State, String)>,
    /// Zones, ground, width and ends.
    pub extents: Extents,
}

/// Gaps wider than what is asked for are listed up to this much, so that a person sees what is next.
const LISTED_BEYOND_MM: f64 = 100.0;

/// Measures everything.
#[must_use]
pub fn clearances(vehicle: &Vehicle) -> Clearances {
    clearances_after(vehicle, None)
}

/// The same, quicker where the vehicle before is known ([`Vehicle::resolve_after`]): what stands still is
/// not measured again, and its gaps are the very same.
#[must_use]
pub fn clearances_after(vehicle: &Vehicle, before: Option<(&Vehicle, &Clearances)>) -> Clearances {
    let (parts, mut found) = Parts::of(vehicle, before);
    found.extents = extents(vehicle);
    let bodies: Vec<(&Body, Aabb)> = vehicle.bodies.iter().map(|b| (b, b.bounds())).collect();
    let wheels = tyres::wheels(vehicle, &vehicle.bodies);
    pairs::part_pairs(&parts, &mut found);
    pairs::fixed_pairs(&bodies, &parts, &mut found);
    tyres::tyres(vehicle, &wheels, &parts, &mut found);
    travel::travel(vehicle, &bodies, &parts, &mut found);
    opening::opening(vehicle, &parts, &mut found);
    swing::turning(vehicle, &bodies, &parts, &mut found);
    swing::legs(vehicle, &bodies, &parts, &mut found);
    if parts.anew {
        moved::moved(vehicle, &wheels, &mut found);
    }
    found
}

/// Whether two things are too far apart for their gap to be listed, as their boxes tell. Of the pair
/// alone, whatever else there is.
fn far(a: &Aabb, b: &Aabb, most_mm: f64) -> bool {
    a.gap(b) > most_mm + LISTED_BEYOND_MM
}

fn gap(state: State, first: Thing, second: Thing, s: Separation, asked: Asked<'_>) -> Gap {
    Gap {
        state,
        first,
        second,
        distance_mm: s.distance_mm,
        required_mm: asked.mm,
        why: asked.why(),
        on_first: s.on_first,
        on_second: s.on_second,
    }
}

fn bounds_of(solids: &[Solid]) -> Aabb {
    solids
        .iter()
        .map(Solid::aabb)
        .reduce(|a, b| a.union(&b))
        .unwrap_or_default()
}
