//! What may every group of consecutive axles of truck and trailer weigh, by its distances?
//!
//! Method. Single axles, tandems and tridems by the law's own steps. Beside them, where the law has a
//! bridge formula, `W = 500 (L N / (N - 1) + 12 N + 36)` pounds for N axles over L feet, as the published
//! table rounds it: to the nearest 500 lb, exact halves down, with special rows just above 96 in. Two
//! tandems in a row may carry 34,000 lb each from 36 ft on. No column of the table goes beyond its
//! axles' single limits together, nor anything beyond the gross weight.
//!
//! Sources. 23 U.S.C. 127(a)(2), read; rows of the table, read in state reprints up to 33 ft; halves
//! down, found by comparing formula and rows. The figures stand in the law's file.
//!
//! Assumptions. The exact distance goes into the formula; it is not taken to whole feet first. Axles
//! of one group that stand within 40 in of each other still count as axles.

use super::RoadAxle;
use super::axles::road_axles;
use super::gross::{allowance, gross_limit_kg};
use crate::law::{Allowance, Class, Of, Raised, Regime};
use crate::quantity::{KG_PER_LB, MM_PER_IN};
use crate::vehicle::Vehicle;
use std::ops::Range;

const IN_PER_FT: f64 = 12.0;
const MM_PER_FT: f64 = MM_PER_IN * IN_PER_FT;
/// Slack for figures that come out of millimetres: a foot, or a step of rounding.
const SLACK: f64 = 1e-9;
/// Longest group that is looked at when asking how far axles would have to spread, mm. Nothing that
/// long may turn on a road.
const LONGEST_MM: u32 = 40_000;

/// Which rule sets the limit of a group.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// So close that the law sees one axle.
    Single,
    /// A tandem.
    Tandem,
    /// A tridem.
    Tridem,
    /// The width of the tyres.
    TyreWidth,
    /// The bridge table.
    Table,
    /// Two tandems far enough apart.
    TandemPair,
    /// The single-axle limits of its axles together, where the table's column ends.
    SingleAxles,
    /// The gross weight.
    Gross,
}

impl Rule {
    /// Words for people.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Single => "single axle",
            Self::Tandem => "tandem",
            Self::Tridem => "tridem",
            Self::TyreWidth => "tyre width",
            Self::Table => "bridge table",
            Self::TandemPair => "two tandems",
            Self::SingleAxles => "single axles together",
            Self::Gross => "gross weight",
        }
    }
}

/// A group of consecutive axles.
#[derive(Clone, Debug, PartialEq)]
pub struct BridgeGroup {
    /// Which of the axles on the road.
    pub range: Range<usize>,
    /// Ids of its axles, front to rear.
    pub axles: Vec<String>,
    /// Numbers of the first and the last axle.
    pub numbers: (u32, u32),
    /// Where the first and the last axle stand.
    pub x_mm: (f64, f64),
    /// The limit by steps and table alone, without exception, allowance and gross weight.
    pub table_kg: f64,
    /// What it may weigh.
    pub allowed_kg: f64,
    /// What it weighs.
    pub actual_kg: f64,
    /// What sets the limit.
    pub rule: Rule,
    /// Another check already holds the same axles against the same limit: an axle group of the truck,
    /// the trailer's axles, the gross weight.
    pub held_elsewhere: bool,
    /// For a group that is over: least distance between its outer axles with which it would pass, the
    /// other limits left aside; `None` when it passes or when no distance helps.
    pub passes_at_mm: Option<f64>,
}

impl BridgeGroup {
    /// From the first axle to the last.
    #[must_use]
    pub fn length_mm(&self) -> f64 {
        self.x_mm.1 - self.x_mm.0
    }

    /// For a group that is over: how far apart its outer axles would have to stand, and how much more
    /// that is than now.
    #[must_use]
    pub fn spread_mm(&self) -> Option<(f64, f64)> {
        self.passes_at_mm.map(|mm| (mm, mm - self.length_mm()))
    }

    /// Room to the limit; negative when over.
    #[must_use]
    pub fn margin_kg(&self) -> f64 {
        self.allowed_kg - self.actual_kg
    }
}

