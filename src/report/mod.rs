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
pub use drive::{
    DriveAnswer, RANGES, SIZES, drive_answers, drive_choices, drive_page, drive_strip, ranges_page,
    sizes_page,
};
pub use frame::FrameRow;
pub use journey::{
    ChargeReport, JourneyReport, charge_data, charge_text, consumption, journey_data, journey_text,
};
pub use json::NOTICE;
use json::row as finding_row;
pub use json::{ASSUMPTIONS, Evaluation, FindingRow, evaluation};
pub use marks::{frame_mark, marks, sheet, sheet_with, turn_marks};
pub use page::{Column, Page, Row, Table};
pub use pages::{PAGES, PageChoice, PageKind, page, page_choices};
use text::table_text;
pub use text::{page_text, payload_rows, text};
