//! The only place that turns numbers into words for people, and words of people into numbers.
//!
//! Inside, lengths are millimetres and masses kilograms; a person may read and type pounds and
//! inches. Conversion factors are exact by definition (NIST Handbook 44, appendix C).

use serde::{Deserialize, Serialize};

/// Kilograms in one avoirdupois pound, exact (NIST Handbook 44, appendix C).
pub const KG_PER_LB: f64 = 0.453_592_37;
/// Millimetres in one inch, exact.
pub const MM_PER_IN: f64 = 25.4;

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
    /// A plain count.
    Count,
    /// Degrees, inside and for people.
    Angle,
    /// Kilograms for each millimetre of tyre width inside.
    LoadForWidth,
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
            (Self::Count, _) => "",
            (Self::Angle, _) => "°",
            (Self::LoadForWidth, Units::Metric) => "kg/mm",
            (Self::LoadForWidth, Units::Us) => "lb/in",
        }
    }

    /// How much one shown unit is inside.
    const fn factor(self, units: Units) -> f64 {
        match (self, units) {
            (Self::Length, Units::Us) => MM_PER_IN,
            (Self::Mass, Units::Us) => KG_PER_LB,
            (Self::Share, _) => 0.01,
            (Self::LoadForWidth, Units::Us) => KG_PER_LB / MM_PER_IN,
            _ => 1.0,
        }
    }

    const fn decimals(self, units: Units) -> usize {
        match (self, units) {
            (Self::Length, Units::Us) | (Self::Share | Self::Angle, _) => 1,
            (Self::LoadForWidth, Units::Metric) => 2,
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
        grouped(inside / self.factor(units), self.decimals(units))
    }

    /// Number with unit, such as `4,699 mm`.
    #[must_use]
    pub fn text(self, inside: f64, units: Units) -> String {
        let unit = self.unit(units);
        let number = self.number(inside, units);
        if unit.is_empty() || self == Self::Angle {
            number + unit
        } else {
            format!("{number} {unit}")
        }
    }

    /// Number with sign and unit, such as `+545 kg`.
    #[must_use]
    pub fn signed(self, inside: f64, units: Units) -> String {
        let text = self.text(inside, units);
        let zero = !text.starts_with('−') && text.chars().any(|c| ('1'..='9').contains(&c));
        if zero { format!("+{text}") } else { text }
    }

    /// Reads what a person typed: a number with optional thousands commas and an optional unit
    /// (`mm cm m in ft`, `kg t lb`, `%`). Without a unit, the shown unit counts.
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
            (Self::Angle, "°" | "deg") => 1.0,
            (Self::LoadForWidth, "kg/mm") => 1.0,
            (Self::LoadForWidth, "lb/in") => KG_PER_LB / MM_PER_IN,
            (_, other) => {
                let known = match self {
                    Self::Length => "mm, cm, m, in or ft",
                    Self::Mass => "kg, t or lb",
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
fn grouped(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "unknown".to_owned();
    }
    let plain = format!("{:.decimals$}", value.abs());
    let negative = value < 0.0 && plain.bytes().any(|b| (b'1'..=b'9').contains(&b));
    let (whole, rest) = plain
        .split_once('.')
        .map_or((plain.as_str(), ""), |(w, r)| (w, r));
    let mut out = String::new();
    if negative {
        out.push('−');
    }
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    if !rest.is_empty() {
        out.push('.');
        out.push_str(rest);
    }
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
