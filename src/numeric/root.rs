//! Roots of one equation with one unknown, by halving the interval.

/// Halvings after which two neighbouring floating-point numbers remain, whatever the interval.
const MOST_HALVINGS: usize = 1100;

/// A place between `lo` and `hi` where `f` changes sign, to within `tol` (or to the last digit if
/// `tol` is 0 or smaller).
///
/// `None` when `f` has the same sign at both ends, when an end is not finite, or when `f` gives
/// NaN on the way. The ends may be in either order. An end where `f` is exactly 0 is returned as
/// it is.
///
/// ```
/// use axlewright_core::numeric::bisect;
/// let root = bisect(|x| x * x - 2.0, 0.0, 2.0, 1e-12);
/// assert!((root.unwrap() - 2.0_f64.sqrt()).abs() < 1e-12);
/// ```
#[must_use]
pub fn bisect(mut f: impl FnMut(f64) -> f64, lo: f64, hi: f64, tol: f64) -> Option<f64> {
    if !lo.is_finite() || !hi.is_finite() {
        return None;
    }
    let (mut lo, mut hi) = if lo <= hi { (lo, hi) } else { (hi, lo) };
    let (at_lo, at_hi) = (f(lo), f(hi));
    if at_lo == 0.0 {
        return Some(lo);
    }
    if at_hi == 0.0 {
        return Some(hi);
    }
    if at_lo.is_nan() || at_hi.is_nan() || (at_lo > 0.0) == (at_hi > 0.0) {
        return None;
    }
    for _ in 0..MOST_HALVINGS {
        let middle = 0.5 * lo + 0.5 * hi;
        if hi - lo <= tol || middle <= lo || middle >= hi {
            break;
        }
        let value = f(middle);
        if value == 0.0 {
            return Some(middle);
        }
        if value.is_nan() {
            return None;
        }
        if (value > 0.0) == (at_lo > 0.0) {
            lo = middle;
        } else {
            hi = middle;
        }
    }
    Some(0.5 * lo + 0.5 * hi)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_the_root_to_the_last_digit_from_either_side() {
        let cube = |x: f64| x * x * x - 8.0;
        assert_eq!(bisect(cube, 0.0, 5.0, 0.0), Some(2.0));
        assert_eq!(bisect(cube, 5.0, 0.0, 0.0), Some(2.0));
        assert_eq!(bisect(cube, 2.0, 5.0, 0.0), Some(2.0));
    }

    #[test]
    fn no_change_of_sign_gives_none() {
        assert_eq!(bisect(|x| x * x + 1.0, -1.0, 1.0, 1e-9), None);
        assert_eq!(bisect(|_| f64::NAN, -1.0, 1.0, 1e-9), None);
        assert_eq!(bisect(|x| x, f64::NEG_INFINITY, 1.0, 1e-9), None);
    }
}
