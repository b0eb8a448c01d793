//! Energy: published and computed figures, closed forms, the ledger, and a second road.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)] // tests

#[path = "energy/beside.rs"]
mod beside;
#[path = "energy/cases.rs"]
mod cases;
#[path = "energy/closed.rs"]
mod closed;
#[path = "energy/cold.rs"]
mod cold;
#[path = "energy/conversions.rs"]
mod conversions;
#[path = "energy/course.rs"]
mod course;
#[path = "energy/duty.rs"]
mod duty;
#[path = "energy/grades.rs"]
mod grades;
#[path = "energy/heat.rs"]
mod heat;
#[path = "energy/load.rs"]
mod load;
#[path = "energy/nonsense.rs"]
mod nonsense;
#[path = "energy/on_the_way.rs"]
mod on_the_way;
#[path = "energy/plans.rs"]
mod plans;
#[path = "energy/properties.rs"]
mod properties;
#[path = "energy/published.rs"]
mod published;
mod published_rows;
#[path = "energy/rig.rs"]
mod rig;
#[path = "energy/sanity.rs"]
mod sanity;
#[path = "energy/second_road.rs"]
mod second_road;
#[path = "energy/sizes.rs"]
mod sizes;
#[path = "energy/sources.rs"]
mod sources;
#[path = "energy/stores.rs"]
mod stores;
#[path = "energy/tables.rs"]
mod tables;
#[path = "energy/tracks.rs"]
mod tracks;
#[path = "energy/window.rs"]
mod window;
