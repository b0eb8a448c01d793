//! A sentence with quantities in it that are put into words only when the reader's units are known.

use super::Amount;
use crate::quantity::{Measure, Units};
use std::borrow::Cow;

#[derive(Clone, Debug, PartialEq)]
enum Piece {
    Text(Cow<'static, str>),
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
    pub fn text(mut self, words: impl Into<Cow<'static, str>>) -> Self {
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

    /// Adds how far something stands ahead of a place, or behind it when that is negative, mm.
    #[must_use]
    pub fn ahead(self, mm: f64) -> Self {
        let side = if mm < 0.0 { " behind" } else { " ahead" };
        self.length(mm.abs()).text(side)
    }

    /// Adds an angle in degrees.
    #[must_use]
    pub fn angle(mut self, deg: f64) -> Self {
        self.0.push(Piece::Amount(Measure::Angle, deg));
        self
    }

    /// Adds a fraction, shown in percent.
    #[must_use]
    pub fn share(mut self, share: f64) -> Self {
        self.0.push(Piece::Amount(Measure::Share, share));
        self
    }

    /// Adds an amount of any kind.
    #[must_use]
    pub fn amount(mut self, amount: Amount) -> Self {
        self.0.push(Piece::Amount(amount.measure, amount.value));
        self
    }

    /// Adds any other quantity, in its inside unit.
    #[must_use]
    pub fn quantity(mut self, measure: Measure, value: f64) -> Self {
        self.0.push(Piece::Amount(measure, value));
        self
    }

    /// The sentence in the reader's units.
    #[must_use]
    pub fn words(&self, units: Units) -> String {
        let mut out = String::with_capacity(120);
        for piece in &self.0 {
            match piece {
                Piece::Text(words) => out.push_str(words),
                Piece::Amount(measure, value) => measure.write(&mut out, *value, units),
            }
        }
        out
    }
}
