//! Plugs and outlets by standard, and what of them a truck can take.

use serde::Serialize;

/// What a direct-current plug can give.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Plug {
    /// Name, beginning with the standard that inlets and chargers name.
    pub name: &'static str,
    /// Highest voltage, volt.
    pub most_v: f64,
    /// Lowest voltage, volt.
    pub least_v: f64,
    /// Largest current, ampere.
    pub most_a: f64,
    /// Largest power, watt.
    pub most_w: f64,
    /// Share of the wall's energy that arrives at the packs (common practice).
    pub efficiency: f64,
    /// Where the limits come from, and how that is known.
    pub source: &'static str,
}

/// Plugs by direct current; limits from memory of the public descriptions of the standards.
pub const PLUGS: [Plug; 5] = [
    Plug {
        name: "CCS 150 kW",
        most_v: 1_000.0,
        least_v: 200.0,
        most_a: 200.0,
        most_w: 150e3,
        efficiency: 0.94,
        source: "IEC 62196-3 and SAE J1772, combined plug, 200 A without cooling (memory)",
    },
    Plug {
        name: "CCS 350 kW",
        most_v: 1_000.0,
        least_v: 200.0,
        most_a: 500.0,
        most_w: 350e3,
        efficiency: 0.94,
        source: "IEC 62196-3 and SAE J1772, combined plug, 500 A with a cooled cable (memory)",
    },
    Plug {
        name: "J3400 250 kW",
        most_v: 1_000.0,
        least_v: 200.0,
        most_a: 500.0,
        most_w: 250e3,
        efficiency: 0.94,
        source: "SAE J3400, 1,000 V class (memory)",
    },
    Plug {
        name: "MCS 1 MW",
        most_v: 1_250.0,
        least_v: 300.0,
        most_a: 1_000.0,
        most_w: 1_000e3,
        efficiency: 0.95,
        source: "SAE J3271, megawatt charging, 1,250 V class (memory)",
    },
    Plug {
        name: "MCS 3.75 MW",
        most_v: 1_250.0,
        least_v: 300.0,
        most_a: 3_000.0,
        most_w: 3_750e3,
        efficiency: 0.95,
        source: "SAE J3271, megawatt charging, 1,250 V and 3,000 A (read in summaries of the standard)",
    },
];

/// Line voltage, current and phases of an alternating-current outlet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Outlet {
    /// Name, beginning with the standard.
    pub name: &'static str,
    /// Line to line with three phases, to neutral with one, volt.
    pub volts: f64,
    /// Ampere.
    pub amps: f64,
    /// 1 or 3.
    pub phases: u8,
    /// Where the limits come from, and how that is known.
    pub source: &'static str,
}

/// Outlets by alternating current; how each limit is known stands with it.
pub const OUTLETS: [Outlet; 5] = [
    Outlet {
        name: "J1772 240 V",
        volts: 240.0,
        amps: 80.0,
        phases: 1,
        source: "SAE J1772, level 2, 80 A at 240 V (read in summaries of the standard)",
    },
    Outlet {
        name: "J3068 208 V",
        volts: 208.0,
        amps: 160.0,
        phases: 3,
        source: "SAE J3068, 160 A with three phases (read in summaries of the standard)",
    },
    Outlet {
        name: "J3068 480 V",
        volts: 480.0,
        amps: 160.0,
        phases: 3,
        source: "SAE J3068, 160 A with three phases (read in summaries of the standard)",
    },
    Outlet {
        name: "Type 2 32 A",
        volts: 400.0,
        amps: 32.0,
        phases: 3,
        source: "IEC 62196-2, type 2, 32 A (memory)",
    },
    Outlet {
        name: "Type 2 63 A",
        volts: 400.0,
        amps: 63.0,
        phases: 3,
        source: "IEC 62196-2, type 2, 63 A (memory)",
    },
];

/// Share of the outlet's energy that an on-board charger passes on (common practice).
pub const CHARGER_EFFICIENCY: f64 = 0.92;

impl Outlet {
    /// Power at unity power factor, watt: √3 U I with three phases, U I with one.
    #[must_use]
    pub fn power_w(&self) -> f64 {
        let factor = if self.phases == 3 {
            crate::numeric::sqrt(3.0)
        } else {
            1.0
        };
        factor * self.volts * self.amps
    }
}

impl Plug {
    /// Power at a voltage of the packs, watt; `None` when the packs are above or below what it can.
    #[must_use]
    pub fn power_w(&self, pack_v: f64) -> Option<f64> {
        (self.least_v..=self.most_v)
            .contains(&pack_v)
            .then(|| (pack_v * self.most_a).min(self.most_w))
    }
}

/// A charge inlet, or an on-board charger, on the truck.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Socket {
    /// Mark of the part.
    pub tag: String,
    /// Part id.
    pub part: String,
    /// What it takes, or what is missing to say so.
    #[serde(serialize_with = "crate::source::known")]
    pub takes: Result<Takes, String>,
}

