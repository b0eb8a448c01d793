//! What motors, packs, sources and coolers do in one moment: the physics under the time loop.
//!
//! SI units inside (watt, newton, metre, second, kelvin or °C as the name says); the part files give
//! kilowatt, newton metre and revolutions per minute and are converted where a model is made.
//! Nothing here knows a route or a clock.

pub mod gas;

mod cell;
mod cooler;
mod drive;
mod pack;
mod source;
mod tank;

pub use cell::{Cell, TEMPERATURE_RANGE_C};
pub use cooler::{Circuit, Cooled, FAN_M_S, Radiator, Stand, cross_flow};
pub use drive::{AXLE_EFFICIENCY, Drive, DriveLoss, INVERTER_EFFICIENCY};
pub use pack::{Bank, Draw};
pub use source::{Source, SourceKind};
pub use tank::{LEAST_MPA, ROUNDING, Tank};

/// A figure that must be there.
fn known(name: &str, value: Option<f64>, what: &str) -> Result<f64, String> {
    value.ok_or_else(|| format!("the {what} of {name} is not known"))
}

/// The same for a figure that is divided by: next to nothing is no answer either.
fn more_than_nothing(name: &str, value: Option<f64>, what: &str) -> Result<f64, String> {
    let value = known(name, value, what)?;
    if value < 0.01 {
        return Err(format!(
            "the {what} of {name} is {value:.3}: at least 0.01 is needed to drive"
        ));
    }
    Ok(value)
}
