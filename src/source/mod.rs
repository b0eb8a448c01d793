//! Where a number comes from, and what is wrong with input: the two things that every floor needs.
//!
//! A datum that decides a verdict carries a [`Source`]; a finding shows the weakest one it used.
//! Input that cannot be used as written becomes a [`Problem`]; problems are collected, never the
//! first one only, so that a person can mend a file in one go.

mod check;
mod known;
mod problem;
mod read;
mod reader;

pub use check::Checker;
pub use known::{Known, known};
pub use problem::{Problem, Problems};
pub use read::{from_value, json_value};

use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// How well a number is known, strongest first: the order of the variants is the order of trust.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Basis {
    /// Written in a law or a published standard.
    Standard,
    /// Given by the maker of the thing.
    Datasheet,
    /// Measured on the thing itself.
    Measured,
    /// What the trade does; no published source.
    CommonPractice,
    /// A planner's guess, to be replaced by a measurement.
    #[default]
    Estimate,
}

impl Basis {
    /// The words shown to a person.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Standard => "standard",
            Self::Datasheet => "datasheet",
            Self::Measured => "measured",
            Self::CommonPractice => "common practice",
            Self::Estimate => "estimate",
        }
    }
}

/// A reference that a person can follow: which document, and how well the number is known.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// How well the number is known.
    pub basis: Basis,
    /// Document and section, or one sentence on where the number comes from.
    pub document: Cow<'static, str>,
}

impl Source {
    /// Makes a source from a basis and a document.
    #[must_use]
    pub fn new(basis: Basis, document: impl Into<Cow<'static, str>>) -> Self {
        Self {
            basis,
            document: document.into(),
        }
    }

    /// A fact of the trade without a published source.
    #[must_use]
    pub fn common_practice() -> Self {
        Self::new(Basis::CommonPractice, "common practice")
    }

    /// The weaker of two sources: what a result that used both may claim.
    #[must_use]
    pub fn weakest<'a>(&'a self, other: &'a Self) -> &'a Self {
        if other.basis > self.basis {
            other
        } else {
            self
        }
    }
}

impl std::fmt::Display for Source {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if self.document.is_empty() || self.document == self.basis.words() {
            f.write_str(self.basis.words())
        } else {
            write!(f, "{} ({})", self.document, self.basis.words())
        }
    }
}
