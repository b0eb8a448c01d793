//! Reads a route from a table: a header line that names columns with their units, then numbers.
//!
//! Trace: `time_s` and a speed column. Road: a distance column and any of speed, grade or elevation, and
//! `stop_s`, `charger` (a standard such as CCS), `charger_kw` and `load_kg` (put on, or taken off with a
//! minus). Speeds `speed_mps`, `speed_kmh`, `speed_mph`; distances `distance_m`, `distance_km`,
//! `distance_mi`; `grade_pct`; `elevation_m`, `elevation_ft`. Lines that begin with # are remarks.

use super::{Charger, Course, Profile, Route, Stop, Target, Weather};
use crate::quantity::M_PER_MI;
use crate::source::{Basis, Problem, Problems, Source};

/// Most lines that are read.
pub const MOST_LINES: usize = 2_000_000;
/// Steepest grade that is taken as a road, in per cent.
const STEEPEST_PCT: f64 = 35.0;
/// Fastest speed that is taken, metres per second (180 km/h).
const FASTEST_MPS: f64 = 50.0;
const MPH: f64 = M_PER_MI / 3_600.0;

/// What a column holds, and how its numbers become ours.
#[derive(Clone, Copy, PartialEq)]
enum Column {
    Time,
    Distance(f64),
    Speed(f64),
    Grade,
    Elevation(f64),
    Stop,
    Charger,
    ChargerPower,
    Load,
}

impl Column {
    fn named(name: &str) -> Option<Self> {
        Some(match name.trim() {
            "time_s" => Self::Time,
            "distance_m" => Self::Distance(1.0),
            "distance_km" => Self::Distance(1_000.0),
            "distance_mi" => Self::Distance(M_PER_MI),
            "speed_mps" => Self::Speed(1.0),
            "speed_kmh" => Self::Speed(1.0 / 3.6),
            "speed_mph" => Self::Speed(MPH),
            "grade_pct" => Self::Grade,
            "elevation_m" => Self::Elevation(1.0),
            "elevation_ft" => Self::Elevation(0.3048),
            "stop_s" => Self::Stop,
            "charger" => Self::Charger,
            "charger_kw" => Self::ChargerPower,
            "load_kg" => Self::Load,
            _ => return None,
        })
    }

    /// The same thing in whatever unit: two such columns would contradict each other.
    fn is_like(self, other: Self) -> bool {
        std::mem::discriminant(&self) == std::mem::discriminant(&other)
    }

    /// Allowed range in the column's own unit, in words too.
    fn range(self) -> (f64, f64) {
        match self {
            Self::Time => (0.0, 1e7),
            Self::Distance(unit) => (0.0, 2e7 / unit),
            Self::Speed(unit) => (0.0, FASTEST_MPS / unit),
            Self::Grade => (-STEEPEST_PCT, STEEPEST_PCT),
            Self::Elevation(unit) => (-500.0 / unit, 6_000.0 / unit),
            Self::Stop => (0.0, 1e6),
            Self::Charger => (0.0, 0.0),
            Self::ChargerPower => (1.0, 5_000.0),
            Self::Load => (-60_000.0, 60_000.0),
        }
    }
}

/// One line of numbers, in our units.
#[derive(Clone, Default)]
struct Line {
    time_s: f64,
    at_m: f64,
    speed_mps: Option<f64>,
    grade: Option<f64>,
    height_m: Option<f64>,
    stop_s: f64,
    standard: Option<String>,
    charger_w: Option<f64>,
    load_kg: f64,
}

