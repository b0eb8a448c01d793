//! Bodies in space and the room between them.
//!
//! Lengths are millimetres throughout. Axes: x rearward from the front axle centre, y to the
//! right, z up from the ground; right-handed, so a positive turn about z goes from x (rear)
//! towards y (right): counter-clockwise seen from above. Angles are radians.
//!
//! Every body is convex: a [`Solid`] is a box, a cylinder or the hull of points; anything else is
//! a set of those. The questions answered are how far two bodies are apart or how deep they
//! overlap ([`separation`]), which pairs are worth asking about ([`Broad`]), and what room a body
//! takes when it moves ([`Solid::swept_z`], [`yawed`], [`arc_hull`]). Bodies that stand for moving
//! things are never smaller than the real thing; each says by how much it may be larger.
//!
//! Nothing here fails or gives NaN. A body with a coordinate that is not finite, or a hull without
//! points, has no place ([`Solid::has_place`]) and counts as touching whatever it is asked about,
//! so that it can never pass for clear.

mod aabb;
mod block_pair;
mod broad;
mod convex_pair;
mod cylinder;
mod least_overlap;
mod placed;
mod point;
mod separation;
mod solid;
mod steered;
mod sweep;
mod turn;

pub use aabb::{Aabb, Outset};
pub use broad::Broad;
pub use point::Point;
pub use separation::{Separation, separation, separation_of_sets, separation_within};
pub use solid::Solid;
pub use steered::separation_steered;
pub use sweep::{ROUND_SIDES, arc_hull};
pub use turn::yawed;

/// Coordinates beyond this (a thousand kilometres) have no place either, mm.
const FARTHEST_MM: f64 = 1e9;
