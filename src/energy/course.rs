//! The course of a run, thinned so that what stands out stays.
//!
//! Steps are gathered in windows of equal count. Of each window the step with the least and the one with
//! the most power into the drives and the slowest one are kept, so that a picture of the course shows
//! every peak and every stop, however long the run was. Runs of fewer steps than windows keep them all.

use super::outcome::Sample;

/// Most windows; each keeps up to three samples.
const MOST_WINDOWS: usize = 1_500;

/// What stands out in a window of steps.
#[derive(Clone, Copy, Debug)]
struct Window {
    low: Sample,
    high: Sample,
    slow: Sample,
}

impl Window {
    const fn of(sample: Sample) -> Self {
        Self {
            low: sample,
            high: sample,
            slow: sample,
        }
    }

    /// With a later one.
    fn with(self, later: &Self) -> Self {
        let least =
            |a: Sample, b: Sample, of: fn(&Sample) -> f64| if of(&b) < of(&a) { b } else { a };
        Self {
            low: least(self.low, later.low, |s| s.drive_w),
            high: least(self.high, later.high, |s| -s.drive_w),
            slow: least(self.slow, later.slow, |s| s.v_mps),
        }
    }
}

/// Samples as they come in.
#[derive(Clone, Debug)]
pub(super) struct Course {
    windows: Vec<Window>,
    /// Steps in a window.
    every: usize,
    /// Steps in the last window.
    filled: usize,
    ends: Option<(Sample, Sample)>,
}

impl Course {
    pub(super) const fn new() -> Self {
        Self {
            windows: Vec::new(),
            every: 1,
            filled: 0,
            ends: None,
        }
    }

    pub(super) fn keep(&mut self, sample: Sample) {
        self.ends = Some((self.ends.map_or(sample, |(first, _)| first), sample));
        let one = Window::of(sample);
        match self.windows.last_mut() {
            Some(last) if self.filled < self.every => *last = last.with(&one),
            _ => {
                if self.windows.len() == MOST_WINDOWS {
                    self.halve();
                }
                self.windows.push(one);
                self.filled = 0;
            }
        }
        self.filled += 1;
    }

    fn halve(&mut self) {
        let pairs = self.windows.chunks(2).filter_map(|pair| match pair {
            [a, b] => Some(a.with(b)),
            [a] => Some(*a),
            _ => None,
        });
        self.windows = pairs.collect();
        self.every *= 2;
    }

    /// The samples in the order of time, the first and the last step among them.
    pub(super) fn samples(&self) -> Vec<Sample> {
        let ends = self.ends.into_iter().flat_map(|(a, b)| [a, b]);
        let kept = self.windows.iter().flat_map(|w| [w.low, w.high, w.slow]);
        let mut all: Vec<Sample> = kept.chain(ends).collect();
        all.sort_by(|a, b| a.t_s.total_cmp(&b.t_s));
        all.dedup_by(|a, b| a.t_s.total_cmp(&b.t_s).is_eq());
        all
    }
}
