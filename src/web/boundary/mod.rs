//! The wasm boundary: strings and plain objects in, JSON text out, drawings as they are.
//!
//! Two programs from one source: the planner answers every move of the mouse and is all that the
//! first view loads; the study runs in a worker and answers what somebody asks for.

#[cfg(feature = "planner")]
mod planner;
#[cfg(feature = "study")]
mod study;

#[cfg(feature = "planner")]
pub use planner::Planner;
#[cfg(feature = "study")]
pub use study::Study;

use super::view::ViewOptions;
use crate::source::{Problems, from_value, json_value};
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::prelude::*;

#[derive(Serialize)]
struct Done {
    ok: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    what: Option<String>,
}

#[derive(Serialize)]
struct Refused {
    refused: String,
}

#[derive(Serialize)]
struct Unusable {
    problems: Problems,
}

fn json<T: Serialize>(value: &T) -> String {
    serde_json::to_string(value).unwrap_or_else(|e| {
        format!(
            "{{\"refused\":\"internal: {}\"}}",
            e.to_string().replace('"', "'")
        )
    })
}

fn refused(text: impl ToString) -> String {
    json(&Refused {
        refused: text.to_string(),
    })
}

/// Objects come as text: one reader for files and messages is smaller than two.
// By value, not by reference: references are kept on a stack whose clearing is an instruction that
// the wasm-opt of Debian 12 does not know.
fn value(object: JsValue) -> Result<serde_json::Value, String> {
    let text = js_sys::JSON::stringify(&object)
        .ok()
        .and_then(|text| text.as_string());
    json_value("page", &text.unwrap_or_default()).map_err(|problems| problems.to_string())
}

fn read<T: DeserializeOwned>(object: JsValue) -> Result<T, String> {
    from_value("page", &value(object)?).map_err(|problems| problems.to_string())
}

fn options(object: JsValue) -> ViewOptions {
    read(object).unwrap_or_default()
}
