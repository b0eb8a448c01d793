//! How far a truck may lean: the sideways acceleration at which the inner wheels leave the road.
//!
//! Method. Rigid: moments about the outer wheels of every axle together, which for one track T and a
//! centre of gravity at height h on the centre line is T/2h. Tyres and springs give way and let the
//! centre of gravity move outward before that; for the reduced threshold a quarter is taken off.
//!
//! Assumptions. All axles lean together (frame and fifth wheel stiff in torsion). Twin tyres count at
//! the middle of the pair. Steady cornering on a level road; no steering, braking, liquid or swinging
//! load. Ignored: crosswind, potholes, what the driver does.

use crate::numeric;
use serde::Serialize;

/// What tyres and springs leave of the rigid threshold: 0.52 g became about 0.39 g, a quarter less on
/// average (SAE 2003-01-3385, statement read).
pub const COMPLIANCE: f64 = 0.75;
/// Least threshold of large trucks, g, where the law has one (New Zealand, Land Transport Rule: Vehicle
/// Dimensions and Mass, factsheet 13e, read).
pub const LEAST_G: f64 = 0.35;
/// Threshold to which tank trucks are compared, g (Billing and Patten, NRC Canada, read).
pub const TANK_G: f64 = 0.40;
/// Angle that a laden tank truck has to stand on a tilt table, degrees (UN Regulation 111, from memory).
pub const TANK_TILT_DEG: f64 = 23.0;

/// Roll-over threshold of a truck or a combination.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Rollover {
    /// Track of its axles, each counted by its load.
    pub track_mm: f64,
    /// Height of the centre of gravity above ground.
    pub height_mm: f64,
    /// Of the rigid truck, g.
    pub rigid_g: f64,
    /// With what tyres and springs give way, g.
    pub reduced_g: f64,
    /// Tilt-table angle of the rigid truck, degrees.
    pub rigid_tilt_deg: f64,
    /// Tilt-table angle with what tyres and springs give way, degrees.
    pub tilt_deg: f64,
}

/// Threshold towards the side on which the centre of gravity lies.
///
/// `supports` are the load and the track of each axle or group. `None` when nothing stands on the road
/// or the height is not above it.
#[must_use]
pub fn rollover(height_mm: f64, offset_mm: f64, supports: &[(f64, f64)]) -> Option<Rollover> {
    let load: f64 = supports.iter().map(|(kg, _)| kg).sum();
    if load <= 0.0 || height_mm <= 0.0 {
        return None;
    }
    let track_mm = supports.iter().map(|(kg, track)| kg * track).sum::<f64>() / load;
    let rigid_g = (track_mm / 2.0 - offset_mm.abs()) / height_mm;
    let reduced_g = COMPLIANCE * rigid_g;
    Some(Rollover {
        track_mm,
        height_mm,
        rigid_g,
        reduced_g,
        rigid_tilt_deg: numeric::atan(rigid_g).to_degrees(),
        tilt_deg: numeric::atan(reduced_g).to_degrees(),
    })
}

impl Rollover {
    /// Height of the centre of gravity at which the reduced threshold would be this many g.
    #[must_use]
    pub fn height_at_mm(&self, least_g: f64) -> f64 {
        self.height_mm * self.reduced_g / least_g
    }
}

/// Highest centre of gravity of the payload so that the whole stays below a height: the whole's moment
/// less what the truck without payload has. `None` without payload.
#[must_use]
pub fn highest_payload_mm(
    whole_kg: f64,
    highest_mm: f64,
    without_kg: f64,
    without_mm: f64,
) -> Option<f64> {
    let payload = whole_kg - without_kg;
    (payload > 0.0).then(|| (whole_kg * highest_mm - without_kg * without_mm) / payload)
}
