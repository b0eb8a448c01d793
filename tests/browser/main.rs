//! The page, driven as a person drives it, in a headless browser.
//!
//! Ignored by a plain `cargo test`, since they want the page built, a browser and its
//! driver: `cargo xtask test page browser` sees to all three. A driver that runs already is
//! used when its address is in `AXLEWRIGHT_CHROMEDRIVER`.
#![cfg(not(target_arch = "wasm32"))]
// A test's helpers may stop the test; the lint only knows the test functions themselves.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod driver;
mod harness;
mod opening;
mod page;
mod page_answers;
mod page_bench;
mod page_drive;
mod page_files;
mod page_hands;
mod page_layout;
mod page_shafts;
mod paper;
mod seen;
