//! What runs beside the drive: the source, heat, and the air by height.

use super::Loop;
use crate::energy::outcome::Strategy;
use crate::plant::Circuit;

/// The air's density is worked out again after this change of height, metre: a ten-thousandth of it.
const AIR_STEP_M: f64 = 1.0;

impl Loop<'_> {
    /// Temperatures, and what they leave of the power.
    pub(super) fn warm(
        &mut self,
        source_heat_w: f64,
        drive_heat_w: f64,
        pack_heat_w: f64,
        v: f64,
        dt: f64,
    ) {
        let Ok(cooling) = &self.truck.cooling else {
            return;
        };
        let state = &mut self.state;
        state.drawn = cooling.step(
            &mut state.heat,
            source_heat_w,
            drive_heat_w,
            pack_heat_w,
            v,
            self.route.weather.temperature_c,
            self.air_kg_m3,
            dt,
        );
        let allowed = |circuit: &Circuit, c: f64| circuit.allowed(c);
        state.source_cooling = cooling
            .source
            .as_ref()
            .map_or(1.0, |circuit| allowed(circuit, state.heat.source_c));
        state.drive_cooling = allowed(&cooling.drive, state.heat.drive_c);
        let run = &mut self.run;
        run.source_hot_s += if state.source_cooling < 1.0 { dt } else { 0.0 };
        run.source_least = run.source_least.min(state.source_cooling);
        run.drive_hot_s += if state.drive_cooling < 1.0 { dt } else { 0.0 };
        run.source_most_c = run.source_most_c.max(state.heat.source_c);
        run.drive_most_c = run.drive_most_c.max(state.heat.drive_c);
        run.pack_most_c = run.pack_most_c.max(state.heat.pack_c);
        run.pack_least_c = run.pack_least_c.min(state.heat.pack_c);
    }

    /// What the source is to do in this step. Both ways have hysteresis: it starts at one level and stops
    /// at another, and not before its shortest run.
    pub(super) fn plan_source(&mut self, dt: f64) {
        let Some(source) = &self.truck.source else {
            return;
        };
        let state = &mut self.state;
        let may_stop = state.source_ran_s >= source.least_run_s;
        let (on, wanted_w) = match self.conditions.strategy {
            Strategy::Off => (false, 0.0),
            Strategy::Switch { start, stop } => {
                let on = if state.source_on {
                    state.soc < stop || !may_stop
                } else {
                    state.soc < start
                };
                (on, source.continuous_w)
            }
            Strategy::Follow { hold } => {
                // The charge that is missing is to come back within half an hour.
                let missing_w = (hold - state.soc) * self.truck.bank.energy_j / 1_800.0;
                let [average, ..] = state.bus_average_w;
                let wanted = average + missing_w;
                let least = source.least_share * source.continuous_w;
                let on = if state.source_on {
                    !may_stop || wanted > 0.5 * least
                } else {
                    wanted > least && state.soc < hold + 0.05
                };
                (on, wanted)
            }
        };
        // Nobody runs it at a plug.
        let on = on && state.plug_w <= 0.0;
        let before = state.source_on;
        state.run_source(self.truck, wanted_w, on, dt);
        if state.source_on {
            self.run.source_starts += u32::from(!before);
            let share = source.air_share(state.altitude_m);
            self.run.source_air_least = self.run.source_air_least.min(share);
        }
    }

    /// Goes up by this, metre: the air gets thinner.
    pub(super) fn climb(&mut self, up_m: f64) {
        self.state.altitude_m += up_m;
        self.run.highest_m = self.run.highest_m.max(self.state.altitude_m);
        if (self.state.altitude_m - self.air_at_m).abs() > AIR_STEP_M {
            self.air_at_m = self.state.altitude_m;
            let weather = &self.route.weather;
            self.air_kg_m3 = weather.air_above_kg_m3(self.air_at_m - weather.altitude_m);
        }
    }
}
