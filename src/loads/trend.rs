//! How the loads change with payload, with the fifth wheel's place and with the trailer's axles.
//!
//! Method. Everything on the truck is linear in total mass and first moment, so with the fifth wheel `d`
//! farther ahead than planned, `P` on the kingpin (or the payload on the truck itself) and `T` on the
//! trailer's axles each load is `at + per_mm·d + (per_pin + per_pin_mm·d)·P + per_axles·T`, exactly. How a
//! payload divides into P and T follows from where the trailer's axles stand.

use super::case::{Weight, payload_point, supports};
use super::{Case, Influence, influence};
use crate::geometry::Point;
use crate::plan::PayloadPlace;
use crate::vehicle::{Coupled, Vehicle};

/// A load, or a sum of loads, as a function of the fifth wheel's place and what rests where.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Trend {
    /// With the fifth wheel where it is, nothing on it and nothing on the trailer's axles.
    pub at: f64,
    /// For each millimetre that the fifth wheel goes ahead.
    pub per_mm: f64,
    /// For each kilogram on the kingpin.
    pub per_pin: f64,
    /// For each kilogram on the kingpin and millimetre ahead.
    pub per_pin_mm: f64,
    /// For each kilogram on the trailer's axles.
    pub per_axles: f64,
    /// For each millimetre that the trailer's axles go back.
    pub per_axle_mm: f64,
}

/// How kingpin and trailer axles share the trailer and its payload.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Split {
    /// On the kingpin without payload, and of each kilogram of payload.
    pub pin: (f64, f64),
    /// On the trailer's axles without payload, and of each kilogram of payload.
    pub axles: (f64, f64),
}

impl Split {
    /// Of a trailer as it is coupled.
    #[must_use]
    pub fn of(coupled: &Coupled) -> Self {
        Self::with(
            coupled,
            coupled.tare_on_kingpin_kg(),
            coupled.load_share_on_kingpin(),
        )
    }

    /// With the trailer's axles slid to this distance from the kingpin, mm.
    #[must_use]
    pub fn slid_to(coupled: &Coupled, kingpin_to_axles_mm: f64) -> Self {
        coupled.slid_to(kingpin_to_axles_mm).map_or_else(
            || Self::of(coupled),
            |(tare, load)| Self::with(coupled, coupled.trailer.tare_kg * tare, 1.0 - load),
        )
    }

    fn with(coupled: &Coupled, pin: f64, share: f64) -> Self {
        Self {
            pin: (pin, share),
            axles: (coupled.trailer.tare_kg - pin, 1.0 - share),
        }
    }
}

impl Trend {
    /// The load, linear in payload: without any, and for each kilogram.
    #[must_use]
    pub fn under(&self, ahead_mm: f64, axles_back_mm: f64, split: &Split) -> (f64, f64) {
        let pin = self.per_pin + self.per_pin_mm * ahead_mm;
        let at = self.at + self.per_mm * ahead_mm + self.per_axle_mm * axles_back_mm;
        (
            at + pin * split.pin.0 + self.per_axles * split.axles.0,
            pin * split.pin.1 + self.per_axles * split.axles.1,
        )
    }

    /// How [`under`](Self::under) changes for each millimetre ahead.
    #[must_use]
    pub fn slope(&self, split: &Split) -> (f64, f64) {
        (
            self.per_mm + self.per_pin_mm * split.pin.0,
            self.per_pin_mm * split.pin.1,
        )
    }

    /// The sum of this and a multiple of another.
    #[must_use]
    pub fn and(self, part: f64, other: &Self) -> Self {
        Self {
            at: self.at + part * other.at,
            per_mm: self.per_mm + part * other.per_mm,
            per_pin: self.per_pin + part * other.per_pin,
            per_pin_mm: self.per_pin_mm + part * other.per_pin_mm,
            per_axles: self.per_axles + part * other.per_axles,
            per_axle_mm: self.per_axle_mm + part * other.per_axle_mm,
        }
    }

