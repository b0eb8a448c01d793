//! What stands on each axle: published cases, springs solved a second way, cases by hand, and what
//! must hold for any vehicle.

#![allow(clippy::unwrap_used, clippy::panic)] // tests

#[path = "loads/hand.rs"]
mod hand;
#[path = "loads/judged.rs"]
mod judged;
#[path = "loads/properties.rs"]
mod properties;
#[path = "loads/published.rs"]
mod published;
#[path = "loads/springs.rs"]
mod springs;
#[path = "loads/stands.rs"]
mod stands;
#[path = "loads/yard.rs"]
mod yard;
