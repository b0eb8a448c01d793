//! A finding: understood, and held against a limit.

use super::Phrase;
use crate::geometry::Point;
use crate::quantity::{Measure, Units};
use crate::source::Source;
use serde::Serialize;
use std::borrow::Cow;

/// How bad, worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// Over a limit.
    Fails,
    /// Within the limit, but somebody should look.
    Caution,
    /// Could not be judged; never a pass.
    NotAssessed,
    /// Within the limit.
    Holds,
}

impl Severity {
    /// What a margin in kilograms means: passed, thinner than `thin_kg` and so worth a look, or
    /// enough; without a limit there is no margin and nothing is judged.
    #[must_use]
    pub fn of_margin(margin_kg: Option<f64>, thin_kg: f64) -> Self {
        match margin_kg {
            Some(kg) if kg < -1e-6 => Self::Fails,
            Some(kg) if kg < thin_kg => Self::Caution,
            Some(_) => Self::Holds,
            None => Self::NotAssessed,
        }
    }

    /// The word on the screen.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Fails => "Over",
            Self::Caution => "Watch",
            Self::NotAssessed => "Unknown",
            Self::Holds => "Clear",
        }
    }
}

/// A quantity with what it measures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Amount {
    /// What it measures.
    pub measure: Measure,
    /// In the measure's inside unit.
    pub value: f64,
}

impl Amount {
    /// A mass or load.
    #[must_use]
    pub const fn mass(kg: f64) -> Self {
        Self {
            measure: Measure::Mass,
            value: kg,
        }
    }
    /// A length.
    #[must_use]
    pub const fn length(mm: f64) -> Self {
        Self {
            measure: Measure::Length,
            value: mm,
        }
    }
    /// An angle.
    #[must_use]
    pub const fn angle(deg: f64) -> Self {
        Self {
            measure: Measure::Angle,
            value: deg,
        }
    }
    /// A fraction.
    #[must_use]
    pub const fn share(share: f64) -> Self {
        Self {
            measure: Measure::Share,
            value: share,
        }
    }
    /// A speed of turning.
    #[must_use]
    pub const fn speed(rpm: f64) -> Self {
        Self {
            measure: Measure::Speed,
            value: rpm,
        }
    }
    /// A torque.
    #[must_use]
    pub const fn torque(nm: f64) -> Self {
        Self {
            measure: Measure::Torque,
            value: nm,
        }
    }
    /// An acceleration.
    #[must_use]
    pub const fn gravity(g: f64) -> Self {
        Self {
            measure: Measure::Gravity,
            value: g,
        }
    }
    /// A plain factor.
    #[must_use]
    pub const fn factor(value: f64) -> Self {
        Self {
            measure: Measure::Factor,
            value,
        }
    }
    /// A force in newton.
    #[must_use]
    pub const fn force(newton: f64) -> Self {
        Self {
            measure: Measure::Force,
            value: newton,
        }
    }
    /// Any quantity.
    #[must_use]
    pub const fn of(measure: Measure, value: f64) -> Self {
        Self { measure, value }
    }
    /// In words.
    #[must_use]
    pub fn text(self, units: Units) -> String {
        self.measure.text(self.value, units)
    }
    /// In words, with its sign.
    #[must_use]
    pub fn signed(self, units: Units) -> String {
        self.measure.signed(self.value, units)
    }
}

/// Two points that the drawing joins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pointer {
    /// One end.
    pub from: Point,
    /// Other end.
    pub to: Point,
}

/// A finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Id of the check.
    pub check: &'static str,
    /// Title of the check.
    pub title: &'static str,
    /// How bad.
    pub severity: Severity,
    /// What it is about: with the check's id unique in an assessment.
    pub subject: String,
    /// A word or three that tell it apart from others of its check, beside the parts and groups it concerns;
    /// empty where those do.
    pub which: String,
    /// The sentence a shop would say.
    pub sentence: Phrase,
    /// What was found.
    pub measured: Option<Amount>,
    /// What it is held against.
    pub limit: Option<Amount>,
    /// Positive when there is room.
    pub margin: Option<Amount>,
    /// Who sets the limit.
    pub source: Source,
    /// Parts, axles and groups concerned.
    pub tags: Vec<String>,
    /// Where the drawing points.
    pub pointer: Option<Pointer>,
    /// What was taken for granted.
    pub assumptions: Vec<Cow<'static, str>>,
}

impl Finding {
    /// Whether this is the one with that key: the check's id and the subject, with a space between.
    #[must_use]
    pub fn has_key(&self, key: &str) -> bool {
        let subject = key.strip_prefix(self.check);
        subject.and_then(|rest| rest.strip_prefix(' ')) == Some(&self.subject)
    }

    /// A finding without figures.
    #[must_use]
    pub fn new(severity: Severity, subject: impl Into<String>, sentence: Phrase) -> Self {
        Self {
            check: "",
            title: "",
            severity,
            subject: subject.into(),
            which: String::new(),
            sentence,
            measured: None,
            limit: None,
            margin: None,
            source: Source::common_practice(),
            tags: Vec::new(),
            pointer: None,
            assumptions: Vec::new(),
        }
    }

    /// What was found, held against the most that is allowed.
    #[must_use]
    pub fn at_most(mut self, measured: Amount, limit: Amount) -> Self {
        self.margin = Some(Amount {
            measure: limit.measure,
            value: limit.value - measured.value,
        });
        self.measured = Some(measured);
        self.limit = Some(limit);
        self
    }

    /// What was found, held against the least that is asked for.
    #[must_use]
    pub fn at_least(mut self, measured: Amount, limit: Amount) -> Self {
        self.margin = Some(Amount {
            measure: limit.measure,
            value: measured.value - limit.value,
        });
        self.measured = Some(measured);
        self.limit = Some(limit);
        self
    }

    /// Who sets the limit.
    #[must_use]
    pub fn by(mut self, source: Source) -> Self {
        self.source = source;
        self
    }

    /// Which one of several, for people.
    #[must_use]
    pub fn which(mut self, words: impl Into<String>) -> Self {
        self.which = words.into();
        self
    }

    /// What it concerns.
    #[must_use]
    pub fn about(mut self, tags: impl IntoIterator<Item = impl Into<String>>) -> Self {
        self.tags = tags.into_iter().map(Into::into).collect();
        self
    }

    /// Where to point.
    #[must_use]
    pub const fn pointing(mut self, from: Point, to: Point) -> Self {
        self.pointer = Some(Pointer { from, to });
        self
    }

    /// Margin as a part of the limit: what orders findings of one severity.
    pub(super) fn badness(&self) -> f64 {
        match (self.margin, self.limit) {
            (Some(margin), Some(limit)) if limit.value.abs() > 1e-9 => {
                margin.value / limit.value.abs()
            }
            (Some(margin), _) => margin.value,
            _ => 0.0,
        }
    }
}
