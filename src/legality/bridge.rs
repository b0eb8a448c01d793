//! What may every group of consecutive axles of truck and trailer weigh, by its length?
//!
//! Method. `W = 500 (L N / (N - 1) + 12 N + 36)` pounds for N axles over L feet, as the published
//! table rounds it: to the nearest 500 lb, exact halves down. Axles within 40 in are one single axle,
//! within 96 in a tandem, whatever their number; just above that the table has special rows. Two
//! tandems in a row may carry 34,000 lb each from 36 ft on. No column of the table goes beyond its
//! axles' single limits together, nor anything beyond the gross weight.
//!
//! Sources. 23 U.S.C. 127(a)(2), read; rows of the table, read in state reprints up to 33 ft; halves
//! down, found by comparing formula and rows. The figures stand in the law's file.
//!
//! Assumptions. The exact distance goes into the formula; it is not taken to whole feet first. Axles
//! of one group that stand within 40 in of each other still count as axles.

use crate::law::{Raised, Regime};
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
            Self::Table => "bridge table",
            Self::TandemPair => "two tandems",
            Self::SingleAxles => "single axles together",
            Self::Gross => "gross weight",
        }
    }
}

/// An axle that stands on the road.
#[derive(Clone, Debug, PartialEq)]
pub struct RoadAxle {
    /// Id of the truck's axle; `trailer-1` and so on behind it.
    pub id: String,
    /// Its number, counted from the front through truck and trailer, raised axles too.
    pub number: u32,
    /// Behind the front axle.
    pub x_mm: f64,
    /// Axle group of the truck; `None` on the trailer.
    pub group: Option<String>,
    /// It is one of the trailer's.
    pub on_trailer: bool,
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
    /// The limit by the table alone, without exception, allowance and gross weight.
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

/// What the table allows this many consecutive axles over this length, pounds; `None` when the law
/// has no bridge formula or this is no group.
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
    by_table(law, axles, length_ft).map(|(lb, _)| lb)
}

fn by_table(law: &Regime, axles: u32, length_ft: f64) -> Option<(f64, Rule)> {
    let formula = law.bridge.as_ref()?;
    if axles < 2 || !length_ft.is_finite() {
        return None;
    }
    let length_in = length_ft * IN_PER_FT;
    if law.is_single(length_in) {
        return Some((law.single_axle_lb, Rule::Single));
    }
    if law.is_tandem(length_in) {
        return Some((law.tandem_lb, Rule::Tandem));
    }
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
    let singly = f64::from(axles) * law.single_axle_lb;
    Some(if lb > singly {
        (singly, Rule::SingleAxles)
    } else {
        (lb, Rule::Table)
    })
}

/// A group of the law: how many axles, and whether it is two tandems, one behind the other.
#[derive(Clone, Copy)]
struct Kind {
    axles: u32,
    tandems: bool,
    allowance: bool,
}

/// Limit of a group by every rule, pounds.
fn allowed_lb(law: &Regime, kind: Kind, length_ft: f64) -> Option<(f64, Rule)> {
    let (mut lb, mut rule) = by_table(law, kind.axles, length_ft)?;
    let pair = law.bridge.as_ref()?.tandem_pair.filter(|_| kind.tandems);
    if let Some(pair) = pair
        && length_ft >= pair.from_ft - SLACK
        && 2.0 * pair.each_lb > lb
    {
        (lb, rule) = (2.0 * pair.each_lb, Rule::TandemPair);
    }
    let raised = match rule {
        Rule::Single => Raised::SingleAxle,
        Rule::Tandem => Raised::Tandem,
        _ => Raised::Bridge,
    };
    lb += law.allowance_on_lb(raised, kind.allowance);
    let gross = law.gross_limit_lb(kind.allowance);
    Some(if lb > gross {
        (gross, Rule::Gross)
    } else {
        (lb, rule)
    })
}

