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
    /// Longest value that is repeated back to a person, in characters.
    const LONGEST_VALUE: usize = 60;
    /// Longest path; keys of a hostile file are part of it.
    const LONGEST_PATH: usize = 160;
    /// Longest sentence; the reader's own may quote the file and list what it knows.
    const LONGEST_WHAT: usize = 800;

    /// Makes a problem. What comes from the file is cut, so that a hostile one cannot flood a
    /// message, and loses its control characters, so that it cannot rule the terminal either.
    #[must_use]
    pub fn new(
        file: impl Into<String>,
        path: impl Into<String>,
        value: impl Into<String>,
        what: impl Into<String>,
        hint: impl Into<String>,
    ) -> Self {
        Self {
            file: file.into(),
            path: shown(path.into(), Self::LONGEST_PATH),
            value: shown(value.into(), Self::LONGEST_VALUE),
            what: shown(what.into(), Self::LONGEST_WHAT),
            hint: hint.into(),
        }
    }
}

fn shown(text: String, longest: usize) -> String {
    // Bytes are never fewer than characters, and most texts are short.
    let cut = text.len() > longest && text.chars().nth(longest).is_some();
    if !cut && !text.chars().any(char::is_control) {
        return text;
    }
    let plain = |c: char| if c.is_control() { '\u{fffd}' } else { c };
    let mut short: String = text.chars().take(longest).map(plain).collect();
    if cut {
        short.push('…');
    }
    short
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
