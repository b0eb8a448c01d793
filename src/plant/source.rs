//! A generator set or a fuel-cell system: electricity from fuel.
//!
//! Efficiency (fuel at its lower heating value to the bus, own consumers taken off) is given at full
//! and at half power. Fuel power is a parabola through no load, half and full: at no load it burns the
//! idle share of full fuel power (engine 12 %, fuel cell 3 %, common practice). That gives the engine's
//! and the cell's known shapes: an engine is best near full load, a cell near a third.
//!
//! What a part does not state about warm-up, shortest run, least load, ramp, age and thin air is common
//! practice by the kind of source, and is listed with each drive.

use crate::part::{Fuel, SourceUnit};

/// What makes the electricity.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SourceKind {
    /// Engine with generator.
    Engine,
    /// Fuel cell.
    Cell,
}

/// One or more equal sources run together.
#[derive(Clone, Debug)]
pub struct Source {
    /// What it is.
    pub kind: SourceKind,
    /// Fuel.
    pub fuel: Fuel,
    /// Electric power without end, watt.
    pub continuous_w: f64,
    /// Fuel power at full load, watt.
    full_fuel_w: f64,
    /// Fuel power at half load, watt.
    half_fuel_w: f64,
    /// Heat into the coolant at full load, watt.
    pub coolant_w: f64,
    /// Coolant temperature at the outlet, °C.
    pub coolant_c: f64,
    /// Seconds from start to full power.
    pub warm_up_s: f64,
    /// Least time that it runs, seconds.
    pub least_run_s: f64,
    /// Most that the power may rise in a second, as a share of full.
    pub ramp_per_s: f64,
    /// Least power while running, as a share of full.
    pub least_share: f64,
    /// Share of the power that is lost at the end of life.
    pub ageing_share: f64,
    /// Height above the sea up to which there is full power, metre.
    pub full_to_m: f64,
    /// Share of the power that is lost with each further kilometre.
    pub loss_per_km: f64,
    /// Share of the new power that is left with age.
    pub health: f64,
    /// True when one of these is common practice and not the part's own figure.
    pub assumed: bool,
}

/// Seconds from start to full power, least run in seconds, most rise in a second and least power as shares
/// of full, share lost at the end of life, metres above the sea with full power, and share lost with each
/// kilometre above (all common practice). A turbocharged engine makes up for thin air to 1,000 m and then
/// loses 1 % each 100 m; a cell's blower falls behind from 500 m on, is ramped gently for the sake of its
/// life, and a cell is given up at 90 % of its power.
const ENGINE: [f64; 7] = [60.0, 300.0, 0.2, 0.25, 0.03, 1_000.0, 0.1];
const CELL: [f64; 7] = [40.0, 300.0, 0.05, 0.1, 0.1, 500.0, 0.1];

impl Source {
    /// A source of this data.
    ///
    /// # Errors
    /// What is missing, in words.
    pub fn of(name: &str, unit: &SourceUnit) -> Result<Self, String> {
        let known = |value: Option<f64>, what: &str| super::known(name, value, what);
        let more = |value: Option<f64>, what: &str| super::more_than_nothing(name, value, what);
        let fuel = unit
            .fuel
            .ok_or_else(|| format!("the fuel of {name} is not known"))?;
        let continuous_w = more(unit.continuous_kw, "continuous power")? * 1e3;
        let full = known(unit.efficiency, "efficiency")?;
        let half = known(unit.efficiency_half, "efficiency at half power")?;
        let kind = if fuel == Fuel::Hydrogen && unit.heat_exhaust_kw.is_none() {
            SourceKind::Cell
        } else {
            SourceKind::Engine
        };
        let usual = match kind {
            SourceKind::Engine => &ENGINE,
            SourceKind::Cell => &CELL,
        };
        let own = [
            unit.warm_up_s,
            unit.least_run_s,
            unit.ramp_share_s,
            unit.least_share,
            unit.ageing_share,
            unit.full_to_m,
            unit.loss_per_km,
        ];
        let [
            warm_up_s,
            least_run_s,
            ramp_per_s,
            least_share,
            ageing_share,
            full_to_m,
            loss_per_km,
        ] = std::array::from_fn(|i| {
            let own = own.get(i).copied().flatten();
            own.or(usual.get(i).copied()).unwrap_or(0.0)
        });
        let made = Self {
            kind,
            fuel,
            continuous_w,
            full_fuel_w: continuous_w / full,
            half_fuel_w: 0.5 * continuous_w / half,
            coolant_w: known(unit.heat_coolant_kw, "heat into the coolant")? * 1e3,
            coolant_c: known(unit.coolant_out_c, "coolant temperature")?,
            warm_up_s: f64::max(warm_up_s, 1e-3),
            least_run_s,
            ramp_per_s,
            least_share,
            ageing_share,
            full_to_m,
            loss_per_km,
            health: 1.0,
            assumed: own.iter().any(Option::is_none),
        };
        // Fuel that rises with the load all the way, and some of it that does not become electricity.
        let idle = made.idle_share() * made.full_fuel_w;
        let (to_half, to_full) = (made.half_fuel_w - idle, made.full_fuel_w - idle);
        let rises = 4.0 * to_half >= to_full && 3.0 * to_full >= 4.0 * to_half;
        if !rises || full >= 1.0 || half >= 1.0 {
            return Err(format!(
                "the efficiencies of {name}, {full} at full and {half} at half power, do not go together: \
                 below 1, and more fuel for more power"
            ));
        }
        Ok(made)
    }

