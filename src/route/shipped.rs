//! Routes that come with the program: public test cycles, and plain roads of our own.

use super::{Charger, Course, Profile, Route, Stop, Target, Weather, from_csv};
use crate::source::{Basis, Problems, Source};

const MPH: f64 = crate::quantity::M_PER_MI / 3_600.0;
const KMH: f64 = 1.0 / 3.6;

/// Ids and names of the shipped routes, in the order in which they are offered.
pub const SHIPPED: [(&str, &str); 11] = [
    ("harbour-shuttle", "Harbour shuttle, 38 km with three gates"),
    ("valley-run", "Valley run, 210 km with two passes"),
    (
        "upland-relay",
        "Upland relay, 320 km from 1,500 m, a charge and 4 t put down on the way",
    ),
    ("parcel-round", "Parcel round, 60 km with 40 stops"),
    ("cruise-55", "Regulation cruise with grades, 55 mph"),
    ("cruise-65", "Regulation cruise with grades, 65 mph"),
    ("urban-schedule", "Heavy-duty urban schedule"),
    ("highway-cruise", "Heavy-heavy cruise mode"),
    ("level-80", "Level road, 80 km/h, 100 km"),
    ("level-65mph", "Level road, 65 mph, 100 mi"),
    ("hill-climb", "Hill climb, 6 % for 10 km, 65 km/h wanted"),
];

/// The route when nobody names one.
pub const USUAL: &str = "cruise-65";
/// Speed where a file names none and nobody else does, metre per second (80 km/h).
pub const USUAL_MPS: f64 = 80.0 / 3.6;

/// What is missing among them, and why: said where routes are listed.
pub const NOT_SHIPPED: &str = "Not here: the heavy-duty transient cycle of 40 CFR part 1037, appendix A \
                               (668 s, 2.85 mi): its figures were not at hand in a text of the \
                               regulation. Any cycle drives from a table of time_s and speed_mph, any \
                               road from a table or a GPX track.";

/// A shipped route by its id.
///
/// # Errors
/// A problem that names the known ids, or what is wrong with a shipped table (a test keeps them
/// right).
pub fn shipped(id: &str) -> Result<Route, Problems> {
    let named = |mut route: Route, source: Source| {
        route.id = id.to_owned();
        route.name = SHIPPED
            .iter()
            .find(|(known, _)| *known == id)
            .map_or_else(|| id.to_owned(), |(_, name)| (*name).to_owned());
        route.source = source;
        route
    };
    let standard = |document: &'static str| Source::new(Basis::Standard, document);
    let ours = || Source::new(Basis::Estimate, "invented route of our own scenario");
    let cruise = |speed_mps: f64| {
        let route = from_csv(
            "cruise-grade.csv",
            include_str!("shipped/cruise-grade.csv"),
            speed_mps,
        )?;
        Ok(named(
            route,
            standard("40 CFR part 1037, appendix D (grades); 40 CFR 1037.510 (speeds)"),
        ))
    };
    match id {
        "cruise-55" => cruise(55.0 * MPH),
        "cruise-65" => cruise(65.0 * MPH),
        "urban-schedule" => {
            let text = include_str!("shipped/urban-schedule.csv");
            let route = from_csv("urban-schedule.csv", text, 0.0)?;
            Ok(named(route, standard("40 CFR part 86, appendix I (d)")))
        }
        "highway-cruise" => {
            let text = include_str!("shipped/highway-cruise.csv");
            let route = from_csv("highway-cruise.csv", text, 0.0)?;
            Ok(named(
                route,
                standard(
                    "California Air Resources Board, heavy heavy-duty diesel truck schedule, cruise mode",
                ),
            ))
        }
        "level-80" => Ok(named(
            Route::level(80.0 * KMH, 100_000.0),
            Source::common_practice(),
        )),
        "level-65mph" => Ok(named(
            Route::level(65.0 * MPH, 160_934.4),
            Source::common_practice(),
        )),
        "hill-climb" => {
            let mut route = Route::level(65.0 * KMH, 12_000.0);
            let hill = vec![
                (0.0, 0.0),
                (1_000.0, 0.0),
                (1_200.0, 0.06),
                (11_000.0, 0.06),
                (11_200.0, 0.0),
                (12_000.0, 0.0),
            ];
            route.profile = Profile::of_grades(hill).unwrap_or_default();
            Ok(named(route, Source::common_practice()))
        }
        "harbour-shuttle" => Ok(named(harbour_shuttle(), ours())),
        "valley-run" => Ok(named(valley_run(), ours())),
        "upland-relay" => Ok(named(upland_relay(), ours())),
        "parcel-round" => Ok(named(parcel_round(), ours())),
        _ => {
            let known: Vec<&str> = SHIPPED.iter().map(|(id, _)| *id).collect();
            Err(crate::source::Problem::new(
                "",
                "route",
                id,
                "is not a route that is known",
                known.join(", "),
            )
            .into())
        }
    }
}

