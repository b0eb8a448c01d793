//! What the three cell chemistries have in common with nothing else: voltage, resistance, cold, wear.
//!
//! Open-circuit voltages are published parameter sets, read at 25 °C between each set's cut-off
//! voltages. Resistance, cold and charge limits are common practice and meant for planning: a pack
//! maker's own figures replace them.

use crate::numeric::{between, exp};
use crate::part::Chemistry;

/// Cell temperatures for which the tables hold, °C.
pub const TEMPERATURE_RANGE_C: (f64, f64) = (-30.0, 60.0);

/// Gas constant, joule per mole and kelvin.
const GAS_CONSTANT: f64 = 8.314_46;

/// Data of one chemistry.
#[derive(Clone, Copy, Debug)]
pub struct Cell {
    /// Which chemistry.
    pub chemistry: Chemistry,
    /// Open-circuit voltage at 0, 5, …, 100 % of charge, volt.
    pub open_v: [f64; 21],
    /// Where the voltages come from.
    pub open_v_source: &'static str,
    /// Lowest voltage under load, volt.
    pub least_v: f64,
    /// Highest voltage when charged, volt.
    pub most_v: f64,
    /// Voltage by which packs are named, volt.
    pub nominal_v: f64,
    /// Resistance times capacity at 25 °C and half charge, ohm ampere-hour (common practice): pulses
    /// of about ten seconds.
    pub ohm_ah: f64,
    /// By how much the resistance rises from a fifth of the charge down to empty, as a share (common
    /// practice: it doubles).
    pub empty_rise: f64,
    /// How steeply resistance rises in the cold, joule per mole (common practice).
    pub activation_j_mol: f64,
    /// Discharge power left at −20, 0, 25, 45, 60 °C, as a share (common practice).
    pub discharge_by_c: [(f64, f64); 5],
    /// Energy that can be drawn at −20, 0, 20 °C, as a share (common practice): what is missing stays in
    /// the cells until they are warm.
    pub energy_by_c: [(f64, f64); 3],
    /// Charge power left at −20, 0, 10, 25, 45, 60 °C, as a share (common practice).
    pub charge_by_c: [(f64, f64); 6],
    /// Full cycles to 80 % of the energy, where the pack does not say (common practice).
    pub cycles_to_80: f64,
    /// How much longer shallow cycles last: life in cycles goes with depth to this power, downward
    /// (common practice).
    pub depth_exponent: f64,
    /// Energy lost in a year of standing at 25 °C and half charge, as a share (common practice).
    pub calendar_per_year: f64,
}

/// Nickel manganese cobalt, graphite.
const NMC: Cell = Cell {
    chemistry: Chemistry::Nmc,
    open_v: [
        2.5000, 3.1094, 3.2959, 3.4339, 3.4852, 3.5286, 3.5814, 3.6290, 3.6670, 3.7054, 3.7509,
        3.7983, 3.8406, 3.8896, 3.9479, 3.9943, 4.0421, 4.0809, 4.0967, 4.1236, 4.2000,
    ],
    open_v_source: "Chen et al., J. Electrochem. Soc. 167, 080534 (2020), NMC811 cell at 25 °C",
    least_v: 2.5,
    most_v: 4.2,
    nominal_v: 3.65,
    ohm_ah: 0.09,
    empty_rise: 1.0,
    activation_j_mol: 22_000.0,
    discharge_by_c: [
        (-20.0, 0.45),
        (0.0, 0.8),
        (25.0, 1.0),
        (45.0, 1.0),
        (60.0, 0.0),
    ],
    energy_by_c: [(-20.0, 0.7), (0.0, 0.88), (20.0, 1.0)],
    charge_by_c: [
        (-20.0, 0.0),
        (0.0, 0.1),
        (10.0, 0.5),
        (25.0, 1.0),
        (45.0, 1.0),
        (60.0, 0.0),
    ],
    cycles_to_80: 2_000.0,
    depth_exponent: 1.3,
    calendar_per_year: 0.015,
};

/// Lithium iron phosphate, graphite.
const LFP: Cell = Cell {
    chemistry: Chemistry::Lfp,
    open_v: [
        2.0000, 2.7853, 2.9781, 3.1080, 3.1685, 3.1857, 3.2058, 3.2324, 3.2525, 3.2621, 3.2660,
        3.2678, 3.2688, 3.2700, 3.2740, 3.2926, 3.3097, 3.3132, 3.3142, 3.3164, 3.6000,
    ],
    open_v_source: "Prada et al., J. Electrochem. Soc. 160, A616 (2013), iron-phosphate cell at 25 °C",
    least_v: 2.0,
    most_v: 3.65,
    nominal_v: 3.2,
    ohm_ah: 0.098,
    empty_rise: 1.0,
    activation_j_mol: 26_000.0,
    discharge_by_c: [
        (-20.0, 0.4),
        (0.0, 0.75),
        (25.0, 1.0),
        (45.0, 1.0),
        (60.0, 0.0),
    ],
    energy_by_c: [(-20.0, 0.6), (0.0, 0.82), (20.0, 1.0)],
    charge_by_c: [
        (-20.0, 0.0),
        (0.0, 0.05),
        (10.0, 0.4),
        (25.0, 1.0),
        (45.0, 1.0),
        (60.0, 0.0),
    ],
    cycles_to_80: 4_000.0,
    depth_exponent: 1.1,
    calendar_per_year: 0.012,
};

