//! The only place that turns numbers into words for people, and words of people into numbers.
//!
//! Inside, lengths are millimetres and masses kilograms; a person may read and type pounds and
//! inches. Conversion factors are exact by definition (NIST Handbook 44, appendix C).

mod group;

use serde::{Deserialize, Serialize};

/// Kilograms in one avoirdupois pound, exact (NIST Handbook 44, appendix C).
pub const KG_PER_LB: f64 = 0.453_592_37;
/// Newton metres in one pound-force foot: 4.448 221 615 260 5 N (exact) times 0.3048 m.
pub const NM_PER_LBFT: f64 = 1.355_817_948_331_400_4;
/// Metres in one statute mile, exact.
pub const M_PER_MI: f64 = 1_609.344;
/// Millimetres in one inch, exact.
pub const MM_PER_IN: f64 = 25.4;
/// Standard acceleration of free fall, m/s², exact: what a kilogram weighs in newton (ISO 80000-3).
pub const N_PER_KG: f64 = 9.806_65;
/// Newton in one pound-force, exact (NIST SP 811, appendix B.8).
pub const N_PER_LBF: f64 = KG_PER_LB * N_PER_KG;

/// Litres in one cubic foot, exact: (12 × 25.4 mm)³.
pub const L_PER_FT3: f64 = 28.316_846_592;

/// Units that a person reads.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Units {
    /// Millimetres and kilograms.
    #[default]
    Metric,
    /// Inches and pounds.
    Us,
}

/// What a number measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Measure {
    /// Millimetres inside.
    Length,
    /// Kilograms inside; also loads, as the trade reads a scale.
    Mass,
    /// A fraction inside, percent for people.
    Share,
    /// Metres inside: a way on the road.
    Way,
    /// Metres inside: a height above where the road begins.
    Height,
    /// Metres per second inside.
    RoadSpeed,
    /// Joule inside.
    Energy,
    /// Watt inside.
    Power,
    /// Seconds inside, minutes for people.
    Time,
    /// Degrees Celsius inside.
    Temperature,
    /// Years.
    Years,
    /// A plain count.
    Count,
    /// Degrees, inside and for people.
    Angle,
    /// Revolutions per minute.
    Speed,
    /// Newton metres inside.
    Torque,
    /// Standard accelerations of free fall.
    Gravity,
    /// Kilograms for each millimetre of tyre width inside.
    LoadForWidth,
    /// A plain factor, such as a design factor.
    Factor,
    /// Newton inside.
    Force,
    /// Newton millimetre inside.
    Moment,
    /// Megapascal inside.
    Stress,
    /// Cubic millimetres inside.
    Modulus,
    /// Litres inside.
    Volume,
    /// Square metres inside and for people: drag areas are told so everywhere.
    Area,
    /// A small plain factor, such as a rolling coefficient.
    Coefficient,
}

