//! Ranges of a part.

use super::{Family, Part};
use crate::source::{Checker, Problems};

impl Family {
    /// Checks every part of the file.
    ///
    /// # Errors
    /// All problems at once.
    pub fn check(&self, file: &str) -> Result<(), Problems> {
        let mut c = Checker::new(file);
        if self.format != 1 {
            c.problem("format", self.format, "is not a known parts format", "1");
        }
        c.text("family", &self.family, 80);
        c.count("part", self.parts.len(), 500);
        c.each("part", &self.parts, |c, part| part.check_under(c));
        c.unique("part", self.parts.iter().map(|p| p.id.as_str()));
        c.done()
    }
}

impl Part {
    /// Checks the numbers of one part.
    pub(crate) fn check_under(&self, c: &mut Checker) {
        c.id("id", &self.id);
        c.text("name", &self.name, 120);
        c.range("mass_kg", self.mass_kg, 0.0, 20_000.0);
        c.range("mass_sigma_kg", self.mass_sigma_kg, 0.0, 10_000.0);
        if let Some(cg) = &self.cg {
            c.under("cg", |c| cg.check(c));
        }
        c.count("envelope", self.envelope.len(), 20);
        c.each("envelope", &self.envelope, |c, shape| shape.check(c));
        if self.envelope.is_empty() && !self.soft {
            c.problem("envelope", "", "is empty", "at least one box or cylinder");
        }
        c.under("clearance", |c| {
            let s = &self.clearance;
            c.range("all_mm", s.all_mm, 0.0, 2_000.0);
            for (name, value) in [
                ("front_mm", s.front_mm),
                ("rear_mm", s.rear_mm),
                ("left_mm", s.left_mm),
                ("right_mm", s.right_mm),
                ("top_mm", s.top_mm),
                ("bottom_mm", s.bottom_mm),
            ] {
                c.range_if(name, value, 0.0, 2_000.0);
            }
        });
        c.count("keep_away", self.keep_away.len(), 40);
        c.each("keep_away", &self.keep_away, |c, rule| {
            c.range("mm", rule.mm, 0.0, 5_000.0);
            c.text("why", &rule.why, 200);
        });
        c.text("mounting", &self.mounting, 400);
        if let Some(mounts) = &self.mounts {
            c.under("mounts", |c| {
                c.count("rows_mm", mounts.rows_mm.len(), 20);
                for (index, x) in mounts.rows_mm.iter().enumerate() {
                    c.range(&format!("rows_mm[{index}]"), *x, -5_000.0, 20_000.0);
                }
                c.range_if("rating_n", mounts.rating_n, 1.0, 10_000_000.0);
            });
        }
        self.check_behaviour(c);
    }

    fn check_behaviour(&self, c: &mut Checker) {
        if let Some(contents) = &self.contents {
            c.under("contents", |c| {
                c.range("full_kg", contents.full_kg, 0.0, 5_000.0);
                c.range_if("usable", contents.usable, 0.0, 1.0);
                c.range_if("water_l", contents.water_l, 0.0, 20_000.0);
                c.range_if("pressure_mpa", contents.pressure_mpa, 0.0, 110.0);
            });
        }
        if let Some(b) = &self.battery {
            c.under("battery", |c| {
                c.range_if("energy_kwh", b.energy_kwh, 0.0, 5_000.0);
                c.range_if("nominal_v", b.nominal_v, 12.0, 1_500.0);
                c.range_if("continuous_kw", b.continuous_kw, 0.0, 10_000.0);
                c.range_if("peak_kw", b.peak_kw, 0.0, 10_000.0);
                c.range_if("charge_kw", b.charge_kw, 0.0, 10_000.0);
                c.range_if("soc_low", b.soc_low, 0.0, 1.0);
                c.range_if(
                    "soc_high",
                    b.soc_high,
                    b.soc_low.unwrap_or(0.0).clamp(0.0, 1.0),
                    1.0,
                );
                c.range_if("cycle_life", b.cycle_life, 1.0, 1e6);
            });
        }
        if let Some(m) = &self.motor {
            c.under("motor", |c| {
                c.range_if("continuous_kw", m.continuous_kw, 0.0, 5_000.0);
                c.range_if("peak_kw", m.peak_kw, 0.0, 5_000.0);
                c.range_if("peak_nm", m.peak_nm, 0.0, 50_000.0);
                c.range_if("max_rpm", m.max_rpm, 1.0, 50_000.0);
                c.count("ratios", m.ratios.len(), 24);
                for ratio in &m.ratios {
                    c.range("ratios", *ratio, 0.1, 500.0);
                }
                c.range_if("efficiency", m.efficiency, 0.01, 1.0);
                c.range_if("nominal_v", m.nominal_v, 12.0, 1_500.0);
            });
        }
        if let Some(a) = &self.axle {
            c.under("axle", |c| {
                c.range_if("rating_kg", a.rating_kg, 100.0, 40_000.0);
                c.range_if("flange_width_mm", a.flange_width_mm, 100.0, 3_000.0);
            });
        }
        if let Some(s) = &self.shaft {
            c.under("shaft", |c| s.check(c));
        }
        if let Some(port) = &self.output {
            for value in port.at_mm {
                c.range("output.at_mm", value, -10_000.0, 10_000.0);
            }
        }
        self.check_electrics(c);
    }