/// What the steps and the table allow this many consecutive axles over this length, pounds, whatever
/// they belong to; `None` when the law says nothing of them.
///
/// ```
/// use axlewright_core::{legality::table_lb, library::Library};
/// let library = Library::shipped();
/// let law = &library.laws["us-interstate"];
/// assert_eq!(table_lb(law, 5, 51.0), Some(80_000.0));
/// assert_eq!(table_lb(law, 3, 13.0), Some(45_500.0)); // 45,750: halves go down
/// ```
#[must_use]
pub fn table_lb(law: &Regime, axles: u32, length_ft: f64) -> Option<f64> {
    if axles < 2 || !length_ft.is_finite() {
        return None;
    }
    let spread_mm = length_ft * MM_PER_FT;
    let between_mm = spread_mm / f64::from(axles - 1);
    match law.step(axles, None, spread_mm, between_mm) {
        Some((_, step)) => step.limit.lb(),
        None => by_table(law, axles, length_ft).map(|(lb, _)| lb),
    }
}

/// The bridge table alone, pounds.
fn by_table(law: &Regime, axles: u32, length_ft: f64) -> Option<(f64, Rule)> {
    let formula = law.bridge.as_ref()?;
    let short = formula.short.iter().find(|row| row.axles == axles);
    let lb = match short {
        Some(row) if length_ft < formula.short_below_ft - SLACK => row.lb,
        _ => {
            let n = f64::from(axles);
            let bracket = length_ft * n / (n - 1.0) + formula.per_axle * n + formula.constant;
            let steps = formula.factor_lb * bracket / formula.round_lb;
            // The nearest step; an exact half goes down, and so does one that is a half but for the
            // last digits of a length in millimetres.
            (steps - 0.5 - SLACK).ceil() * formula.round_lb
        }
    };
    let singly = law.single_axle.lb().map(|lb| f64::from(axles) * lb);
    Some(match singly {
        Some(singly) if lb > singly => (singly, Rule::SingleAxles),
        _ => (lb, Rule::Table),
    })
}

/// The law of a vehicle with what it claims.
#[derive(Clone, Copy, Debug)]
pub struct Allowed<'a> {
    law: &'a Regime,
    allowance: Option<&'a Allowance>,
    gross_kg: f64,
}

/// A group as a law sees it: how many axles, of what, how far apart, and whether it is two tandems, one
/// behind the other.
#[derive(Clone, Copy)]
struct Kind {
    axles: u32,
    of: Option<Of>,
    road_friendly: bool,
    tandems: bool,
    spread_mm: f64,
    between_mm: f64,
}

impl<'a> Allowed<'a> {
    /// The law that holds for this vehicle; `None` without one.
    #[must_use]
    pub fn to(vehicle: &'a Vehicle) -> Option<Self> {
        Self::with(vehicle, gross_limit_kg(vehicle))
    }

    /// The same where the law's limit for the gross weight is known, kg.
    #[must_use]
    pub fn with(vehicle: &'a Vehicle, gross_kg: Option<f64>) -> Option<Self> {
        Some(Self {
            law: vehicle.law.as_ref()?,
            allowance: allowance(vehicle),
            gross_kg: gross_kg.unwrap_or(f64::INFINITY),
        })
    }

    fn raised_kg(&self, limit: Raised) -> f64 {
        self.allowance.map_or(0.0, |a| a.on_kg(limit))
    }

    /// Limit of one axle, kg.
    #[must_use]
    pub fn one_kg(&self, axle: &RoadAxle) -> Option<(f64, Rule)> {
        let driven = self.law.driven_axle.kg().filter(|_| axle.driven);
        let single = driven.or_else(|| self.law.single_axle.kg());
        let single = single.map(|kg| (kg + self.raised_kg(Raised::SingleAxle), Rule::Single));
        let by_width = self.tyre_width_kg(axle).map(|kg| (kg, Rule::TyreWidth));
        match (single, by_width) {
            (Some(one), Some(other)) if other.0 < one.0 => Some(other),
            (one, other) => one.or(other),
        }
    }