    /// What a load on the trailer's axles adds to itself.
    pub const TRAILER_AXLES: Self = Self {
        at: 0.0,
        per_mm: 0.0,
        per_pin: 0.0,
        per_pin_mm: 0.0,
        per_axles: 1.0,
        per_axle_mm: 0.0,
    };
    /// What a load on the kingpin adds to itself.
    pub const KINGPIN: Self = Self {
        per_pin: 1.0,
        per_axles: 0.0,
        ..Self::TRAILER_AXLES
    };
}

/// Trends of the truck in one case.
#[derive(Clone, Debug, PartialEq)]
pub struct Trends {
    /// Which case.
    pub case: Case,
    /// Each axle group of the truck.
    pub groups: Vec<Trend>,
    /// Payload counts in it.
    pub under_payload: bool,
}

impl Trends {
    /// The whole truck, with what rests on its fifth wheel.
    #[must_use]
    pub fn truck(&self) -> Trend {
        let add = |sum: Trend, group: &Trend| sum.and(1.0, group);
        self.groups.iter().fold(Trend::default(), add)
    }
}

/// Trends in every case that a finished truck can be in; the payload counts in the last.
///
/// # Errors
/// What is missing.
pub fn trends(vehicle: &Vehicle) -> Result<Vec<Trends>, String> {
    if let Some(missing) = super::missing(vehicle) {
        return Err(missing);
    }
    let influence = influence(&supports(vehicle, &vehicle.chassis))?;
    let mut out = Vec::new();
    for case in [Case::Unladen, Case::HalfTanks, Case::Laden] {
        if case < Case::Laden || (vehicle.trailer.is_some() && vehicle.loads.payload.is_some()) {
            out.push(of_case(
                vehicle,
                &influence,
                case,
                &case.weights(vehicle),
                None,
            ));
        }
    }
    // Tanks as planned, driver aboard: the state to which payload is added.
    let (case, weights, at) = match &vehicle.trailer {
        Some(coupled) => (
            Case::Coupled,
            Case::Coupled.weights(vehicle),
            coupled.kingpin.x,
        ),
        None => (
            Case::Laden,
            Case::Unladen.weights_with_driver(vehicle),
            payload_place(vehicle)?.x,
        ),
    };
    out.push(of_case(vehicle, &influence, case, &weights, Some(at)));
    Ok(out)
}

fn of_case(
    vehicle: &Vehicle,
    influence: &Influence,
    case: Case,
    weights: &[Weight],
    load_x_mm: Option<f64>,
) -> Trends {
    let mass: f64 = weights.iter().map(|w| w.mass_kg).sum();
    let moment: f64 = weights.iter().map(|w| w.mass_kg * w.at.x).sum();
    let wheel = vehicle.chassis.fifth_wheel.as_ref();
    let slides = wheel.map_or(0.0, |fw| fw.mass_kg);
    let groups = (0..vehicle.chassis.groups.len()).map(|index| {
        let arm = influence.per_kg_mm[index];
        Trend {
            at: influence.reaction_kg(index, mass, moment),
            per_mm: -arm * slides,
            per_pin: load_x_mm.map_or(0.0, |x| influence.share(index, x)),
            per_pin_mm: if load_x_mm.is_some() && wheel.is_some() {
                -arm
            } else {
                0.0
            },
            ..Trend::default()
        }
    });
    Trends {
        case,
        groups: groups.collect(),
        under_payload: load_x_mm.is_some(),
    }
}

/// Where payload on the truck itself goes.
fn payload_place(vehicle: &Vehicle) -> Result<Point, String> {
    if let Some(payload) = &vehicle.loads.payload {
        return Ok(payload_point(&payload.at));
    }
    let Some(body) = &vehicle.chassis.body else {
        return Err("neither a trailer nor a place for payload is stated".to_owned());
    };
    Ok(payload_point(&PayloadPlace::Level {
        front_x_mm: body.front_x_mm,
        rear_x_mm: body.rear_x_mm,
        z_mm: body.floor_z_mm,
    }))
}
