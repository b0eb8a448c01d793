//! The driver: which speed is wanted where, braking in time for what comes.

use crate::numeric::sqrt;
use crate::route::{Course, Route};

/// How a driver drives a road (common practice).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Driver {
    /// Most acceleration that is asked for, m/s².
    pub accelerate: f64,
    /// Braking before a stop or a slower stretch, m/s².
    pub brake: f64,
}

impl Default for Driver {
    fn default() -> Self {
        Self {
            accelerate: 0.8,
            brake: 0.6,
        }
    }
}

/// The speed that may be driven at a place of a road: no faster than wanted, and able to brake for
/// what comes.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    /// (from here, wanted to the next one, at most here), in the order of the road.
    marks: Vec<Mark>,
    brake: f64,
    /// Stops still to come: (place, dwell).
    stops: Vec<(f64, f64)>,
    length_m: f64,
}

#[derive(Clone, Copy, Debug)]
struct Mark {
    at_m: f64,
    wanted: f64,
    here: f64,
}

impl Wanted {
    /// `None` for a trace.
    pub(super) fn of(route: &Route, driver: &Driver) -> Option<Self> {
        let Course::Road {
            length_m,
            targets,
            stops,
        } = &route.course
        else {
            return None;
        };
        let wanted_at = |x: f64| {
            let above = targets.partition_point(|t| t.from_m <= x);
            let target = above.checked_sub(1).and_then(|i| targets.get(i));
            target.or(targets.first()).map_or(0.0, |t| t.speed_mps)
        };
        let mut places: Vec<(f64, bool)> = targets.iter().map(|t| (t.from_m, false)).collect();
        places.extend(stops.iter().map(|s| (s.at_m, true)));
        places.push((*length_m, false));
        places.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut marks: Vec<Mark> = Vec::with_capacity(places.len());
        let mut before = f64::INFINITY;
        for (at_m, halt) in places {
            let wanted = wanted_at(at_m);
            let here = if halt { 0.0 } else { wanted.min(before) };
            match marks.last_mut() {
                Some(last) if (last.at_m - at_m).abs() < 1e-9 => last.here = last.here.min(here),
                _ => marks.push(Mark { at_m, wanted, here }),
            }
            before = wanted;
        }
        // From the end backwards: what can still be braked down in time.
        let mut next: Option<Mark> = None;
        for mark in marks.iter_mut().rev() {
            if let Some(ahead) = next {
                let brakable =
                    sqrt(ahead.here * ahead.here + 2.0 * driver.brake * (ahead.at_m - mark.at_m));
                mark.here = mark.here.min(brakable);
            }
            next = Some(*mark);
        }
        Some(Self {
            marks,
            brake: driver.brake,
            stops: stops.iter().map(|s| (s.at_m, s.dwell_s)).collect(),
            length_m: *length_m,
        })
    }

    /// Speed that may be driven at a place, m/s.
    pub(super) fn at(&self, x_m: f64) -> f64 {
        let above = self.marks.partition_point(|m| m.at_m <= x_m);
        let wanted = above.checked_sub(1).and_then(|i| self.marks.get(i));
        let wanted = wanted.or(self.marks.first()).map_or(0.0, |m| m.wanted);
        match self.marks.get(above) {
            Some(next) => {
                let square = next.here * next.here + 2.0 * self.brake * (next.at_m - x_m);
                wanted.min(sqrt(square))
            }
            None => wanted,
        }
    }

    /// Next stop at or after a place: where, and how long.
    pub(super) fn stop_after(&self, index: usize) -> Option<(f64, f64)> {
        self.stops.get(index).copied()
    }

    /// End of the road, metre.
    pub(super) const fn length_m(&self) -> f64 {
        self.length_m
    }
}
