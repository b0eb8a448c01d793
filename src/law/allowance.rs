//! What vehicles of some drivelines may weigh more, as data.

use super::{Figure, is_date};
use crate::source::{Checker, Source};
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
    /// Tandem, tridem.
    Tandem,
    /// Groups of axles by the bridge formula.
    Bridge,
}

impl Raised {
    /// Words for people.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Gross => "gross weight",
            Self::SingleAxle => "single axles",
            Self::Tandem => "tandems",
            Self::Bridge => "bridge formula",
        }
    }
}

/// What drives a vehicle, as a law on allowances sees it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Power {
    /// Batteries alone, charged at a plug.
    Battery,
    /// Batteries and a generator that burns natural gas.
    GasGenerator,
    /// Batteries and a generator that burns diesel fuel.
    DieselGenerator,
    /// Batteries and a fuel cell, or a generator that burns hydrogen.
    Hydrogen,
}

impl Power {
    /// Words for people.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Battery => "battery power alone",
            Self::GasGenerator => "a generator that burns natural gas",
            Self::DieselGenerator => "a generator that burns diesel fuel",
            Self::Hydrogen => "hydrogen",
        }
    }
}

/// An allowance. What it raises and for whom is a reading of the law, so dated and with a source.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Allowance {
    /// Identifier, unique in the law.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// What it adds.
    pub adds: Figure,
    /// Gross weight that it may not lead beyond.
    #[serde(default, skip_serializing_if = "Figure::is_blank")]
    pub ceiling: Figure,
    /// Which limits it raises.
    pub raises: Vec<Raised>,
    /// Drivelines that the text names.
    pub names: Vec<Power>,
    /// Drivelines for which it is possible: a legal reading, never automatic.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub possible: Vec<Power>,
    /// Date on which somebody last looked, `YYYY-MM-DD`.
    pub checked: String,
    /// Who reads it so.
    pub source: Source,
}

impl Allowance {
    pub(super) fn check(&self, c: &mut Checker) {
        c.id("id", &self.id);
        c.text("name", &self.name, 160);
        if !is_date(&self.checked) {
            c.problem("checked", &self.checked, "is not a date", "YYYY-MM-DD");
        }
    }

    /// What it adds to this limit, kg.
    #[must_use]
    pub fn on_kg(&self, limit: Raised) -> f64 {
        if self.raises.contains(&limit) {
            self.adds.kg().unwrap_or(0.0)
        } else {
            0.0
        }
    }

    /// A gross weight with it, kg.
    #[must_use]
    pub fn gross_kg(&self, limit_kg: f64) -> f64 {
        let raised = limit_kg + self.on_kg(Raised::Gross);
        let ceiling = self.ceiling.kg().unwrap_or(f64::INFINITY);
        raised.min(ceiling.max(limit_kg))
    }
}
