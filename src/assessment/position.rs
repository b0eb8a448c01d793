//! Where may fifth wheel and trailer axles stand so that every limit is kept with the planned load?
//!
//! Method. Loads are linear in the fifth wheel's place, and the limits of groups of axles of truck and
//! trailer are steps: between two steps every limit is a straight line against a constant, so the passing
//! places are worked out, not tried. The trailer's axles have holes; each is worked out exactly.

use super::bounds::{Bound, Bounds, Stand};
use crate::numeric::sort_by;
use crate::vehicle::Vehicle;

/// What stops the fifth wheel from going farther.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Binding {
    /// The slider ends here.
    Slider,
    /// This limit is reached, in words.
    Limit(String),
}

/// Positions ahead of the driven axles that keep every limit.
#[derive(Clone, Debug, PartialEq)]
pub struct PositionRange {
    /// Least and largest such distance, mm, of the range that holds the planned place or is nearest to
    /// it; `None` when there is no such position.
    pub ahead_mm: Option<(f64, f64)>,
    /// What binds at the low and at the high end.
    pub bound_by: (Binding, Binding),
    /// What is over its limit at every position of the slider.
    pub always_over: Vec<String>,
    /// Stretches of the slider in which no limit has a step.
    pieces: Vec<(f64, f64)>,
}

/// Holes of the trailer's slider.
#[derive(Clone, Debug, PartialEq)]
pub struct AxleHoles {
    /// Kingpin to axles as planned, mm.
    pub now_mm: f64,
    /// Kingpin to axles in each hole that keeps every limit, mm.
    pub pass_mm: Vec<f64>,
    /// Number of holes.
    pub holes: usize,
    /// What is over its limit in every hole.
    pub always_over: Vec<String>,
    /// Limits of the groups of axles, hole by hole, kg.
    groups_kg: Vec<f64>,
}

/// Slack in kilograms.
const SLACK: f64 = 1e-6;
/// How finely a step of a limit is found, mm.
const FINE_MM: f64 = 1e-4;

/// What a limit is called in a sentence.
pub(super) fn words(bound: &Bound<'_>) -> String {
    format!("{} ({})", bound.name, bound.by)
}

fn noted(list: &mut Vec<String>, bound: &Bound<'_>) {
    let words = words(bound);
    if !list.contains(&words) {
        list.push(words);
    }
}

/// Works out the range for the plan's trailer load. `known` is one with the same steps of the limits.
///
/// # Errors
/// What is missing: a fifth wheel, a trailer, loads.
pub fn fifth_wheel_range(
    vehicle: &Vehicle,
    bounds: Result<&Bounds<'_>, &String>,
    known: Option<&PositionRange>,
) -> Result<PositionRange, String> {
    let Some(fw) = &vehicle.chassis.fifth_wheel else {
        return Err("this chassis has no fifth wheel".to_owned());
    };
    let Some(trailer) = &vehicle.trailer else {
        return Err("no trailer is coupled, so nothing rests on the fifth wheel".to_owned());
    };
    let bounds = bounds.map_err(Clone::clone)?;
    let stand = bounds.as_planned();
    let reach = bounds.reach_mm();
    let payload = trailer.payload_kg;
    let pieces = known.map_or_else(|| bounds.pieces(&stand, reach), |k| k.pieces.clone());
    let ranges = bounds.passing(&stand, &pieces, payload);
    let mut always_over = Vec::new();
    for bound in &bounds.list {
        if pieces
            .iter()
            .all(|piece| bounds.over_all(bound, &stand, *piece, payload))
        {
            noted(&mut always_over, bound);
        }
    }
    // Nearest to where it stands, or around it.
    let away = |range: &(f64, f64)| (range.0.max(0.0) - range.1.min(0.0)).max(0.0);
    let range = ranges
        .into_iter()
        .reduce(|a, b| if away(&b) < away(&a) { b } else { a });
    let end = |at: f64, way: f64| {
        let beyond = at + way * 0.01;
        if beyond < reach.0 || beyond > reach.1 {
            return Binding::Slider;
        }
        let there = Stand {
            ahead_mm: beyond,
            ..stand
        };
        let over = |bound: &&Bound<'_>| bounds.room(bound, &there, payload) < -1e-9;
        let first = bounds.list.iter().find(over);
        first.map_or(Binding::Slider, |bound| Binding::Limit(words(bound)))
    };
    Ok(PositionRange {
        ahead_mm: range.map(|(low, high)| (fw.ahead_mm + low, fw.ahead_mm + high)),
        bound_by: range.map_or((Binding::Slider, Binding::Slider), |(low, high)| {
            (end(low, -1.0), end(high, 1.0))
        }),
        always_over,
        pieces,
    })
}