/// Lithium titanate against nickel manganese cobalt.
const LTO: Cell = Cell {
    chemistry: Chemistry::Lto,
    open_v: [
        2.0114, 2.0374, 2.0634, 2.0894, 2.1154, 2.1414, 2.1675, 2.1940, 2.2216, 2.2524, 2.2911,
        2.3403, 2.3908, 2.4332, 2.4716, 2.5138, 2.5636, 2.6120, 2.6361, 2.6578, 2.7349,
    ],
    open_v_source: "cathode curve of Chen et al. (2020) less the titanate's level 1.55 V (Ohzuku et al., \
                    J. Electrochem. Soc. 142, 1431, 1995)",
    least_v: 1.8,
    most_v: 2.75,
    nominal_v: 2.3,
    ohm_ah: 0.03,
    empty_rise: 1.0,
    activation_j_mol: 18_000.0,
    discharge_by_c: [
        (-20.0, 0.7),
        (0.0, 0.9),
        (25.0, 1.0),
        (45.0, 1.0),
        (60.0, 0.0),
    ],
    energy_by_c: [(-20.0, 0.85), (0.0, 0.94), (20.0, 1.0)],
    charge_by_c: [
        (-20.0, 0.3),
        (0.0, 0.7),
        (10.0, 0.9),
        (25.0, 1.0),
        (45.0, 1.0),
        (60.0, 0.0),
    ],
    cycles_to_80: 15_000.0,
    depth_exponent: 1.0,
    calendar_per_year: 0.008,
};

impl Cell {
    /// Data of a chemistry.
    #[must_use]
    pub const fn of(chemistry: Chemistry) -> &'static Self {
        match chemistry {
            Chemistry::Nmc => &NMC,
            Chemistry::Lfp => &LFP,
            Chemistry::Lto => &LTO,
        }
    }

    /// Open-circuit voltage at a state of charge (0 to 1), volt.
    #[must_use]
    pub fn open_v(&self, soc: f64) -> f64 {
        let at = soc.clamp(0.0, 1.0) * 20.0;
        let below = (at as usize).min(19);
        let (a, b) = (self.step(below), self.step(below + 1));
        a + (b - a) * (at - below as f64)
    }

    fn step(&self, index: usize) -> f64 {
        self.open_v.get(index).copied().unwrap_or(self.most_v)
    }

    /// ∫ open-circuit voltage d(state of charge) from empty, volt: energy of one ampere-hour's worth
    /// of charge up to here.
    #[must_use]
    pub fn energy_to(&self, soc: f64) -> f64 {
        let at = soc.clamp(0.0, 1.0) * 20.0;
        let below = (at as usize).min(19);
        let whole: f64 = (0..below)
            .map(|i| 0.5 * (self.step(i) + self.step(i + 1)) / 20.0)
            .sum();
        let part = at - below as f64;
        let (a, b) = (self.step(below), self.step(below + 1));
        whole + (a + 0.5 * (b - a) * part) * part / 20.0
    }

    /// Resistance times capacity at a temperature and state of charge, ohm ampere-hour: more in the
    /// cold (Arrhenius) and towards empty.
    #[must_use]
    pub fn ohm_ah(&self, temperature_c: f64, soc: f64) -> f64 {
        let kelvin = temperature_c.clamp(TEMPERATURE_RANGE_C.0, TEMPERATURE_RANGE_C.1) + 273.15;
        let cold = exp(self.activation_j_mol / GAS_CONSTANT * (1.0 / kelvin - 1.0 / 298.15));
        let empty = 1.0 + self.empty_rise * (1.0 - soc.clamp(0.0, 0.2) / 0.2);
        self.ohm_ah * cold * empty
    }

    /// Share of the discharge power that is left at a temperature.
    #[must_use]
    pub fn discharge_share(&self, temperature_c: f64) -> f64 {
        between(&self.discharge_by_c, temperature_c)
    }

    /// Share of the energy that can be drawn at a temperature.
    #[must_use]
    pub fn energy_share(&self, temperature_c: f64) -> f64 {
        between(&self.energy_by_c, temperature_c)
    }

    /// Share of the charge power that is left at a temperature.
    #[must_use]
    pub fn charge_share(&self, temperature_c: f64) -> f64 {
        between(&self.charge_by_c, temperature_c)
    }
}
