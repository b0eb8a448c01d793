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
        if text.len() > Self::MOST_BYTES {
            let what = format!("is {} bytes long", text.len());
            let hint = format!("at most {} bytes", Self::MOST_BYTES);
            return Err(Problem::new(file, "", "", what, hint).into());
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
        Problem::new(file, path, "", error.inner().to_string(), "")
    })?;
    json.end().map_err(|error| Problem::new(file, "", "", error.to_string(), "one JSON value"))?;
    Ok(value)
}
