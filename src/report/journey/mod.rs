//! A drive in words and as data.

mod charge;
mod data;
mod text;

pub use charge::{ChargeReport, charge_data, charge_text};
pub use data::{JourneyReport, journey_data};
pub use text::journey_text;

use crate::assessment::Journey;
use crate::energy::Ledger;
use crate::quantity::{M_PER_MI, Units};

/// What went out, in the order in which it is told.
pub(super) const fn entries(ledger: &Ledger) -> [(&'static str, f64); 11] {
    [
        ("air", ledger.air_j),
        ("rolling", ledger.rolling_j),
        ("climbing", ledger.climb_j),
        ("motion", ledger.motion_j),
        ("accessories", ledger.accessories_j),
        ("motors, inverters", ledger.drive_loss_j),
        ("drive axles", ledger.axle_loss_j),
        ("shifting", ledger.shift_j),
        ("packs", ledger.pack_heat_j),
        ("friction brakes", ledger.brakes_j),
        ("brake resistor", ledger.resistor_j),
    ]
}

/// The way for which consumption is told: its length in metres and its unit.
pub(super) const fn way(units: Units) -> (f64, &'static str) {
    match units {
        Units::Us => (M_PER_MI, "mi"),
        Units::Metric => (1_000.0, "km"),
    }
}

/// Energy that a drive costs for a way, such as "1.42 kWh/km".
#[must_use]
pub fn consumption(journey: &Journey, units: Units) -> String {
    let (metres, unit) = way(units);
    format!("{:.2} kWh/{unit}", journey.per_m_j / 3.6e6 * metres)
}