/// Reads a route. `speed_mps` is what is driven where the table names no speed.
///
/// # Errors
/// Problems with file, line and column, value and what would be accepted; at most 20 of them.
pub fn from_csv(file: &str, text: &str, speed_mps: f64) -> Result<Route, Problems> {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let problem =
        |at: &str, value: &str, what: &str, hint: &str| Problem::new(file, at, value, what, hint);
    let names = reader
        .headers()
        .map_err(|e| Problems::from(problem("", "", "cannot be read as a table", &e.to_string())))?
        .clone();
    let mut columns = Vec::new();
    for name in &names {
        let column = Column::named(name).ok_or_else(|| {
            let hint = "time_s; distance_m, _km or _mi; speed_mps, _kmh or _mph; grade_pct; elevation_m or _ft; stop_s; charger; charger_kw; load_kg";
            Problems::from(problem("header", name, "is not a column that is known", hint))
        })?;
        if columns.iter().any(|(_, known)| column.is_like(*known)) {
            let hint = "each of time, distance, speed, grade, elevation and stop once";
            return Err(problem("header", name, "is named a second time", hint).into());
        }
        columns.push((name.to_owned(), column));
    }
    let has = |test: fn(&Column) -> bool| columns.iter().any(|(_, c)| test(c));
    let trace = has(|c| *c == Column::Time);
    if !trace && !has(|c| matches!(c, Column::Distance(_))) {
        let hint = "time_s, or distance_m, distance_km or distance_mi";
        return Err(problem("header", "", "names neither time nor distance", hint).into());
    }
    if trace && !has(|c| matches!(c, Column::Speed(_))) {
        let hint = "speed_mps, speed_kmh or speed_mph";
        return Err(problem("header", "", "has a time but no speed", hint).into());
    }
    let mut lines: Vec<Line> = Vec::new();
    let mut wrong: Vec<Problem> = Vec::new();
    for (index, record) in reader.records().enumerate() {
        if lines.len() >= MOST_LINES {
            return Err(problem("", "", "has too many lines", "at most 2,000,000").into());
        }
        let row = index + 1;
        match record {
            Err(e) => wrong.push(problem(
                &format!("row {row}"),
                "",
                "cannot be read",
                &e.to_string(),
            )),
            Ok(record) => match read_line(file, row, &columns, &record) {
                Ok(line) => lines.push(line),
                Err(found) => wrong.push(found),
            },
        }
        if wrong.len() >= 20 {
            break;
        }
    }
    if !wrong.is_empty() {
        return Err(Problems(wrong));
    }
    if lines.len() < 2 {
        return Err(problem(
            "",
            "",
            "has no way to drive",
            "at least two lines of numbers",
        )
        .into());
    }
    let along: fn(&Column) -> bool = if trace {
        |c| *c == Column::Time
    } else {
        |c| matches!(c, Column::Distance(_))
    };
    if let Some((name, column)) = columns.iter().find(|(_, c)| along(c)) {
        let value = |line: &Line| match column {
            // In the table's own unit, without the digits that the way there and back has added.
            Column::Distance(unit) => (line.at_m / unit * 1e6).round() / 1e6,
            _ => line.time_s,
        };
        let pair = lines
            .windows(2)
            .enumerate()
            .find_map(|(index, pair)| match pair {
                [a, b] if b.time_s <= a.time_s && trace || b.at_m <= a.at_m && !trace => {
                    Some((index + 2, value(a), value(b)))
                }
                _ => None,
            });
        if let Some((row, before, here)) = pair {
            let at = format!("row {row}, {name}");
            let hint = format!("more than {before}, which the row before has");
            return Err(problem(&at, &here.to_string(), "does not rise", &hint).into());
        }
    }
    let (course, profile) = if trace {
        traced(file, &lines)?
    } else {
        paved(file, &lines, speed_mps)?
    };
    Ok(Route {
        id: file.trim_end_matches(".csv").to_owned(),
        name: file.to_owned(),
        source: Source::new(Basis::Measured, format!("file {file}")),
        course,
        profile,
        weather: Weather::default(),
        survey: None,
    })
}

fn read_line(
    file: &str,
    row: usize,
    columns: &[(String, Column)],
    record: &csv::StringRecord,
) -> Result<Line, Problem> {
    let mut line = Line::default();
    for ((name, column), text) in columns.iter().zip(record) {
        let at = || format!("row {row}, {name}");
        if text.is_empty() && !matches!(column, Column::Time | Column::Distance(_)) {
            continue;
        }
        if *column == Column::Charger {
            if text.chars().count() > 40 {
                let hint = "a name of at most 40 characters";
                return Err(Problem::new(file, at(), text, "is too long", hint));
            }
            line.standard = Some(text.to_owned());
            continue;
        }
        let (least, most) = column.range();
        let hint = || format!("a number from {least:.0} to {most:.0}");
        let value: f64 = text
            .parse()
            .ok()
            .filter(|v: &f64| v.is_finite())
            .ok_or_else(|| Problem::new(file, at(), text, "is not a number", hint()))?;
        if !(least..=most).contains(&value) {
            return Err(Problem::new(file, at(), text, "is out of range", hint()));
        }
        match column {
            Column::Time => line.time_s = value,
            Column::Distance(unit) => line.at_m = value * unit,
            Column::Speed(unit) => line.speed_mps = Some(value * unit),
            Column::Grade => line.grade = Some(value / 100.0),
            Column::Elevation(unit) => line.height_m = Some(value * unit),
            Column::Stop => line.stop_s = value,
            Column::ChargerPower => line.charger_w = Some(value * 1e3),
            Column::Load => line.load_kg = value,
            Column::Charger => {}
        }
    }
    let charges = line.standard.is_some() || line.charger_w.is_some();
    if charges && (line.standard.is_none() || line.stop_s <= 0.0) {
        let hint = "charger and stop_s in the same line";
        let at = format!("row {row}, charger");
        let shown = line.standard.unwrap_or_default();
        return Err(Problem::new(
            file,
            at,
            shown,
            "is no charger to stop at",
            hint,
        ));
    }
    Ok(line)
}

