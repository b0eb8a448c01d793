//! All packs of a truck on one bus: voltage behind a resistance.
//!
//! Model: open-circuit voltage by state of charge, one resistance by temperature and charge, strings of
//! the same cells and voltage side by side, which share the current by their capacity. The current for a power P at the terminals is the smaller root of
//! P = U I − R I². Capacity is set so that the area under the open-circuit curve is the gross energy
//! that the packs state.

use super::cell::Cell;
use crate::numeric::sqrt;
use crate::part::{Battery, Chemistry};

/// The packs of a truck.
#[derive(Clone, Debug)]
pub struct Bank {
    /// Cells.
    pub cell: &'static Cell,
    /// Cells in series.
    pub series: f64,
    /// Capacity of all strings at 25 °C and new, ampere-hour.
    pub capacity_ah: f64,
    /// Gross energy new, joule.
    pub energy_j: f64,
    /// Share of the new energy that is left with age.
    pub health: f64,
    /// Lowest state of charge in use.
    pub soc_low: f64,
    /// Highest state of charge in use.
    pub soc_high: f64,
    /// Power without end at 25 °C, watt.
    pub continuous_w: f64,
    /// Power for 30 seconds at 25 °C, watt.
    pub peak_w: f64,
    /// Charge power at 25 °C, watt.
    pub charge_w: f64,
    /// Full cycles to 80 % of the energy.
    pub cycle_life: f64,
    /// Nominal voltage, volt.
    pub nominal_v: f64,
    /// Number of packs.
    pub packs: usize,
    /// Their mass, kilogram.
    pub mass_kg: f64,
}

/// What a bank does at one power.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Draw {
    /// Current out of the cells, ampere; negative when charged.
    pub amps: f64,
    /// Voltage at the terminals, volt.
    pub volts: f64,
    /// Power at the terminals, watt; negative when charged.
    pub power_w: f64,
    /// Power that the cells give inside, watt.
    pub inner_w: f64,
    /// The power that was asked for is more than the bank has.
    pub limited: bool,
}