impl Measure {
    /// Unit mark.
    #[must_use]
    pub const fn unit(self, units: Units) -> &'static str {
        match (self, units) {
            (Self::Length, Units::Metric) => "mm",
            (Self::Length, Units::Us) => "in",
            (Self::Mass, Units::Metric) => "kg",
            (Self::Mass, Units::Us) => "lb",
            (Self::Share, _) => "%",
            (Self::Angle, _) => "°",
            (Self::Speed, _) => "rpm",
            (Self::Torque, Units::Metric) => "N·m",
            (Self::Torque, Units::Us) => "lb·ft",
            (Self::Gravity, _) => "g",
            (Self::LoadForWidth, Units::Metric) => "kg/mm",
            (Self::LoadForWidth, Units::Us) => "lb/in",
            (Self::Count | Self::Factor | Self::Coefficient, _) => "",
            (Self::Volume, Units::Metric) => "l",
            (Self::Volume, Units::Us) => "ft³",
            (Self::Area, _) => "m²",
            (Self::Force, Units::Metric) => "kN",
            (Self::Force, Units::Us) => "lbf",
            (Self::Moment, Units::Metric) => "kN·m",
            (Self::Moment, Units::Us) => "lbf·in",
            (Self::Stress, Units::Metric) => "MPa",
            (Self::Stress, Units::Us) => "psi",
            (Self::Modulus, Units::Metric) => "cm³",
            (Self::Modulus, Units::Us) => "in³",
            (Self::Height, Units::Metric) => "m",
            (Self::Height, Units::Us) => "ft",
            (Self::Way, Units::Metric) => "km",
            (Self::Way, Units::Us) => "mi",
            (Self::RoadSpeed, Units::Metric) => "km/h",
            (Self::RoadSpeed, Units::Us) => "mph",
            (Self::Energy, _) => "kWh",
            (Self::Power, _) => "kW",
            (Self::Time, _) => "min",
            (Self::Temperature, Units::Metric) => "°C",
            (Self::Temperature, Units::Us) => "°F",
            (Self::Years, _) => "years",
        }
    }

    /// How much one shown unit is inside.
    const fn factor(self, units: Units) -> f64 {
        match (self, units) {
            (Self::Length, Units::Us) => MM_PER_IN,
            (Self::Mass, Units::Us) => KG_PER_LB,
            (Self::Torque, Units::Us) => NM_PER_LBFT,
            (Self::Share, _) => 0.01,
            (Self::LoadForWidth, Units::Us) => KG_PER_LB / MM_PER_IN,
            (Self::Force, Units::Metric) => 1e3,
            (Self::Force, Units::Us) => N_PER_LBF,
            (Self::Moment, Units::Metric) => 1e6,
            (Self::Moment, Units::Us) => N_PER_LBF * MM_PER_IN,
            (Self::Stress, Units::Us) => N_PER_LBF / (MM_PER_IN * MM_PER_IN),
            (Self::Modulus, Units::Metric) => 1e3,
            (Self::Modulus, Units::Us) => MM_PER_IN * MM_PER_IN * MM_PER_IN,
            (Self::Volume, Units::Us) => L_PER_FT3,
            (Self::Height, Units::Us) => 12.0 * MM_PER_IN / 1_000.0,
            (Self::Way, Units::Metric) => 1_000.0,
            (Self::Way, Units::Us) => M_PER_MI,
            (Self::RoadSpeed, Units::Metric) => 1.0 / 3.6,
            (Self::RoadSpeed, Units::Us) => M_PER_MI / 3_600.0,
            (Self::Energy, _) => 3.6e6,
            (Self::Power, _) => 1_000.0,
            (Self::Time, _) => 60.0,
            (Self::Temperature, Units::Us) => 5.0 / 9.0,
            _ => 1.0,
        }
    }

    const fn decimals(self, units: Units) -> usize {
        match (self, units) {
            (Self::Length | Self::Modulus | Self::Volume, Units::Us)
            | (
                Self::Share
                | Self::Angle
                | Self::Way
                | Self::RoadSpeed
                | Self::Energy
                | Self::Years,
                _,
            )
            | (Self::Force | Self::Moment, Units::Metric) => 1,
            (Self::Factor | Self::Area, _) => 2,
            (Self::Coefficient, _) => 4,
            (Self::Gravity, _) | (Self::LoadForWidth, Units::Metric) => 2,
            _ => 0,
        }
    }

    /// The number in shown units, as a slider needs it.
    #[must_use]
    pub fn shown(self, inside: f64, units: Units) -> f64 {
        inside / self.factor(units)
    }

    /// Number without unit, grouped in thousands, such as `4,699`.
    #[must_use]
    pub fn number(self, inside: f64, units: Units) -> String {
        grouped(self.shown_for_people(inside, units), self.decimals(units))
    }

    /// In shown units, from where people count.
    fn shown_for_people(self, inside: f64, units: Units) -> f64 {
        let zero = match (self, units) {
            (Self::Temperature, Units::Us) => 32.0,
            _ => 0.0,
        };
        inside / self.factor(units) + zero
    }

    /// Number with unit, such as `4,699 mm`.
    #[must_use]
    pub fn text(self, inside: f64, units: Units) -> String {
        let mut out = String::with_capacity(16);
        self.write(&mut out, inside, units);
        out
    }

    /// The same, at the end of a text that is being put together.
    pub fn write(self, out: &mut String, inside: f64, units: Units) {
        let shown = self.shown_for_people(inside, units);
        group::write(out, shown, self.decimals(units));
        let unit = self.unit(units);
        if !unit.is_empty() && self != Self::Angle {
            out.push(' ');
        }
        out.push_str(unit);
    }

    /// Number with sign and unit, such as `+545 kg`.
    #[must_use]
    pub fn signed(self, inside: f64, units: Units) -> String {
        signed(self.text(inside, units))
    }

    /// Number with sign, without unit, such as `+545`.
    #[must_use]
    pub fn signed_number(self, inside: f64, units: Units) -> String {
        signed(self.number(inside, units))
    }

    /// Reads what a person typed: a number with optional thousands commas and an optional unit
    /// (`mm cm m in ft`, `kg t lb`, `km mi`, `%`, `°`). Without a unit, the shown unit counts.
    ///
    /// # Errors
    /// A sentence that says what was expected.
    pub fn parse(self, typed: &str, units: Units) -> Result<f64, String> {
        let text = typed.trim().replace(['−', '–'], "-");
        let split = text
            .char_indices()
            .find(|(_, c)| !(c.is_ascii_digit() || " .,+-'".contains(*c)))
            .map_or(text.len(), |(at, _)| at);
        let (number, unit) = text.split_at(split);
        let number: String = number.chars().filter(|c| !" ,'".contains(*c)).collect();
        let value: f64 = number.parse().map_err(|_| {
            let (typed, unit) = (quoted(typed), self.unit(units));
            format!("{typed} is not a number. Write one, in {unit}")
        })?;
        let factor = match (self, unit.trim()) {
            (_, "") => self.factor(units),
            (Self::Length, "mm") | (Self::Mass, "kg") => 1.0,
            (Self::Length, "cm") => 10.0,
            (Self::Length, "m") | (Self::Mass, "t") => 1_000.0,
            (Self::Length, "in" | "\"") => MM_PER_IN,
            (Self::Length, "ft") => 12.0 * MM_PER_IN,
            (Self::Mass, "lb" | "lbs") => KG_PER_LB,
            (Self::Share, "%") => 0.01,
            (Self::Way, "km") => 1_000.0,
            (Self::Way, "mi") => M_PER_MI,
            (Self::Angle, "°" | "deg") => 1.0,
            (Self::LoadForWidth, "kg/mm") => 1.0,
            (Self::LoadForWidth, "lb/in") => KG_PER_LB / MM_PER_IN,
            (_, other) => {
                let known = match self {
                    Self::Length => "mm, cm, m, in or ft",
                    Self::Mass => "kg, t or lb",
                    Self::Way => "km or mi",
                    _ => self.unit(units),
                };
                let (number, other) = (quoted(&number), quoted(other));
                return Err(format!(
                    "what stands behind {number} is not known here: {other}. Write the number alone, or {known} behind it"
                ));
            }
        };
        let inside = value * factor;
        if inside.is_finite() {
            Ok(inside)
        } else {
            Err(format!("{} is too large", quoted(typed)))
        }
    }
}

