//! Range checks on what a person entered, collected instead of stopping at the first.

use super::{Problem, Problems};
use crate::quantity::repeated;

/// Walks a piece of input and collects what cannot be used.
///
/// Data types implement `fn check(&self, &mut Checker)`; the checker knows the file and the path,
/// so that a type does not have to know where it stands.
#[derive(Debug, Default)]
pub struct Checker {
    file: String,
    path: Vec<String>,
    problems: Vec<Problem>,
}

impl Checker {
    /// More problems than a person would read are counted, not listed.
    const MOST: usize = 50;

    /// Starts at the top of a file.
    #[must_use]
    pub fn new(file: impl Into<String>) -> Self {
        Self {
            file: file.into(),
            ..Self::default()
        }
    }

    /// Checks what stands under `step` (a field, or `field[3]`).
    pub fn under(&mut self, step: impl Into<String>, inner: impl FnOnce(&mut Self)) {
        self.path.push(step.into());
        inner(self);
        self.path.pop();
    }

    /// Checks every element of a list under `name[index]`.
    pub fn each<T>(&mut self, name: &str, items: &[T], mut inner: impl FnMut(&mut Self, &T)) {
        for (index, item) in items.iter().enumerate() {
            self.under(format!("{name}[{index}]"), |c| inner(c, item));
        }
    }

    fn at(&self, field: &str) -> String {
        let mut path = self.path.join(".");
        if !field.is_empty() {
            if !path.is_empty() {
                path.push('.');
            }
            path.push_str(field);
        }
        path
    }

    /// Notes a problem at `field`.
    pub fn problem(
        &mut self,
        field: &str,
        value: impl std::fmt::Display,
        what: impl Into<String>,
        hint: impl Into<String>,
    ) {
        if self.problems.len() < Self::MOST {
            let at = self.at(field);
            self.problems.push(Problem::new(
                self.file.clone(),
                at,
                value.to_string(),
                what,
                hint,
            ));
        }
    }

    /// A number must be finite and inside `low..=high`; the unit is the suffix of the field's name.
    pub fn range(&mut self, field: &str, value: f64, low: f64, high: f64) {
        if !value.is_finite() {
            self.problem(
                field,
                repeated(value),
                "is not a finite number",
                format!("{low} to {high}"),
            );
        } else if value < low || value > high {
            self.problem(
                field,
                repeated(value),
                "is outside the allowed range",
                format!("{low} to {high}"),
            );
        }
    }

    /// [`range`](Self::range) for a value that may be missing.
    pub fn range_if(&mut self, field: &str, value: Option<f64>, low: f64, high: f64) {
        if let Some(value) = value {
            self.range(field, value, low, high);
        }
    }

    /// An identifier: 1 to 64 characters of `A-Z a-z 0-9 - _ .`.
    pub fn id(&mut self, field: &str, value: &str) {
        let fits = !value.is_empty()
            && value.len() <= 64
            && value
                .bytes()
                .all(|b| b.is_ascii_alphanumeric() || b"-_.".contains(&b));
        if !fits {
            self.problem(
                field,
                value,
                "is not an identifier",
                "1 to 64 of A-Z a-z 0-9 - _ .",
            );
        }
    }

    /// Free text: at most `longest` characters, no control characters but line breaks and tabs.
    pub fn text(&mut self, field: &str, value: &str, longest: usize) {
        if value.chars().count() > longest {
            self.problem(
                field,
                value,
                "is too long",
                format!("at most {longest} characters"),
            );
        } else if value
            .chars()
            .any(|c| c.is_control() && c != '\n' && c != '\t')
        {
            self.problem(
                field,
                value.escape_debug(),
                "holds control characters",
                "plain text",
            );
        }
    }

    /// A list must not be longer than `most`.
    pub fn count(&mut self, field: &str, len: usize, most: usize) {
        if len > most {
            self.problem(
                field,
                len,
                "has too many entries",
                format!("at most {most}"),
            );
        }
    }

    /// Two entries of a list must not share an id.
    pub fn unique<'a>(&mut self, field: &str, ids: impl Iterator<Item = &'a str>) {
        let mut seen = std::collections::BTreeSet::new();
        for id in ids {
            if !seen.insert(id) {
                self.problem(field, id, "is used twice", "give each entry its own id");
            }
        }
    }

    /// Everything found.
    ///
    /// # Errors
    /// The collected problems, if there are any.
    pub fn done(self) -> Result<(), Problems> {
        if self.problems.is_empty() {
            Ok(())
        } else {
            Err(Problems(self.problems))
        }
    }
}
