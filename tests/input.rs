//! Bad input in every way in: a clear word or a right result, quickly, and never a panic; and the
//! plan on screen stays as it was.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests"
)]
// "Quickly" is part of what is asked; the ban on clocks is for the planner's own code.
#![allow(clippy::disallowed_methods)]

mod input {
    mod drive;
    mod edits;
    mod files;
    mod library;
    mod markup;
    mod mutated;
    mod older;
    mod shafts;
    mod steps;
}
mod shipped;
