//! Where should fifth wheel and trailer axles stand for the largest payload that keeps every limit?
//!
//! Method. At one place the largest payload is the least of `(limit − load without payload) / share` over
//! all limits. Between two steps of the limits each of these rises or falls with the fifth wheel's place
//! all the way, so their least has one top, and halving by the slope of the one that binds finds it. The
//! answer is taken to a notch of the slider, or to a whole millimetre, and worked out again there. The
//! trailer's axles have holes; every hole is worked out. Asked for on demand, not while something is
//! carried.

use super::bounds::{Bounds, Stand};
use super::position::words;
use crate::numeric::sort_by;
use crate::vehicle::Vehicle;

/// A place and what is possible there.
#[derive(Clone, Debug, PartialEq)]
pub struct Best {
    /// Fifth wheel ahead of the driven axles, mm; `None` without one.
    pub ahead_mm: Option<f64>,
    /// Kingpin to trailer axles, mm; `None` without a trailer.
    pub kingpin_to_axles_mm: Option<f64>,
    /// Largest payload, kg.
    pub payload_kg: f64,
    /// The limits that stop it.
    pub stopped_by: Vec<String>,
}

/// Best places; `None` when no payload passes at any, or when there is nothing to slide.
#[derive(Clone, Debug, PartialEq)]
pub struct BestPositions {
    /// As planned.
    pub now: Option<Best>,
    /// Sliding the fifth wheel alone.
    pub fifth_wheel: Option<Best>,
    /// Sliding the trailer's axles alone.
    pub trailer_axles: Option<Best>,
    /// Sliding both.
    pub both: Option<Best>,
}

impl BestPositions {
    /// Each with the words for what slides; those that do not apply are left out.
    pub fn rows(&self) -> impl Iterator<Item = (&'static str, &Best)> {
        [
            ("as planned", &self.now),
            ("fifth wheel slid", &self.fifth_wheel),
            ("trailer axles slid", &self.trailer_axles),
            ("both slid", &self.both),
        ]
        .into_iter()
        .filter_map(|(words, best)| best.as_ref().map(|best| (words, best)))
    }
}

/// Limits within this much payload of the least stop it together, kg.
const TOGETHER_KG: f64 = 0.5;
/// Payloads this near are the same; then the place nearest to the planned one is taken, kg.
const SAME_KG: f64 = 0.05;

/// Works out the best places.
#[must_use]
pub fn best_positions(bounds: &Bounds<'_>) -> BestPositions {
    let vehicle = bounds.vehicle();
    let planned = bounds.as_planned();
    let slides = bounds.reach_mm().0 < bounds.reach_mm().1 && vehicle.trailer.is_some();
    let holes: Vec<Stand> = vehicle
        .trailer
        .as_ref()
        .and_then(|t| t.trailer.slider.as_ref())
        .map_or_else(Vec::new, |slider| {
            let holes = slider.holes_mm();
            holes.map(|hole| bounds.with_axles_at(hole)).collect()
        });
    let here = |stands: &[Stand]| {
        let best = stands.iter().filter_map(|s| Some((bounds.most(s)?, *s)));
        nearest(best.collect(), |s| s.axles_back_mm.abs())
    };
    let both = holes.iter().filter_map(|stand| bounds.slid(stand));
    BestPositions {
        now: here(&[planned]).map(|found| bounds.named(vehicle, found)),
        fifth_wheel: slides
            .then(|| bounds.slid(&planned))
            .flatten()
            .map(|found| bounds.named(vehicle, found)),
        trailer_axles: here(&holes).map(|found| bounds.named(vehicle, found)),
        both: slides
            .then(|| nearest(both.collect(), |s| s.axles_back_mm.abs() + s.ahead_mm.abs()))
            .flatten()
            .map(|found| bounds.named(vehicle, found)),
    }
}

/// The largest payload; of equal ones that with the least to slide.
fn nearest(found: Vec<(f64, Stand)>, away: impl Fn(&Stand) -> f64) -> Option<(f64, Stand)> {
    let most = found.iter().map(|(kg, _)| *kg).reduce(f64::max)?;
    found
        .into_iter()
        .filter(|(kg, _)| *kg >= most - SAME_KG)
        .reduce(|a, b| if away(&b.1) < away(&a.1) { b } else { a })
}