impl Bank {
    /// Puts the packs side by side: name, mass in kilogram, data.
    ///
    /// # Errors
    /// What is missing or does not go together, in words.
    pub fn of<'a>(
        packs: impl IntoIterator<Item = (&'a str, f64, &'a Battery)>,
    ) -> Result<Self, String> {
        let mut bank: Option<Self> = None;
        for (name, mass_kg, pack) in packs {
            let one = Self::single(name, mass_kg, pack)?;
            bank = Some(match bank {
                None => one,
                Some(all) => all.beside(name, &one)?,
            });
        }
        bank.ok_or_else(|| "no battery pack is on the truck".to_owned())
    }

    fn single(name: &str, mass_kg: f64, pack: &Battery) -> Result<Self, String> {
        let known = |value: Option<f64>, what: &str| super::known(name, value, what);
        let more = |value: Option<f64>, what: &str| super::more_than_nothing(name, value, what);
        let chemistry: Chemistry = pack
            .chemistry
            .ok_or_else(|| format!("the cell chemistry of {name} is not known"))?;
        let cell = Cell::of(chemistry);
        let nominal_v = known(pack.nominal_v, "voltage")?;
        let energy_j = more(pack.energy_kwh, "energy")? * 3.6e6;
        let continuous_w = known(pack.continuous_kw, "continuous power")? * 1e3;
        let series = (nominal_v / cell.nominal_v).round().max(1.0);
        let mean_v = series * cell.energy_to(1.0);
        Ok(Self {
            cell,
            series,
            capacity_ah: energy_j / 3600.0 / mean_v,
            energy_j,
            health: 1.0,
            soc_low: known(pack.soc_low, "lowest state of charge")?,
            soc_high: known(pack.soc_high, "highest state of charge")?,
            continuous_w,
            peak_w: known(pack.peak_kw, "peak power")? * 1e3,
            charge_w: known(pack.charge_kw, "charge power")? * 1e3,
            cycle_life: pack.cycle_life.unwrap_or(cell.cycles_to_80),
            nominal_v,
            packs: 1,
            mass_kg,
        })
    }

    fn beside(mut self, name: &str, other: &Self) -> Result<Self, String> {
        if self.cell.chemistry != other.cell.chemistry {
            return Err(format!("{name} has other cells than the packs beside it"));
        }
        if (self.nominal_v - other.nominal_v).abs() > 0.01 * self.nominal_v {
            return Err(format!(
                "{name} has another voltage than the packs beside it"
            ));
        }
        // Strings share the current as they share the capacity (the same cells, so resistance goes the other
        // way): the first of them at its limit limits all.
        let (own, others) = (self.energy_j, other.energy_j);
        let together =
            |one: f64, another: f64| f64::min(one / own, another / others) * (own + others);
        self.continuous_w = together(self.continuous_w, other.continuous_w);
        self.peak_w = together(self.peak_w, other.peak_w);
        self.charge_w = together(self.charge_w, other.charge_w);
        // One string more or less in series within that hundredth: the energy is the plates' all the same.
        self.capacity_ah *= (own + others) / own;
        self.energy_j += others;
        self.soc_low = self.soc_low.max(other.soc_low);
        self.soc_high = self.soc_high.min(other.soc_high);
        self.cycle_life = self.cycle_life.min(other.cycle_life);
        self.packs += 1;
        self.mass_kg += other.mass_kg;
        Ok(self)
    }

    /// The same bank with this share of its energy left.
    #[must_use]
    pub fn aged(mut self, health: f64) -> Self {
        self.health = health;
        self
    }

    /// Charge that the aged bank holds, coulomb.
    #[must_use]
    pub fn charge_c(&self) -> f64 {
        self.capacity_ah * 3600.0 * self.health
    }

    /// Open-circuit voltage, volt.
    #[must_use]
    pub fn open_v(&self, soc: f64) -> f64 {
        self.series * self.cell.open_v(soc)
    }

    /// Energy in the cells from empty up to a state of charge, joule.
    #[must_use]
    pub fn energy_to_j(&self, soc: f64) -> f64 {
        self.charge_c() * self.series * self.cell.energy_to(soc)
    }

    /// Energy between the lowest and the highest state of charge in use, joule.
    #[must_use]
    pub fn usable_j(&self) -> f64 {
        self.energy_to_j(self.soc_high) - self.energy_to_j(self.soc_low)
    }

    /// Lowest state of charge that can be used at a temperature: in the cold some of the energy cannot be
    /// drawn, and is there again when the packs are warm.
    #[must_use]
    pub fn soc_low_at(&self, temperature_c: f64) -> f64 {
        let share = self.cell.energy_share(temperature_c);
        self.soc_low + (1.0 - share) * (self.soc_high - self.soc_low)
    }

    /// Energy that can be used at a temperature, joule.
    #[must_use]
    pub fn usable_at_j(&self, temperature_c: f64) -> f64 {
        self.energy_to_j(self.soc_high) - self.energy_to_j(self.soc_low_at(temperature_c))
    }

    /// Highest voltage at the terminals, volt.
    #[must_use]
    pub fn top_v(&self) -> f64 {
        self.series * self.cell.most_v
    }

    /// Resistance, ohm. Age raises it as it lowers the energy (common practice).
    #[must_use]
    pub fn resistance_ohm(&self, temperature_c: f64, soc: f64) -> f64 {
        self.series * self.cell.ohm_ah(temperature_c, soc)
            / (self.capacity_ah * self.health * self.health)
    }

    /// Most power that can be drawn, watt. `peak` is the share of the 30-second budget that is left.
    #[must_use]
    pub fn most_discharge_w(&self, temperature_c: f64, soc: f64, peak: f64) -> f64 {
        let rated = self.continuous_w + (self.peak_w - self.continuous_w) * peak.clamp(0.0, 1.0);
        let cold = rated * self.cell.discharge_share(temperature_c);
        // The last two per cent of the window fade, so that the truck slows and does not stop dead.
        let fade = ((soc - self.soc_low_at(temperature_c)) / 0.02).clamp(0.0, 1.0);
        let resistance = self.resistance_ohm(temperature_c, soc);
        let least_v = self.series * self.cell.least_v;
        let amps = ((self.open_v(soc) - least_v) / resistance).max(0.0);
        let by_voltage = amps * least_v;
        let root = self.open_v(soc) * self.open_v(soc) / (4.0 * resistance);
        (cold * fade).min(by_voltage).min(root)
    }

    /// Most power that can be charged, watt (positive).
    #[must_use]
    pub fn most_charge_w(&self, temperature_c: f64, soc: f64) -> f64 {
        let cold = self.charge_w * self.cell.charge_share(temperature_c);
        let fade = ((self.soc_high - soc) / 0.02).clamp(0.0, 1.0);
        let most_v = self.series * self.cell.most_v;
        let amps = (most_v - self.open_v(soc)).max(0.0) / self.resistance_ohm(temperature_c, soc);
        (cold * fade).min(amps * most_v)
    }

    /// What happens at a power at the terminals, watt; negative charges.
    #[must_use]
    pub fn draw(&self, power_w: f64, temperature_c: f64, soc: f64) -> Draw {
        let (open, resistance) = (self.open_v(soc), self.resistance_ohm(temperature_c, soc));
        let square = open * open - 4.0 * resistance * power_w;
        let limited = square < 0.0;
        let amps = (open - sqrt(square)) / (2.0 * resistance);
        let volts = open - resistance * amps;
        Draw {
            amps,
            volts,
            power_w: volts * amps,
            inner_w: open * amps,
            limited,
        }
    }
}
