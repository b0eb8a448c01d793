//! Heights from a receiver, made fit for grades.
//!
//! A receiver's height wanders by metres while the road does not: taken as it comes it makes grades that
//! no truck could climb, and a climb that is several times too large. Method: heights at even distances
//! of 25 m, straight between points; a running median of five (one or two wild points go); then twice a
//! straight line fitted through nine neighbours (225 m), which in the middle of a way is their mean. What
//! is steep for less than about 300 m is flattened by that.

use crate::numeric::between;

/// Distance between two heights that are kept, metre.
pub const SPACING_M: f64 = 25.0;
/// Heights in the running median.
const MEDIAN: usize = 5;
/// Heights through which a line is fitted.
const FITTED: usize = 9;

/// The method, for whoever reads the result.
pub const METHOD: &str = "heights every 25 m, a running median of 5, then twice a line fitted through 9 \
                          neighbours (225 m); grades shorter than about 300 m are flattened";

/// Heights (metre from the start, metre) at even distances, smoothed. `None` with less than two points.
#[must_use]
pub fn smoothed(raw: &[(f64, f64)]) -> Option<Vec<(f64, f64)>> {
    let [first, .., last] = raw else {
        return None;
    };
    let length = last.0 - first.0;
    let pieces = (length / SPACING_M).round().max(1.0);
    let at = |i: usize| first.0 + length * i as f64 / pieces;
    let count = pieces as usize + 1;
    let even: Vec<f64> = (0..count).map(|i| between(raw, at(i))).collect();
    let calm = fitted(&fitted(&median(&even)));
    Some((0..count).map(at).zip(calm).collect())
}

/// Sum of all steps upward, metre.
#[must_use]
pub fn climb_m(heights: &[(f64, f64)]) -> f64 {
    heights
        .windows(2)
        .map(|pair| match pair {
            [a, b] => (b.1 - a.1).max(0.0),
            _ => 0.0,
        })
        .sum()
}

fn median(values: &[f64]) -> Vec<f64> {
    let mut out = Vec::with_capacity(values.len());
    for index in 0..values.len() {
        // Shorter towards the ends, so that it stays in the middle.
        let half = (MEDIAN / 2).min(index).min(values.len() - 1 - index);
        let mut near = values
            .get(index - half..=index + half)
            .unwrap_or_default()
            .to_vec();
        near.sort_by(f64::total_cmp);
        out.push(near.get(half).copied().unwrap_or_default());
    }
    out
}

/// The least-squares line through the neighbours of each value, read at it. At the ends the neighbours
/// are on one side only; a straight slope is left as it is everywhere.
fn fitted(values: &[f64]) -> Vec<f64> {
    let mut out = Vec::with_capacity(values.len());
    for index in 0..values.len() {
        let from = index.saturating_sub(FITTED / 2);
        let to = (index + FITTED / 2).min(values.len() - 1);
        let near = values.get(from..=to).unwrap_or_default();
        let count = near.len() as f64;
        let mean = near.iter().sum::<f64>() / count;
        let middle = 0.5 * (count - 1.0);
        let (mut square, mut product) = (0.0, 0.0);
        for (place, value) in near.iter().enumerate() {
            let off = place as f64 - middle;
            square += off * off;
            product += off * (value - mean);
        }
        let slope = if square > 0.0 { product / square } else { 0.0 };
        out.push(mean + slope * ((index - from) as f64 - middle));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A straight slope stays what it is, to rounding; a wild point goes.
    #[test]
    fn a_straight_slope_is_left_alone_and_a_wild_point_goes() {
        let mut raw: Vec<(f64, f64)> = (0..=400)
            .map(|i| (f64::from(i) * 10.0, 100.0 + 0.5 * f64::from(i)))
            .collect();
        let straight = smoothed(&raw).unwrap();
        for (x, z) in &straight {
            assert!((z - (100.0 + 0.05 * x)).abs() < 1e-9, "{x} {z}");
        }
        assert!((climb_m(&straight) - 200.0).abs() < 1e-9);
        raw[200].1 += 80.0;
        let calm = smoothed(&raw).unwrap();
        assert!((climb_m(&calm) - 200.0).abs() < 1.0, "{}", climb_m(&calm));
        assert!(climb_m(&raw) > 275.0);
    }

    #[test]
    fn one_point_is_no_way() {
        assert_eq!(smoothed(&[(0.0, 1.0)]), None);
    }
}
