//! What law and ratings say of the axles before anything is weighed: it stays while parts are only moved.

use super::{GroupLimits, TrailerLimit, group_limits, trailer_limit};
use crate::legality::{self, Allowed, RoadAxle, Rule};
use crate::shared::Maybe;
use crate::vehicle::Vehicle;
use std::ops::Range;

/// The axles on the road and what they are held against.
#[derive(Clone, Debug)]
pub struct Road {
    /// Axles of truck and trailer, front to rear.
    pub axles: Vec<RoadAxle>,
    /// Limits of each axle group of the truck.
    pub limits: Vec<GroupLimits>,
    /// Limit of the trailer's axles.
    pub trailer: Option<TrailerLimit>,
    /// Limit of the law for truck and trailer together, kg.
    pub gross_kg: Option<f64>,
    /// Limit of the law for the tractor alone, kg.
    pub tractor_kg: Option<f64>,
    pub(super) sets: Vec<Set>,
}

/// Consecutive axles that the law limits together.
#[derive(Clone, Debug)]
pub(super) struct Set {
    pub(super) range: Range<usize>,
    pub(super) name: String,
    pub(super) by: &'static str,
    /// Another limit holds them as planned.
    pub(super) held: bool,
    /// They are axles of truck and trailer.
    pub(super) crosses: bool,
}

impl Road {
    /// Collects it.
    #[must_use]
    pub fn of(vehicle: &Vehicle) -> Self {
        let axles = legality::road_axles(vehicle);
        let gross_kg = legality::gross_limit_kg(vehicle);
        let sets = Allowed::with(vehicle, gross_kg).map_or_else(Vec::new, |allowed| {
            let ranges = legality::groups_of(axles.len());
            ranges.filter_map(|r| set(&allowed, &axles, r)).collect()
        });
        Self {
            axles,
            limits: group_limits(vehicle),
            trailer: trailer_limit(vehicle),
            gross_kg,
            sets,
            tractor_kg: legality::tractor_limit(vehicle).map(|limit| limit.kg),
        }
    }
}

/// `None` when the law does not limit them, or when another limit holds them wherever they stand.
fn set(allowed: &Allowed<'_>, axles: &[RoadAxle], range: Range<usize>) -> Option<Set> {
    let members = &axles[range.clone()];
    let (first, last) = (members.first()?, members.last()?);
    let (_, rule) = allowed.group_kg(members, 0.0)?;
    // What the gross weight caps here may be capped by the table elsewhere.
    let crosses = members.iter().any(|a| a.on_trailer) && !first.on_trailer;
    let held = legality::held_elsewhere(members, rule);
    (crosses || !held).then(|| Set {
        range,
        name: format!("axles {} to {}", first.number, last.number),
        by: match rule {
            Rule::Single | Rule::Tandem | Rule::Tridem => "road law",
            _ => "bridge formula",
        },
        held,
        crosses,
    })
}

/// True when nothing that this and the law's steps depend on has changed: parts may have been moved.
pub(super) fn stays(now: &Vehicle, then: &Vehicle) -> bool {
    let mut pairs = now.items.iter().zip(&then.items);
    now.law.as_ref().stays(then.law.as_ref())
        && now.stands_on(then)
        && (now.allowance, now.intermodal) == (then.allowance, then.intermodal)
        && now.which_allowance == then.which_allowance
        && now.loads.payload.is_some() == then.loads.payload.is_some()
        && now.items.len() == then.items.len()
        && pairs.all(|(a, b)| a.is(b) || (a.part.is(&b.part) && a.unsprung_axle == b.unsprung_axle))
}
