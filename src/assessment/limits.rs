//! Every limit of every axle group, side by side: which one governs is then plain to see.

use crate::chassis::{Axle, Group};
use crate::legality;
use crate::source::{Basis, Source};
use crate::vehicle::Vehicle;

/// What sets a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LimitKind {
    /// Axle rating of the chassis.
    Gawr,
    /// Tyres.
    Tyres,
    /// Suspension.
    Suspension,
    /// Rating of an e-axle.
    EAxle,
    /// Road law.
    Law,
}

impl LimitKind {
    /// Words for people.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Gawr => "axle rating",
            Self::Tyres => "tyre rating",
            Self::Suspension => "suspension rating",
            Self::EAxle => "e-axle rating",
            Self::Law => "road law",
        }
    }

    /// The words inside a sentence, after "over" or "under".
    #[must_use]
    pub const fn in_sentence(self) -> &'static str {
        match self {
            Self::Gawr => "its axle rating",
            Self::Tyres => "its tyre rating",
            Self::Suspension => "its suspension rating",
            Self::EAxle => "the rating of its e-axles",
            Self::Law => "the legal limit",
        }
    }
}

/// One limit of an axle group.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// What sets it.
    pub kind: LimitKind,
    /// How much, kg.
    pub kg: f64,
    /// Where it is written.
    pub source: Source,
}

/// Limits of one axle group.
#[derive(Clone, Debug, PartialEq)]
pub struct GroupLimits {
    /// Group id.
    pub id: String,
    /// Group name.
    pub name: String,
    /// Every axle of it is up: it has no limit to keep.
    pub up: bool,
    /// Known limits.
    pub limits: Vec<Limit>,
    /// Limits that are not known.
    pub missing: Vec<LimitKind>,
}

impl GroupLimits {
    /// The limit that governs.
    #[must_use]
    pub fn lowest(&self) -> Option<&Limit> {
        self.limits
            .iter()
            .reduce(|a, b| if b.kg < a.kg { b } else { a })
    }

    /// One limit.
    #[must_use]
    pub fn of(&self, kind: LimitKind) -> Option<&Limit> {
        self.limits.iter().find(|limit| limit.kind == kind)
    }
}

/// Collects the limits of every group of the changed chassis.
#[must_use]
pub fn group_limits(vehicle: &Vehicle) -> Vec<GroupLimits> {
    vehicle
        .chassis
        .groups
        .iter()
        .map(|group| limits_of(vehicle, group))
        .collect()
}

fn limits_of(vehicle: &Vehicle, group: &Group) -> GroupLimits {
    let (mut limits, mut missing) = (Vec::new(), Vec::new());
    let shares = vehicle.chassis.shares_down(group, &vehicle.raised);
    let members: Vec<(&Axle, f64)> = group
        .axles
        .iter()
        .zip(shares)
        .filter(|(id, _)| !vehicle.is_raised(id))
        .filter_map(|(id, share)| vehicle.axle(id).map(|axle| (axle, share)))
        .collect();
    if members.is_empty() {
        // What is up carries nothing: it has no limit to keep, and none is missing.
        return GroupLimits {
            id: group.id.clone(),
            name: group.name.clone(),
            up: true,
            limits,
            missing,
        };
    }
    let mut add = |kind: LimitKind, kg: Option<f64>, source: Source| match kg {
        Some(kg) => limits.push(Limit { kind, kg, source }),
        None => missing.push(kind),
    };
    // A group is full when the first of its axles is full.
    let smallest = |rating: &dyn Fn(&Axle) -> Option<f64>| -> Option<f64> {
        let mut least = f64::INFINITY;
        for (axle, share) in &members {
            let kg = rating(axle)?;
            if *share > 0.0 {
                least = least.min(kg / share);
            }
        }
        least.is_finite().then_some(least)
    };
    let source = &vehicle.donor.source;
    let label = |what: &str| Source::new(source.basis, what.to_owned());
    let axles = smallest(&|a| a.gawr_kg);
    let gawr = match (group.gawr_kg, axles) {
        (Some(own), Some(axles)) => Some(own.min(axles)),
        (own, axles) => own.or(axles),
    };
    add(
        LimitKind::Gawr,
        gawr,
        label("GAWR, certification label of the donor"),
    );
    let tyres = smallest(&|a| a.tyres.rating_axle_kg);
    add(LimitKind::Tyres, tyres, label("load rating of the tyres"));
    let suspension = smallest(&|a| a.suspension.rating_kg);
    add(
        LimitKind::Suspension,
        suspension,
        label("load rating of the suspension"),
    );
    let beam = |axle: &Axle| {
        vehicle
            .items
            .iter()
            .find(|i| i.unsprung_axle.as_deref() == Some(axle.id.as_str()))
    };
    if members.iter().any(|(axle, _)| beam(axle).is_some()) {
        let rated = smallest(&|axle| match beam(axle) {
            Some(item) => item.part.axle.as_ref().and_then(|a| a.rating_kg),
            None => Some(f64::MAX),
        });
        let basis = members
            .iter()
            .filter_map(|(axle, _)| beam(axle))
            .map(|item| item.part.source.basis)
            .max()
            .unwrap_or(Basis::Estimate);
        add(
            LimitKind::EAxle,
            rated,
            Source::new(basis, "rating of the e-axle"),
        );
    }
    if let Some(law) = &vehicle.law {
        add(
            LimitKind::Law,
            legality::group_limit_kg(vehicle, group),
            law.source.clone(),
        );
    }
    GroupLimits {
        id: group.id.clone(),
        name: group.name.clone(),
        up: false,
        limits,
        missing,
    }
}

/// The limit that governs the trailer's axle group.
#[derive(Clone, Debug, PartialEq)]
pub struct TrailerLimit {
    /// How much, kg.
    pub kg: f64,
    /// What sets it, in words.
    pub by: &'static str,
    /// Where it is written.
    pub source: Source,
}

/// The lower of the trailer axles' rating and the road law; `None` without a trailer.
#[must_use]
pub fn trailer_limit(vehicle: &Vehicle) -> Option<TrailerLimit> {
    let rating = vehicle.trailer.as_ref()?.trailer.axles_rating_kg;
    let law = vehicle
        .law
        .as_ref()
        .zip(legality::trailer_limit_kg(vehicle));
    Some(match law {
        Some((law, kg)) if kg < rating => TrailerLimit {
            kg,
            by: "road law",
            source: law.source.clone(),
        },
        _ => TrailerLimit {
            kg: rating,
            by: "rating",
            source: Source::new(Basis::Datasheet, "rating of the trailer"),
        },
    })
}
