//! Wear of the packs: cycles by depth, and time.
//!
//! Cycles are counted by the rainflow method of ASTM E1049-85 (5.4.4) on the state of charge of a day;
//! damage adds up linearly (Palmgren, Miner). A cycle of depth d counts as (d / 0.8)^k of the cycles that
//! the pack's life is stated for; k by chemistry (common practice). Standing wears with the years,
//! faster when hot: doubled for each 15 K above 25 °C (common practice). Both losses are added.

use crate::numeric::pow;
use crate::plant::Bank;
use serde::Serialize;

/// Depth for which a cycle life is stated (common practice).
const STATED_DEPTH: f64 = 0.8;
/// Share of the energy that is lost at the end of the stated life.
const END_LOSS: f64 = 0.2;

/// Ranges and how often each occurs (1 or 0.5), in the order in which they close; ASTM E1049-85, 5.4.4.
///
/// ```
/// use axlewright_core::energy::rainflow;
/// let counts = rainflow(&[-2.0, 1.0, -3.0, 5.0, -1.0, 3.0, -4.0, 4.0, -2.0]);
/// assert_eq!(counts.iter().filter(|(range, _)| *range == 8.0).map(|(_, n)| n).sum::<f64>(), 1.0);
/// ```
#[must_use]
pub fn rainflow(series: &[f64]) -> Vec<(f64, f64)> {
    let mut counts = Vec::new();
    let mut stack: Vec<f64> = Vec::new();
    for point in reversals(series) {
        stack.push(point);
        while let [.., c, b, a] = stack.as_slice() {
            let (x, y) = ((a - b).abs(), (b - c).abs());
            if x < y {
                break;
            }
            let newest = *a;
            if stack.len() == 3 {
                counts.push((y, 0.5));
                stack.remove(0);
            } else {
                counts.push((y, 1.0));
                stack.truncate(stack.len() - 3);
                stack.push(newest);
            }
        }
    }
    for pair in stack.windows(2) {
        if let [a, b] = pair {
            counts.push(((b - a).abs(), 0.5));
        }
    }
    counts
}

/// First and last value and every turning point in between.
fn reversals(series: &[f64]) -> Vec<f64> {
    let mut turns: Vec<f64> = Vec::new();
    for &value in series {
        match turns.as_slice() {
            [.., before, last] if (last - before) * (value - last) >= 0.0 => {
                if let Some(last) = turns.last_mut() {
                    *last = value;
                }
            }
            [only] if (value - only).abs() <= 0.0 => {}
            _ => turns.push(value),
        }
    }
    turns
}

/// Wear of one day, as shares of the end-of-life loss.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Wear {
    /// By cycles, in a day.
    pub cycles_a_day: f64,
    /// By time, in a year of standing.
    pub calendar_a_year: f64,
    /// Years until a fifth of the energy is gone.
    pub years: f64,
}

/// Wear of a bank on a day with this state of charge over time, so many days a year, at a temperature.
#[must_use]
pub fn wear(bank: &Bank, soc: &[f64], days_a_year: f64, pack_c: f64) -> Wear {
    let cycles_a_day: f64 = rainflow(soc)
        .iter()
        .map(|(depth, count)| damage(*depth, bank.cycle_life, bank.cell.depth_exponent) * count)
        .sum();
    let hot = pow(2.0, (pack_c - 25.0).max(0.0) / 15.0);
    let calendar_a_year = bank.cell.calendar_per_year * hot / END_LOSS;
    let a_year = cycles_a_day * days_a_year + calendar_a_year;
    Wear {
        cycles_a_day,
        calendar_a_year,
        years: 1.0 / a_year.max(1e-6),
    }
}

/// Damage of one cycle of a depth: 1 over the cycles of that depth that end the life.
#[must_use]
pub fn damage(depth: f64, cycle_life: f64, exponent: f64) -> f64 {
    pow(depth.max(0.0) / STATED_DEPTH, exponent) / cycle_life
}
