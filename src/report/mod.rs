//! Assessments as text, as JSON, as a weight sheet and as pages of answers.

mod balance_rows;
mod cautions;
mod drive;
mod frame;
mod journey;
mod json;
mod marks;
mod moving;
mod page;
mod pages;
mod text;

pub use cautions::{Caution, cautions};
pub use drive::{DriveAnswer, drive_answers, drive_pages, drive_strip};
pub use frame::FrameRow;
pub use journey::{
    ChargeReport, JourneyReport, charge_data, charge_text, consumption, journey_data, journey_text,
    sizes_text,
};
pub use json::{ASSUMPTIONS, Evaluation, FindingRow, evaluation};
use json::{NOTICE, row as finding_row};
pub use marks::{frame_mark, marks, sheet, sheet_with, turn_marks};
pub use page::{Column, Page, Row, Table};
pub use pages::{PAGES, PageChoice, PageKind, page, page_choices};
pub use text::{payload_rows, text};
