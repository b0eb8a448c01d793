//! A sentence with quantities in it that are put into words only when the reader's units are known.

use crate::quantity::{Measure, Units};

#[derive(Clone, Debug, PartialEq)]
enum Piece {
    Text(String),
    Amount(Measure, f64),
}

/// A sentence.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Phrase(Vec<Piece>);

impl Phrase {
    /// An empty sentence.
    #[must_use]
    pub const fn new() -> Self {
        Self(Vec::new())
    }

    /// Adds words.
    #[must_use]
    pub fn text(mut self, words: impl Into<String>) -> Self {
        self.0.push(Piece::Text(words.into()));
        self
    }

    /// Adds a mass or load in kilograms.
    #[must_use]
    pub fn mass(mut self, kg: f64) -> Self {
        self.0.push(Piece::Amount(Measure::Mass, kg));
        self
    }

    /// Adds a length in millimetres.
    #[must_use]
    pub fn length(mut self, mm: f64) -> Self {
        self.0.push(Piece::Amount(Measure::Length, mm));
        self
    }

    /// Adds a fraction, shown in percent.
    #[must_use]
    pub fn share(mut self, share: f64) -> Self {
        self.0.push(Piece::Amount(Measure::Share, share));
        self
    }

    /// Adds any quantity.
    #[must_use]
    pub fn amount(mut self, measure: Measure, value: f64) -> Self {
        self.0.push(Piece::Amount(measure, value));
        self
    }

    /// The sentence in the reader's units.
    #[must_use]
    pub fn words(&self, units: Units) -> String {
        let mut out = String::new();
        for piece in &self.0 {
            match piece {
                Piece::Text(words) => out.push_str(words),
                Piece::Amount(measure, value) => out.push_str(&measure.text(*value, units)),
            }
        }
        out
    }
}