    /// Runs another one beside it.
    ///
    /// # Errors
    /// When the two do not burn the same, in words.
    pub fn beside(mut self, name: &str, other: &Self) -> Result<Self, String> {
        if self.kind != other.kind || self.fuel != other.fuel {
            return Err(format!(
                "{name} is another kind of source than the one beside it"
            ));
        }
        self.continuous_w += other.continuous_w;
        self.full_fuel_w += other.full_fuel_w;
        self.half_fuel_w += other.half_fuel_w;
        self.coolant_w += other.coolant_w;
        self.coolant_c = self.coolant_c.min(other.coolant_c);
        self.warm_up_s = self.warm_up_s.max(other.warm_up_s);
        self.least_run_s = self.least_run_s.max(other.least_run_s);
        self.ramp_per_s = self.ramp_per_s.min(other.ramp_per_s);
        self.least_share = self.least_share.max(other.least_share);
        self.ageing_share = self.ageing_share.max(other.ageing_share);
        self.full_to_m = self.full_to_m.min(other.full_to_m);
        self.loss_per_km = self.loss_per_km.max(other.loss_per_km);
        self.assumed |= other.assumed;
        Ok(self)
    }

    /// The same at the end of its life.
    #[must_use]
    pub fn worn_out(mut self) -> Self {
        self.health = 1.0 - self.ageing_share;
        self
    }

    /// Share of the power that thin air leaves at a height above the sea, metre.
    #[must_use]
    pub fn air_share(&self, altitude_m: f64) -> f64 {
        (1.0 - self.loss_per_km * (altitude_m - self.full_to_m).max(0.0) / 1e3).max(0.0)
    }

    /// Power without end at a height above the sea, at its age, watt.
    #[must_use]
    pub fn lasting_w(&self, altitude_m: f64) -> f64 {
        self.continuous_w * self.health * self.air_share(altitude_m)
    }

    /// Share of full fuel power that is burnt without load.
    const fn idle_share(&self) -> f64 {
        match self.kind {
            SourceKind::Engine => 0.12,
            SourceKind::Cell => 0.03,
        }
    }

    /// Fuel power (lower heating value) at an electric power while running, watt.
    #[must_use]
    pub fn fuel_w(&self, electric_w: f64) -> f64 {
        let share = (electric_w / self.continuous_w).clamp(0.0, 1.0);
        let idle = self.idle_share() * self.full_fuel_w;
        // A parabola through (0, idle), (0.5, half), (1, full).
        let (half, full) = (self.half_fuel_w - idle, self.full_fuel_w - idle);
        idle + share * ((4.0 * half - full) + share * (2.0 * full - 4.0 * half))
    }

    /// Efficiency at an electric power.
    #[must_use]
    pub fn efficiency(&self, electric_w: f64) -> f64 {
        electric_w / self.fuel_w(electric_w)
    }

    /// Heat into the coolant at an electric power, watt: in proportion to the fuel that does not
    /// become electricity.
    #[must_use]
    pub fn heat_w(&self, electric_w: f64) -> f64 {
        let lost = self.fuel_w(electric_w) - electric_w;
        self.coolant_w * lost / (self.full_fuel_w - self.continuous_w)
    }
}