/// Works out which holes of the trailer's slider keep every limit with the plan's load; `None` when its
/// axles do not slide. `known` is one with the same limits of groups of axles.
#[must_use]
pub fn axle_holes(
    vehicle: &Vehicle,
    bounds: Result<&Bounds<'_>, &String>,
    known: Option<&AxleHoles>,
) -> Option<Result<AxleHoles, String>> {
    let coupled = vehicle.trailer.as_ref()?;
    let slider = coupled.trailer.slider.as_ref()?;
    let bounds = match bounds {
        Ok(bounds) => bounds,
        Err(missing) => return Some(Err(missing.clone())),
    };
    let mut out = AxleHoles {
        now_mm: coupled.trailer.kingpin_to_axles_mm,
        pass_mm: Vec::new(),
        holes: 0,
        always_over: Vec::new(),
        groups_kg: known.map_or_else(Vec::new, |k| k.groups_kg.clone()),
    };
    let count = bounds.groups();
    let mut always: Option<Vec<&Bound<'_>>> = None;
    for hole in slider.holes_mm() {
        let stand = bounds.with_axles_at(hole);
        let from = out.holes * count;
        if out.groups_kg.len() <= from {
            out.groups_kg.extend(bounds.of_groups(&stand));
        }
        let groups = &out.groups_kg[from..from + count];
        out.holes += 1;
        let over = |bound: &&Bound<'_>| {
            let limit = Bounds::limit_of(bound, groups);
            Bounds::left(bound, &stand, limit, coupled.payload_kg) < -SLACK
        };
        let over: Vec<&Bound<'_>> = match &always {
            // Once a hole passes, only the others' passing is of interest.
            Some(all) if all.is_empty() => bounds.list.iter().find(over).into_iter().collect(),
            _ => bounds.list.iter().filter(over).collect(),
        };
        if over.is_empty() {
            out.pass_mm.push(hole);
        }
        always = Some(match always {
            None => over,
            Some(all) => all.into_iter().filter(|b| over.contains(b)).collect(),
        });
    }
    for bound in always.unwrap_or_default() {
        noted(&mut out.always_over, bound);
    }
    Some(Ok(out))
}

