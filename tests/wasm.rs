//! The core inside a browser: what holds natively holds there.
#![cfg(target_arch = "wasm32")]

use axlewright_core::library::Library;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen_test]
fn shipped_library_reads_without_a_problem() {
    let library = Library::shipped();
    assert!(library.problems.is_empty(), "{:?}", library.problems);
    assert!(library.chassis.len() >= 5);
    assert!(library.parts.len() >= 50);
}
