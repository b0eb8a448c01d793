//! The page's side of the program: a session that holds a plan, and the views of it as JSON.
//!
//! Only `boundary` knows the browser; session and view run natively as well, so that tests can
//! compare the bytes of both.

mod bars;
#[cfg(target_arch = "wasm32")]
mod boundary;
mod catalogue;
mod enter;
mod fields;
mod law_fields;
mod moving;
mod room;
mod session;
mod snap;
mod spot;
mod view;

#[cfg(target_arch = "wasm32")]
pub use boundary::Planner;
pub use session::{Examples, Session};
pub use snap::{SnapAnswer, SnapQuestion};
pub use view::{Show, View, ViewOptions};
