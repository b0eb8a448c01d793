//! Reads a route from a GPX track with heights.
//!
//! Distances lie on the WGS 84 ellipsoid, by the radii of curvature halfway between two points (within
//! a millionth up to some kilometres). Where every point has a time, speeds are the track's own over
//! pieces of at least 200 m, and standing for half a minute within 15 m, or a gap in which it went slower
//! than 1 m/s, is a stop; else one speed is taken for the whole way. Heights go through [`heights`](super::heights).

use super::heights::{METHOD, climb_m, smoothed};
use super::{Course, Profile, Route, Stop, Survey, Target, Weather};
use crate::numeric::{cos, hypot, sin, sqrt};
use crate::source::{Basis, Problem, Problems, Source};

/// Most points that are read.
pub const MOST_POINTS: usize = 2_000_000;
/// A point that would need more than this to get there is wild, metres per second (180 km/h).
const WILD_MPS: f64 = 50.0;
/// Most wild points, and most points without a height, as a share of all.
const MOST_BAD: f64 = 0.05;
/// Points nearer than this to the one before say nothing about the way, metre.
const NEAR_M: f64 = 3.0;
/// Shortest stop, seconds, and how far a standing receiver wanders, metre.
const STANDING: (f64, f64) = (30.0, 15.0);
/// Slower than this between two points was standing, and how fast it is taken to have pulled away, m/s.
const QUEUE_MPS: f64 = 1.0;
const PULLING_AWAY_MPS: f64 = 5.0;
/// Shortest piece over which a speed is taken, metre.
const PIECE_M: f64 = 200.0;
/// Slowest speed that is wanted, metres per second: what is slower is a stop or a queue.
const SLOWEST_MPS: f64 = 1.5;
/// Steepest grade that is taken as a road.
const STEEPEST: f64 = 0.35;

/// One point of a track.
#[derive(Clone, Copy)]
struct Fix {
    /// Its place in the file, from 1.
    index: usize,
    lat_deg: f64,
    lon_deg: f64,
    height_m: Option<f64>,
    time_s: Option<f64>,
}

/// Distance between two places in degrees on the WGS 84 ellipsoid, metre.
///
/// ```
/// use axlewright_core::route::ground_m;
/// // One degree of the meridian about 45° north.
/// assert!((ground_m((44.5, 7.0), (45.5, 7.0)) / 111_131.8 - 1.0).abs() < 1e-5);
/// ```
#[must_use]
pub fn ground_m(from: (f64, f64), to: (f64, f64)) -> f64 {
    /// Half the equator's diameter, metre, and square of the eccentricity (WGS 84).
    const EQUATOR_M: f64 = 6_378_137.0;
    const ECCENTRIC: f64 = 6.694_379_990_14e-3;
    let rad = std::f64::consts::PI / 180.0;
    let middle = 0.5 * (from.0 + to.0) * rad;
    let sine = sin(middle);
    let square = 1.0 - ECCENTRIC * sine * sine;
    let across = EQUATOR_M / sqrt(square);
    let along = across * (1.0 - ECCENTRIC) / square;
    // The short way round.
    let mut turn = (to.1 - from.1) % 360.0;
    if turn > 180.0 {
        turn -= 360.0;
    } else if turn < -180.0 {
        turn += 360.0;
    }
    hypot(
        along * (to.0 - from.0) * rad,
        across * cos(middle) * turn * rad,
    )
}

