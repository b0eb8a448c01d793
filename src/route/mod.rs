//! Where and how the truck is driven: speeds, grades, stops, weather. Plain data.
//!
//! Distances in metres, speeds in metres per second, grades as a fraction (0.06 is 6 %), temperatures in
//! °C. A route is either a road (speed that is wanted over distance) or a trace (speed over time, as
//! test cycles are).

mod csv;
mod gpx;
pub mod heights;
mod profile;
mod shipped;

pub use csv::from_csv;
pub use gpx::{from_gpx, ground_m};
pub use profile::Profile;
pub use shipped::{NOT_SHIPPED, SHIPPED, USUAL, USUAL_MPS, shipped};

use crate::source::Source;
use serde::Serialize;

/// Where a truck can be charged on the way.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Charger {
    /// Standard of the plug, such as `CCS`.
    pub standard: String,
    /// Most power, watt; the standard's own limit when not given.
    pub power_w: Option<f64>,
}

/// A place where the truck stands.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stop {
    /// Where, metres from the start.
    pub at_m: f64,
    /// How long, seconds.
    pub dwell_s: f64,
    /// What it can be charged by while it stands.
    pub charger: Option<Charger>,
    /// Load that is put on here, kilogram; negative is taken off.
    pub load_kg: f64,
}

impl Stop {
    /// Standing, and nothing else.
    #[must_use]
    pub const fn halt(at_m: f64, dwell_s: f64) -> Self {
        Self {
            at_m,
            dwell_s,
            charger: None,
            load_kg: 0.0,
        }
    }
}

/// What was made of a recorded track, for whoever reads the result.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Survey {
    /// Points in the file.
    pub points: usize,
    /// Points that no truck could have reached; left out.
    pub wild: usize,
    /// Speeds are the track's own.
    pub timed: bool,
    /// Speed that was taken because the track has no times, metres per second.
    pub speed_mps: Option<f64>,
    /// Stops that were found in it.
    pub stops: usize,
    /// Climb before the heights were smoothed, metre.
    pub raw_climb_m: f64,
    /// Climb after, metre.
    pub climb_m: f64,
    /// How they were smoothed.
    pub method: &'static str,
}

/// Speed that is wanted from a place on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Target {
    /// From here, metres from the start.
    pub from_m: f64,
    /// Speed.
    pub speed_mps: f64,
}

/// What the driver follows.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub enum Course {
    /// Speeds over distance, with stops.
    Road {
        /// Length, metres.
        length_m: f64,
        /// Speeds, in the order of the road; the first from 0.
        targets: Vec<Target>,
        /// Stops, in the order of the road.
        stops: Vec<Stop>,
    },
    /// Speed over time: one value each `step_s` seconds.
    Trace {
        /// Time between two values, seconds.
        step_s: f64,
        /// Speeds.
        speeds_mps: Vec<f64>,
    },
}

/// Weather on the way.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Weather {
    /// Air temperature, °C.
    pub temperature_c: f64,
    /// Wind against the truck, metres per second; negative pushes.
    pub headwind_mps: f64,
    /// Height of the start above the sea, metres; thins the air.
    pub altitude_m: f64,
}

impl Default for Weather {
    fn default() -> Self {
        Self {
            temperature_c: 20.0,
            headwind_mps: 0.0,
            altitude_m: 0.0,
        }
    }
}

impl Weather {
    /// Density of dry air, kilogram per cubic metre: pressure of the standard atmosphere (ISO 2533) at
    /// this height, at this temperature.
    #[must_use]
    pub fn air_kg_m3(&self) -> f64 {
        self.air_above_kg_m3(0.0)
    }

    /// The same so many metres above the start; temperature is taken as equal all along.
    #[must_use]
    pub fn air_above_kg_m3(&self, above_m: f64) -> f64 {
        let share = (1.0 - 2.255_77e-5 * (self.altitude_m + above_m)).max(0.1);
        let pressure_pa = 101_325.0 * crate::numeric::pow(share, 5.255_88);
        pressure_pa / (287.053 * (self.temperature_c + 273.15))
    }
}

/// A route.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Route {
    /// Identifier.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Where it comes from.
    pub source: Source,
    /// What the driver follows.
    pub course: Course,
    /// Grades along the way.
    pub profile: Profile,
    /// Weather.
    pub weather: Weather,
    /// Where the route comes from a recorded track: what was made of it.
    pub survey: Option<Survey>,
}

impl Route {
    /// A level road at one speed.
    #[must_use]
    pub fn level(speed_mps: f64, length_m: f64) -> Self {
        Self {
            id: "level".to_owned(),
            name: "level road at one speed".to_owned(),
            source: Source::common_practice(),
            course: Course::Road {
                length_m,
                targets: vec![Target {
                    from_m: 0.0,
                    speed_mps,
                }],
                stops: Vec::new(),
            },
            profile: Profile::level(),
            weather: Weather::default(),
            survey: None,
        }
    }

    /// Stops, in the order of the road; a trace has none.
    #[must_use]
    pub fn stops(&self) -> &[Stop] {
        match &self.course {
            Course::Road { stops, .. } => stops,
            Course::Trace { .. } => &[],
        }
    }

    /// Length in metres; of a trace, the way that its speeds make.
    #[must_use]
    pub fn length_m(&self) -> f64 {
        match &self.course {
            Course::Road { length_m, .. } => *length_m,
            Course::Trace { step_s, speeds_mps } => speeds_mps
                .windows(2)
                .map(|pair| 0.5 * pair.iter().sum::<f64>() * step_s)
                .sum(),
        }
    }

    /// How many numbers of a table the route keeps: speeds, stops and grades.
    #[must_use]
    pub fn points(&self) -> usize {
        let course = match &self.course {
            Course::Road { targets, stops, .. } => targets.len() + stops.len(),
            Course::Trace { speeds_mps, .. } => speeds_mps.len(),
        };
        course + self.profile.points().len()
    }

    /// The same road several times over, end to start.
    #[must_use]
    pub fn repeated(&self, times: usize) -> Self {
        let mut all = self.clone();
        let once = self.length_m();
        for turn in 1..times.max(1) {
            let by = once * turn as f64;
            match (&mut all.course, &self.course) {
                (
                    Course::Road {
                        length_m,
                        targets,
                        stops,
                    },
                    Course::Road {
                        targets: more,
                        stops: halts,
                        ..
                    },
                ) => {
                    *length_m += once;
                    targets.extend(more.iter().map(|t| Target {
                        from_m: t.from_m + by,
                        ..*t
                    }));
                    stops.extend(halts.iter().map(|s| Stop {
                        at_m: s.at_m + by,
                        ..s.clone()
                    }));
                }
                (
                    Course::Trace { speeds_mps, .. },
                    Course::Trace {
                        speeds_mps: more, ..
                    },
                ) => speeds_mps.extend(more.iter().skip(1)),
                _ => {}
            }
        }
        all.profile = self.profile.repeated(times.max(1), once);
        all
    }
}
