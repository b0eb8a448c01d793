//! Road-law regimes as data: weights that the law allows, with edition and date of checking.
//!
//! The numbers are kept in the unit in which the law prints them.

mod bridge;

pub use bridge::{BridgeFormula, ShortRow, TandemPair};

use crate::quantity::{KG_PER_LB, MM_PER_IN};
use crate::source::{Checker, Problems, Source};
use serde::{Deserialize, Serialize};

/// A limit that an allowance may raise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Raised {
    /// Gross weight of the vehicle or combination.
    Gross,
    /// Single axle.
    SingleAxle,
    /// Tandem.
    Tandem,
    /// Groups of axles by the bridge formula.
    Bridge,
}

/// Which limits the allowance raises: a reading of the law, so dated and with a source of its own.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct AllowanceRaises {
    /// The limits.
    pub limits: Vec<Raised>,
    /// Date on which somebody last looked, `YYYY-MM-DD`.
    pub checked: String,
    /// Who reads it so.
    pub source: Source,
}

/// Weight limits of one jurisdiction. Lengths come with a later format.
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
    /// Which limits the allowance raises; only the gross weight where this is left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub allowance_raises: Option<AllowanceRaises>,
    /// Limit of every group of consecutive axles by its length, where the law has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bridge: Option<BridgeFormula>,
    /// Overall width, inches.
    pub width_in: f64,
}

/// Slack for lengths that come out of millimetres, inches: far below what anybody measures.
const SLACK_IN: f64 = 1e-6;

fn is_date(text: &str) -> bool {
    let date = text.as_bytes();
    date.len() == 10
        && date.iter().enumerate().all(|(i, b)| match i {
            4 | 7 => *b == b'-',
            _ => b.is_ascii_digit(),
        })
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
        if !is_date(&self.checked) {
            c.problem("checked", &self.checked, "is not a date", "YYYY-MM-DD");
        }
        if let Some(raises) = &self.allowance_raises {
            c.under("allowance_raises", |c| {
                if !is_date(&raises.checked) {
                    c.problem("checked", &raises.checked, "is not a date", "YYYY-MM-DD");
                }
            });
        }
        if let Some(bridge) = &self.bridge {
            c.under("bridge", |c| bridge.check(c));
        }
        c.done()
    }

    /// True when the allowance raises this limit.
    #[must_use]
    pub fn allowance_raises(&self, limit: Raised) -> bool {
        match &self.allowance_raises {
            Some(raises) => raises.limits.contains(&limit),
            None => limit == Raised::Gross,
        }
    }

    /// What a vehicle may weigh more on this limit, pounds; nothing when it does not claim the
    /// allowance or the allowance does not raise this limit.
    #[must_use]
    pub fn allowance_on_lb(&self, limit: Raised, claimed: bool) -> f64 {
        if claimed && self.allowance_raises(limit) {
            self.allowance_lb
        } else {
            0.0
        }
    }

    /// Gross weight limit in pounds, with or without the allowance.
    #[must_use]
    pub fn gross_limit_lb(&self, allowance: bool) -> f64 {
        if allowance && self.allowance_raises(Raised::Gross) {
            (self.gross_lb + self.allowance_lb).min(self.allowance_ceiling_lb)
        } else {
            self.gross_lb
        }
    }

    /// Gross weight limit in kilograms, with or without the allowance.
    #[must_use]
    pub fn gross_kg(&self, allowance: bool) -> f64 {
        self.gross_limit_lb(allowance) * KG_PER_LB
    }

    /// True when axles over this length (inches, first to last) count as one single axle.
    #[must_use]
    pub fn is_single(&self, spread_in: f64) -> bool {
        spread_in <= self.single_within_in + SLACK_IN
    }

    /// True when axles over this length (inches, first to last) are a tandem.
    #[must_use]
    pub fn is_tandem(&self, spread_in: f64) -> bool {
        !self.is_single(spread_in) && spread_in <= self.tandem_within_in + SLACK_IN
    }

    /// Limit in kilograms of consecutive axles at these positions (mm), seen as one group; `None`
    /// when the spread is more than a tandem's, so that the axles count singly.
    #[must_use]
    pub fn group_kg(&self, axle_x_mm: &[f64], allowance: bool) -> Option<f64> {
        let (first, last) = (axle_x_mm.first()?, axle_x_mm.last()?);
        let spread_in = (last - first) / MM_PER_IN;
        let (lb, limit) = if axle_x_mm.len() == 1 || self.is_single(spread_in) {
            (self.single_axle_lb, Raised::SingleAxle)
        } else if self.is_tandem(spread_in) {
            (self.tandem_lb, Raised::Tandem)
        } else {
            return None;
        };
        Some((lb + self.allowance_on_lb(limit, allowance)) * KG_PER_LB)
    }

    /// Width limit in millimetres.
    #[must_use]
    pub fn width_mm(&self) -> f64 {
        self.width_in * MM_PER_IN
    }
}
