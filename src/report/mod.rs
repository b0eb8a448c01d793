//! Assessments as text, as JSON and as a weight sheet.

mod cautions;
mod json;
mod marks;
mod text;

pub use cautions::{Caution, cautions};
pub use json::{ASSUMPTIONS, Evaluation, evaluation};
pub use marks::{marks, sheet};
pub use text::text;
