//! Input that cannot be used as written.

use serde::Serialize;

/// One thing in the input that cannot be used as written: where, what, and what would do.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Problem {
    /// File or place the value came from, such as `plan` or `haul.toml`.
    pub file: String,
    /// Path of the field inside it, such as `placed[3].at.x_mm`.
    pub path: String,
    /// The value as written, shortened.
    pub value: String,
    /// What is wrong with it.
    pub what: String,
    /// What would be accepted: a range, a list, or a next step.
    pub hint: String,
}

impl Problem {
    /// Longest value text that is repeated back to a person, in characters.
    const SHOWN: usize = 60;

    /// Makes a problem; a long value is cut so that a hostile file cannot flood a message.
    #[must_use]
    pub fn new(
        file: impl Into<String>,
        path: impl Into<String>,
        value: impl Into<String>,
        what: impl Into<String>,
        hint: impl Into<String>,
    ) -> Self {
        let value: String = value.into();
        let value = if value.chars().count() > Self::SHOWN {
            let mut short: String = value.chars().take(Self::SHOWN).collect();
            short.push('…');
            short
        } else {
            value
        };
        Self { file: file.into(), path: path.into(), value, what: what.into(), hint: hint.into() }
    }
}

impl std::fmt::Display for Problem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.file)?;
        if !self.path.is_empty() {
            write!(f, ": {}", self.path)?;
        }
        if !self.value.is_empty() {
            write!(f, " = {}", self.value)?;
        }
        write!(f, ": {}", self.what)?;
        if !self.hint.is_empty() {
            write!(f, " ({})", self.hint)?;
        }
        Ok(())
    }
}

/// Every problem of one input, as an error.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, thiserror::Error)]
pub struct Problems(pub Vec<Problem>);

impl std::fmt::Display for Problems {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        for (index, problem) in self.0.iter().enumerate() {
            if index > 0 {
                writeln!(f)?;
            }
            write!(f, "{problem}")?;
        }
        Ok(())
    }
}

impl From<Problem> for Problems {
    fn from(problem: Problem) -> Self {
        Self(vec![problem])
    }
}
