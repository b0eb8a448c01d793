//! One figure of a law, in the unit in which the law prints it.

use crate::quantity::{KG_PER_LB, MM_PER_IN, Measure};
use crate::source::{Checker, Source};
use serde::{Deserialize, Serialize};

/// A limit with its unit, its legal source, and whether states or countries may set another.
///
/// At most one unit is given; a figure without any is not stated, and what needs it is not assessed.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Figure {
    /// Pounds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lb: Option<f64>,
    /// Tonnes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub t: Option<f64>,
    /// Kilograms.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kg: Option<f64>,
    /// Inches.
    #[serde(default, rename = "in", skip_serializing_if = "Option::is_none")]
    pub inch: Option<f64>,
    /// Metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub m: Option<f64>,
    /// Millimetres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mm: Option<f64>,
    /// Pounds for each inch of tyre width.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lb_per_in: Option<f64>,
    /// Kilograms for each millimetre of tyre width.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kg_per_mm: Option<f64>,
    /// Who says so; that of the whole law where left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<Source>,
    /// States or countries may set another figure.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub may_differ: bool,
}

/// Exact where the figure is in that unit already, else converted.
fn either(own: Option<f64>, others: &[(Option<f64>, f64)]) -> Option<f64> {
    own.or_else(|| {
        let mut others = others.iter();
        others.find_map(|(value, factor)| value.map(|v| v * factor))
    })
}

impl Figure {
    /// A mass or load in kilograms.
    #[must_use]
    pub fn kg(&self) -> Option<f64> {
        either(self.kg, &[(self.t, 1_000.0), (self.lb, KG_PER_LB)])
    }

    /// A mass or load in pounds.
    #[must_use]
    pub fn lb(&self) -> Option<f64> {
        let (t, kg) = (self.t, self.kg);
        either(self.lb, &[(t, 1_000.0 / KG_PER_LB), (kg, 1.0 / KG_PER_LB)])
    }

    /// A length in millimetres.
    #[must_use]
    pub fn mm(&self) -> Option<f64> {
        either(self.mm, &[(self.m, 1_000.0), (self.inch, MM_PER_IN)])
    }

    /// A load for tyre width in kilograms for each millimetre.
    #[must_use]
    pub fn kg_per_mm(&self) -> Option<f64> {
        either(self.kg_per_mm, &[(self.lb_per_in, KG_PER_LB / MM_PER_IN)])
    }

    /// The figure in inside units.
    #[must_use]
    pub fn inside(&self, measure: Measure) -> Option<f64> {
        match measure {
            Measure::Length => self.mm(),
            Measure::LoadForWidth => self.kg_per_mm(),
            _ => self.kg(),
        }
    }

    /// Takes what a person entered, in inside units; its source is then the law's own.
    pub fn enter(&mut self, measure: Measure, value: Option<f64>) {
        let may_differ = self.may_differ;
        *self = Self {
            may_differ,
            ..Self::default()
        };
        match measure {
            Measure::Length => self.mm = value,
            Measure::LoadForWidth => self.kg_per_mm = value,
            _ => self.kg = value,
        }
    }

    /// True when it has a value.
    #[must_use]
    pub fn is_stated(&self) -> bool {
        self.given().next().is_some()
    }

    /// True when it need not be written.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        *self == Self::default()
    }

    fn given(&self) -> impl Iterator<Item = (f64, &'static str, Measure)> {
        [
            (self.lb, "lb", Measure::Mass),
            (self.t, "t", Measure::Mass),
            (self.kg, "kg", Measure::Mass),
            (self.inch, "in", Measure::Length),
            (self.m, "m", Measure::Length),
            (self.mm, "mm", Measure::Length),
            (self.lb_per_in, "lb/in", Measure::LoadForWidth),
            (self.kg_per_mm, "kg/mm", Measure::LoadForWidth),
        ]
        .into_iter()
        .filter_map(|(value, unit, measure)| value.map(|v| (v, unit, measure)))
    }

    /// As the law prints it, such as `11.5 t`; empty when not stated.
    #[must_use]
    pub fn words(&self) -> String {
        let Some((value, unit, _)) = self.given().next() else {
            return String::new();
        };
        format!("{value} {unit}")
    }

    /// One unit of the right kind, and a value that a law could have.
    pub(super) fn check(&self, c: &mut Checker, measure: Measure) {
        let (low, high) = match measure {
            Measure::Length => (0.0, 100_000.0),
            Measure::LoadForWidth => (0.5, 100.0),
            _ => (100.0, 300_000.0),
        };
        let mut given = self.given();
        let Some((value, unit, of)) = given.next() else {
            return;
        };
        if given.next().is_some() {
            let hint = "one unit";
            c.problem("", self.words(), "is given in more than one unit", hint);
        } else if of != measure {
            let hint = match measure {
                Measure::Length => "in, m or mm",
                Measure::LoadForWidth => "lb_per_in or kg_per_mm",
                _ => "lb, t or kg",
            };
            c.problem("", self.words(), "has the wrong unit", hint);
        } else if let Some(inside) = self.inside(measure)
            && !(low..=high).contains(&inside)
        {
            let what = "is outside what a law could say";
            c.problem(unit, value, what, format!("{low} to {high} inside"));
        }
    }
}