/// A trace: evenly spaced, or resampled to one second.
fn traced(file: &str, lines: &[Line]) -> Result<(Course, Profile), Problems> {
    let first = lines.first().map_or(0.0, |l| l.time_s);
    let steps: Vec<f64> = lines
        .windows(2)
        .map(|pair| match pair {
            [a, b] => b.time_s - a.time_s,
            _ => 1.0,
        })
        .collect();
    let step_s = steps.first().copied().unwrap_or(1.0);
    let even = steps
        .iter()
        .all(|s| (s - step_s).abs() < 1e-6 * step_s.max(1.0));
    let speed = |line: &Line| line.speed_mps.unwrap_or(0.0);
    let (step_s, speeds_mps) = if even {
        (step_s, lines.iter().map(speed).collect::<Vec<f64>>())
    } else {
        let points = lines.iter().map(|l| (l.time_s - first, speed(l))).collect();
        let curve = crate::numeric::Curve::through(points)
            .ok_or_else(|| Problem::new(file, "time_s", "", "does not rise", "rising times"))?;
        let last = lines.last().map_or(0.0, |l| l.time_s - first);
        let count = last.ceil() as usize;
        (1.0, (0..=count).map(|t| curve.at(t as f64)).collect())
    };
    let mut at = 0.0;
    let mut grades = Vec::new();
    for (index, line) in lines.iter().enumerate() {
        if let Some(before) = index.checked_sub(1).and_then(|i| lines.get(i)) {
            at += 0.5 * (speed(before) + speed(line)) * (line.time_s - before.time_s);
        }
        if let Some(grade) = line.grade {
            grades.push((at, grade));
        }
    }
    let profile = Profile::of_grades(grades).unwrap_or_default();
    Ok((Course::Trace { step_s, speeds_mps }, profile))
}

/// A road.
fn paved(file: &str, lines: &[Line], speed_mps: f64) -> Result<(Course, Profile), Problems> {
    let first = lines.first().map_or(0.0, |l| l.at_m);
    let mut targets: Vec<Target> = Vec::new();
    for line in lines {
        let speed = line.speed_mps.filter(|v| *v > 0.0).unwrap_or(speed_mps);
        if targets
            .last()
            .is_none_or(|t| (t.speed_mps - speed).abs() > 1e-9)
        {
            targets.push(Target {
                from_m: line.at_m - first,
                speed_mps: speed,
            });
        }
    }
    let stops = lines
        .iter()
        .filter(|l| l.stop_s > 0.0 || l.load_kg.abs() > 0.0)
        .map(|l| Stop {
            at_m: l.at_m - first,
            dwell_s: l.stop_s,
            charger: l.standard.clone().map(|standard| Charger {
                standard,
                power_w: l.charger_w,
            }),
            load_kg: l.load_kg,
        })
        .collect();
    let heights: Vec<(f64, f64)> = lines
        .iter()
        .filter_map(|l| l.height_m.map(|z| (l.at_m - first, z)))
        .collect();
    let profile = if heights.len() >= 2 {
        let profile = Profile::of_heights(&heights).unwrap_or_default();
        let (up, down) = profile.steepest();
        let steepest = up.max(-down) * 100.0;
        if steepest > STEEPEST_PCT {
            let hint = "at most 35 % between two lines; smooth the heights first";
            let shown = format!("{steepest:.0} %");
            return Err(
                Problem::new(file, "elevation", shown, "is too steep for a road", hint).into(),
            );
        }
        profile
    } else {
        let grades = lines
            .iter()
            .filter_map(|l| l.grade.map(|g| (l.at_m - first, g)));
        Profile::of_grades(grades.collect()).unwrap_or_default()
    };
    let length_m = lines.last().map_or(0.0, |l| l.at_m - first);
    Ok((
        Course::Road {
            length_m,
            targets,
            stops,
        },
        profile,
    ))
}
