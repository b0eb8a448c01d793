//! A bridge formula as data: what a group of consecutive axles may weigh by its length.
//!
//! The groups are worked out in `legality`; here stand the figures only.

use crate::source::{Checker, Source};
use serde::{Deserialize, Serialize};

/// `W = factor (L N / (N - 1) + per_axle N + constant)`, L in feet, N axles, W in pounds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct BridgeFormula {
    /// Document and section.
    pub source: Source,
    /// Pounds by which the bracket is multiplied.
    pub factor_lb: f64,
    /// What each axle adds inside the bracket.
    pub per_axle: f64,
    /// What stands alone inside the bracket.
    pub constant: f64,
    /// The result is taken to the nearest multiple of this, halves down, pounds.
    pub round_lb: f64,
    /// Groups longer than a tandem but shorter than this follow the special rows, feet.
    pub short_below_ft: f64,
    /// Special rows for such short groups.
    #[serde(default)]
    pub short: Vec<ShortRow>,
    /// Exception for two tandems that follow each other.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tandem_pair: Option<TandemPair>,
}

/// Special row of the table for short groups.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct ShortRow {
    /// Number of axles.
    pub axles: u32,
    /// What they may weigh, pounds.
    pub lb: f64,
}

/// Two consecutive tandems may each carry this, whatever the formula says.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct TandemPair {
    /// Least distance from the first axle to the last, feet.
    pub from_ft: f64,
    /// What each of the two may weigh, pounds.
    pub each_lb: f64,
}

impl BridgeFormula {
    pub(super) fn check(&self, c: &mut Checker) {
        c.range("factor_lb", self.factor_lb, 1.0, 10_000.0);
        c.range("per_axle", self.per_axle, 0.0, 1_000.0);
        c.range("constant", self.constant, 0.0, 1_000.0);
        c.range("round_lb", self.round_lb, 1.0, 10_000.0);
        c.range("short_below_ft", self.short_below_ft, 0.0, 100.0);
        c.each("short", &self.short, |c, row| {
            c.range("axles", f64::from(row.axles), 2.0, 20.0);
            c.range("lb", row.lb, 1_000.0, 500_000.0);
        });
        if let Some(pair) = &self.tandem_pair {
            c.under("tandem_pair", |c| {
                c.range("from_ft", pair.from_ft, 0.0, 200.0);
                c.range("each_lb", pair.each_lb, 1_000.0, 200_000.0);
            });
        }
    }
}
