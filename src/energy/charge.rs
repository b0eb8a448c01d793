//! Charging: constant current, then constant voltage, within plug, inlet and pack.
//!
//! The voltage behind a resistance gives the taper by itself: at the highest voltage the current is
//! (U_max − U_oc) / R and dies away as the cells fill.

use crate::plant::Bank;
use serde::Serialize;

/// Limits of one charge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Largest current, ampere.
    pub most_a: f64,
    /// Largest power at the terminals, watt.
    pub most_w: f64,
    /// Highest voltage at the terminals, volt.
    pub most_v: f64,
    /// It ends when the current has fallen to this, ampere.
    pub end_a: f64,
    /// Temperature of the packs, °C.
    pub pack_c: f64,
}

/// A moment of a charge.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Moment {
    /// Time, seconds.
    pub t_s: f64,
    /// State of charge.
    pub soc: f64,
    /// Voltage at the terminals, volt.
    pub volts: f64,
    /// Current into the packs, ampere.
    pub amps: f64,
}

impl Moment {
    /// Power at the terminals, watt.
    #[must_use]
    pub fn power_w(&self) -> f64 {
        self.volts * self.amps
    }
}

/// A charge from one state of charge to another.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Charge {
    /// Time, seconds.
    pub time_s: f64,
    /// Time until the voltage limit is reached, seconds; the whole time when it is not.
    pub at_current_s: f64,
    /// State of charge at the end.
    pub soc_end: f64,
    /// Energy at the terminals, joule.
    pub energy_j: f64,
    /// Heat in the packs, joule.
    pub heat_j: f64,
    /// Most power, watt.
    pub most_w: f64,
    /// True when it ended because of the current and not at the state of charge that was wanted.
    pub tapered_out: bool,
    /// The course, thinned out.
    pub moments: Vec<Moment>,
}

/// Longest charge that is followed, seconds (four days).
const LONGEST_S: f64 = 345_600.0;

/// Charges a bank. Steps of a second; half a step ahead for the state of charge.
#[must_use]
pub fn charge(bank: &Bank, from_soc: f64, to_soc: f64, limits: &Limits) -> Charge {
    let dt: f64 = 1.0;
    let mut out = Charge {
        time_s: 0.0,
        at_current_s: 0.0,
        soc_end: from_soc,
        energy_j: 0.0,
        heat_j: 0.0,
        most_w: 0.0,
        tapered_out: false,
        moments: Vec::new(),
    };
    let mut soc = from_soc;
    let mut tapering = false;
    let mut half = 0.0;
    let mut count = 0_u32;
    let mut last: Option<Moment> = None;
    while soc < to_soc - 1e-12 && out.time_s < LONGEST_S {
        let middle = (soc + half).min(1.0);
        let open = bank.open_v(middle);
        let resistance = bank.resistance_ohm(limits.pack_c, middle);
        let by_voltage = (limits.most_v - open) / resistance;
        let by_pack = bank.charge_w * bank.cell.charge_share(limits.pack_c);
        let by_power = bank
            .draw(-by_pack.min(limits.most_w), limits.pack_c, middle)
            .amps
            .abs();
        let plain = limits.most_a.min(by_power);
        if by_voltage < plain {
            tapering = true;
        }
        let amps = plain.min(by_voltage);
        if amps <= limits.end_a && (tapering || amps <= 1e-6) {
            out.tapered_out = true;
            break;
        }
        let step = dt.min((to_soc - soc) * bank.charge_c() / amps);
        let gained = amps * step / bank.charge_c();
        let volts = open + resistance * amps;
        out.energy_j += volts * amps * step;
        out.heat_j += resistance * amps * amps * step;
        out.most_w = out.most_w.max(volts * amps);
        out.time_s += step;
        if !tapering {
            out.at_current_s = out.time_s;
        }
        let moment = Moment {
            t_s: out.time_s,
            soc,
            volts,
            amps,
        };
        last = Some(moment);
        if count.is_multiple_of(30) {
            out.moments.push(moment);
        }
        count += 1;
        half = 0.5 * gained;
        soc += gained;
    }
    out.soc_end = soc;
    // The course ends where the charge does, not up to half a minute before.
    if let Some(last) = last.filter(|l| out.moments.last().is_none_or(|m| m.t_s < l.t_s)) {
        out.moments.push(Moment {
            soc: out.soc_end,
            ..last
        });
    }
    out
}
