//! What changes from step to step, and what the driveline can do in a state.

use super::cooling::{Drawn, Temperatures};
use super::truck::Truck;
use crate::plant::SourceKind;

/// Seconds for which peak torque and peak power of drives and packs can be had (common practice).
pub(super) const PEAK_SECONDS: f64 = 30.0;
/// Pause without pull while a gear is shifted, seconds (common practice).
pub(super) const SHIFT_SECONDS: f64 = 0.6;
/// Least time between two shifts, seconds (common practice).
const BETWEEN_SHIFTS: f64 = 4.0;
/// Speed below which the motor no longer brakes, m/s (common practice: 7 km/h).
const REGENERATION_ENDS: f64 = 2.0;

/// Everything that the loop carries from step to step.
#[derive(Clone, Debug)]
pub(super) struct State {
    pub t_s: f64,
    pub x_m: f64,
    pub v_mps: f64,
    pub gear: usize,
    pub shift_left_s: f64,
    pub since_shift_s: f64,
    /// Power that spins the rotors up to a lower gear, watt, and the energy that is still to come, joule.
    pub spin_w: f64,
    pub spin_left_j: f64,
    /// Short-time budget of the drives and of the packs, 1 full to 0 spent.
    pub drive_peak: f64,
    pub pack_peak: f64,
    pub soc: f64,
    pub heat: Temperatures,
    /// What fans, chiller and heater drew in the last step.
    pub drawn: Drawn,
    /// Most power that a plug gives while it stands, watt.
    pub plug_w: f64,
    /// Share of the drives' power that cooling allows.
    pub drive_cooling: f64,
    /// Source: electric power now; seconds that it has run; running or not.
    pub source_w: f64,
    pub source_ran_s: f64,
    pub source_on: bool,
    /// Fading averages of the bus power, watt; the source follows the first.
    pub bus_average_w: [f64; 3],
    /// Height above the sea, metre.
    pub altitude_m: f64,
    pub fuel_j: f64,
    /// Share of the source's power that cooling allows.
    pub source_cooling: f64,
}

/// What the driveline can do at one speed: forces at the wheels, newton.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reach {
    /// Most pull.
    pub pull_n: f64,
    /// Most braking by the motor, negative.
    pub brake_n: f64,
}

impl Reach {
    /// With this share of it left by heat.
    pub fn cooled(self, share: f64) -> Self {
        Self {
            pull_n: self.pull_n * share,
            brake_n: self.brake_n * share,
        }
    }
}

impl Truck {
    /// Motor speed at a road speed in a gear, radian per second.
    pub(super) fn motor_rad_s(&self, v_mps: f64, gear: usize) -> f64 {
        v_mps / self.radius_m * self.drive.ratio(gear)
    }

    /// Force at the wheels for a torque of each motor, newton: pulling loses in the axle, braking too.
    pub(super) fn wheel_n(&self, nm: f64, gear: usize) -> f64 {
        let efficiency = self.drive.axle_efficiency;
        let through = if nm >= 0.0 {
            efficiency
        } else {
            1.0 / efficiency
        };
        self.drive.count * nm * self.drive.ratio(gear) * through / self.radius_m
    }

    /// Torque of each motor for a force at the wheels, newton metre.
    pub(super) fn motor_nm(&self, wheel_n: f64, gear: usize) -> f64 {
        let efficiency = self.drive.axle_efficiency;
        let through = if wheel_n >= 0.0 {
            1.0 / efficiency
        } else {
            efficiency
        };
        wheel_n * self.radius_m / (self.drive.ratio(gear) * self.drive.count) * through
    }

    /// Bus power of all drives for a force at the wheels, watt, and the loss in them.
    pub(super) fn bus_w(&self, wheel_n: f64, v_mps: f64, gear: usize) -> (f64, f64) {
        let nm = self.motor_nm(wheel_n, gear);
        let rad_s = self.motor_rad_s(v_mps, gear);
        let loss = self.drive.loss_w(nm, rad_s) * self.drive.count;
        (nm * rad_s * self.drive.count + loss, loss)
    }