/// A plus before what is neither negative nor nothing.
fn signed(mut text: String) -> String {
    if !text.starts_with('−') && text.bytes().any(|b| (b'1'..=b'9').contains(&b)) {
        text.insert(0, '+');
    }
    text
}

/// `4,699 mm` or `185.0 in`.
#[must_use]
pub fn length(mm: f64, units: Units) -> String {
    Measure::Length.text(mm, units)
}

/// `4,699 mm (185.0 in)`, where nobody knows which units the reader chose.
#[must_use]
pub fn both_lengths(mm: f64) -> String {
    format!("{} ({})", length(mm, Units::Metric), length(mm, Units::Us))
}

/// `5,987 kg` or `13,199 lb`.
#[must_use]
pub fn mass(kg: f64, units: Units) -> String {
    Measure::Mass.text(kg, units)
}

/// `+14 mm`, `−14 mm`.
#[must_use]
pub fn signed_length(mm: f64, units: Units) -> String {
    Measure::Length.signed(mm, units)
}

/// `+545 kg`, `−545 kg`.
#[must_use]
pub fn signed_mass(kg: f64, units: Units) -> String {
    Measure::Mass.signed(kg, units)
}

/// A number as a message repeats it: short also when it is absurd.
#[must_use]
pub fn repeated(value: f64) -> String {
    let plain = value == 0.0 || !value.is_finite() || (1e-6..1e15).contains(&value.abs());
    if plain {
        value.to_string()
    } else {
        format!("{value:e}")
    }
}

/// Longest typed text that a message repeats, in characters.
const REPEATED: usize = 40;

/// What was typed, as a message repeats it.
fn quoted(typed: &str) -> String {
    let mut short: String = typed.trim().chars().take(REPEATED).collect();
    if typed.trim().chars().nth(REPEATED).is_some() {
        short.push('…');
    }
    format!("\"{short}\"")
}

/// Groups thousands with commas and writes a true minus sign; never "−0".
#[must_use]
pub fn grouped(value: f64, decimals: usize) -> String {
    let mut out = String::with_capacity(16);
    group::write(&mut out, value, decimals);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_grouped_and_signed() {
        assert_eq!(length(4_699.0, Units::Metric), "4,699 mm");
        assert_eq!(length(4_699.0, Units::Us), "185.0 in");
        assert_eq!(signed_mass(545.2, Units::Metric), "+545 kg");
        assert_eq!(signed_mass(-1_545.2, Units::Metric), "−1,545 kg");
        assert_eq!(signed_mass(-0.2, Units::Metric), "0 kg");
        assert_eq!(mass(1_234_567.0, Units::Metric), "1,234,567 kg");
    }

    #[test]
    fn typed_numbers_are_read_with_their_unit() {
        let read = |text: &str, units| Measure::Length.parse(text, units);
        assert_eq!(read("4,699", Units::Metric), Ok(4_699.0));
        assert_eq!(read("185 in", Units::Metric), Ok(4_699.0));
        assert_eq!(read("10", Units::Us), Ok(254.0));
        assert_eq!(read("−12.5 mm", Units::Us), Ok(-12.5));
        assert!(read("12 kg", Units::Metric).is_err());
        assert!(read("", Units::Metric).is_err());
        assert!(read("1e308", Units::Metric).is_err());
        assert!(Measure::Mass.parse("NaN", Units::Metric).is_err());
    }
}
