//! Grades along a way, straight between points.

use crate::numeric::between;
use serde::Serialize;

/// Grade by distance: (metre, grade as a fraction), straight in between, level outside.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Profile {
    points: Vec<(f64, f64)>,
}

impl Profile {
    /// Level everywhere.
    #[must_use]
    pub const fn level() -> Self {
        Self { points: Vec::new() }
    }

    /// One grade everywhere.
    #[must_use]
    pub fn steady(grade: f64) -> Self {
        Self {
            points: vec![(0.0, grade)],
        }
    }

    /// Grades at places that rise. Two points at one place make a step.
    ///
    /// `None` when a place falls behind the one before it or something is not finite.
    #[must_use]
    pub fn of_grades(points: Vec<(f64, f64)>) -> Option<Self> {
        let good = points.iter().all(|(x, g)| x.is_finite() && g.is_finite())
            && points.windows(2).all(|pair| match pair {
                [a, b] => a.0 <= b.0,
                _ => true,
            });
        good.then_some(Self { points })
    }

    /// Heights at places that rise: one grade between each two.
    ///
    /// `None` when a place does not rise or something is not finite.
    #[must_use]
    pub fn of_heights(points: &[(f64, f64)]) -> Option<Self> {
        let mut grades = Vec::with_capacity(points.len() * 2);
        for pair in points.windows(2) {
            let [a, b] = pair else { continue };
            let run = b.0 - a.0;
            if run <= 0.0 || run.is_nan() {
                return None;
            }
            let grade = (b.1 - a.1) / run;
            grades.push((a.0, grade));
            grades.push((b.0, grade));
        }
        Self::of_grades(grades)
    }

    /// Points.
    #[must_use]
    pub fn points(&self) -> &[(f64, f64)] {
        &self.points
    }

    /// Grade at a place, as a fraction. A single point holds everywhere.
    #[must_use]
    pub fn at(&self, x_m: f64) -> f64 {
        if let [only] = self.points.as_slice() {
            return only.1;
        }
        let inside = match (self.points.first(), self.points.last()) {
            (Some(first), Some(last)) => first.0 <= x_m && x_m < last.0,
            _ => false,
        };
        if inside {
            between(&self.points, x_m)
        } else {
            0.0
        }
    }

    /// Metres climbed, and the height of the end over the start.
    #[must_use]
    pub fn climb_m(&self) -> (f64, f64) {
        let (mut up, mut net) = (0.0, 0.0);
        for pair in self.points.windows(2) {
            let [a, b] = pair else { continue };
            let run = b.0 - a.0;
            net += 0.5 * (a.1 + b.1) * run;
            up += if a.1 >= 0.0 && b.1 >= 0.0 {
                0.5 * (a.1 + b.1) * run
            } else if a.1 <= 0.0 && b.1 <= 0.0 {
                0.0
            } else {
                let high = a.1.max(b.1);
                0.5 * high * run * high / (high - a.1.min(b.1))
            };
        }
        (up, net)
    }

    /// Height over the start at places that do not fall, metres: grades added up exactly, level outside.
    #[must_use]
    pub fn heights_m(&self, places_m: &[f64]) -> Vec<f64> {
        let (mut x, mut height, mut next) = (0.0, 0.0, 0);
        let level = self.points.len() < 2;
        let mut out = Vec::with_capacity(places_m.len());
        for place in places_m {
            if level && x < *place {
                height += self.at(x) * (place - x);
                x = *place;
            }
            while x < *place {
                let far = self.points.get(next).map_or(*place, |p| p.0);
                if far <= x && next < self.points.len() {
                    next += 1;
                    continue;
                }
                let to = far.min(*place);
                // Straight between points, so the middle's grade is the mean.
                height += self.at(0.5 * (x + to)) * (to - x);
                x = to;
            }
            out.push(height);
        }
        out
    }

    /// Steepest climb and steepest descent, as fractions.
    #[must_use]
    pub fn steepest(&self) -> (f64, f64) {
        let fold =
            |start: f64, f: fn(f64, f64) -> f64| self.points.iter().map(|(_, g)| *g).fold(start, f);
        (fold(0.0, f64::max), fold(0.0, f64::min))
    }

    /// The same grades several times over; `once` is the length of the way.
    #[must_use]
    pub fn repeated(&self, times: usize, once_m: f64) -> Self {
        if self.points.len() < 2 {
            return self.clone();
        }
        let points = (0..times).flat_map(|turn| {
            let by = once_m * turn as f64;
            self.points.iter().map(move |(x, g)| (x + by, *g))
        });
        Self {
            points: points.collect(),
        }
    }
}
