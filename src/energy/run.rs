//! The time loop.

mod plant;
mod stops;

use super::cooling::{Drawn, Temperatures};
use super::course::Course as Kept;
use super::driver::Wanted;
use super::outcome::{AVERAGE_SECONDS, Conditions, End, Run, Sample};
use super::state::{Reach, SHIFT_SECONDS, State};
use super::truck::Truck;
use crate::route::{Course, Route};
use stops::Standing;

/// Most steps of a run: a day of driving at a tenth of a second and more.
const MOST_STEPS: usize = 20_000_000;
/// A truck that cannot move for this long is stranded, seconds.
const STUCK_SECONDS: f64 = 60.0;

struct Loop<'a> {
    truck: &'a Truck,
    /// The truck as it leaves each stop, where a stop changes its load.
    laden: &'a [Truck],
    route: &'a Route,
    conditions: &'a Conditions,
    air_kg_m3: f64,
    state: State,
    run: Run,
    /// Height above the sea for which the air's density was worked out, metre.
    air_at_m: f64,
    stuck_s: f64,
    /// Speed that may be driven where the step begins, whether it can be reached or not.
    wish_mps: f64,
    kept: Kept,
    /// The stop at which it stands, if it does.
    standing: Option<Standing>,
}

/// Drives the route. `go_on` is asked now and then, with the share of the way that is done, and may
/// stop it.
#[must_use]
pub fn run(
    truck: &Truck,
    route: &Route,
    conditions: &Conditions,
    go_on: &mut dyn FnMut(f64) -> bool,
) -> Run {
    let laden = stops::laden(truck, route);
    let mut work = Loop::new(truck, &laden, route, conditions);
    let wanted = Wanted::of(route, &conditions.driver);
    let mut stop = 0;
    let end = loop {
        if work.run.steps >= MOST_STEPS {
            break stranded("the run takes more steps than are allowed");
        }
        if work.run.steps.is_multiple_of(4_096) {
            let done = work.done(wanted.as_ref());
            if !go_on(done) {
                break End::Cancelled;
            }
        }
        let dt = conditions.step_s;
        let outcome = match (&wanted, &route.course) {
            (Some(wanted), _) => work.along_a_road(wanted, &mut stop, dt),
            (None, Course::Trace { step_s, speeds_mps }) => {
                work.along_a_trace(speeds_mps, *step_s, dt)
            }
            (None, Course::Road { .. }) => Some(End::Finished),
        };
        if let Some(end) = outcome {
            break end;
        }
        if work.stuck_s > STUCK_SECONDS {
            break stranded(work.why_stuck());
        }
    };
    work.finish(end)
}

fn stranded(why: impl Into<String>) -> End {
    End::Stranded { why: why.into() }
}

impl<'a> Loop<'a> {
    fn new(
        truck: &'a Truck,
        laden: &'a [Truck],
        route: &'a Route,
        conditions: &'a Conditions,
    ) -> Self {
        let soc = conditions.soc.unwrap_or(truck.bank.soc_high);
        let state = State {
            t_s: 0.0,
            x_m: 0.0,
            v_mps: conditions.speed_mps,
            gear: Truck::starting_gear(),
            shift_left_s: 0.0,
            since_shift_s: f64::INFINITY,
            spin_w: 0.0,
            spin_left_j: 0.0,
            drive_peak: 1.0,
            pack_peak: 1.0,
            soc,
            heat: Temperatures {
                source_c: route.weather.temperature_c,
                drive_c: route.weather.temperature_c,
                pack_c: conditions.pack_c,
            },
            drawn: Drawn::default(),
            plug_w: 0.0,
            drive_cooling: 1.0,
            source_w: 0.0,
            source_ran_s: 0.0,
            source_on: false,
            bus_average_w: [0.0; 3],
            altitude_m: route.weather.altitude_m,
            fuel_j: truck.fuel_j,
            source_cooling: 1.0,
        };
        let mut this = Self {
            truck,
            laden,
            route,
            conditions,
            air_kg_m3: route.weather.air_kg_m3(),
            state,
            run: Run::at_start(
                route.length_m(),
                soc,
                route.weather.temperature_c,
                conditions.pack_c,
                route.weather.altitude_m,
            ),
            air_at_m: route.weather.altitude_m,
            stuck_s: 0.0,
            wish_mps: 0.0,
            kept: Kept::new(),
            standing: None,
        };
        // A truck that begins at speed begins in the gear for it.
        while this.state.gear + 1 < truck.drive.ratios.len()
            && truck.motor_rad_s(conditions.speed_mps, this.state.gear)
                > 0.85 * truck.drive.most_rad_s
        {
            this.state.gear += 1;
        }
        this
    }