/// Least whole number of millimetres over which the group may weigh this much. Limits never fall
/// with length, so halving finds it.
fn passes_at_mm(law: &Regime, kind: Kind, length_mm: f64, actual_kg: f64) -> Option<f64> {
    let enough = |mm: u32| {
        allowed_lb(law, kind, f64::from(mm) / MM_PER_FT)
            .is_some_and(|(lb, _)| lb * KG_PER_LB >= actual_kg)
    };
    let mut high = LONGEST_MM;
    if length_mm >= f64::from(LONGEST_MM) || !enough(high) {
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

/// The axles that stand on the road, front to rear, truck and trailer together.
#[must_use]
pub fn road_axles(vehicle: &Vehicle) -> Vec<RoadAxle> {
    let chassis = &vehicle.chassis;
    let mut axles: Vec<RoadAxle> = chassis
        .axles
        .iter()
        .map(|axle| {
            let group = chassis.groups.iter().find(|g| g.axles.contains(&axle.id));
            RoadAxle {
                id: axle.id.clone(),
                number: 0,
                x_mm: axle.x_mm,
                group: group.map(|g| g.id.clone()),
                on_trailer: false,
            }
        })
        .collect();
    if let Some(coupled) = &vehicle.trailer {
        let trailer = &coupled.trailer;
        let middle = coupled.kingpin.x + trailer.kingpin_to_axles_mm;
        let half = f64::from(trailer.axle_count.saturating_sub(1)) / 2.0;
        for i in 0..trailer.axle_count {
            let x_mm = middle + (f64::from(i) - half) * trailer.axle_spacing_mm;
            let id = format!("trailer-{}", i + 1);
            axles.push(RoadAxle {
                id,
                number: 0,
                x_mm,
                group: None,
                on_trailer: true,
            });
        }
    }
    axles.sort_by(|a, b| a.x_mm.total_cmp(&b.x_mm));
    for (axle, number) in axles.iter_mut().zip(1..) {
        axle.number = number;
    }
    axles.retain(|axle| axle.on_trailer || !vehicle.is_raised(&axle.id));
    axles
}

/// Every group of two or more consecutive axles with these loads (kg, in the order of
/// [`road_axles`]); empty without a law that has a bridge formula.
#[must_use]
pub fn bridge_groups(vehicle: &Vehicle, loads_kg: &[f64]) -> Vec<BridgeGroup> {
    let Some(law) = vehicle.law.as_ref() else {
        return Vec::new();
    };
    let axles = road_axles(vehicle);
    let mut groups = Vec::new();
    for first in 0..axles.len() {
        for end in first + 2..=axles.len() {
            let members = &axles[first..end];
            let Some(loads) = loads_kg.get(first..end) else {
                continue;
            };
            groups.extend(one_group(vehicle, law, &axles, first..end, members, loads));
        }
    }
    groups
}

fn one_group(
    vehicle: &Vehicle,
    law: &Regime,
    all: &[RoadAxle],
    range: Range<usize>,
    members: &[RoadAxle],
    loads_kg: &[f64],
) -> Option<BridgeGroup> {
    let (first, last) = (members.first()?, members.last()?);
    let span_in = |from: usize, to: usize| (members[to].x_mm - members[from].x_mm) / MM_PER_IN;
    let tandems =
        members.len() == 4 && law.is_tandem(span_in(0, 1)) && law.is_tandem(span_in(2, 3));
    let axles = u32::try_from(members.len()).ok()?;
    let kind = Kind {
        axles,
        tandems,
        allowance: vehicle.allowance,
    };
    let length_mm = last.x_mm - first.x_mm;
    let length_ft = length_mm / MM_PER_FT;
    let table_kg = table_lb(law, axles, length_ft)? * KG_PER_LB;
    let (lb, rule) = allowed_lb(law, kind, length_ft)?;
    let allowed_kg = lb * KG_PER_LB;
    let actual_kg: f64 = loads_kg.iter().sum();
    let same = |a: &RoadAxle| (&a.group, a.on_trailer) == (&first.group, first.on_trailer);
    let whole = members.iter().all(same) && all.iter().filter(|a| same(a)).count() == members.len();
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
        held_elsewhere: match rule {
            Rule::Single | Rule::Tandem => whole,
            Rule::SingleAxles | Rule::Gross => true,
            Rule::Table | Rule::TandemPair => false,
        },
        passes_at_mm: if over {
            passes_at_mm(law, kind, length_mm, actual_kg)
        } else {
            None
        },
    })
}
