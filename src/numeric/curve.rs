//! A curve through points, straight in between: how measured and published tables are read.

/// Points in rising order of x; outside the first and the last the end value holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    points: Vec<(f64, f64)>,
}

impl Curve {
    /// A curve through these points.
    ///
    /// `None` when there are none, when one is not finite, or when x does not rise.
    #[must_use]
    pub fn through(points: Vec<(f64, f64)>) -> Option<Self> {
        let finite = points.iter().all(|(x, y)| x.is_finite() && y.is_finite());
        let rising = points.windows(2).all(|pair| match pair {
            [a, b] => a.0 < b.0,
            _ => true,
        });
        (finite && rising && !points.is_empty()).then_some(Self { points })
    }

    /// The points.
    #[must_use]
    pub fn points(&self) -> &[(f64, f64)] {
        &self.points
    }

    /// Value at x.
    #[must_use]
    pub fn at(&self, x: f64) -> f64 {
        between(&self.points, x)
    }
}

/// A table read at x, straight between its points, which rise in x; the end values hold outside, and a
/// table without points gives NaN.
#[must_use]
pub fn between(points: &[(f64, f64)], x: f64) -> f64 {
    let above = points.partition_point(|(px, _)| *px <= x);
    let below = above.checked_sub(1).and_then(|i| points.get(i));
    match (below, points.get(above)) {
        (Some(a), Some(b)) => a.1 + (b.1 - a.1) * (x - a.0) / (b.0 - a.0),
        (Some(only), None) | (None, Some(only)) => only.1,
        (None, None) => f64::NAN,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn straight_between_points_and_level_outside() {
        let curve = Curve::through(vec![(0.0, 1.0), (2.0, 5.0), (3.0, 4.0)]).unwrap();
        assert_eq!(curve.at(-1.0), 1.0);
        assert_eq!(curve.at(0.0), 1.0);
        assert_eq!(curve.at(1.0), 3.0);
        assert_eq!(curve.at(2.5), 4.5);
        assert_eq!(curve.at(9.0), 4.0);
    }

    #[test]
    fn points_that_do_not_rise_or_are_not_finite_make_no_curve() {
        assert!(Curve::through(Vec::new()).is_none());
        assert!(Curve::through(vec![(1.0, 0.0), (1.0, 2.0)]).is_none());
        assert!(Curve::through(vec![(1.0, f64::NAN)]).is_none());
    }
}