/// Reads a route. `speed_mps` is what is driven where the file has no times.
///
/// # Errors
/// What is wrong, with the file, the number of the point and what would be accepted.
pub fn from_gpx(file: &str, text: &str, speed_mps: f64) -> Result<Route, Problems> {
    let problem = |at: &str, value: String, what: &str, hint: &str| {
        Problems::from(Problem::new(file, at, value, what, hint))
    };
    let content = gpx::read(text.as_bytes())
        .map_err(|e| problem("", String::new(), "cannot be read as GPX", &e.to_string()))?;
    let points: Vec<gpx::Waypoint> = if content.tracks.is_empty() {
        content.routes.into_iter().flat_map(|r| r.points).collect()
    } else {
        let segments = content.tracks.into_iter().flat_map(|t| t.segments);
        segments.flat_map(|s| s.points).collect()
    };
    if points.len() < 2 {
        let hint = "a track or route of at least two points; way points alone are no way";
        let count = points.len().to_string();
        return Err(problem("trk", count, "has no way to drive", hint));
    }
    if points.len() > MOST_POINTS {
        let count = points.len().to_string();
        return Err(problem(
            "trk",
            count,
            "has too many points",
            "at most 2,000,000",
        ));
    }
    let mut fixes: Vec<Fix> = points.iter().enumerate().map(fix).collect();
    let all = fixes.len();
    for f in &fixes {
        let good = f.lat_deg.is_finite() && f.lon_deg.is_finite() && f.lat_deg.abs() <= 90.0;
        let high = f.height_m.unwrap_or(0.0);
        if !good || !(-500.0..=9_000.0).contains(&high) {
            let hint = "latitude −90 to 90°, height −500 to 9,000 m";
            let shown = format!("{}, {}, {high} m", f.lat_deg, f.lon_deg);
            return Err(problem(&place(f), shown, "is out of range", hint));
        }
    }
    let low = fixes.iter().filter(|f| f.height_m.is_none()).count();
    if low as f64 > MOST_BAD * all as f64 {
        let hint = "a height (ele) at nearly every point: without it every road would be level";
        let shown = format!("{low} of {all} points");
        return Err(problem("ele", shown, "have no height", hint));
    }
    let timed = fixes.iter().all(|f| f.time_s.is_some());
    let wild = if timed {
        drop_wild(file, &mut fixes)?
    } else {
        0
    };
    let ways = ways(&fixes);
    let length_m = ways.last().copied().unwrap_or(0.0);
    if length_m < 100.0 {
        let shown = format!("{length_m:.0} m");
        return Err(problem(
            "trk",
            shown,
            "is too short to drive",
            "at least 100 m",
        ));
    }
    let mut raw: Vec<(f64, f64)> = Vec::with_capacity(fixes.len());
    for (x, f) in ways.iter().zip(&fixes) {
        let apart = raw.last().is_none_or(|(before, _)| x - before >= NEAR_M);
        if let Some(z) = f.height_m.filter(|_| apart) {
            raw.push((*x, z));
        }
    }
    let calm = smoothed(&raw).unwrap_or_default();
    let profile = Profile::of_heights(&calm).unwrap_or_default();
    let (up, down) = profile.steepest();
    let steepest = up.max(-down);
    if steepest > STEEPEST {
        let shown = format!("{:.0} %", 100.0 * steepest);
        return Err(problem(
            "ele",
            shown,
            "is too steep for a road",
            "at most 35 %",
        ));
    }
    let (targets, stops) = if timed {
        paced(&fixes, &ways)
    } else {
        let one = Target {
            from_m: 0.0,
            speed_mps,
        };
        (vec![one], Vec::new())
    };
    Ok(Route {
        id: file.trim_end_matches(".gpx").to_owned(),
        name: file.to_owned(),
        source: Source::new(Basis::Measured, format!("track in the file {file}")),
        weather: Weather {
            altitude_m: calm.first().map_or(0.0, |(_, z)| *z),
            ..Weather::default()
        },
        survey: Some(Survey {
            points: all,
            wild,
            timed,
            speed_mps: (!timed).then_some(speed_mps),
            stops: stops.len(),
            raw_climb_m: climb_m(&raw),
            climb_m: climb_m(&calm),
            method: METHOD,
        }),
        course: Course::Road {
            length_m,
            targets,
            stops,
        },
        profile,
    })
}

fn place(fix: &Fix) -> String {
    format!("point {}", fix.index)
}

fn fix((at, point): (usize, &gpx::Waypoint)) -> Fix {
    let time = point.time.map(time::OffsetDateTime::from);
    let place = point.point();
    Fix {
        index: at + 1,
        lat_deg: place.y(),
        lon_deg: place.x(),
        height_m: point.elevation.filter(|z| z.is_finite()),
        time_s: time.map(|t| t.unix_timestamp() as f64 + f64::from(t.nanosecond()) * 1e-9),
    }
}

fn apart_m(a: &Fix, b: &Fix) -> f64 {
    ground_m((a.lat_deg, a.lon_deg), (b.lat_deg, b.lon_deg))
}

