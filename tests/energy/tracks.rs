//! Recorded tracks: distances, heights, speeds, and tracks that cannot be used.

use axlewright_core::route::{Course, Route, from_gpx, ground_m};
use std::fmt::Write as _;

/// A point: latitude, longitude, height, seconds of the day.
type Fix = (f64, f64, Option<f64>, Option<f64>);

fn gpx(points: &[Fix]) -> String {
    let mut out = String::from(
        "<?xml version=\"1.0\"?><gpx version=\"1.1\" creator=\"t\" \
         xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>",
    );
    for (lat, lon, height, time) in points {
        let _ = write!(out, "<trkpt lat=\"{lat:.8}\" lon=\"{lon:.8}\">");
        if let Some(z) = height {
            let _ = write!(out, "<ele>{z:.2}</ele>");
        }
        if let Some(t) = time {
            let (h, m, s) = (t / 3_600.0, t / 60.0 % 60.0, t % 60.0);
            let (h, m) = (h.floor(), m.floor());
            let _ = write!(out, "<time>2026-05-04T{h:02}:{m:02}:{s:06.3}Z</time>");
        }
        out += "</trkpt>";
    }
    out + "</trkseg></trk></gpx>"
}

/// Degrees of latitude for a metre, about 45° north.
const DEG_M: f64 = 1.0 / 111_131.8;

/// A road to the north: place in metres → height, and when it is passed.
fn road(count: usize, apart_m: f64, fix: impl Fn(f64) -> (Option<f64>, Option<f64>)) -> Vec<Fix> {
    (0..count)
        .map(|i| {
            let x = i as f64 * apart_m;
            let (height, time) = fix(x);
            (45.0 + x * DEG_M, 7.0, height, time)
        })
        .collect()
}

fn read(points: &[Fix]) -> Route {
    from_gpx("track.gpx", &gpx(points), 20.0).unwrap_or_else(|p| panic!("{p}"))
}

/// Computed with geographiclib 2.1 (Karney's geodesics on WGS 84).
#[test]
fn distances_are_those_of_the_ellipsoid() {
    for (a, b, want) in [
        ((0.0, 10.0), (0.0, 10.01), 1_113.194_907_932_711_9),
        ((45.0, 7.0), (45.01, 7.0), 1_111.318_751_251_940_5),
        ((60.0, 25.0), (60.005, 25.02), 1_247.231_255_661_518_6),
        ((-33.9, 18.4), (-33.91, 18.45), 4_755.542_530_297_548),
        ((69.3, 179.995), (69.302, -179.99), 632.588_124_933_148_7),
    ] {
        let got = ground_m(a, b);
        assert!(
            (got / want - 1.0).abs() < 1e-6,
            "{a:?} {b:?}: {got}, expected {want}"
        );
    }
}

/// A hill of 300 m with 3 m of noise: the climb as recorded is several times the hill, the smoothed one
/// is the hill within a few metres, and both are told.
#[test]
fn noise_of_a_receiver_is_not_climbed() {
    let mut seed = 12_345_u64;
    let mut noise = move || {
        // A plain congruential row of numbers; four of them make a bell.
        let mut sum = 0.0;
        for _ in 0..4 {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            sum += (seed >> 33) as f64 / f64::from(1_u32 << 31) - 0.5;
        }
        sum * 5.2
    };
    let hill = |x: f64| {
        let up = if x < 7_500.0 { x } else { 15_000.0 - x };
        (0.04 * up).max(0.0)
    };
    let mut points = road(1_500, 10.0, |x| (Some(500.0 + hill(x)), None));
    for point in &mut points {
        point.2 = point.2.map(|z| z + noise());
    }
    let route = read(&points);
    let survey = route.survey.clone().unwrap();
    assert!(survey.raw_climb_m > 900.0, "{survey:?}");
    assert!((survey.climb_m - 300.0).abs() < 30.0, "{survey:?}");
    assert!(!survey.timed && survey.speed_mps == Some(20.0) && survey.method.contains("median"));
    assert!((route.weather.altitude_m - 500.0).abs() < 5.0);
    let (up, down) = route.profile.steepest();
    // Point by point the noise would make grades of 50 % and more.
    assert!(up < 0.1 && down > -0.1, "{up} {down}");
    assert!((route.length_m() / 14_990.0 - 1.0).abs() < 1e-4);
}

