//! Plans as files: JSON, format number first, same plan same bytes.

use super::{Plan, migrate};
use crate::source::{Problem, Problems, from_value, json_value};

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
        let value = json_value(file, text)?;
        let format = migrate::format_of(file, &value)?;
        let plan = match format {
            1 => migrate::from_first(file, &value)?,
            Self::FORMAT => from_value::<Self>(file, &value)?,
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