    fn check_electrics(&self, c: &mut Checker) {
        if let Some(s) = &self.power_source {
            c.under("power_source", |c| {
                c.range_if("continuous_kw", s.continuous_kw, 0.0, 5_000.0);
                c.range_if("efficiency", s.efficiency, 0.01, 1.0);
                c.range_if("efficiency_half", s.efficiency_half, 0.01, 1.0);
                c.range_if("heat_coolant_kw", s.heat_coolant_kw, 0.0, 5_000.0);
                c.range_if("heat_exhaust_kw", s.heat_exhaust_kw, 0.0, 5_000.0);
                c.range_if("coolant_out_c", s.coolant_out_c, 0.0, 150.0);
                c.range_if("warm_up_s", s.warm_up_s, 0.0, 3_600.0);
                c.range_if("least_run_s", s.least_run_s, 0.0, 36_000.0);
                c.range_if("ramp_share_s", s.ramp_share_s, 1e-4, 10.0);
                c.range_if("least_share", s.least_share, 0.0, 1.0);
                c.range_if("ageing_share", s.ageing_share, 0.0, 0.9);
                c.range_if("full_to_m", s.full_to_m, -500.0, 9_000.0);
                c.range_if("loss_per_km", s.loss_per_km, 0.0, 1.0);
            });
        }
        if let Some(v) = &self.converter {
            c.under("converter", |c| {
                c.range_if("continuous_kw", v.continuous_kw, 0.0, 5_000.0);
                c.range_if("peak_kw", v.peak_kw, 0.0, 5_000.0);
                c.range_if("nominal_v", v.nominal_v, 12.0, 1_500.0);
                c.range_if("low_v", v.low_v, 5.0, 1_500.0);
            });
        }
        if let Some(charger) = &self.charger {
            c.range_if("charger.ac_kw", charger.ac_kw, 0.0, 500.0);
        }
        if let Some(inlet) = &self.inlet {
            c.range_if("inlet.max_a", inlet.max_a, 0.0, 5_000.0);
            c.range_if("inlet.max_v", inlet.max_v, 0.0, 2_000.0);
        }
        if let Some(cooler) = &self.cooler {
            c.range_if("cooler.heat_kw_at_40c", cooler.heat_kw_at_40c, 0.0, 2_000.0);
            c.range_if("cooler.coolant_c", cooler.coolant_c, 41.0, 130.0);
            c.range_if("cooler.fan_kw", cooler.fan_kw, 0.0, 200.0);
            c.range_if("cooler.face_m2", cooler.face_m2, 0.0, 20.0);
        }
        if let Some(load) = &self.load {
            c.range_if("load.air_kw", load.air_kw, 0.0, 200.0);
            c.range_if("load.steer_kw", load.steer_kw, 0.0, 200.0);
            c.range_if("load.climate_kw", load.climate_kw, 0.0, 200.0);
            c.range_if("load.other_kw", load.other_kw, 0.0, 1_000.0);
            c.range_if("load.brake_kw", load.brake_kw, 0.0, 1_000.0);
        }
        if let Some(hot) = &self.hot {
            c.range_if("hot.surface_c", hot.surface_c, -50.0, 1_500.0);
        }
    }
}