fn road(
    length_m: f64,
    targets: &[(f64, f64)],
    stops: &[(f64, f64)],
    grades: &[(f64, f64)],
) -> Route {
    let mut route = Route::level(0.0, length_m);
    route.course = Course::Road {
        length_m,
        targets: targets
            .iter()
            .map(|(km, kmh)| Target {
                from_m: km * 1e3,
                speed_mps: kmh * KMH,
            })
            .collect(),
        stops: stops
            .iter()
            .map(|(km, dwell_s)| Stop::halt(km * 1e3, *dwell_s))
            .collect(),
    };
    let points = grades.iter().map(|(km, pct)| (km * 1e3, pct / 100.0));
    route.profile = Profile::of_grades(points.collect()).unwrap_or_default();
    route.weather = Weather::default();
    route
}

/// From the quay over a bridge to a depot.
fn harbour_shuttle() -> Route {
    road(
        38_000.0,
        &[
            (0.0, 25.0),
            (2.5, 60.0),
            (9.0, 85.0),
            (31.0, 60.0),
            (36.0, 30.0),
        ],
        &[
            (0.8, 180.0),
            (2.4, 45.0),
            (9.0, 30.0),
            (31.0, 40.0),
            (36.5, 60.0),
        ],
        &[
            (0.0, 0.0),
            (11.0, 0.0),
            (11.2, 4.0),
            (12.4, 4.0),
            (12.6, 0.0),
            (13.2, 0.0),
            (13.4, -4.0),
            (14.6, -4.0),
            (14.8, 0.0),
            (20.0, 0.8),
            (24.0, -0.8),
            (28.0, 0.0),
            (38.0, 0.0),
        ],
    )
}

/// A long valley with two passes of 6 and 5 %.
fn valley_run() -> Route {
    road(
        210_000.0,
        &[
            (0.0, 50.0),
            (4.0, 88.0),
            (58.0, 70.0),
            (72.0, 88.0),
            (140.0, 75.0),
            (152.0, 88.0),
            (205.0, 50.0),
        ],
        &[(4.0, 30.0), (105.0, 1_800.0), (205.0, 45.0)],
        &[
            (0.0, 0.0),
            (20.0, 0.6),
            (40.0, 0.2),
            (58.0, 1.0),
            (59.0, 6.0),
            (64.5, 6.0),
            (65.0, 0.0),
            (66.0, 0.0),
            (66.5, -6.0),
            (72.0, -6.0),
            (72.5, 0.0),
            (100.0, -0.4),
            (139.0, 0.5),
            (140.0, 5.0),
            (145.5, 5.0),
            (146.0, -0.5),
            (147.0, -4.5),
            (152.5, -4.5),
            (153.0, 0.0),
            (190.0, -0.3),
            (210.0, 0.0),
        ],
    )
}

/// High country: 45 minutes at a charger halfway, where four tonnes are put down.
fn upland_relay() -> Route {
    let mut route = road(
        320_000.0,
        &[
            (0.0, 50.0),
            (5.0, 88.0),
            (158.0, 50.0),
            (163.0, 88.0),
            (315.0, 50.0),
        ],
        &[(160.0, 2_700.0), (316.0, 60.0)],
        &[
            (0.0, 0.0),
            (40.0, 0.6),
            (70.0, 1.0),
            (74.0, 4.0),
            (82.0, 4.0),
            (84.0, -0.5),
            (130.0, -0.8),
            (160.0, 0.0),
            (190.0, 0.7),
            (230.0, -0.4),
            (260.0, -3.5),
            (266.0, -3.5),
            (268.0, 0.0),
            (320.0, 0.0),
        ],
    );
    if let Course::Road { stops, .. } = &mut route.course
        && let Some(half) = stops.first_mut()
    {
        half.charger = Some(Charger {
            standard: "CCS".to_owned(),
            power_w: Some(350e3),
        });
        half.load_kg = -4_000.0;
    }
    route.weather.altitude_m = 1_500.0;
    route
}

/// Forty stops of two minutes, a kilometre and a half apart.
fn parcel_round() -> Route {
    let stops: Vec<(f64, f64)> = (1..=40).map(|i| (f64::from(i) * 1.45, 120.0)).collect();
    road(
        60_000.0,
        &[(0.0, 50.0), (12.0, 40.0), (48.0, 60.0)],
        &stops,
        &[
            (0.0, 0.0),
            (10.0, 1.5),
            (20.0, -1.5),
            (30.0, 1.0),
            (45.0, -1.0),
            (60.0, 0.0),
        ],
    )
}
