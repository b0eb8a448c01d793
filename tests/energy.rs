//! Energy: published and computed figures, closed forms, the ledger, and a second road.

#[path = "energy/closed.rs"]
mod closed;
#[path = "energy/plans.rs"]
mod plans;
#[path = "energy/published.rs"]
mod published;
#[path = "energy/rig.rs"]
mod rig;