/// Ten kilometres at 20 m/s, two minutes of standing, ten at 10 m/s; one wild point and a gap of a
/// kilometre without reception.
#[test]
fn speeds_stops_and_gaps_come_from_the_times() {
    let time = |x: f64| {
        if x <= 10_000.0 {
            x / 20.0
        } else {
            500.0 + 120.0 + (x - 10_000.0) / 10.0
        }
    };
    let mut points = road(1_001, 20.0, |x| (Some(100.0), Some(time(x))));
    points.retain(|p| !((45.0 + 3_000.0 * DEG_M)..(45.0 + 4_000.0 * DEG_M)).contains(&p.0));
    points[60].1 += 0.2;
    let route = read(&points);
    let Course::Road {
        targets,
        stops,
        length_m,
    } = &route.course
    else {
        panic!("a road");
    };
    let survey = route.survey.as_ref().unwrap();
    assert!(
        (survey.timed, survey.wild, survey.stops) == (true, 1, 1),
        "{survey:?}"
    );
    assert!((length_m / 20_000.0 - 1.0).abs() < 1e-4, "{length_m}");
    let stop = &stops[0];
    assert!(
        (stop.at_m - 10_000.0).abs() < 30.0 && (stop.dwell_s - 118.0).abs() < 5.0,
        "{stop:?}"
    );
    for target in targets {
        let want = if target.from_m < 9_900.0 { 20.0 } else { 10.0 };
        let near = (target.from_m - 10_000.0).abs() < 250.0;
        assert!(
            near || (target.speed_mps / want - 1.0).abs() < 0.02,
            "{target:?}"
        );
    }
}

/// Each with its file, place, value and what would do.
#[test]
fn tracks_of_nonsense_are_answered_with_their_place() {
    let level = |x: f64| (Some(100.0), Some(x / 20.0));
    let good = road(200, 20.0, level);
    let changed = |change: fn(&mut Vec<Fix>)| {
        let mut points = good.clone();
        change(&mut points);
        gpx(&points)
    };
    let track = "<gpx version=\"1.1\" creator=\"t\"><trk><trkseg></trkseg></trk></gpx>";
    let places = "<gpx version=\"1.1\" creator=\"t\"><wpt lat=\"1\" lon=\"2\"/></gpx>";
    for (text, word) in [
        (String::new(), "cannot be read as GPX"),
        ("not xml at all".to_owned(), "cannot be read as GPX"),
        (gpx(&good)[..900].to_owned(), "cannot be read as GPX"),
        (track.to_owned(), "no way to drive"),
        (places.to_owned(), "no way to drive"),
        (changed(|p| p.truncate(1)), "no way to drive"),
        (changed(|p| p.truncate(3)), "too short"),
        (
            changed(|p| p.iter_mut().for_each(|p| p.2 = None)),
            "have no height",
        ),
        (changed(|p| p[90].3 = Some(1.0)), "point 91"),
        (changed(|p| p.swap(20, 21)), "goes back in time"),
        (changed(|p| p[7].2 = Some(12_000.0)), "point 8"),
        (changed(|p| p[7].0 = 91.0), "latitude"),
        (
            changed(|p| {
                p.iter_mut()
                    .enumerate()
                    .for_each(|(i, p)| p.1 += (i % 2) as f64)
            }),
            "out of reach",
        ),
        (
            changed(|p| {
                p.iter_mut()
                    .enumerate()
                    .for_each(|(i, p)| p.2 = Some(20.0 * i as f64));
            }),
            "too steep",
        ),
    ] {
        let problems = from_gpx("track.gpx", &text, 20.0).unwrap_err().to_string();
        let shown: String = text.chars().take(60).collect();
        assert!(
            problems.contains("track.gpx") && problems.contains(word),
            "{shown}: {problems}"
        );
    }
    // A few heights and a few times that are missing do no harm.
    let mut points = good.clone();
    points[50].2 = None;
    assert!((read(&points).survey.unwrap().climb_m).abs() < 1e-9);
    points[51].3 = None;
    assert!(!read(&points).survey.unwrap().timed);
}

/// A million points, many of them in one place: the right length, and not in hours.
#[test]
fn a_million_points_are_read() {
    let points = road(1_000_000, 0.5, |x| {
        let standing = (100_000.0..200_000.0).contains(&x);
        (Some(if standing { 7.0 } else { 100.0 }), None)
    });
    let mut points = points;
    for point in &mut points[200_000..400_000] {
        *point = (45.0 + 100_000.0 * DEG_M, 7.0, Some(100.0), None);
    }
    let route = from_gpx("long.gpx", &gpx(&points), 25.0).unwrap();
    assert!(
        (route.length_m() / 499_999.5 - 1.0).abs() < 0.01,
        "{}",
        route.length_m()
    );
}
