//! The ring in which truck and trailer must turn: within an outer radius, leaving an inner one free.

use super::path::sweep_by;
use super::turning::{Turning, at_outer};
use crate::shared::Shared;
use crate::source::{Basis, Source};
use crate::vehicle::Vehicle;

/// The ring that is asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct Ring {
    /// Nothing beyond this, mm.
    pub outer_mm: f64,
    /// Nothing within this, mm.
    pub inner_mm: f64,
    /// Who asks for it.
    pub source: Source,
}

/// How truck and trailer pass it: a full circle, the outermost corner on the outer radius.
#[derive(Clone, Debug, PartialEq)]
pub struct InRing {
    /// The ring.
    pub ring: Ring,
    /// Radius of the outermost corner, mm; larger than the ring's when full lock does not do.
    pub outer_mm: f64,
    /// Radius of the innermost point of truck and trailer, mm.
    pub inner_mm: f64,
    /// The innermost point is the trailer's.
    pub by_trailer: bool,
    /// There is no steady turn this tight: a full circle was followed.
    pub followed: bool,
}

/// The ring that the plan asks for; `None` when it asks for none.
#[must_use]
pub fn ring(vehicle: &Vehicle) -> Option<Ring> {
    let moving = &vehicle.moving;
    let stated = moving.turn_outer_mm.zip(moving.turn_inner_mm);
    if let Some((outer_mm, inner_mm)) = stated {
        return Some(Ring {
            outer_mm,
            inner_mm,
            source: Source::new(Basis::CommonPractice, "set in the plan"),
        });
    }
    let law = vehicle.law.as_ref()?;
    let outer = &law.sizes.turning_outer;
    Some(Ring {
        outer_mm: outer.mm()?,
        inner_mm: law.sizes.turning_inner.mm()?,
        source: outer.source.clone().unwrap_or_else(|| law.source.clone()),
    })
}

/// Works out how it is passed.
pub(super) fn in_ring(
    vehicle: &Vehicle,
    lock: &Result<Shared<Turning>, String>,
) -> Option<Result<InRing, String>> {
    let ring = ring(vehicle)?;
    Some(
        lock.as_ref()
            .map_err(Clone::clone)
            .and_then(|lock| pass(vehicle, lock, ring)),
    )
}

fn pass(vehicle: &Vehicle, lock: &Turning, ring: Ring) -> Result<InRing, String> {
    let turn = at_outer(vehicle, lock, ring.outer_mm)?;
    let steady = &turn.steady;
    let half = vehicle
        .trailer
        .as_ref()
        .map_or(0.0, |t| t.trailer.width_mm / 2.0);
    let trailer = if steady.needs_path {
        // The steady turn would be the tightest part of it; without one the whole circle tells.
        Some(sweep_by(vehicle, lock, ring.outer_mm, 360.0)?.inner_mm)
    } else {
        steady.trailer_mm.map(|mm| (mm - half).max(0.0))
    };
    let inner_mm = trailer.map_or(turn.inner_mm, |mm| mm.min(turn.inner_mm));
    Ok(InRing {
        outer_mm: turn.outer_mm,
        inner_mm,
        by_trailer: trailer.is_some_and(|mm| mm < turn.inner_mm),
        followed: steady.needs_path,
        ring,
    })
}
