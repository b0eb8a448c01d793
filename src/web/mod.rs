//! The page's side of the program: a session that holds a plan, and the views of it as JSON.
//!
//! Only `boundary` knows the browser; session and view run natively as well, so that tests can
//! compare the bytes of both.

mod bars;
#[cfg(all(target_arch = "wasm32", any(feature = "planner", feature = "study")))]
mod boundary;
mod catalogue;
mod drive;
mod duty;
mod enter;
mod entries;
mod fields;
mod held;
mod law_fields;
mod moving;
mod room;
mod session;
mod shaft_fields;
mod snap;
mod spot;
mod told;
mod view;

#[cfg(all(target_arch = "wasm32", feature = "planner"))]
pub use boundary::Planner;
#[cfg(all(target_arch = "wasm32", feature = "study"))]
pub use boundary::Study;
pub use drive::{DriveView, Driven, RouteChoice, Routes, Wanted};
pub use held::Held;
pub use session::{Examples, Session};
pub use snap::{SnapAnswer, SnapQuestion};
pub use view::{Show, Shown, View, ViewOptions};