/// What a socket takes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub enum Takes {
    /// Direct current by a standard, within its own limits.
    Direct {
        /// Standard.
        standard: String,
        /// Largest current, ampere.
        most_a: f64,
        /// Highest voltage, volt.
        most_v: f64,
    },
    /// Alternating current of any outlet, up to this power, watt.
    Alternating {
        /// Power from the outlet.
        most_w: f64,
    },
}

/// What arrives at the packs' terminals at most.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Feed {
    /// Plug or outlet and the inlet that takes it, in words.
    pub by: String,
    /// Mark of the inlet or charger.
    pub tag: String,
    /// Most power, watt.
    pub most_w: f64,
    /// Largest current, ampere.
    pub most_a: f64,
    /// Share of the wall's energy that arrives.
    pub efficiency: f64,
}

/// A name's beginning, whatever the letters' size.
fn begins(name: &str, standard: &str) -> bool {
    let (name, standard) = (name.to_ascii_lowercase(), standard.to_ascii_lowercase());
    !standard.is_empty() && name.starts_with(&standard)
}

impl Socket {
    /// The best feed for packs that have this voltage when full: by the standard `wanted` (any when not
    /// given) and a station of this power (the standard's own when not given).
    ///
    /// # Errors
    /// What stands against it, or is missing, in words.
    pub fn feed(
        &self,
        top_v: f64,
        wanted: Option<&str>,
        station_w: Option<f64>,
    ) -> Result<Feed, String> {
        let tag = self.tag.clone();
        match self.takes.as_ref().map_err(Clone::clone)? {
            Takes::Direct {
                standard,
                most_a,
                most_v,
            } => {
                if wanted.is_some_and(|w| !begins(standard, w) && !begins(w, standard)) {
                    return Err(format!("{tag} is a {standard} inlet"));
                }
                if top_v > *most_v {
                    return Err(format!(
                        "full packs have {top_v:.0} V, {tag} takes {most_v:.0} V"
                    ));
                }
                // A cooled cable gives no more than the inlet's contacts take.
                let plug = PLUGS
                    .iter()
                    .filter(|p| begins(p.name, standard))
                    .filter(|p| wanted.is_none_or(|w| begins(p.name, w)))
                    .filter(|p| (p.least_v..=p.most_v).contains(&top_v))
                    .max_by(|a, b| {
                        let power = |p: &Plug| p.most_w.min(p.most_a.min(*most_a) * top_v);
                        // The smaller of two that give the same.
                        power(a)
                            .total_cmp(&power(b))
                            .then(b.most_w.total_cmp(&a.most_w))
                    })
                    .ok_or_else(|| {
                        format!(
                            "no plug of the kind {standard} fits {tag} and packs of {top_v:.0} V"
                        )
                    })?;
                Ok(Feed {
                    by: format!("{} at {tag}", plug.name),
                    tag,
                    most_w: plug.most_w.min(station_w.unwrap_or(f64::INFINITY)),
                    most_a: plug.most_a.min(*most_a),
                    efficiency: plug.efficiency,
                })
            }
            Takes::Alternating { most_w } => {
                let outlets = OUTLETS
                    .iter()
                    .filter(|o| wanted.is_none_or(|w| begins(o.name, w)));
                let outlet = outlets
                    .max_by(|a, b| {
                        let power = |o: &Outlet| o.power_w().min(*most_w);
                        power(a)
                            .total_cmp(&power(b))
                            .then(b.power_w().total_cmp(&a.power_w()))
                    })
                    .ok_or_else(|| format!("{tag} is an on-board charger"))?;
                let from_wall = outlet
                    .power_w()
                    .min(*most_w)
                    .min(station_w.unwrap_or(f64::INFINITY));
                Ok(Feed {
                    by: format!("{} through {tag}", outlet.name),
                    tag,
                    most_w: from_wall * CHARGER_EFFICIENCY,
                    most_a: f64::INFINITY,
                    efficiency: CHARGER_EFFICIENCY,
                })
            }
        }
    }
}

/// The strongest feed of all sockets.
///
/// # Errors
/// What stands against each, or that there is none.
pub fn strongest(
    sockets: &[Socket],
    top_v: f64,
    wanted: Option<&str>,
    station_w: Option<f64>,
) -> Result<Feed, String> {
    let mut why = Vec::new();
    let mut best: Option<Feed> = None;
    for socket in sockets {
        match socket.feed(top_v, wanted, station_w) {
            Ok(feed) => {
                let power = |f: &Feed| f.most_w.min(f.most_a * top_v);
                if best.as_ref().is_none_or(|b| power(&feed) > power(b)) {
                    best = Some(feed);
                }
            }
            Err(reason) => why.push(reason),
        }
    }
    best.ok_or_else(|| {
        if why.is_empty() {
            "the truck has neither a charge inlet nor an on-board charger".to_owned()
        } else {
            why.join("; ")
        }
    })
}
