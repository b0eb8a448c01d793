//! Charging at the end of the day, in words and as data.

use crate::assessment::Plugged;
use crate::energy::{Charge, OUTLETS, PLUGS};
use crate::quantity::{Measure, Units};
use crate::report::NOTICE;
use crate::source::Known;
use serde::Serialize;
use std::fmt::Write as _;

/// A charge as data.
#[derive(Debug, Serialize)]
pub struct ChargeReport {
    /// Plug and inlet.
    pub by: String,
    /// Mark of the inlet or charger.
    pub inlet: String,
    /// Most power at the packs, watt.
    pub most_w: f64,
    /// From the end of the day to full.
    pub night: Charge,
    /// From 10 to 80 %.
    pub quick: Charge,
    /// From empty to full.
    pub whole: Charge,
    /// Energy from the wall for the night, joule.
    pub wall_j: f64,
    /// Hours that there are.
    pub hours: f64,
    /// Other outlets for the same charger: name, watt at the packs, seconds from 10 to 80 %.
    pub outlets: Vec<(&'static str, f64, f64)>,
}

/// A charge as data, or what is missing for it.
#[must_use]
pub fn charge_data(plugged: Result<&Plugged, &str>) -> Known<ChargeReport> {
    let data = |p: &Plugged| ChargeReport {
        by: p.feed.by.clone(),
        inlet: p.feed.tag.clone(),
        most_w: p.feed.most_w,
        night: p.night.clone(),
        quick: p.quick.clone(),
        whole: p.whole.clone(),
        wall_j: p.wall_j,
        hours: p.hours,
        outlets: p.outlets.clone(),
    };
    Known(plugged.map(data).map_err(str::to_owned))
}

/// Charging by an inlet, and every plug and outlet that is known, in words.
#[must_use]
pub fn charge_text(plugged: Result<&Plugged, &str>, units: Units) -> String {
    let mut out = String::from("Charging, packs at the temperature of the start\n");
    match plugged {
        Err(missing) => {
            let _ = writeln!(out, "  not assessed: {missing}");
        }
        Ok(plugged) => {
            let time = |charge: &Charge| Measure::Time.text(charge.time_s, units);
            let power = |w: f64| Measure::Power.text(w, units);
            let most = plugged.night.most_w.max(plugged.quick.most_w);
            let _ = writeln!(
                out,
                "  by {}: 10 to 80 % in {}, 0 to 100 % in {}, from the day's end in {} ({} from the wall; there are {}), most {}",
                plugged.feed.by,
                time(&plugged.quick),
                time(&plugged.whole),
                time(&plugged.night),
                Measure::Energy.text(plugged.wall_j, units),
                Measure::Time.text(plugged.hours * 3_600.0, units),
                power(most)
            );
            for (name, watt, seconds) in &plugged.outlets {
                let _ = writeln!(
                    out,
                    "  at an outlet {name}: {} at the packs, 10 to 80 % in {}",
                    power(*watt),
                    Measure::Time.text(*seconds, units)
                );
            }
        }
    }
    out.push_str("Plugs that are known, direct current\n");
    for plug in &PLUGS {
        let _ = writeln!(
            out,
            "  {:<14} {:>4.0} to {:>5.0} V {:>5.0} A {:>9}  {}",
            plug.name,
            plug.least_v,
            plug.most_v,
            plug.most_a,
            Measure::Power.text(plug.most_w, units),
            plug.source
        );
    }
    out.push_str("Outlets that are known, alternating current\n");
    for outlet in &OUTLETS {
        let _ = writeln!(
            out,
            "  {:<14} {:>5.0} V {:>4.0} A, {} phase{} {:>9}  {}",
            outlet.name,
            outlet.volts,
            outlet.amps,
            outlet.phases,
            if outlet.phases == 1 { " " } else { "s" },
            Measure::Power.text(outlet.power_w(), units),
            outlet.source
        );
    }
    let _ = writeln!(out, "\n{NOTICE}");
    out
}
