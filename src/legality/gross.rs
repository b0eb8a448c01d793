//! Gross weight of the truck and of the combination, and the allowance that the plan claims.

use super::axles::{RoadAxle, road_axles};
use crate::law::{Allowance, Gross, Of, Power, Regime};
use crate::part::Fuel;
use crate::source::{Basis, Source};
use crate::vehicle::Vehicle;

/// A gross weight with who says so.
#[derive(Clone, Debug, PartialEq)]
pub struct GrossLimit {
    /// The limit, the allowance counted, kg.
    pub kg: f64,
    /// What the allowance adds to it, kg.
    pub allowance_kg: f64,
    /// Name of the rule; empty where the law knows one gross weight only.
    pub name: String,
    /// Who says so.
    pub source: Source,
}

/// What drives the truck, as a law on allowances sees it; `None` when no part says it.
#[must_use]
pub fn power(vehicle: &Vehicle) -> Option<Power> {
    let parts = || vehicle.items.iter().map(|i| &i.part);
    let mut sources = parts().filter_map(|p| p.power_source.as_ref()).peekable();
    if sources.peek().is_none() {
        return parts()
            .any(|p| p.battery.is_some())
            .then_some(Power::Battery);
    }
    // Of several sources the one that fewest laws name.
    let powers = sources.map(|source| {
        Some(match source.fuel? {
            Fuel::NaturalGas => Power::GasGenerator,
            Fuel::Diesel => Power::DieselGenerator,
            Fuel::Hydrogen => Power::Hydrogen,
        })
    });
    powers.collect::<Option<Vec<Power>>>()?.into_iter().max()
}

/// The allowance that the plan claims, whether or not it fits.
#[must_use]
pub fn claimed(vehicle: &Vehicle) -> Option<&Allowance> {
    let all = &vehicle.law.as_ref()?.allowances;
    let all = all.iter().filter(|_| vehicle.allowance);
    match &vehicle.which_allowance {
        Some(id) => all.into_iter().find(|a| &a.id == id),
        None => all.into_iter().next(),
    }
}

/// The allowance that counts: claimed, and the text names the driveline or may be read so. A claim on a
/// driveline that is not known counts; that it is not known is said by its check.
#[must_use]
pub fn allowance(vehicle: &Vehicle) -> Option<&Allowance> {
    let claimed = claimed(vehicle)?;
    let fits = |power| claimed.names.contains(&power) || claimed.possible.contains(&power);
    power(vehicle).is_none_or(fits).then_some(claimed)
}

/// Gross weight of the whole: truck and trailer, or the truck alone.
#[must_use]
pub fn gross_limit(vehicle: &Vehicle) -> Option<GrossLimit> {
    let of = if vehicle.trailer.is_some() {
        Of::Combination
    } else {
        Of::MotorVehicle
    };
    limit(vehicle, of, false)
}

/// Gross weight of the tractor alone while it pulls; `None` when the law has none of its own for it.
#[must_use]
pub fn tractor_limit(vehicle: &Vehicle) -> Option<GrossLimit> {
    vehicle.trailer.as_ref()?;
    limit(vehicle, Of::MotorVehicle, true)
}

/// Limit of the law for the gross weight of truck and trailer, kg; `None` without one.
#[must_use]
pub fn gross_limit_kg(vehicle: &Vehicle) -> Option<f64> {
    gross_limit(vehicle).map(|limit| limit.kg)
}

fn limit(vehicle: &Vehicle, of: Of, own: bool) -> Option<GrossLimit> {
    let law = vehicle.law.as_ref()?;
    let axles = road_axles(vehicle);
    let (rule, kg) = law
        .gross
        .iter()
        .filter(|rule| {
            if own {
                rule.of == Some(of)
            } else {
                rule.of.is_none_or(|o| o == of)
            }
        })
        .filter(|rule| fits(rule, vehicle, &axles))
        .filter_map(|rule| rule.limit.kg().map(|kg| (rule, kg)))
        .reduce(|a, b| if b.1 > a.1 { b } else { a })?;
    let claimed = allowance(vehicle);
    let raised = claimed.map_or(kg, |a| a.gross_kg(kg));
    Some(GrossLimit {
        kg: raised,
        allowance_kg: raised - kg,
        name: rule.name.clone(),
        source: source(law, rule, claimed.filter(|_| raised > kg)),
    })
}

fn source(law: &Regime, rule: &Gross, allowance: Option<&Allowance>) -> Source {
    let own = law.source_of(&rule.limit);
    allowance.map_or_else(
        || own.clone(),
        |a| {
            let basis = Basis::max(own.basis, a.source.basis);
            Source::new(basis, format!("{}; {}", own.document, a.source.document))
        },
    )
}

fn fits(rule: &Gross, vehicle: &Vehicle, axles: &[RoadAxle]) -> bool {
    let trailer = axles.iter().filter(|a| a.on_trailer);
    let truck = || axles.iter().filter(|a| !a.on_trailer);
    let count = |wanted: Option<u32>, found: usize| {
        wanted.is_none_or(|n| usize::try_from(n).is_ok_and(|n| n == found))
    };
    let at_least = |wanted: Option<u32>, found: usize| {
        wanted.is_none_or(|n| usize::try_from(n).is_ok_and(|n| n <= found))
    };
    let mut driven = truck().filter(|a| a.driven).peekable();
    let friendly = driven.peek().is_some() && driven.all(|a| a.road_friendly);
    let spacing = vehicle.trailer.as_ref().map(|t| t.trailer.axle_spacing_mm);
    let apart = rule
        .trailer_above
        .mm()
        .is_none_or(|mm| spacing.is_some_and(|s| s > mm));
    count(rule.truck_axles, truck().count())
        && count(rule.trailer_axles, trailer.count())
        && at_least(rule.axles_from, axles.len())
        && at_least(rule.steered_from, truck().filter(|a| a.steered).count())
        && (!rule.road_friendly || friendly)
        && (!rule.intermodal || vehicle.intermodal)
        && apart
}
