//! Axlewright core: plans an electric driveline in the place of a diesel one on a heavy-truck
//! chassis that already exists.
//!
//! A [`plan::Plan`] (what the user wants) is resolved against a [`library::Library`] (what exists)
//! into a [`vehicle::Vehicle`] (what would stand in the yard); pure functions answer questions about
//! the vehicle; checks turn answers into findings; drawings and reports only show.
//!
//! Lengths are millimetres, masses and loads kilograms, everywhere, and every field says its unit.

pub mod assessment;
pub mod chassis;
pub mod clearance;
#[cfg(not(target_arch = "wasm32"))]
pub mod cli;
pub mod drawing;
pub mod driveline;
pub mod energy;
pub mod findings;
pub mod frame;
pub mod geometry;
pub mod law;
pub mod legality;
pub mod library;
pub mod loads;
pub mod manoeuvre;
pub mod numeric;
pub mod part;
pub mod pieces;
pub mod plan;
pub mod plant;
pub mod quantity;
pub mod report;
pub mod route;
pub mod shared;
pub mod source;
pub mod stability;
pub mod vehicle;
pub mod web;

/// Faster than the standard one of wasm, and smaller.
#[cfg(all(target_arch = "wasm32", not(target_feature = "atomics")))]
#[global_allocator]
static MEMORY: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();