    /// Limit of one axle by the width of its tyres, kg; `None` without such a rule or width.
    #[must_use]
    pub fn tyre_width_kg(&self, axle: &RoadAxle) -> Option<f64> {
        let rule = self.law.tyre_width.as_ref()?;
        let figure = if axle.steered {
            &rule.steered
        } else {
            &rule.others
        };
        Some(figure.kg_per_mm()? * axle.tyres_mm?)
    }

    /// Limit of consecutive axles by the classes of the law alone, kg.
    fn by_class(&self, kind: &Kind) -> Option<(f64, Rule)> {
        let found = self
            .law
            .step(kind.axles, kind.of, kind.spread_mm, kind.between_mm);
        let (_, step) = found?;
        let better = step.road_friendly.kg().filter(|_| kind.road_friendly);
        let kg = better.or_else(|| step.limit.kg())?;
        let (rule, raised) = match step.counts_as {
            Class::SingleAxle => (Rule::Single, Raised::SingleAxle),
            Class::Tandem => (Rule::Tandem, Raised::Tandem),
            Class::Tridem => (Rule::Tridem, Raised::Tandem),
        };
        Some((kg + self.raised_kg(raised), rule))
    }

    /// Limit of a group by every rule, kg.
    fn by_any(&self, kind: &Kind) -> Option<(f64, Rule)> {
        let (kg, rule) = match self.by_class(kind) {
            Some(class) => class,
            None => self.by_formula(kind)?,
        };
        Some(if kg > self.gross_kg {
            (self.gross_kg, Rule::Gross)
        } else {
            (kg, rule)
        })
    }

    fn by_formula(&self, kind: &Kind) -> Option<(f64, Rule)> {
        let length_ft = kind.spread_mm / MM_PER_FT;
        let (mut lb, mut rule) = by_table(self.law, kind.axles, length_ft)?;
        let pair = self
            .law
            .bridge
            .as_ref()?
            .tandem_pair
            .filter(|_| kind.tandems);
        if let Some(pair) = pair
            && length_ft >= pair.from_ft - SLACK
            && 2.0 * pair.each_lb > lb
        {
            (lb, rule) = (2.0 * pair.each_lb, Rule::TandemPair);
        }
        Some((lb * KG_PER_LB + self.raised_kg(Raised::Bridge), rule))
    }

    /// What these consecutive axles may weigh together, kg, if the trailer stood so much farther back.
    #[must_use]
    pub fn group_kg(&self, members: &[RoadAxle], trailer_back_mm: f64) -> Option<(f64, Rule)> {
        match members {
            [] => None,
            [axle] => self.one_kg(axle),
            _ => self.by_any(&self.kind(members, trailer_back_mm)?),
        }
    }

    /// As [`group_kg`](Self::group_kg), by single axle and class alone: no bridge formula.
    pub(super) fn class_kg(&self, members: &[RoadAxle]) -> Option<f64> {
        match members {
            [axle] => self.one_kg(axle).map(|(kg, _)| kg),
            _ => self.by_class(&self.kind(members, 0.0)?).map(|(kg, _)| kg),
        }
    }

    fn kind(&self, members: &[RoadAxle], trailer_back_mm: f64) -> Option<Kind> {
        let x = |axle: &RoadAxle| {
            axle.x_mm
                + if axle.on_trailer {
                    trailer_back_mm
                } else {
                    0.0
                }
        };
        let (first, last) = (members.first()?, members.last()?);
        let between = members.windows(2).map(|pair| x(&pair[1]) - x(&pair[0]));
        let pair = |one: usize| {
            let spread = x(&members[one + 1]) - x(&members[one]);
            let of = RoadAxle::of(&members[one..one + 2]);
            let found = self.law.step(2, of, spread, spread);
            found.is_some_and(|(_, step)| step.counts_as == Class::Tandem)
        };
        let mut driven = members.iter().filter(|a| a.driven).peekable();
        Some(Kind {
            axles: u32::try_from(members.len()).ok()?,
            of: RoadAxle::of(members),
            road_friendly: driven.peek().is_some() && driven.all(|a| a.road_friendly),
            tandems: members.len() == 4 && pair(0) && pair(2),
            spread_mm: x(last) - x(first),
            between_mm: between.fold(f64::INFINITY, f64::min),
        })
    }