impl Bounds<'_> {
    /// How far the fifth wheel may slide back (negative) and ahead of its planned place, mm.
    pub(super) fn reach_mm(&self) -> (f64, f64) {
        let wheel = self.vehicle().chassis.fifth_wheel.as_ref();
        wheel.map_or((0.0, 0.0), |fw| {
            (fw.ahead_min_mm - fw.ahead_mm, fw.ahead_max_mm - fw.ahead_mm)
        })
    }

    /// Room to a limit.
    pub(super) fn room(&self, bound: &Bound<'_>, stand: &Stand, payload_kg: f64) -> f64 {
        Self::left(bound, stand, self.limit(bound, stand), payload_kg)
    }

    /// Room to this limit.
    fn left(bound: &Bound<'_>, stand: &Stand, limit: f64, payload_kg: f64) -> f64 {
        let (base, share) = bound
            .trend
            .under(stand.ahead_mm, stand.axles_back_mm, &stand.split);
        limit - base - share * payload_kg
    }

    /// Intervals of the slider in which no limit has a step, in order.
    pub(super) fn pieces(&self, stand: &Stand, (low, high): (f64, f64)) -> Vec<(f64, f64)> {
        let mut ends = vec![low];
        for bound in self.crossing() {
            self.steps(bound, stand, low, high, &mut ends);
        }
        sort_by(&mut ends[1..], f64::total_cmp);
        ends.push(high);
        let pairs = ends.windows(2).filter_map(|pair| match pair {
            [a, b] => Some((a + FINE_MM, b - FINE_MM)),
            _ => None,
        });
        let mut pieces: Vec<(f64, f64)> = pairs.filter(|(a, b)| b > a).collect();
        // The slider's own ends belong to it; one that does not slide is a single place.
        if pieces.is_empty() {
            return vec![(low, high)];
        }
        if let Some(first) = pieces.first_mut() {
            first.0 = low;
        }
        if let Some(last) = pieces.last_mut() {
            last.1 = high;
        }
        pieces
    }

    /// Where a limit steps between two places; limits never rise as the trailer comes nearer, so equal
    /// ends mean that there is no step.
    fn steps(&self, bound: &Bound<'_>, stand: &Stand, low: f64, high: f64, out: &mut Vec<f64>) {
        let at = |ahead_mm: f64| self.limit(bound, &Stand { ahead_mm, ..*stand });
        let mut open = vec![(low, at(low), high, at(high))];
        while let Some((a, limit_a, b, limit_b)) = open.pop() {
            if limit_a.total_cmp(&limit_b).is_eq() {
                continue;
            }
            if b - a < FINE_MM {
                out.push(f64::midpoint(a, b));
                continue;
            }
            let middle = f64::midpoint(a, b);
            let limit = at(middle);
            open.push((a, limit_a, middle, limit));
            open.push((middle, limit, b, limit_b));
        }
    }

    /// Load at the planned place and its change for each millimetre ahead, with this payload.
    fn line(bound: &Bound<'_>, stand: &Stand, payload_kg: f64) -> (f64, f64) {
        let (base, share) = bound.trend.under(0.0, stand.axles_back_mm, &stand.split);
        let (per_mm, per_kg_mm) = bound.trend.slope(&stand.split);
        (base + share * payload_kg, per_mm + per_kg_mm * payload_kg)
    }

    fn in_piece(&self, bound: &Bound<'_>, stand: &Stand, piece: (f64, f64)) -> f64 {
        let ahead_mm = f64::midpoint(piece.0, piece.1);
        self.limit(bound, &Stand { ahead_mm, ..*stand })
    }

    fn over_all(
        &self,
        bound: &Bound<'_>,
        stand: &Stand,
        piece: (f64, f64),
        payload_kg: f64,
    ) -> bool {
        let limit = self.in_piece(bound, stand, piece) + SLACK;
        let (at, per_mm) = Self::line(bound, stand, payload_kg);
        at + per_mm * piece.0 > limit && at + per_mm * piece.1 > limit
    }

    /// Ranges of the slider in which every limit is kept with this payload, in order.
    pub(super) fn passing(
        &self,
        stand: &Stand,
        pieces: &[(f64, f64)],
        payload_kg: f64,
    ) -> Vec<(f64, f64)> {
        let mut ranges: Vec<(f64, f64)> = Vec::new();
        for piece in pieces {
            let (mut low, mut high) = *piece;
            for bound in &self.list {
                let limit = self.in_piece(bound, stand, *piece);
                let (at, per_mm) = Self::line(bound, stand, payload_kg);
                if per_mm.abs() < 1e-12 {
                    if at > limit + SLACK {
                        high = f64::NEG_INFINITY;
                    }
                } else if per_mm > 0.0 {
                    high = high.min((limit - at) / per_mm);
                } else {
                    low = low.max((limit - at) / per_mm);
                }
            }
            if low > high + 1e-9 {
                continue;
            }
            match ranges.last_mut() {
                // A step that cuts nothing off does not part two ranges.
                Some(last) if low - last.1 < 4.0 * FINE_MM => last.1 = high,
                _ => ranges.push((low, high.max(low))),
            }
        }
        ranges
    }
}
