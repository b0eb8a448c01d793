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
