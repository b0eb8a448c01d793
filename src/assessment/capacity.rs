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

/// A limit that is passed without any payload.
#[derive(Clone, Debug, PartialEq)]
pub struct Passed {
    /// What is limited, in words.
    pub name: String,
    /// What sets the limit, in words.
    pub by: &'static str,
    /// The limit, kg.
    pub limit_kg: f64,
    /// By how much it is passed, kg.
    pub over_kg: f64,
}

/// Payload capacity.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Capacity {
    /// Every limit that payload brings nearer, smallest payload first.
    pub rows: Vec<CapacityRow>,
    /// Every limit that is passed without any payload, farthest first: none is possible then, whether
    /// or not payload brings that limit nearer.
    pub passed: Vec<Passed>,
}

impl Capacity {
    /// The limit that governs.
    #[must_use]
    pub fn governing(&self) -> Option<&CapacityRow> {
        self.rows.first()
    }

    /// Largest payload, kg; 0 when a limit is passed without any.
    #[must_use]
    pub fn payload_kg(&self) -> f64 {
        if !self.passed.is_empty() {
            return 0.0;
        }
        self.governing().map_or(0.0, |row| row.payload_kg.max(0.0))
    }

    fn add(&mut self, name: &str, by: &'static str, limit_kg: f64, base_kg: f64, share: f64) {
        let over_kg = base_kg - limit_kg;
        if over_kg > 1e-6 {
            self.passed.push(Passed {
                name: name.to_owned(),
                by,
                limit_kg,
                over_kg,
            });
        }
        if share > 1e-9 {
            self.rows.push(CapacityRow {
                name: name.to_owned(),
                by,
                limit_kg,
                payload_kg: -over_kg / share,
            });
        }
    }
}

/// Works out the payload at every limit.
///
/// # Errors
/// What is missing.
pub fn capacity(vehicle: &Vehicle, limits: &[GroupLimits]) -> Result<Capacity, String> {
    let effect = payload_effect(vehicle)?;
    let up = effect.groups.iter().find(|g| g.base_kg < -1e-6);
    if let Some(group) = up {
        let name = limits.iter().find(|l| l.id == group.id);
        let name = name.map_or(group.id.as_str(), |l| l.name.as_str());
        return Err(format!(
            "the {name} would lift off the road without payload"
        ));
    }
    let mut found = Capacity::default();
    for group in &effect.groups {
        let Some(limits) = limits.iter().find(|l| l.id == group.id) else {
            continue;
        };
        if let Some(limit) = limits.lowest() {
            found.add(
                &limits.name,
                limit.kind.words(),
                limit.kg,
                group.base_kg,
                group.share,
            );
        }
    }
    // Payload beyond the last axle lifts the first one: that ends it too.
    for group in effect.groups.iter().filter(|g| g.share < -1e-9) {
        if let Some(limits) = limits.iter().find(|l| l.id == group.id) {
            found.rows.push(CapacityRow {
                name: limits.name.clone(),
                by: "lifts off",
                limit_kg: 0.0,
                payload_kg: -group.base_kg / group.share,
            });
        }
    }
    let ratings = &vehicle.chassis.ratings;
    if let Some(gvwr) = ratings.gvwr_kg {
        found.add(
            "truck",
            "GVWR",
            gvwr,
            effect.truck_base_kg,
            effect.truck_share,
        );
    }
    if let (Some((base, share)), Some(fw)) = (effect.kingpin, &vehicle.chassis.fifth_wheel) {
        found.add("fifth wheel", "rating", fw.rating_kg, base, share);
    }
    if let (Some((base, share)), Some(trailer)) = (effect.trailer, &vehicle.trailer) {
        if let Some(limit) = trailer_limit(vehicle) {
            found.add("trailer axles", limit.by, limit.kg, base, share);
        }
        if let Some(gcwr) = ratings.gcwr_kg {
            found.add("combination", "GCWR", gcwr, effect.gross_base_kg, 1.0);
        }
        found.add(
            "trailer",
            "payload rating",
            trailer.trailer.payload_max_kg,
            0.0,
            1.0,
        );
    }
    if let Some(gross) = legality::gross_limit_kg(vehicle) {
        found.add("gross weight", "road law", gross, effect.gross_base_kg, 1.0);
    }
    bridge_rows(vehicle, &effect, &mut found);
    found
        .rows
        .sort_by(|a, b| a.payload_kg.total_cmp(&b.payload_kg));
    found.passed.sort_by(|a, b| b.over_kg.total_cmp(&a.over_kg));
    Ok(found)
}

/// The bridge group that payload fills first. The others would only make the list long; every one
/// that is over is a finding of its own.
fn bridge_rows(vehicle: &Vehicle, effect: &PayloadEffect, found: &mut Capacity) {
    let mut all = Capacity::default();
    for (group, share) in bridge::under_payload(vehicle, effect) {
        let (from, to) = group.numbers;
        let by = match group.rule {
            Rule::Single | Rule::Tandem => "road law",
            _ => "bridge formula",
        };
        let name = format!("axles {from} to {to}");
        all.add(&name, by, group.allowed_kg, group.actual_kg, share);
    }
    found.passed.extend(all.passed);
    let first = |a: CapacityRow, b: CapacityRow| if b.payload_kg < a.payload_kg { b } else { a };
    found.rows.extend(all.rows.into_iter().reduce(first));
}
