//! Road-law regimes as data: weights that the law allows, with edition and date of checking.
//!
//! The numbers are kept in the unit in which the law prints them.

use crate::quantity::{KG_PER_LB, MM_PER_IN};
use crate::source::{Checker, Problems, Source};
use serde::{Deserialize, Serialize};

/// Weight limits of one jurisdiction. Bridge tables and lengths come with a later format.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Regime {
    /// File format of a law file; 1 today.
    pub format: u32,
    /// Identifier, unique in the library.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Document and section.
    pub source: Source,
    /// Edition of the text.
    pub edition: String,
    /// Date on which somebody last compared the figures with the text, `YYYY-MM-DD`.
    pub checked: String,
    /// What a reader must know: what is left out, what states may change.
    pub notes: String,
    /// Single axle, pounds.
    pub single_axle_lb: f64,
    /// Tandem, pounds.
    pub tandem_lb: f64,
    /// Axles this close or closer count as one single axle, inches.
    pub single_within_in: f64,
    /// Axles farther apart than the single rule but not farther than this are a tandem, inches.
    pub tandem_within_in: f64,
    /// Gross weight of a vehicle or combination, pounds.
    pub gross_lb: f64,
    /// What an electric or natural-gas vehicle may weigh more in all, pounds.
    pub allowance_lb: f64,
    /// Ceiling of the gross weight with the allowance, pounds.
    pub allowance_ceiling_lb: f64,
    /// Source of the allowance.
    pub allowance_source: Source,
    /// Overall width, inches.
    pub width_in: f64,
}

impl Regime {
    /// Checks every number.
    ///
    /// # Errors
    /// All problems at once.
    pub fn check(&self, file: &str) -> Result<(), Problems> {
        let mut c = Checker::new(file);
        if self.format != 1 {
            c.problem("format", self.format, "is not a known law format", "1");
        }
        c.id("id", &self.id);
        c.text("name", &self.name, 120);
        c.range("single_axle_lb", self.single_axle_lb, 1_000.0, 100_000.0);
        c.range("tandem_lb", self.tandem_lb, 1_000.0, 200_000.0);
        c.range("single_within_in", self.single_within_in, 0.0, 200.0);
        c.range(
            "tandem_within_in",
            self.tandem_within_in,
            self.single_within_in.max(0.0),
            400.0,
        );
        c.range("gross_lb", self.gross_lb, 1_000.0, 500_000.0);
        c.range("allowance_lb", self.allowance_lb, 0.0, 100_000.0);
        c.range(
            "allowance_ceiling_lb",
            self.allowance_ceiling_lb,
            1_000.0,
            600_000.0,
        );
        c.range("width_in", self.width_in, 50.0, 200.0);
        let date = self.checked.as_bytes();
        let dated = date.len() == 10
            && date.iter().enumerate().all(|(i, b)| match i {
                4 | 7 => *b == b'-',
                _ => b.is_ascii_digit(),
            });
        if !dated {
            c.problem("checked", &self.checked, "is not a date", "YYYY-MM-DD");
        }
        c.done()
    }

    /// Gross weight limit in kilograms, with or without the allowance.
    #[must_use]
    pub fn gross_kg(&self, allowance: bool) -> f64 {
        let lb = if allowance {
            (self.gross_lb + self.allowance_lb).min(self.allowance_ceiling_lb)
        } else {
            self.gross_lb
        };
        lb * KG_PER_LB
    }

    /// Limit in kilograms of consecutive axles at these positions (mm), seen as one group; `None`
    /// when the spread is more than a tandem's, so that the axles count singly.
    #[must_use]
    pub fn group_kg(&self, axle_x_mm: &[f64]) -> Option<f64> {
        let (first, last) = (axle_x_mm.first()?, axle_x_mm.last()?);
        let spread_in = (last - first) / MM_PER_IN;
        if axle_x_mm.len() == 1 || spread_in <= self.single_within_in {
            Some(self.single_axle_lb * KG_PER_LB)
        } else if spread_in <= self.tandem_within_in {
            Some(self.tandem_lb * KG_PER_LB)
        } else {
            None
        }
    }

    /// Width limit in millimetres.
    #[must_use]
    pub fn width_mm(&self) -> f64 {
        self.width_in * MM_PER_IN
    }
}