impl Bounds<'_> {
    /// Largest payload at a place, kg; `None` when a limit is passed that payload does not bring nearer, or
    /// without any.
    fn most(&self, stand: &Stand) -> Option<f64> {
        let mut most = f64::INFINITY;
        for bound in &self.list {
            let (ahead, back) = (stand.ahead_mm, stand.axles_back_mm);
            let (base, share) = bound.trend.under(ahead, back, &stand.split);
            let room = self.limit(bound, stand) - base;
            if share > 1e-9 {
                most = most.min(room / share);
            } else if room < -1e-6 {
                return None;
            }
        }
        (most >= 0.0 && most.is_finite()).then_some(most)
    }

    fn named(&self, vehicle: &Vehicle, (payload_kg, stand): (f64, Stand)) -> Best {
        let mut stopped_by = Vec::new();
        for bound in &self.list {
            let (ahead, back) = (stand.ahead_mm, stand.axles_back_mm);
            let (base, share) = bound.trend.under(ahead, back, &stand.split);
            let payload = (self.limit(bound, &stand) - base) / share;
            let words = words(bound);
            if share > 1e-9 && payload < payload_kg + TOGETHER_KG && !stopped_by.contains(&words) {
                stopped_by.push(words);
            }
        }
        let wheel = vehicle.chassis.fifth_wheel.as_ref();
        let trailer = vehicle.trailer.as_ref();
        Best {
            ahead_mm: wheel.map(|fw| fw.ahead_mm + stand.ahead_mm),
            kingpin_to_axles_mm: trailer
                .map(|t| t.trailer.kingpin_to_axles_mm + stand.axles_back_mm),
            payload_kg,
            stopped_by,
        }
    }

    /// The best place of the fifth wheel with the trailer's axles as they stand.
    fn slid(&self, stand: &Stand) -> Option<(f64, Stand)> {
        let reach = self.reach_mm();
        let mut ends = Vec::new();
        for (low, high) in self.pieces(stand, reach) {
            // Where a share changes its sign, a limit stops or starts to rise with payload.
            ends.push(low);
            for bound in &self.list {
                let share = bound.trend.under(0.0, stand.axles_back_mm, &stand.split).1;
                let root = -share / bound.trend.slope(&stand.split).1;
                if root > low + 1e-3 && root < high - 1e-3 {
                    ends.extend([root - 1e-6, root + 1e-6]);
                }
            }
            ends.push(high);
        }
        sort_by(&mut ends, f64::total_cmp);
        let mut found: Vec<(f64, Stand)> = Vec::new();
        let mut look = |ahead_mm: f64| {
            if ahead_mm < reach.0 - 1e-9 || ahead_mm > reach.1 + 1e-9 {
                return;
            }
            let there = Stand { ahead_mm, ..*stand };
            found.extend(self.most(&there).map(|kg| (kg, there)));
        };
        look(0.0);
        for pair in ends.chunks(2) {
            let [low, high] = pair else { continue };
            if let Some(top) = self.top(stand, (*low, *high)) {
                self.around(top).into_iter().for_each(&mut look);
            }
        }
        let most = found.iter().map(|(kg, _)| *kg).reduce(f64::max)?;
        // Where the top is flat, the end of it that is nearest to the planned place.
        for (low, high) in self.passing(stand, &self.pieces(stand, reach), most - SAME_KG) {
            let near = 0.0_f64.clamp(low, high.max(low));
            for ahead_mm in self.around(near) {
                if ahead_mm >= reach.0 - 1e-9 && ahead_mm <= reach.1 + 1e-9 {
                    let there = Stand { ahead_mm, ..*stand };
                    found.extend(self.most(&there).map(|kg| (kg, there)));
                }
            }
        }
        nearest(found, |s| s.ahead_mm.abs())
    }

    /// The notches, or whole millimetres, on both sides of a place.
    fn around(&self, ahead_mm: f64) -> [f64; 2] {
        let Some(fw) = &self.vehicle().chassis.fifth_wheel else {
            return [ahead_mm; 2];
        };
        let (from, step) = match fw.step_mm {
            Some(step) => (fw.ahead_min_mm - fw.ahead_mm, step),
            None => (-fw.ahead_mm, 1.0),
        };
        let steps = (ahead_mm - from) / step;
        [steps.floor(), steps.ceil()].map(|n| from + n * step)
    }

    /// The place with the largest payload in an interval without steps; `None` when none passes.
    fn top(&self, stand: &Stand, (low, high): (f64, f64)) -> Option<f64> {
        let middle = Stand {
            ahead_mm: f64::midpoint(low, high),
            ..*stand
        };
        // Room without payload and its slope, share of payload and its slope.
        let mut rising = Vec::new();
        let (mut low, mut high) = (low, high);
        for bound in &self.list {
            let (base, share) = bound.trend.under(0.0, stand.axles_back_mm, &stand.split);
            let (base_mm, share_mm) = bound.trend.slope(&stand.split);
            let room = self.limit(bound, &middle) - base;
            if share + share_mm * middle.ahead_mm > 1e-9 {
                rising.push((room, -base_mm, share, share_mm));
            } else if base_mm > 1e-12 {
                high = high.min(room / base_mm);
            } else if base_mm < -1e-12 {
                low = low.max(room / base_mm);
            } else if room < -1e-6 {
                return None;
            }
        }
        if low > high {
            return None;
        }
        while high - low > 1e-4 {
            let d = f64::midpoint(low, high);
            let least = rising
                .iter()
                .map(|(room, room_mm, share, share_mm)| {
                    let (a, b) = (room + room_mm * d, share + share_mm * d);
                    (a / b, room_mm * b - a * share_mm)
                })
                .reduce(|a, b| if b.0 < a.0 { b } else { a })?;
            if least.1 > 0.0 {
                low = d;
            } else {
                high = d;
            }
        }
        Some(f64::midpoint(low, high))
    }
}
