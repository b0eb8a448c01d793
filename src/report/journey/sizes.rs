//! The table of packs for a range, in words.

use crate::assessment::Size;
use crate::quantity::{Measure, Units};
use crate::report::NOTICE;
use std::fmt::Write as _;

/// The table of packs for a range, in words.
#[must_use]
pub fn sizes_text(sizes: &[Size], range_m: f64, units: Units) -> String {
    let mut out = format!(
        "Packs for {} on the packs alone\n",
        Measure::Way.text(range_m, units)
    );
    for size in sizes {
        match size.count {
            Some(count) => {
                let _ = writeln!(
                    out,
                    "  {count:>2} x {:<40}{:>7.0} kWh {:>10} {:>11} on the truck {:>7.0} l  {}",
                    size.name,
                    size.energy_kwh,
                    Measure::Mass.text(size.mass_kg, units),
                    Measure::Mass.signed(size.more_kg, units),
                    size.volume_l,
                    Measure::Way.text(size.range_m, units)
                );
            }
            None => {
                let _ = writeln!(
                    out,
                    "   - x {:<40}does not make it, however many",
                    size.name
                );
            }
        }
    }
    let _ = writeln!(out, "\n{}", NOTICE);
    out
}
