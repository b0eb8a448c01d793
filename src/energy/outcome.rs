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
    /// Packs, °C.
    pub pack_c: f64,
    /// Height above the sea, metre.
    pub altitude_m: f64,
    /// Power from a plug on the way, watt.
    pub plug_w: f64,
}

/// One stop at a charger.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Charged {
    /// Where, metres.
    pub at_m: f64,
    /// How long it stood, seconds.
    pub dwell_s: f64,
    /// Plug and inlet, or why nothing was charged.
    #[serde(serialize_with = "crate::source::known")]
    pub by: Result<String, String>,
    /// State of charge before and after.
    pub soc: (f64, f64),
    /// Energy at the truck, and from the wall, joule.
    pub energy_j: f64,
    /// Energy from the wall, joule.
    pub wall_j: f64,
    /// Most power, watt.
    pub most_w: f64,
}

/// Time constants of the fading averages, seconds (common practice); the source follows the first.
pub(super) const AVERAGE_SECONDS: [f64; 3] = [120.0, 600.0, 1_800.0];

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
    /// How often it was started.
    pub source_starts: u32,
    /// Greatest fading averages of the bus power: time constant in seconds, watt. The source follows the
    /// first.
    pub averages: [(f64, f64); 3],
    /// Where and when the packs came to the end of their window, metres and seconds.
    pub run_down: Option<(f64, f64)>,
    /// Least share of the source's power that thin air left.
    pub source_air_least: f64,
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
    /// Coldest packs, °C.
    pub pack_least_c: f64,
    /// Packs at the end, °C.
    pub pack_end_c: f64,
    /// Highest place above the sea, metres.
    pub highest_m: f64,
    /// Of the accessories: climate of the cab, heater of the packs, fans and chiller, joule.
    pub climate_j: f64,
    /// Heater of the packs, joule.
    pub heater_j: f64,
    /// Fans and chiller, joule.
    pub fans_j: f64,
    /// Shifts.
    pub shifts: u32,
    /// Least that was left of the drives' short-time budget, 1 full to 0 spent, and the time at which it
    /// was spent, seconds.
    pub drive_peak: (f64, f64),
    /// The same of the packs.
    pub pack_peak: (f64, f64),
    /// Greatest share of the grip that was used.
    pub grip_most: f64,
    /// Time in which grip was short, seconds.
    pub grip_short_s: f64,
    /// Stops at chargers.
    pub charged: Vec<Charged>,
    /// Steps that were computed.
    pub steps: usize,
    /// The course: all steps, or of each window of steps those with the least and the most power into the
    /// drives and the slowest.
    pub samples: Vec<Sample>,
}

impl Run {
    /// A run before its first step.
    pub(super) fn at_start(
        route_m: f64,
        soc: f64,
        outside_c: f64,
        pack_c: f64,
        altitude_m: f64,
    ) -> Self {
        Self {
            end: End::Finished,
            distance_m: 0.0,
            route_m,
            time_s: 0.0,
            ledger: Ledger::default(),
            soc_start: soc,
            soc_end: soc,
            soc_least: soc,
            pack_most_w: 0.0,
            motor_most_w: 0.0,
            short_s: 0.0,
            slowest: None,
            source_s: 0.0,
            source_starts: 0,
            averages: AVERAGE_SECONDS.map(|seconds| (seconds, 0.0)),
            run_down: None,
            source_air_least: 1.0,
            source_hot_s: 0.0,
            source_least: 1.0,
            drive_hot_s: 0.0,
            source_most_c: outside_c,
            drive_most_c: outside_c,
            pack_most_c: pack_c,
            pack_least_c: pack_c,
            pack_end_c: pack_c,
            highest_m: altitude_m,
            climate_j: 0.0,
            heater_j: 0.0,
            fans_j: 0.0,
            shifts: 0,
            drive_peak: (1.0, 0.0),
            pack_peak: (1.0, 0.0),
            grip_most: 0.0,
            grip_short_s: 0.0,
            charged: Vec::new(),
            steps: 0,
            samples: Vec::new(),
        }
    }
}
