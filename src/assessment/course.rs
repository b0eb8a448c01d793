//! What a chart of a drive shows beside the run itself: heights, pull against speed, heat against what
//! the radiators can give away.

use super::Journey;
use super::abilities::HALF_FULL;
use crate::energy::traction_curve;
use crate::plant::Circuit;

/// Points of a curve over speed, up to the highest that the gears allow.
const POINTS: u32 = 240;
/// Speed up to which a curve goes in any case, m/s (110 km/h): no truck is built to drive faster.
const ROAD_MPS: f64 = 110.0 / 3.6;
/// Grades that are shown wherever they are, fractions.
const ALWAYS: [f64; 3] = [0.0, 0.03, 0.06];
/// Steeper ones: the steepest of them on which the truck starts is shown, fractions.
const STEEPER: [f64; 5] = [0.10, 0.15, 0.20, 0.25, 0.30];

/// Pull against speed, in newton over metres per second.
#[derive(Clone, Debug, PartialEq)]
pub struct Pull {
    /// Speeds, from a standstill to a little above the highest that is held, and to 110 km/h at least; never
    /// above what the gears allow.
    pub v_mps: Vec<f64>,
    /// Most pull for seconds.
    pub peak_n: Vec<f64>,
    /// Most pull without end.
    pub continuous_n: Vec<f64>,
    /// What holds the truck back at a steady speed without wind: grade as a fraction, force at each speed.
    pub roads: Vec<(f64, Vec<f64>)>,
    /// What the tyres of the driven axles can put on the road.
    pub grip_n: f64,
}

/// Heat of one cooling circuit at every sample of the run, watt.
#[derive(Clone, Debug, PartialEq)]
pub struct CircuitHeat {
    /// Heat that its parts make.
    pub made_w: Vec<f64>,
    /// What its radiators give away at that road speed with the fans at full speed and the coolant at its
    /// limit.
    pub most_w: Vec<f64>,
    /// Coolant, °C.
    pub coolant_c: Vec<f64>,
    /// Coolant temperature above which power is taken back, °C.
    pub limit_c: f64,
}

/// Heat of the circuits.
#[derive(Clone, Debug, PartialEq)]
pub struct Heat {
    /// Generator or fuel cell, where there is one.
    pub source: Option<CircuitHeat>,
    /// Motors and inverters.
    pub drive: CircuitHeat,
}

/// Air outside up to which continuous power lasts at a road speed, °C; `None` where no air is cold enough.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CooledTo {
    /// Road speed, m/s.
    pub v_mps: f64,
    /// Generator or fuel cell at the highest place of the route; `None` also where there is none.
    pub source_c: Option<f64>,
    /// Motors and inverters.
    pub drive_c: Option<f64>,
}

/// Road speeds at which cooling is told, m/s: standing, a climb at 30 km/h, 50 and 80 km/h.
const COOLED_MPS: [f64; 4] = [0.0, 30.0 / 3.6, 50.0 / 3.6, 80.0 / 3.6];

impl Journey {
    /// Air outside up to which continuous power is cooled without end; `None` where the radiators are not
    /// known.
    #[must_use]
    pub fn cooled_to(&self) -> Option<[CooledTo; 4]> {
        let cooling = self.truck.cooling.as_ref().ok()?;
        let weather = &self.route.weather;
        let air = weather.air_above_kg_m3(self.run.highest_m - weather.altitude_m);
        let drive = &self.truck.drive;
        // At the rated point the loss is the rated one, by its definition.
        let drive_w = drive.count * drive.loss.rated_w;
        let source_w = self.truck.source.as_ref().map(|source| {
            let power_w = source.lasting_w(self.run.highest_m);
            source.heat_w(power_w)
        });
        Some(COOLED_MPS.map(|v_mps| {
            CooledTo {
                v_mps,
                source_c: source_w
                    .zip(cooling.source.as_ref())
                    .and_then(|(heat_w, circuit)| circuit.cooled_to_c(heat_w, v_mps, air)),
                drive_c: cooling.drive.cooled_to_c(drive_w, v_mps, air),
            }
        }))
    }

    /// Height over the start at every sample of the run, metres.
    #[must_use]
    pub fn heights_m(&self) -> Vec<f64> {
        let places: Vec<f64> = self.run.samples.iter().map(|s| s.x_m).collect();
        self.route.profile.heights_m(&places)
    }

    /// Pull against speed, packs half full.
    #[must_use]
    pub fn pull(&self) -> Pull {
        let truck = &self.truck;
        let mut curve = traction_curve(truck, self.conditions.pack_c, HALF_FULL, POINTS);
        let far = ROAD_MPS.max(1.1 * self.grades.top.unwrap_or(0.0));
        curve.retain(|p| p.v_mps <= far);
        let air = self.route.weather.air_kg_m3();
        let starts = self.grades.launch.unwrap_or(0.0);
        let steeper = STEEPER.into_iter().rev().find(|g| *g <= starts);
        let force = |v: f64, grade: f64| truck.resistance.forces(v, grade, air, 0.0).sum_n();
        Pull {
            v_mps: curve.iter().map(|p| p.v_mps).collect(),
            peak_n: curve.iter().map(|p| p.peak_n).collect(),
            continuous_n: curve.iter().map(|p| p.continuous_n).collect(),
            roads: ALWAYS
                .into_iter()
                .chain(steeper)
                .map(|g| (g, curve.iter().map(|p| force(p.v_mps, g)).collect()))
                .collect(),
            grip_n: truck.grip_n(),
        }
    }

    /// Heat against what can be given away; `None` where the radiators are not known.
    #[must_use]
    pub fn heat(&self) -> Option<Heat> {
        let cooling = self.truck.cooling.as_ref().ok()?;
        let samples = &self.run.samples;
        let weather = &self.route.weather;
        let air = weather.air_kg_m3();
        let most = |circuit: &Circuit| {
            let away = |v| {
                circuit
                    .rejected_w(circuit.limit_c, weather.temperature_c, v, air)
                    .0
            };
            samples.iter().map(|s| away(s.v_mps)).collect()
        };
        Some(Heat {
            source: cooling.source.as_ref().map(|circuit| CircuitHeat {
                made_w: samples.iter().map(|s| s.source_heat_w).collect(),
                most_w: most(circuit),
                coolant_c: samples.iter().map(|s| s.source_c).collect(),
                limit_c: circuit.limit_c,
            }),
            drive: CircuitHeat {
                made_w: samples.iter().map(|s| s.drive_heat_w).collect(),
                most_w: most(&cooling.drive),
                coolant_c: samples.iter().map(|s| s.drive_c).collect(),
                limit_c: cooling.drive.limit_c,
            },
        })
    }
}