    /// What can be reached at a speed in a gear with this much bus power to give and to take, watt.
    pub(super) fn reach(
        &self,
        v_mps: f64,
        gear: usize,
        peak: f64,
        give_w: f64,
        take_w: f64,
    ) -> Reach {
        let rad_s = self.motor_rad_s(v_mps, gear);
        let most = self.drive.most_nm(rad_s, peak);
        let grip = self.grip_n();
        let each = self.drive.count;
        let by_bus = self.drive.torque_for_bus_w(give_w.max(0.0) / each, rad_s);
        let pull_n = self.wheel_n(most.min(by_bus).max(0.0), gear).min(grip);
        let fade = ((v_mps - REGENERATION_ENDS) / REGENERATION_ENDS).clamp(0.0, 1.0);
        let back = self.drive.torque_for_bus_w(-take_w.max(0.0) / each, rad_s);
        let brake_n = self
            .wheel_n((-most * fade).max(back).min(0.0), gear)
            .max(-grip);
        Reach { pull_n, brake_n }
    }

    /// The gear that a driver would take: the highest that still pulls what is wanted with a tenth to
    /// spare, not above nine tenths of the motor's speed, and kept for a while.
    pub(super) fn gear_for(&self, state: &State, wanted_n: f64, give_w: f64) -> usize {
        let gears = self.drive.ratios.len();
        if gears < 2 || state.since_shift_s < BETWEEN_SHIFTS {
            return state.gear;
        }
        let pull = |gear: usize| {
            self.reach(state.v_mps, gear, state.drive_peak, give_w, 0.0)
                .pull_n
        };
        let turns = |gear: usize| self.motor_rad_s(state.v_mps, gear) / self.drive.most_rad_s;
        let now = state.gear;
        let up = now + 1;
        if turns(now) > 0.92 && up < gears {
            return up;
        }
        // Upward when the next gear pulls it too and turns fast enough to be efficient.
        if up < gears && turns(up) > 0.25 && pull(up) > wanted_n.max(0.0) * 1.1 {
            return up;
        }
        let down = now.saturating_sub(1);
        let short = pull(now) < wanted_n && pull(down) > pull(now) * 1.02;
        let slow = turns(now) < 0.15;
        if now > 0 && turns(down) < 0.85 && (short || slow) {
            return down;
        }
        now
    }

    /// Starting gear: the lowest.
    pub(super) const fn starting_gear() -> usize {
        0
    }
}

impl State {
    /// Moves the short-time budgets: spent by what is above the continuous rating, given back below.
    pub(super) fn spend_peaks(&mut self, truck: &Truck, nm: f64, rad_s: f64, pack_w: f64, dt: f64) {
        let drive = &truck.drive;
        let lasting = if rad_s * drive.continuous_nm <= drive.continuous_w {
            drive.continuous_nm
        } else {
            drive.continuous_w / rad_s
        };
        let top = drive.most_nm(rad_s, 1.0).max(lasting * 1.000_1);
        // Heat goes with torque squared.
        let heat = (nm * nm - lasting * lasting) / (top * top - lasting * lasting);
        self.drive_peak =
            (self.drive_peak - heat.clamp(-1.0, 1.0) * dt / PEAK_SECONDS).clamp(0.0, 1.0);
        let bank = &truck.bank;
        let span = (bank.peak_w - bank.continuous_w).max(1.0);
        let over = (pack_w - bank.continuous_w) / span;
        self.pack_peak =
            (self.pack_peak - over.clamp(-1.0, 1.0) * dt / PEAK_SECONDS).clamp(0.0, 1.0);
    }

    /// Moves the source towards a power: warm-up, ramp, least load, no more than its limits.
    pub(super) fn run_source(&mut self, truck: &Truck, wanted_w: f64, on: bool, dt: f64) {
        let Some(source) = &truck.source else {
            return;
        };
        if !on || self.fuel_j <= 0.0 {
            self.source_on = false;
            self.source_ran_s = 0.0;
            self.source_w = 0.0;
            return;
        }
        self.source_on = true;
        self.source_ran_s += dt;
        let warm = (self.source_ran_s / source.warm_up_s).min(1.0);
        let most = source.lasting_w(self.altitude_m) * warm * self.source_cooling;
        let least = source.least_share * source.continuous_w * warm;
        let aim = wanted_w.clamp(least.min(most), most);
        let step = source.ramp_per_s * source.continuous_w * dt;
        // An engine can shed its load at once; a cell is held to its ramp downward too.
        let down = match source.kind {
            SourceKind::Engine => f64::INFINITY,
            SourceKind::Cell => step * 4.0,
        };
        self.source_w += (aim - self.source_w).clamp(-down, step);
        self.source_w = self.source_w.clamp(0.0, most.max(0.0));
    }
}
