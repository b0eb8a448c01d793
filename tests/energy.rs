//! Energy: published and computed figures, closed forms, the ledger, and a second road.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)] // tests

#[path = "energy/cases.rs"]
mod cases;
#[path = "energy/closed.rs"]
mod closed;
#[path = "energy/nonsense.rs"]
mod nonsense;
#[path = "energy/plans.rs"]
mod plans;
#[path = "energy/properties.rs"]
mod properties;
#[path = "energy/published.rs"]
mod published;
#[path = "energy/rig.rs"]
mod rig;
#[path = "energy/second_road.rs"]
mod second_road;
#[path = "energy/stores.rs"]
mod stores;
#[path = "energy/tables.rs"]
mod tables;
#[path = "energy/window.rs"]
mod window;
