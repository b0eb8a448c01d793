//! Assessments as text, as JSON and as a weight sheet.

mod cautions;
mod journey;
mod json;
mod marks;
mod text;

pub use cautions::{Caution, cautions};
pub use journey::{
    JourneyReport, charge_text, journey_data, journey_findings, journey_text, sizes_text,
};
pub use json::{ASSUMPTIONS, Evaluation, FindingRow, evaluation};
use json::{NOTICE, row as finding_row};
pub use marks::{marks, sheet};
pub use text::text;
