//! A motor with its inverter and gears, from the electric bus to the wheels of its axle.
//!
//! Loss model: gears and inverter (with power), copper (with torque squared), iron (with speed up to
//! the base speed, where the field is weakened), drag (with speed), in shares 55, 28, 12 and 5 % of the
//! loss at the rated point; the rated point is continuous power at the speed where peak torque and peak
//! power meet, and its loss follows from the efficiency that the part states (shares are common
//! practice). The same model serves braking. Gears after the motor and a kept drive
//! axle take a fixed share of what passes through them.

use crate::numeric::sqrt;
use crate::part::Motor;

/// Share of the power that a kept drive axle passes on (40 CFR 1036.545).
pub const AXLE_EFFICIENCY: f64 = 0.955;
/// Share of the power that an inverter passes on at the rated point (common practice).
pub const INVERTER_EFFICIENCY: f64 = 0.98;

/// Coefficients of a drive's loss, watt, against the rated torque and speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DriveLoss {
    /// Loss at the rated point, watt.
    pub rated_w: f64,
    /// Shares of what goes with power, copper, iron and drag.
    pub shares: [f64; 4],
}

/// One kind of drive on the truck, `count` times.
#[derive(Clone, Debug)]
pub struct Drive {
    /// How many of them share the work equally.
    pub count: f64,
    /// Torque without end at the motor shaft, newton metre.
    pub continuous_nm: f64,
    /// Largest torque at the motor shaft, newton metre.
    pub peak_nm: f64,
    /// Power without end at the motor shaft, watt.
    pub continuous_w: f64,
    /// Short power at the motor shaft, watt.
    pub peak_w: f64,
    /// Highest speed of the motor, radian per second.
    pub most_rad_s: f64,
    /// Motor turns for one wheel turn, in each gear, lowest gear first.
    pub ratios: Vec<f64>,
    /// Share that the axle behind the gears passes on.
    pub axle_efficiency: f64,
    /// Loss of motor, inverter and gears.
    pub loss: DriveLoss,
    /// Rotating inertia at the motor shaft, kilogram square metre.
    pub inertia_kg_m2: f64,
}

impl Drive {
    /// A drive of this motor data; `after` is the ratio of what follows its own gears (a kept axle).
    ///
    /// # Errors
    /// What is missing, in words.
    pub fn of(
        name: &str,
        motor: &Motor,
        gears: &[f64],
        after: f64,
        kept_axle: bool,
    ) -> Result<Self, String> {
        let known = |value: Option<f64>, what: &str| super::known(name, value, what);
        let more = |value: Option<f64>, what: &str| super::more_than_nothing(name, value, what);
        let continuous_w = more(motor.continuous_kw, "continuous power")? * 1e3;
        let peak_w = more(motor.peak_kw, "peak power")? * 1e3;
        let peak_nm = more(motor.peak_nm, "torque")?;
        let most_rad_s = known(motor.max_rpm, "highest speed")? * std::f64::consts::TAU / 60.0;
        let efficiency = known(motor.efficiency, "efficiency")? * INVERTER_EFFICIENCY;
        let base = (peak_w / peak_nm).min(most_rad_s);
        let mut ratios: Vec<f64> = if gears.is_empty() {
            vec![1.0]
        } else {
            gears.to_vec()
        };
        ratios.sort_by(|a, b| b.total_cmp(a));
        for ratio in &mut ratios {
            *ratio *= after;
        }
        Ok(Self {
            count: 1.0,
            continuous_nm: continuous_w / base,
            peak_nm,
            continuous_w,
            peak_w,
            most_rad_s,
            ratios,
            axle_efficiency: if kept_axle { AXLE_EFFICIENCY } else { 1.0 },
            loss: DriveLoss {
                rated_w: continuous_w * (1.0 / efficiency - 1.0),
                shares: [0.55, 0.28, 0.12, 0.05],
            },
            // A traction rotor by its torque (common practice): 0.4 g m² for each newton metre.
            inertia_kg_m2: peak_nm * 4e-4,
        })
    }

    /// Speed where peak torque and peak power meet, radian per second.
    #[must_use]
    pub fn base_rad_s(&self) -> f64 {
        (self.peak_w / self.peak_nm).min(self.most_rad_s)
    }

    /// Ratio in a gear; the last when there are not so many.
    #[must_use]
    pub fn ratio(&self, gear: usize) -> f64 {
        self.ratios
            .get(gear)
            .or(self.ratios.last())
            .copied()
            .unwrap_or(1.0)
    }

    /// Largest torque at a speed of the motor, newton metre. `peak` is the share of the short-time
    /// budget that is left; 0 above the highest speed.
    #[must_use]
    pub fn most_nm(&self, rad_s: f64, peak: f64) -> f64 {
        if rad_s > self.most_rad_s {
            return 0.0;
        }
        let peak = peak.clamp(0.0, 1.0);
        let torque = self.continuous_nm + (self.peak_nm - self.continuous_nm) * peak;
        let power = self.continuous_w + (self.peak_w - self.continuous_w) * peak;
        if rad_s * torque <= power {
            torque
        } else {
            power / rad_s
        }
    }

    /// Loss of one drive at a torque and speed of the motor, watt.
    #[must_use]
    pub fn loss_w(&self, nm: f64, rad_s: f64) -> f64 {
        let [power, copper, _, _] = self.loss.shares;
        let torque = nm / self.continuous_nm;
        let through = (nm * rad_s).abs() / self.continuous_w;
        self.loss.rated_w * (power * through + copper * torque * torque) + self.turning_w(rad_s)
    }

    /// Loss of one drive that turns without torque, watt.
    fn turning_w(&self, rad_s: f64) -> f64 {
        let [_, _, iron, drag] = self.loss.shares;
        let speed = rad_s / self.base_rad_s();
        self.loss.rated_w * (iron * speed.min(1.0) + drag * speed)
    }

    /// Torque at which the bus gives exactly this power at a speed, newton metre: the inverse of
    /// torque × speed + loss. For braking give a negative power; the answer is then the most negative
    /// torque whose power does not go below it.
    #[must_use]
    pub fn torque_for_bus_w(&self, bus_w: f64, rad_s: f64) -> f64 {
        let [power, copper, _, _] = self.loss.shares;
        let left = bus_w - self.turning_w(rad_s);
        let share = self.loss.rated_w * power / self.continuous_w;
        let slope = rad_s
            * if left >= 0.0 {
                1.0 + share
            } else {
                1.0 - share
            };
        let quadratic = self.loss.rated_w * copper / (self.continuous_nm * self.continuous_nm);
        // quadratic T² + slope T − left = 0, the root nearer to zero torque.
        let square = slope * slope + 4.0 * quadratic * left;
        if square < 0.0 {
            return -slope / (2.0 * quadratic);
        }
        (sqrt(square) - slope) / (2.0 * quadratic)
    }
}
