//! The truck moving: how tightly it turns, what it sweeps, which ramp and which bump it takes.
//!
//! Crawling speed on a firm road: no tyre slides but those that several axles force aside. Axles
//! that do not steer make the truck turn as one with a longer wheelbase; how much follows from the
//! balance of side forces when every tyre is equally stiff (C. B. Winkler, *Vehicle System
//! Dynamics* 29, 1998, for one steered axle and a tandem; its abstract was read, the formula is
//! worked out anew in [`stance`]). A trailer follows its kingpin along a tractrix.
//!
//! Seen from above the truck counts as the convex hull of everything on it, without mirrors: never
//! smaller than the truck. Seen from the side, angles are tangents to the tyre's arc of static loaded
//! radius (49 CFR 523.2). What turns or pitches is rigid.
//!
//! The figures of [`manoeuvre`] are cheap and are worked out on each evaluation. The path of a turn
//! ([`path::sweep`]) is followed step by step and only on demand.

mod angles;
mod bump;
mod outline;
pub mod path;
mod ramp;
mod ring;
pub mod stance;
mod turning;
mod underside;

pub use angles::{Angle, Angles, tangent_deg};
pub use bump::{OverBump, rise_mm};
pub use outline::{Hull, Vertex};
pub use path::{Pose, Sweep, Trace, follow, sweep};
pub use ramp::{OnRamp, Pitch, on_ramp};
pub use ring::{InRing, Ring, ring};
pub use turning::{Steady, Turn, Turning, at_outer, steady};

use crate::vehicle::Vehicle;

/// Everything about the moving truck that is worked out on each evaluation.
#[derive(Clone, Debug)]
pub struct Manoeuvre {
    /// At full lock, or what is missing for it.
    pub turning: Result<Turning, String>,
    /// Within the stated outer radius, or what is missing for it.
    pub stated: Result<Turn, String>,
    /// In the ring that is asked for, or what is missing for it; `None` when none is asked for.
    pub ring: Option<Result<InRing, String>>,
    /// Approach, breakover and departure.
    pub angles: Angles,
    /// Lowest above the bump; `None` when nothing hangs under the truck.
    pub bump: Option<OverBump>,
    /// Trailer against tractor where a ramp begins or ends, or what is missing for it; `None` for a
    /// truck that pulls no trailer.
    pub ramp: Option<Result<Vec<OnRamp>, String>>,
}

/// Works it out; what is known from before and stays is taken from there.
#[must_use]
pub fn manoeuvre(vehicle: &Vehicle, before: Option<(&Vehicle, &Manoeuvre)>) -> Manoeuvre {
    let turning = turning::at_lock(vehicle);
    let stated = turning::stated(vehicle, &turning);
    let under = underside::points(vehicle);
    Manoeuvre {
        stated,
        ring: ring::in_ring(vehicle, &turning),
        turning,
        angles: angles::angles(vehicle, &under),
        bump: bump::over(vehicle, &under),
        ramp: ramp::ramp(vehicle, before.map(|(old, known)| (old, &known.ramp))),
    }
}