    /// Least whole number of millimetres over which the group may weigh this much. Limits never fall
    /// with length, so halving finds it. Beyond the last step axles count singly.
    fn passes_at_mm(&self, kind: &Kind, actual_kg: f64) -> Option<f64> {
        let enough = |mm: u32| {
            let spread_mm = f64::from(mm);
            let stretched = Kind {
                spread_mm,
                between_mm: spread_mm / f64::from(kind.axles - 1),
                ..*kind
            };
            self.by_any(&stretched)
                .is_none_or(|(kg, _)| kg >= actual_kg)
        };
        let mut high = LONGEST_MM;
        if kind.spread_mm >= f64::from(LONGEST_MM) || !enough(high) {
            return None;
        }
        let mut low = 0;
        while high - low > 1 {
            let middle = u32::midpoint(low, high);
            if enough(middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        Some(f64::from(high))
    }
}

/// Every group of two or more consecutive axles that the law limits, with these loads (kg, in the order
/// of [`road_axles`]); empty without a law.
#[must_use]
pub fn bridge_groups(vehicle: &Vehicle, loads_kg: &[f64]) -> Vec<BridgeGroup> {
    let Some(allowed) = Allowed::to(vehicle) else {
        return Vec::new();
    };
    let axles = road_axles(vehicle);
    let ranges = groups_of(axles.len().min(loads_kg.len()));
    ranges
        .filter_map(|range| allowed.group(&axles, range.clone(), &loads_kg[range]))
        .collect()
}

/// Every two or more of so many in a row.
pub fn groups_of(count: usize) -> impl Iterator<Item = Range<usize>> {
    (0..count).flat_map(move |first| (first + 2..=count).map(move |end| first..end))
}

/// True when another check holds these axles against this rule already: an axle group of the truck, the
/// trailer's axles, the gross weight.
#[must_use]
pub fn held_elsewhere(members: &[RoadAxle], rule: Rule) -> bool {
    match rule {
        Rule::Single | Rule::Tandem | Rule::Tridem | Rule::TyreWidth => {
            let mut pairs = members.windows(2);
            pairs.all(|p| (&p[0].group, p[0].on_trailer) == (&p[1].group, p[1].on_trailer))
        }
        Rule::SingleAxles | Rule::Gross => true,
        Rule::Table | Rule::TandemPair => false,
    }
}

impl Allowed<'_> {
    /// One group of consecutive axles with these loads, kg; `None` when the law says nothing of them.
    #[must_use]
    pub fn group(
        &self,
        all: &[RoadAxle],
        range: Range<usize>,
        loads_kg: &[f64],
    ) -> Option<BridgeGroup> {
        let members = &all[range.clone()];
        let (first, last) = (members.first()?, members.last()?);
        let kind = self.kind(members, 0.0)?;
        let (allowed_kg, rule) = self.by_any(&kind)?;
        let step = self
            .law
            .step(kind.axles, kind.of, kind.spread_mm, kind.between_mm);
        let table_kg = match step {
            Some((_, step)) => step.limit.kg()?,
            None => by_table(self.law, kind.axles, kind.spread_mm / MM_PER_FT)?.0 * KG_PER_LB,
        };
        let actual_kg: f64 = loads_kg.iter().sum();
        let over = actual_kg > allowed_kg + 1e-6;
        Some(BridgeGroup {
            range,
            axles: members.iter().map(|a| a.id.clone()).collect(),
            numbers: (first.number, last.number),
            x_mm: (first.x_mm, last.x_mm),
            table_kg,
            allowed_kg,
            actual_kg,
            rule,
            held_elsewhere: held_elsewhere(members, rule),
            passes_at_mm: if over {
                self.passes_at_mm(&kind, actual_kg)
            } else {
                None
            },
        })
    }
}