    fn done(&self, wanted: Option<&Wanted>) -> f64 {
        match (wanted, &self.route.course) {
            (None, Course::Trace { step_s, speeds_mps }) => {
                self.state.t_s / (step_s * speeds_mps.len() as f64).max(1.0)
            }
            _ => self.state.x_m / self.run.route_m.max(1.0),
        }
    }

    fn along_a_road(&mut self, wanted: &Wanted, stop: &mut usize, dt: f64) -> Option<End> {
        if let Some(standing) = self.standing.take() {
            return self.stand(standing);
        }
        let left = wanted.length_m() - self.state.x_m;
        let halt = wanted.stop_after(*stop);
        if let Some((at, dwell)) = halt {
            let ahead = at - self.state.x_m;
            if ahead <= 0.0 || (self.state.v_mps < 0.05 && ahead < 0.5) {
                self.halt(*stop, dwell);
                *stop += 1;
                return None;
            }
        }
        if left < 0.05 {
            return Some(End::Finished);
        }
        let ahead = halt.map_or(f64::INFINITY, |(at, _)| at - self.state.x_m);
        let v = self.state.v_mps;
        self.wish_mps = wanted.at(self.state.x_m);
        // The last step before a stop lands on it.
        if v > 0.05 && v * dt * 1.5 >= ahead {
            self.step(0.0, 2.0 * ahead / v);
            self.state.v_mps = 0.0;
            return None;
        }
        let driver = &self.conditions.driver;
        // Aimed at where the step ends, so that braking is neither late nor early.
        let guess = wanted.at(self.state.x_m + v * dt);
        let reached =
            wanted.at(self.state.x_m + 0.5 * (v + guess.min(v + driver.accelerate * dt)) * dt);
        let aim = reached.min(v + driver.accelerate * dt);
        let dt = if v > 0.05 && v * dt > left {
            left / v
        } else {
            dt
        };
        self.step(aim, dt);
        let now = wanted.at(self.state.x_m);
        self.note_slowness(now, dt);
        self.out_of_charge()
    }

    fn along_a_trace(&mut self, speeds: &[f64], step_s: f64, dt: f64) -> Option<End> {
        let last = step_s * speeds.len().saturating_sub(1) as f64;
        let left = last - self.state.t_s;
        if left < 1e-9 {
            return Some(End::Finished);
        }
        // Steps end where the trace bends.
        let into = self.state.t_s / step_s;
        let bend = ((into + 1e-9).floor() + 1.0) * step_s - self.state.t_s;
        let dt = dt.min(bend).min(left);
        let aim = trace_at(speeds, (self.state.t_s + dt) / step_s);
        self.wish_mps = aim;
        self.step(aim, dt);
        self.note_slowness(aim, dt);
        self.out_of_charge()
    }

    fn note_slowness(&mut self, wanted: f64, dt: f64) {
        let v = self.state.v_mps;
        if v < 0.05 && wanted > 0.05 {
            self.stuck_s += dt;
        } else {
            self.stuck_s = 0.0;
        }
    }

    fn out_of_charge(&self) -> Option<End> {
        let empty = self.state.soc <= 0.0;
        empty.then(|| stranded("the packs are empty"))
    }

