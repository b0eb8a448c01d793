//! Plans as files: JSON, format number first, same plan same bytes.

use super::{Plan, migrate};
use crate::source::{Problem, Problems};

impl Plan {
    /// Longest plan file that is read, in bytes.
    pub const MOST_BYTES: usize = 8 * 1024 * 1024;

    /// Reads a plan from JSON of this or an older format.
    ///
    /// # Errors
    /// Problems with file, path, value and what would be accepted: broken JSON, unknown keys,
    /// numbers out of range, an unknown format. Nesting is limited by the JSON reader (128 levels).
    pub fn from_json(file: &str, text: &str) -> Result<Self, Problems> {
        // Some editors put a byte order mark in front.
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        if text.len() > Self::MOST_BYTES {
            let what = format!("is {} bytes long", text.len());
            let hint = format!("at most {} bytes", Self::MOST_BYTES);
            return Err(Problem::new(file, "", "", what, hint).into());
        }
        if text.trim_ascii().is_empty() {
            return Err(Problem::new(file, "", "", "is empty", "a plan in JSON").into());
        }
        let format = migrate::format_of(file, text)?;
        let plan = match format {
            1 => migrate::from_first(file, text)?,
            Self::FORMAT => read::<Self>(file, text)?,
            other => {
                let hint = format!("1 to {}; a newer planner wrote this file", Self::FORMAT);
                let what = "is not a known plan format";
                return Err(Problem::new(file, "format", other.to_string(), what, hint).into());
            }
        };
        plan.check(file)?;
        Ok(plan)
    }

    /// Writes the plan: stable key order, two spaces, a line break at the end.
    #[must_use]
    pub fn to_json(&self) -> String {
        // A plan holds only strings, lists and finite numbers, so writing cannot fail; an empty
        // text would be refused by the reader, never taken for a plan.
        let mut text = serde_json::to_string_pretty(self).unwrap_or_default();
        text.push('\n');
        text
    }
}

/// Reads a JSON value of any type with the path of what was wrong.
pub(crate) fn read<T: serde::de::DeserializeOwned>(file: &str, text: &str) -> Result<T, Problems> {
    let mut json = serde_json::Deserializer::from_str(text);
    let value: T = serde_path_to_error::deserialize(&mut json).map_err(|error| {
        let path = error.path().to_string();
        let path = if path == "." { String::new() } else { path };
        let inner = error.inner();
        // Errors of type and range repeat the value; those of syntax only say where.
        let value = if inner.is_syntax() { word_at(text, inner.line(), inner.column()) } else { "" };
        Problem::new(file, path, value, inner.to_string(), "")
    })?;
    json.end().map_err(|error| Problem::new(file, "", "", error.to_string(), "one JSON value"))?;
    Ok(value)
}

/// The word of the text that stands at a line and column (from 1), such as `NaN`.
fn word_at(text: &str, line: usize, column: usize) -> &str {
    let ends = |b: &u8| b.is_ascii_whitespace() || b",:[]{}\"".contains(b);
    let line = text.split('\n').nth(line.saturating_sub(1)).unwrap_or_default();
    let at = column.saturating_sub(1).min(line.len());
    let (before, behind) = line.as_bytes().split_at(at);
    let start = before.iter().rposition(ends).map_or(0, |last| last + 1);
    let end = behind.iter().position(ends).map_or(line.len(), |first| at + first);
    // Both ends lie at ASCII letters, so they cannot be inside of another.
    line.get(start..end).unwrap_or_default()
}
