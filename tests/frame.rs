//! Rails: closed forms, published rows, frames solved a second way, whole trucks, what must always hold.

#![allow(clippy::unwrap_used, clippy::panic)] // tests

#[path = "frame/beams.rs"]
mod beams;
#[path = "frame/hand.rs"]
mod hand;
#[path = "frame/properties.rs"]
mod properties;
#[path = "frame/published.rs"]
mod published;
#[path = "loads/yard.rs"]
mod yard;
