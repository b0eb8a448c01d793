//! Where an axis begins, ends and is divided: steps of 1, 2 or 5 times a power of ten.
//!
//! Plain multiplication only: the crate's own marks take logarithms of the standard library, whose last
//! digit differs from machine to machine.

/// Beyond this a value is no measure of anything and is left out.
pub const FARTHEST: f64 = 1e12;

/// Air beyond the values, as a share of the axis.
const AIR: f64 = 0.06;

/// A divided axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ticks {
    /// Begin and end.
    pub span: (f64, f64),
    /// From tick to tick.
    pub step: f64,
    /// Decimals that the step needs.
    pub decimals: usize,
}

impl Ticks {
    /// About so many steps between two values; the axis ends on ticks.
    pub fn round(least: f64, most: f64, steps: u32) -> Self {
        let mut ticks = Self::within(least, most, steps);
        let (from, to) = ticks.span;
        ticks.span.0 = (from / ticks.step + 1e-9).floor() * ticks.step;
        ticks.span.1 = (to / ticks.step - 1e-9).ceil() * ticks.step;
        ticks
    }

    /// An axis of values with a little air, but not beyond what it reaches in any case; two ticks at least.
    pub fn airy(values: (f64, f64), reaches: (f64, f64), steps: u32) -> Self {
        let (least, most) = (values.0.min(reaches.0), values.1.max(reaches.1));
        let air = AIR * (most - least);
        let below = if values.0 < reaches.0 { air } else { 0.0 };
        let above = if values.1 > reaches.1 { air } else { 0.0 };
        let with = |steps| Self::within(least - below, most + above, steps);
        let enough = (steps..steps + 6).map(with).find(|t| t.values().len() > 1);
        enough.unwrap_or_else(|| with(steps))
    }

    /// The axis ends where the values end.
    pub fn within(least: f64, most: f64, steps: u32) -> Self {
        let span = if most - least > 1e-9 {
            (least, most)
        } else {
            (least, least + 1.0)
        };
        let raw = (span.1 - span.0) / f64::from(steps.max(1));
        let (mut power, mut decimals) = (1.0, 0);
        while power * 10.0 <= raw {
            power *= 10.0;
        }
        while power > raw && decimals < 12 {
            power /= 10.0;
            decimals += 1;
        }
        let times = [1.0, 2.0, 5.0, 10.0];
        let times = times.into_iter().find(|t| power * t >= raw * (1.0 - 1e-9));
        let times = times.unwrap_or(10.0);
        Self {
            span,
            step: power * times,
            decimals: if times > 9.0 {
                usize::saturating_sub(decimals, 1)
            } else {
                decimals
            },
        }
    }

    /// The ticks.
    pub fn values(&self) -> Vec<f64> {
        let first = (self.span.0 / self.step - 1e-9).ceil();
        let last = (self.span.1 / self.step + 1e-9).floor();
        let mut out = Vec::new();
        let mut k = first;
        while k <= last && out.len() < 100 {
            out.push(k * self.step);
            k += 1.0;
        }
        out
    }
}

/// Least and greatest of finite values; 0 to 1 when there is none.
pub fn extent(values: impl Iterator<Item = f64>) -> (f64, f64) {
    let start = (f64::INFINITY, f64::NEG_INFINITY);
    let (least, most) = values
        .filter(|v| v.abs() < FARTHEST)
        .fold(start, |(a, b), v| (a.min(v), b.max(v)));
    if least <= most {
        (least, most)
    } else {
        (0.0, 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_one_two_or_five_and_cover_the_values() {
        for (least, most, steps, step, span) in [
            (0.0, 100.0, 4, 50.0, (0.0, 100.0)),
            (0.0, 97.3, 5, 20.0, (0.0, 100.0)),
            (-3.0, 418.0, 4, 200.0, (-200.0, 600.0)),
            (0.2, 0.9, 7, 0.1, (0.2, 0.9)),
            (0.0, 9.5, 2, 5.0, (0.0, 10.0)),
            (7.0, 7.0, 3, 0.5, (7.0, 8.0)),
        ] {
            let ticks = Ticks::round(least, most, steps);
            assert!((ticks.step - step).abs() < 1e-9, "{ticks:?}");
            assert!((ticks.span.0 - span.0).abs() < 1e-9, "{ticks:?}");
            assert!((ticks.span.1 - span.1).abs() < 1e-9, "{ticks:?}");
        }
        for most in [1.0, 1.9, 2.1, 4.2, 9.9, 640.0] {
            let ticks = Ticks::airy((0.0, most), (0.0, 0.0), 1);
            assert!(ticks.values().len() > 1 && ticks.span.1 > most, "{ticks:?}");
            assert!(ticks.span.0.abs() < 1e-12, "{ticks:?}");
        }
        let whole = Ticks::airy((12.0, 88.0), (0.0, 100.0), 2);
        assert_eq!((whole.span, whole.step), ((0.0, 100.0), 50.0));
        assert_eq!(Ticks::within(0.0, 0.95, 10).decimals, 1);
        assert_eq!(Ticks::within(0.0, 9.5, 10).decimals, 0);
        assert_eq!(Ticks::within(0.0, 1e11, 4).values().len(), 3);
        assert_eq!(extent([f64::NAN, f64::INFINITY].into_iter()), (0.0, 1.0));
    }
}