    fn why_stuck(&self) -> String {
        let grade = 100.0 * self.route.profile.at(self.state.x_m);
        let spent = self
            .truck
            .bank
            .most_discharge_w(self.state.heat.pack_c, self.state.soc, 1.0)
            < 1_000.0;
        if spent && self.state.source_w < 1_000.0 {
            "the packs are at the end of their window".to_owned()
        } else {
            format!("it cannot start on a grade of {grade:.1} %")
        }
    }

    /// One step towards a speed.
    #[expect(
        clippy::too_many_lines,
        reason = "one balance, read from top to bottom"
    )]
    fn step(&mut self, aim_mps: f64, dt: f64) {
        let truck = self.truck;
        let (v0, x0) = (self.state.v_mps, self.state.x_m);
        let weather = &self.route.weather;
        let drawn = self.state.drawn;
        let accessories = truck.accessories.driving_w
            + truck.accessories.climate_w
            + drawn.fans_w
            + drawn.heater_w;
        self.plan_source(dt);
        let give = truck.bank.most_discharge_w(
            self.state.heat.pack_c,
            self.state.soc,
            (self.state.pack_peak / 0.1).min(1.0),
        );
        let charge = truck
            .bank
            .most_charge_w(self.state.heat.pack_c, self.state.soc);
        let give_w = give + self.state.source_w - accessories;
        let take_w = charge + truck.resistor_w + accessories;
        let peak = (self.state.drive_peak / 0.1).min(1.0);
        let cooled = self.state.drive_cooling;
        let forces_at = |v1: f64, dt: f64| {
            let v = 0.5 * (v0 + v1);
            let grade = self.route.profile.at(x0 + 0.5 * v * dt);
            truck
                .resistance
                .forces(v, grade, self.air_kg_m3, weather.headwind_mps)
        };

        // Gear, and what a shift does to the rotors.
        let middle = 0.5 * (v0 + aim_mps);
        let wanted_n = truck.inertia_kg(self.state.gear) * (aim_mps - v0) / dt
            + forces_at(aim_mps, dt).sum_n();
        let gear = truck.gear_for(&self.state, wanted_n, give_w);
        if gear != self.state.gear {
            let change = 0.5 * (truck.rotor_kg(gear) - truck.rotor_kg(self.state.gear)) * v0 * v0;
            if change > 0.0 {
                // Over the pause without pull, not in one step: the packs' current would follow from the
                // step and not from the truck.
                self.state.spin_w = change / SHIFT_SECONDS;
                self.state.spin_left_j = change;
            } else {
                self.run.ledger.motion_j += change;
                self.run.ledger.shift_j -= change;
            }
            self.state.gear = gear;
            self.state.shift_left_s = SHIFT_SECONDS;
            self.state.since_shift_s = 0.0;
            self.run.shifts += 1;
        }
        let inertia = truck.inertia_kg(gear);
        let shifting = self.state.shift_left_s > 0.0;

        // How fast the step ends: as wanted, or as fast as what can be reached allows.
        let mut v1 = aim_mps;
        let mut dt = dt;
        let needed = inertia * (v1 - v0) / dt + forces_at(v1, dt).sum_n();
        let reach = |v: f64| {
            if shifting {
                Reach {
                    pull_n: 0.0,
                    brake_n: 0.0,
                }
            } else {
                truck.reach(v, gear, peak, give_w, take_w).cooled(cooled)
            }
        };
        let mut reached = reach(middle);
        let short = needed > reached.pull_n + 1e-9 * needed.abs();
        if short {
            for _ in 0..4 {
                reached = reach(0.5 * (v0 + v1));
                v1 = v0 + dt / inertia * (reached.pull_n - forces_at(v1, dt).sum_n());
                v1 = v1.min(aim_mps);
            }
            if v1 < 0.0 {
                // It comes to a stand within the step.
                dt = if v0 > 0.0 {
                    (dt * v0 / (v0 - v1)).max(1e-6)
                } else {
                    dt
                };
                v1 = 0.0;
            }
            self.run.short_s += if shifting { 0.0 } else { dt };
            if !shifting && reached.pull_n >= truck.grip_n() * (1.0 - 1e-9) {
                self.run.grip_short_s += dt;
            }
        }
        let v = 0.5 * (v0 + v1);
        let forces = forces_at(v1, dt);
        let standing = v0 <= 0.0 && v1 <= 0.0;
        let total = if standing {
            0.0
        } else {
            inertia * (v1 - v0) / dt + forces.sum_n()
        };
        let motor_n = if shifting || standing {
            0.0
        } else {
            total.max(reached.brake_n)
        };
        // A shift on the pull coasts; what force it would still have taken is below rounding.
        let friction_n = total - motor_n;
        let (bus_w, loss_w) = if standing {
            (0.0, 0.0)
        } else {
            truck.bus_w(motor_n, v, gear)
        };
        let mechanical_w = bus_w - loss_w;

        let spin_up_j = (self.state.spin_w * dt).min(self.state.spin_left_j);
        self.state.spin_left_j -= spin_up_j;
        let spin_up_w = spin_up_j / dt;

        // The bus.
        let mut source_w = self.state.source_w;
        let mut resistor_w = 0.0;
        let mut pack_w = bus_w + accessories + spin_up_w - source_w;
        // A plug gives what the truck needs and what the packs take.
        let plug_w = self.state.plug_w.min(pack_w + charge).max(0.0);
        pack_w -= plug_w;
        if pack_w < -charge {
            resistor_w = (-charge - pack_w).min(truck.resistor_w);
            pack_w += resistor_w;
            let cut = (-charge - pack_w).clamp(0.0, source_w);
            source_w -= cut;
            pack_w += cut;
        }
        self.state.source_w = source_w;
        let half = truck
            .bank
            .draw(pack_w, self.state.heat.pack_c, self.state.soc)
            .amps
            * 0.5
            * dt
            / truck.bank.charge_c();
        let draw = truck
            .bank
            .draw(pack_w, self.state.heat.pack_c, self.state.soc - half);
        let soc0 = self.state.soc;
        let soc1 = (soc0 - draw.amps * dt / truck.bank.charge_c()).clamp(0.0, 1.0);
        let cells_j = truck.bank.energy_to_j(soc0) - truck.bank.energy_to_j(soc1);

        let fuel_j = truck
            .source
            .as_ref()
            .filter(|_| self.state.source_on)
            .map_or(0.0, |s| s.fuel_w(source_w) * dt);
        self.state.fuel_j = (self.state.fuel_j - fuel_j).max(0.0);
        let way = v * dt;
        let ledger = &mut self.run.ledger;
        ledger.cells_j += cells_j;
        ledger.source_j += source_w * dt;
        ledger.plug_j += plug_w * dt;
        ledger.pack_heat_j += cells_j - pack_w * dt;
        ledger.drive_loss_j += loss_w * dt;
        ledger.axle_loss_j += mechanical_w * dt - motor_n * way;
        ledger.rolling_j += if standing {
            0.0
        } else {
            forces.rolling_n * way
        };
        ledger.air_j += if standing { 0.0 } else { forces.air_n * way };
        ledger.climb_j += if standing { 0.0 } else { forces.slope_n * way };
        ledger.motion_j += 0.5 * inertia * (v1 * v1 - v0 * v0) + spin_up_j;
        ledger.brakes_j -= friction_n * way;
        ledger.accessories_j += accessories * dt;
        ledger.resistor_j += resistor_w * dt;
        ledger.fuel_j += fuel_j;
        ledger.wheel_out_j += motor_n.max(0.0) * way;
        ledger.wheel_back_j -= motor_n.min(0.0) * way;

        let source_heat_w = truck
            .source
            .as_ref()
            .filter(|_| self.state.source_on)
            .map_or(0.0, |s| s.heat_w(source_w));
        self.warm(source_heat_w, loss_w, (cells_j - pack_w * dt) / dt, v, dt);
        let nm = truck.motor_nm(motor_n, gear);
        let rad_s = truck.motor_rad_s(v, gear);
        self.state.spend_peaks(truck, nm, rad_s, pack_w, dt);
        self.state.t_s += dt;
        self.state.x_m += way;
        self.state.v_mps = v1;
        self.state.soc = soc1;
        self.state.shift_left_s = (self.state.shift_left_s - dt).max(0.0);
        self.state.since_shift_s += dt;
        let need_w = bus_w + accessories;
        for (average, seconds) in self.state.bus_average_w.iter_mut().zip(AVERAGE_SECONDS) {
            *average += (need_w - *average) * (dt / seconds).min(1.0);
        }
        let grade = self.route.profile.at(self.state.x_m);
        self.climb(grade * way);
        let run = &mut self.run;
        run.steps += 1;
        run.soc_least = run.soc_least.min(soc1);
        if soc1 <= truck.bank.soc_low_at(self.state.heat.pack_c) + 0.02 && run.run_down.is_none() {
            run.run_down = Some((self.state.x_m, self.state.t_s));
        }
        run.climate_j += truck.accessories.climate_w * dt;
        run.heater_j += drawn.heater_w * dt;
        run.fans_j += drawn.fans_w * dt;
        run.grip_most = run.grip_most.max(motor_n.abs() / truck.grip_n().max(1.0));
        run.pack_most_w = run.pack_most_w.max(pack_w);
        run.motor_most_w = run.motor_most_w.max(mechanical_w);
        for (most, now) in run.averages.iter_mut().zip(self.state.bus_average_w) {
            most.1 = most.1.max(now);
        }
        note_peak(&mut run.drive_peak, self.state.drive_peak, dt);
        note_peak(&mut run.pack_peak, self.state.pack_peak, dt);
        if self.state.source_on {
            run.source_s += dt;
        }
        if short
            && !shifting
            && v0 > 1.0
            && v1 < v0
            && run.slowest.is_none_or(|(slow, _)| v1 < slow)
        {
            run.slowest = Some((v1, self.state.x_m));
        }
        self.kept.keep(Sample {
            t_s: self.state.t_s,
            x_m: self.state.x_m,
            v_mps: v1,
            wanted_mps: self.wish_mps,
            grade,
            soc: soc1,
            wheel_w: motor_n * v,
            pack_w,
            source_w,
            gear: gear + 1,
            source_c: self.state.heat.source_c,
            drive_w: bus_w + spin_up_w,
            accessories_w: accessories,
            resistor_w,
            brakes_w: -friction_n * v,
            source_heat_w,
            drive_heat_w: loss_w,
            drive_c: self.state.heat.drive_c,
            pack_c: self.state.heat.pack_c,
            altitude_m: self.state.altitude_m,
            plug_w,
        });
    }

    fn finish(mut self, end: End) -> Run {
        self.run.end = end;
        self.run.distance_m = self.state.x_m;
        self.run.time_s = self.state.t_s;
        self.run.soc_end = self.state.soc;
        self.run.samples = self.kept.samples();
        self.run.pack_end_c = self.state.heat.pack_c;
        self.run
    }
}

/// Keeps the least that was left of a short-time budget, and the time in which it was spent.
fn note_peak(noted: &mut (f64, f64), left: f64, dt: f64) {
    noted.0 = noted.0.min(left);
    if left < 1e-3 {
        noted.1 += dt;
    }
}

/// Speed of a trace at a place between its values.
fn trace_at(speeds: &[f64], index: f64) -> f64 {
    let below = index.max(0.0).floor();
    let at = below as usize;
    let a = speeds.get(at).or(speeds.last()).copied().unwrap_or(0.0);
    let b = speeds.get(at + 1).copied().unwrap_or(a);
    a + (b - a) * (index - below)
}
