//! Bad input in every way in: a clear word or a right result, quickly, and never a panic; and the
//! plan on screen stays as it was.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests"
)]

mod input {
    mod edits;
    mod files;
    mod library;
    mod markup;
    mod mutated;
    mod older;
}
mod shipped;
