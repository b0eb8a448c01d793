//! The native build gives the frozen bytes; `tests/wasm.rs` says so of the browser's.
//!
//! After a meant change of answers or drawings, `AXLEWRIGHT_BLESS=1 cargo test --test parity` freezes
//! them anew; the browser's test then shows whether its build follows.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests"
)]

mod answers;
mod crowded;
mod shipped;

#[test]
fn native_answers_are_the_frozen_ones() {
    let ours = answers::lines();
    if std::env::var_os("AXLEWRIGHT_BLESS").is_some() {
        let place = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/frozen/parity.txt");
        std::fs::write(place, ours).unwrap();
        return;
    }
    let differences = answers::differences(&ours);
    assert!(
        differences.is_empty(),
        "{} answers are not the frozen ones; if that is meant, AXLEWRIGHT_BLESS=1 cargo test --test \
         parity freezes them anew\n{}",
        differences.len(),
        differences.join("\n")
    );
}

#[test]
fn no_example_is_left_out() {
    let there: Vec<String> = shipped::examples()
        .iter()
        .map(|path| shipped::short(path))
        .collect();
    let compared: Vec<String> = answers::EXAMPLES
        .iter()
        .map(|(name, _)| format!("examples/{name}"))
        .collect();
    assert_eq!(compared, there);
}

#[test]
fn the_same_plan_gives_the_same_bytes_each_time() {
    assert_eq!(answers::lines(), answers::lines());
}
