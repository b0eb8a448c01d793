//! A long series without what no eye could tell apart, and with everything that stands out.
//!
//! Of the points over one column of pixels the first, the lowest, the highest and the last are kept, in
//! their order; the line through them covers the same pixels as the line through all of them.

use super::ticks::FARTHEST;

/// Thins points whose columns do not fall. Points that are not finite part the line in pieces.
pub fn thinned(points: &[(f64, f64)], column: impl Fn(f64) -> i32) -> Vec<Vec<(f64, f64)>> {
    let good = |p: &(f64, f64)| p.0.abs() < FARTHEST && p.1.abs() < FARTHEST;
    points
        .split(|p| !good(p))
        .filter(|piece| !piece.is_empty())
        .map(|piece| one(piece, &column))
        .collect()
}

fn one(piece: &[(f64, f64)], column: &impl Fn(f64) -> i32) -> Vec<(f64, f64)> {
    let mut out: Vec<(f64, f64)> = Vec::new();
    for run in piece.chunk_by(|a, b| column(a.0) == column(b.0)) {
        let by = |better: fn(f64, f64) -> bool| {
            let pick = |best: usize, (i, p): (usize, &(f64, f64))| {
                let old = run.get(best).map_or(p.1, |b| b.1);
                if better(p.1, old) { i } else { best }
            };
            run.iter().enumerate().fold(0, pick)
        };
        let mut kept = [0, by(|a, b| a < b), by(|a, b| a > b), run.len() - 1];
        kept.sort_unstable();
        let mut before = usize::MAX;
        for i in kept {
            if i != before {
                out.extend(run.get(i));
            }
            before = i;
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_million_points_become_few_and_keep_their_peaks() {
        let mut points: Vec<(f64, f64)> = (0..1_000_000_u32)
            .map(|i| (f64::from(i), f64::from(i % 97)))
            .collect();
        points[123_456].1 = 5_000.0;
        points[765_432].1 = -4_000.0;
        let kept = thinned(&points, |x| (x / 1_000_000.0 * 700.0) as i32);
        assert_eq!(kept.len(), 1);
        assert!(kept[0].len() <= 4 * 700, "{}", kept[0].len());
        assert!(kept[0].contains(&points[123_456]) && kept[0].contains(&points[765_432]));
        assert_eq!(kept[0].first(), points.first());
        assert_eq!(kept[0].last(), points.last());
        assert!(kept[0].windows(2).all(|p| p[0].0 < p[1].0));
    }

    #[test]
    fn few_points_stay_and_holes_stay_holes() {
        let points = [(0.0, 1.0), (1.0, 2.0), (2.0, f64::NAN), (3.0, 1.0)];
        let kept = thinned(&points, |x| x as i32);
        assert_eq!(kept, [points[..2].to_vec(), points[3..].to_vec()]);
        assert!(thinned(&[], |_| 0).is_empty());
    }
}
