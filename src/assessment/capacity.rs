//! How much payload is possible, and what stops it.

use super::{GroupLimits, bridge, trailer_limit};
use crate::legality::{self, Rule};
use crate::loads::{PayloadEffect, payload_effect};
use crate::vehicle::Vehicle;

/// Payload at which one limit is reached.
#[derive(Clone, Debug, PartialEq)]
pub struct CapacityRow {
    /// What is limited, in words.
    pub name: String,
    /// Which of its limits governs, in words.
    pub by: &'static str,
    /// The limit, kg.
    pub limit_kg: f64,
    /// Payload at which it is reached, kg; negative when it is passed already without payload.
    pub payload_kg: f64,
}

/// Payload capacity.
#[derive(Clone, Debug, PartialEq)]
pub struct Capacity {
    /// Every limit that payload brings nearer, smallest payload first.
    pub rows: Vec<CapacityRow>,
    /// A limit that is passed without any payload and that payload does not bring nearer.
    pub hopeless: Vec<String>,
}

impl Capacity {
    /// The limit that governs.
    #[must_use]
    pub fn governing(&self) -> Option<&CapacityRow> {
        self.rows.first()
    }

    /// Largest payload, kg; never negative.
    #[must_use]
    pub fn payload_kg(&self) -> f64 {
        self.governing().map_or(0.0, |row| row.payload_kg.max(0.0))
    }
}

/// Works out the payload at every limit.
///
/// # Errors
/// What is missing.
pub fn capacity(vehicle: &Vehicle, limits: &[GroupLimits]) -> Result<Capacity, String> {
    let effect = payload_effect(vehicle)?;
    let mut rows = Vec::new();
    let mut hopeless = Vec::new();
    let mut add = |name: &str, by: &'static str, limit_kg: f64, base_kg: f64, share: f64| {
        if share > 1e-9 {
            let payload_kg = (limit_kg - base_kg) / share;
            rows.push(CapacityRow {
                name: name.to_owned(),
                by,
                limit_kg,
                payload_kg,
            });
        } else if base_kg > limit_kg {
            hopeless.push(name.to_owned());
        }
    };
    for group in &effect.groups {
        let Some(limits) = limits.iter().find(|l| l.id == group.id) else {
            continue;
        };
        if let Some(limit) = limits.lowest() {
            add(
                &limits.name,
                limit.kind.words(),
                limit.kg,
                group.base_kg,
                group.share,
            );
        }
    }
    let ratings = &vehicle.chassis.ratings;
    if let Some(gvwr) = ratings.gvwr_kg {
        add(
            "truck",
            "GVWR",
            gvwr,
            effect.truck_base_kg,
            effect.truck_share,
        );
    }
    if let (Some((base, share)), Some(fw)) = (effect.kingpin, &vehicle.chassis.fifth_wheel) {
        add("fifth wheel", "rating", fw.rating_kg, base, share);
    }
    if let (Some((base, share)), Some(trailer)) = (effect.trailer, &vehicle.trailer) {
        if let Some(limit) = trailer_limit(vehicle) {
            add("trailer axles", limit.by, limit.kg, base, share);
        }
        if let Some(gcwr) = ratings.gcwr_kg {
            add("combination", "GCWR", gcwr, effect.gross_base_kg, 1.0);
        }
        add(
            "trailer",
            "payload rating",
            trailer.trailer.payload_max_kg,
            0.0,
            1.0,
        );
    }
    if let Some(gross) = legality::gross_limit_kg(vehicle) {
        add("gross weight", "road law", gross, effect.gross_base_kg, 1.0);
    }
    rows.extend(bridge_row(vehicle, &effect, &mut hopeless));
    rows.sort_by(|a, b| a.payload_kg.total_cmp(&b.payload_kg));
    Ok(Capacity { rows, hopeless })
}

/// The bridge group that payload fills first. The others would only make the list long; every one
/// that is over is a finding of its own.
fn bridge_row(
    vehicle: &Vehicle,
    effect: &PayloadEffect,
    hopeless: &mut Vec<String>,
) -> Option<CapacityRow> {
    let mut first: Option<CapacityRow> = None;
    for (group, share) in bridge::under_payload(vehicle, effect) {
        let (from, to) = group.numbers;
        let name = format!("axles {from} to {to}");
        if share <= 1e-9 {
            if group.margin_kg() < 0.0 {
                hopeless.push(name);
            }
            continue;
        }
        let payload_kg = group.margin_kg() / share;
        if first.as_ref().is_none_or(|row| payload_kg < row.payload_kg) {
            first = Some(CapacityRow {
                name,
                by: match group.rule {
                    Rule::Single | Rule::Tandem => "road law",
                    _ => "bridge formula",
                },
                limit_kg: group.allowed_kg,
                payload_kg,
            });
        }
    }
    first
}