/// Takes out points that no truck could have reached; says how many.
fn drop_wild(file: &str, fixes: &mut Vec<Fix>) -> Result<usize, Problems> {
    let all = fixes.len();
    let mut kept: Vec<Fix> = Vec::with_capacity(all);
    for f in fixes.iter() {
        let Some(last) = kept.last() else {
            kept.push(*f);
            continue;
        };
        let time = f.time_s.unwrap_or(0.0) - last.time_s.unwrap_or(0.0);
        if time < 0.0 {
            let shown = format!("{time:.0} s");
            let hint = "times that do not go backwards; sort or cut the track first";
            return Err(Problem::new(file, place(f), shown, "goes back in time", hint).into());
        }
        let way = apart_m(last, f);
        if way > WILD_MPS * time.max(1.0) {
            continue;
        }
        kept.push(*f);
    }
    let wild = all - kept.len();
    if wild as f64 > MOST_BAD * all as f64 || kept.len() < 2 {
        let hint = "at most one point in twenty that no truck could have reached (180 km/h)";
        let shown = format!("{wild} of {all} points");
        return Err(Problem::new(file, "trk", shown, "are out of reach", hint).into());
    }
    *fixes = kept;
    Ok(wild)
}

/// Distance from the start at each point. A receiver that stands wanders: what is nearer than a few
/// metres to the last place that counted adds nothing.
fn ways(fixes: &[Fix]) -> Vec<f64> {
    let mut out = Vec::with_capacity(fixes.len());
    let mut way = 0.0;
    let mut last: Option<&Fix> = None;
    for f in fixes {
        match last {
            None => last = Some(f),
            Some(before) => {
                let step = apart_m(before, f);
                if step >= NEAR_M {
                    way += step;
                    last = Some(f);
                }
            }
        }
        out.push(way);
    }
    out
}

/// Speeds and stops of a track with times.
fn paced(fixes: &[Fix], ways: &[f64]) -> (Vec<Target>, Vec<Stop>) {
    let moments: Vec<(f64, f64)> = ways
        .iter()
        .zip(fixes)
        .map(|(x, f)| (*x, f.time_s.unwrap_or(0.0)))
        .collect();
    // A stop: from here the way stays within reach for long enough.
    let mut stops: Vec<Stop> = Vec::new();
    let mut moving: Vec<(f64, f64)> = Vec::with_capacity(moments.len());
    let (mut at, mut stood) = (0, 0.0);
    while let Some(&(x, t)) = moments.get(at) {
        let tail = moments.get(at..).unwrap_or_default();
        // The way never falls, so this is a search and not a walk.
        let ends = tail.partition_point(|(far, _)| far - x <= STANDING.1);
        let last = tail.get(ends.saturating_sub(1)).copied().unwrap_or((x, t));
        moving.push((x, t - stood));
        if last.1 - t >= STANDING.0 {
            stops.push(Stop::halt(x, last.1 - t));
            stood += last.1 - t;
            at += ends;
            // The next point's time already counts without the halt.
            continue;
        }
        // Some receivers write nothing while they stand.
        if let Some(next) = tail.get(1) {
            let (way, time) = (next.0 - x, next.1 - t);
            if time >= STANDING.0 && way < QUEUE_MPS * time {
                let stand = time - way / PULLING_AWAY_MPS;
                stops.push(Stop::halt(x, stand));
                stood += stand;
            }
        }
        at += 1;
    }
    let mut targets: Vec<Target> = Vec::new();
    let mut from = moving.first().copied().unwrap_or((0.0, 0.0));
    for &(x, t) in &moving {
        let (way, time) = (x - from.0, t - from.1);
        if way < PIECE_M || time <= 0.0 {
            continue;
        }
        targets.push(Target {
            from_m: from.0,
            speed_mps: (way / time).clamp(SLOWEST_MPS, WILD_MPS),
        });
        from = (x, t);
    }
    if targets.is_empty() {
        let (first, last) = (moving.first(), moving.last());
        let speed_mps = match (first, last) {
            (Some(a), Some(b)) if b.1 > a.1 => (b.0 - a.0) / (b.1 - a.1),
            _ => SLOWEST_MPS,
        };
        targets.push(Target {
            from_m: 0.0,
            speed_mps: speed_mps.clamp(SLOWEST_MPS, WILD_MPS),
        });
    }
    (targets, stops)
}
