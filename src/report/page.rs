//! A page of answers: a few sentences, tables, perhaps a picture, and what was taken for granted.
//!
//! Texts stand in the units that the reader chose, so whatever shows a page formats nothing. It is
//! built only when somebody asks for it: the drawing and the findings come first.

use super::pages::PageKind;
use crate::assessment::Assessment;
use crate::findings::{self, Severity};
use crate::quantity::Units;
use serde::Serialize;

/// A page of answers.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Page {
    /// Id of its kind.
    pub id: &'static str,
    /// Its title.
    pub title: &'static str,
    /// What it comes to, in sentences; also what could not be assessed, and what is missing for it.
    pub lead: Vec<String>,
    /// Tables.
    pub tables: Vec<Table>,
    /// A drawing to scale, as SVG text in which every name is escaped.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub picture: Option<String>,
    /// What was taken for granted.
    pub assumptions: Vec<String>,
}

/// A column of a table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Column {
    /// Heading.
    pub name: String,
    /// It holds figures, to be set flush right.
    pub numeric: bool,
}

/// A row of a table; as many cells as the table has columns.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Row {
    /// Texts; the first names the row.
    pub cells: Vec<String>,
    /// How bad, where the row is held against a limit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub severity: Option<Severity>,
}

/// A table of texts.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Table {
    /// What it shows.
    pub title: String,
    /// Columns.
    pub columns: Vec<Column>,
    /// Rows.
    pub rows: Vec<Row>,
    /// How to read it, where that is not plain.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

impl Page {
    /// An empty page that takes over what the checks of its kind take for granted.
    #[must_use]
    pub fn new(kind: &PageKind) -> Self {
        let mut assumptions: Vec<String> = Vec::new();
        for line in kind
            .checks
            .iter()
            .filter_map(|id| findings::explain(id))
            .flat_map(|check| check.assumes)
        {
            if !assumptions.iter().any(|known| known == line) {
                assumptions.push((*line).to_owned());
            }
        }
        Self {
            id: kind.id,
            title: kind.title,
            lead: Vec::new(),
            tables: Vec::new(),
            picture: None,
            assumptions,
        }
    }

    /// Adds what one check found to the sentences.
    pub fn say_findings(&mut self, check: &str, assessment: &Assessment, units: Units) {
        let said = assessment.findings.iter().filter(|f| f.check == check);
        self.lead.extend(said.map(|f| f.sentence.words(units)));
    }
}

impl Table {
    /// A table with its columns: heading, and whether it holds figures.
    #[must_use]
    pub fn new(title: &str, columns: &[(&str, bool)]) -> Self {
        let column = |(name, numeric): &(&str, bool)| Column {
            name: (*name).to_owned(),
            numeric: *numeric,
        };
        Self {
            title: title.to_owned(),
            columns: columns.iter().map(column).collect(),
            rows: Vec::new(),
            note: None,
        }
    }

    /// Adds a row.
    pub fn row(&mut self, severity: Option<Severity>, cells: Vec<String>) {
        self.rows.push(Row { cells, severity });
    }
}
