//! Axlewright core.

pub mod geometry;
pub mod numeric;
