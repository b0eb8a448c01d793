//! The core inside a browser: what holds natively holds there, to the byte.
#![cfg(target_arch = "wasm32")]
#![allow(clippy::panic, reason = "helpers of tests")]

mod answers;
mod crowded;

use axlewright_core::library::Library;
use axlewright_core::plan::{Edit, Plan};
use axlewright_core::web::Session;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen_test]
fn shipped_library_reads_without_a_problem() {
    let library = Library::shipped();
    assert!(library.problems.is_empty(), "{:?}", library.problems);
    assert!(library.chassis.len() >= 5);
    assert!(library.parts.len() >= 50);
}

#[wasm_bindgen_test]
fn browser_answers_are_the_native_ones_to_the_byte() {
    let ours = answers::lines();
    let differences = answers::differences(&ours);
    assert!(
        differences.is_empty(),
        "{} answers differ from the frozen ones (does the native test agree?)\n{}",
        differences.len(),
        differences.join("\n")
    );
}

#[wasm_bindgen_test]
fn nesting_and_sizes_that_natively_are_refused_are_refused_in_the_browser() {
    let mut session = Session::new().unwrap_or_else(|p| panic!("{p}"));
    let before = session.plan().to_json();
    for levels in [200, 100_000] {
        let (open, close) = ("[".repeat(levels), "]".repeat(levels));
        for text in [
            format!("{{\"format\": 2, \"name\": {open}1{close}}}"),
            format!("{{\"format\": {open}1{close}}}"),
            format!("{{\"a\": {open}1{close}}}"),
            format!("a = {open}1{close}"),
            format!("{}a = 1", "a.".repeat(levels)),
            format!("[{}a]", "a.".repeat(levels)),
        ] {
            assert!(session.open("deep", &text).is_err(), "{levels} levels");
        }
    }
    assert!(
        session
            .open("long", &"x".repeat(Plan::MOST_BYTES + 1))
            .is_err()
    );
    for odd in [f64::NAN, f64::INFINITY, 1e308, -1e308] {
        assert!(session.apply(&Edit::Wheelbase { mm: odd }).is_err());
        assert!(session.apply(&Edit::Driver { kg: Some(odd) }).is_err());
    }
    assert_eq!(session.plan().to_json(), before);
}
