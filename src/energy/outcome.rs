//! What a run begins with and what comes of it.

use super::driver::Driver;
use super::ledger::Ledger;
use serde::Serialize;

/// How the generator or fuel cell is run. Preview of terrain comes beside these, not in them.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub enum Strategy {
    /// Follows the average need and holds the packs near a state of charge.
    Follow {
        /// State of charge to hold.
        hold: f64,
    },
    /// Full power from a low state of charge until a high one is reached.
    Switch {
        /// Starts below this.
        start: f64,
        /// Stops above this.
        stop: f64,
    },
    /// Never runs.
    Off,
}

/// What a run begins with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// Time step, seconds.
    pub step_s: f64,
    /// The driver.
    pub driver: Driver,
    /// State of charge at the start; the highest in use when not given.
    pub soc: Option<f64>,
    /// Temperature of the packs, °C.
    pub pack_c: f64,
    /// How the source is run.
    pub strategy: Strategy,
    /// Speed at the start, m/s; 0 is standing.
    pub speed_mps: f64,
}

impl Default for Conditions {
    fn default() -> Self {
        Self {
            step_s: 0.25,
            driver: Driver::default(),
            soc: None,
            pack_c: 25.0,
            strategy: Strategy::Follow { hold: 0.6 },
            speed_mps: 0.0,
        }
    }
}

/// How a run ended.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub enum End {
    /// At the end of the route.
    Finished,
    /// Before it.
    Stranded {
        /// Why, in words.
        why: String,
    },
    /// Somebody stopped the computation.
    Cancelled,
}

/// The truck at one moment.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Sample {
    /// Time, seconds.
    pub t_s: f64,
    /// Place, metres.
    pub x_m: f64,
    /// Speed, m/s.
    pub v_mps: f64,
    /// Speed that may be driven there by limits, bends and stops, whether it can be reached or not, m/s.
    pub wanted_mps: f64,
    /// Grade, fraction.
    pub grade: f64,
    /// State of charge.
    pub soc: f64,
    /// Power at the wheels, watt.
    pub wheel_w: f64,
    /// Power out of the packs, watt.
    pub pack_w: f64,
    /// Power of the source, watt.
    pub source_w: f64,
    /// Gear, from 1.
    pub gear: usize,
    /// Coolant of the source, °C.
    pub source_c: f64,
    /// Bus power into the drives, watt; negative when they brake. Packs and source give this, the
    /// accessories and the brake resistor together.
    pub drive_w: f64,
    /// Power of the accessories with fans and chiller, watt.
    pub accessories_w: f64,
    /// Power of the brake resistor, watt.
    pub resistor_w: f64,
    /// Power of the friction brakes, watt.
    pub brakes_w: f64,
    /// Heat of the source that its coolant takes, watt.
    pub source_heat_w: f64,
    /// Heat of motors and inverters, watt.
    pub drive_heat_w: f64,
    /// Coolant of the drives, °C.
    pub drive_c: f64,
}

/// What came of a run.
#[derive(Clone, Debug, Serialize)]
pub struct Run {
    /// How it ended.
    pub end: End,
    /// Way, metres.
    pub distance_m: f64,
    /// Way of the whole route, metres.
    pub route_m: f64,
    /// Time, seconds.
    pub time_s: f64,
    /// Energies.
    pub ledger: Ledger,
    /// State of charge at the start.
    pub soc_start: f64,
    /// State of charge at the end.
    pub soc_end: f64,
    /// Lowest state of charge.
    pub soc_least: f64,
    /// Most power out of the packs, watt.
    pub pack_most_w: f64,
    /// Most power at the motor shafts together, watt.
    pub motor_most_w: f64,
    /// Time at the limit of motor, pack and grip while more was wanted, seconds.
    pub short_s: f64,
    /// Slowest speed while more was wanted on the move, m/s, and where, metres.
    pub slowest: Option<(f64, f64)>,
    /// Time in which the source ran, seconds.
    pub source_s: f64,
    /// Greatest average power of the bus over the source's own averaging time, watt.
    pub average_most_w: f64,
    /// Time in which heat took power from the source, seconds.
    pub source_hot_s: f64,
    /// Least share of the source's power that heat left.
    pub source_least: f64,
    /// Time in which heat took power from the drives, seconds.
    pub drive_hot_s: f64,
    /// Hottest coolant of the source, °C.
    pub source_most_c: f64,
    /// Hottest coolant of the drives, °C.
    pub drive_most_c: f64,
    /// Hottest packs, °C.
    pub pack_most_c: f64,
    /// Steps that were computed.
    pub steps: usize,
    /// The course: all steps, or of each window of steps those with the least and the most power into the
    /// drives and the slowest.
    pub samples: Vec<Sample>,
}
