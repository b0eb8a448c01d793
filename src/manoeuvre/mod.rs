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

use crate::shared::{Maybe, Shared};
use crate::vehicle::Vehicle;

/// Everything about the moving truck that is worked out on each evaluation.
#[derive(Clone, Debug)]
pub struct Manoeuvre {
    /// At full lock, or what is missing for it.
    pub turning: Result<Shared<Turning>, String>,
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
    let ramp = ramp::ramp(vehicle, before.map(|(old, known)| (old, &known.ramp)));
    let since = before.and_then(|(old, known)| Some((old, known, moved(vehicle, old)?)));
    let (turning, stated, ring) = match &since {
        Some((old, known, moved)) if outline_holds(vehicle, old, known, moved) => (
            known.turning.clone(),
            known.stated.clone(),
            known.ring.clone(),
        ),
        _ => {
            let turning = turning::at_lock(vehicle).map(Shared::from);
            let stated = turning::stated(vehicle, &turning);
            let ring = ring::in_ring(vehicle, &turning);
            (turning, stated, ring)
        }
    };
    let (angles, bump) = match &since {
        Some((old, known, moved)) if underside_holds(vehicle, old, known, moved) => {
            (known.angles.clone(), known.bump.clone())
        }
        _ => {
            let under = underside::points(vehicle);
            (angles::angles(vehicle, &under), bump::over(vehicle, &under))
        }
    };
    Manoeuvre {
        turning,
        stated,
        ring,
        angles,
        bump,
        ramp,
    }
}

/// Which items are no longer what they were; `None` when more than items has changed.
fn moved(vehicle: &Vehicle, old: &Vehicle) -> Option<Vec<usize>> {
    let count = vehicle.items.len();
    let alike = vehicle.stands_on(old) && vehicle.moving == old.moving && count == old.items.len();
    let moved = || (0..count).filter(|i| !vehicle.keeps_item(*i, old));
    alike.then(|| moved().collect())
}

/// True when neither what moved nor what it was before has a corner on the outline.
fn outline_holds(vehicle: &Vehicle, old: &Vehicle, known: &Manoeuvre, moved: &[usize]) -> bool {
    let Ok(lock) = &known.turning else {
        return false;
    };
    let within = |i: &usize| {
        let (now, then) = (&vehicle.items[*i], &old.items[*i]);
        lock.hull.holds_without(then, now, vehicle.moving.turn_left)
    };
    vehicle.law.as_ref().stays(old.law.as_ref()) && moved.iter().all(within)
}

/// Farther than this from the least so far, nothing changes it, degrees and mm: wider than any rounding.
const CLEAR: f64 = 1e-6;

/// True when what moved hangs clear, before and now, of what sets the angles and comes nearest to the bump.
fn underside_holds(vehicle: &Vehicle, old: &Vehicle, known: &Manoeuvre, moved: &[usize]) -> bool {
    let mut low = Vec::new();
    for i in moved {
        underside::item(&mut low, vehicle, *i);
        underside::item(&mut low, old, *i);
    }
    let (angles, then) = (angles::angles(vehicle, &low), &known.angles);
    let clear = [
        (&angles.approach, &then.approach),
        (&angles.breakover, &then.breakover),
        (&angles.departure, &then.departure),
    ];
    let bump = bump::over(vehicle, &low);
    clear.into_iter().all(|pair| match pair {
        (Ok(now), Ok(then)) => now.deg > then.deg + CLEAR,
        (now, _) => now.is_err(),
    }) && match (bump, &known.bump) {
        (Some(now), Some(then)) => now.at_stops_mm > then.at_stops_mm + CLEAR,
        (now, _) => now.is_none(),
    }
}
