//! `axlewright drive`, `size` and `charge`.

use super::evaluate::print;
use super::{Failure, Format, read, read_plan};
use crate::assessment::{Answers, Goal, Journey, ranges, sizes};
use crate::drawing::{Chart, draw_chart};
use crate::findings::{self, Severity};
use crate::library::Library;
use crate::quantity::{M_PER_MI, Measure, Units};
use crate::report;
use crate::route::{Route, USUAL, USUAL_MPS, from_csv, from_gpx, shipped};
use crate::vehicle::Vehicle;
use std::path::Path;
use std::process::ExitCode;

fn route(named: Option<&str>, plan: Option<&str>, speed: Option<&str>) -> Result<Route, Failure> {
    let id = named.or(plan).unwrap_or(USUAL);
    let path = Path::new(id);
    let speed_mps = speed.map_or(Ok(USUAL_MPS), pace)?;
    let is = |ending: &str| {
        path.extension()
            .is_some_and(|e| e.eq_ignore_ascii_case(ending))
    };
    let found = if is("csv") {
        from_csv(id, &read(path)?, speed_mps)
    } else if is("gpx") {
        from_gpx(id, &read(path)?, speed_mps)
    } else {
        shipped(id)
    };
    found.map_err(|problems| Failure::Input(problems.to_string()))
}

/// What is asked for beside the plan.
#[derive(Clone, Copy, Default)]
pub(super) struct Way<'a> {
    /// Route id or file.
    pub route: Option<&'a str>,
    /// Speed where the file names none.
    pub speed: Option<&'a str>,
}

fn drive(library: &Library, path: &Path, way: Way<'_>) -> Result<Journey, Failure> {
    let plan = read_plan(path)?;
    let file = path.display().to_string();
    let vehicle = Vehicle::resolve(&plan, library).map_err(|mut problem| {
        file.clone_into(&mut problem.file);
        Failure::Input(problem.to_string())
    })?;
    let route = route(way.route, plan.duty.route.as_deref(), way.speed)?;
    Journey::of(Answers::of(vehicle), &route, &mut |_| true)
        .map_err(|missing| Failure::Input(format!("{file}: not assessed: {}", missing.join("; "))))
}

pub(super) fn run(
    library: &Library,
    path: &Path,
    way: Way<'_>,
    format: Format,
    units: Units,
    charts: Option<&Path>,
) -> Result<ExitCode, Failure> {
    let journey = drive(library, path, way)?;
    let found = findings::of_journey(&journey);
    if let Some(folder) = charts {
        let answers = report::drive_answers(&journey, &found, units);
        let all = answers.into_iter().filter_map(|a| a.chart);
        write(folder, all.chain(report::drive_strip(&journey, units)))?;
    }
    let ranges = ranges(&journey, &mut |_| true);
    match format {
        Format::Text => print(&report::journey_text(&journey, &ranges, &found, units)),
        Format::Json => {
            let data = report::journey_data(&journey, &ranges, &found, units);
            let text =
                serde_json::to_string_pretty(&data).map_err(|e| Failure::Input(e.to_string()))?;
            print(&(text + "\n"));
        }
    }
    let fails = found.iter().any(|f| f.severity == Severity::Fails);
    Ok(ExitCode::from(u8::from(fails)))
}

pub(super) fn size(
    library: &Library,
    path: &Path,
    way: Way<'_>,
    range: Option<&str>,
    units: Units,
) -> Result<ExitCode, Failure> {
    let goal = range.map_or(Ok(Goal::Day), |text| metres(text).map(Goal::Range))?;
    let journey = drive(library, path, way)?;
    let table = sizes(&journey, library.each_part(), goal, &mut |_| true);
    let page = report::sizes_page(&journey, &table, units);
    print(&format!(
        "{}\n{}\n",
        report::page_text(&page),
        report::NOTICE
    ));
    Ok(ExitCode::SUCCESS)
}

pub(super) fn charge(
    library: &Library,
    path: &Path,
    inlet: Option<&str>,
    format: Format,
    units: Units,
    charts: Option<&Path>,
) -> Result<ExitCode, Failure> {
    let journey = drive(library, path, Way::default())?;
    let named = match inlet {
        None => None,
        Some(id) => {
            let sockets = &journey.truck.sockets;
            let known: Vec<&str> = sockets
                .iter()
                .flat_map(|s| [s.tag.as_str(), s.part.as_str()])
                .collect();
            if !known.contains(&id) {
                let hint = known.join(", ");
                return Err(Failure::Input(format!(
                    "--inlet {id}: is not an inlet or charger on this truck ({hint})"
                )));
            }
            Some(journey.plugged_at(id))
        }
    };
    let plugged = named.as_ref().unwrap_or(&journey.plugged);
    let plugged = plugged.as_ref().map_err(String::as_str);
    match format {
        Format::Text => print(&report::charge_text(plugged, units)),
        Format::Json => {
            let data = report::charge_data(plugged);
            let text =
                serde_json::to_string_pretty(&data).map_err(|e| Failure::Input(e.to_string()))?;
            print(&(text + "\n"));
        }
    }
    if let Some(folder) = charts {
        let answers = report::drive_answers(&journey, &[], units);
        let all = answers.into_iter().filter(|a| a.page.id == "drive-charge");
        write(folder, all.filter_map(|a| a.chart))?;
    }
    Ok(ExitCode::SUCCESS)
}

/// Writes charts into a folder, each by its id.
fn write(folder: &Path, charts: impl Iterator<Item = Chart>) -> Result<(), Failure> {
    let failed = |path: &Path, e| Failure::File(path.display().to_string(), e);
    std::fs::create_dir_all(folder).map_err(|e| failed(folder, e))?;
    for chart in charts {
        let path = folder.join(format!("{}.svg", chart.id));
        std::fs::write(&path, draw_chart(&chart)).map_err(|e| failed(&path, e))?;
    }
    Ok(())
}

/// A way such as `200mi` or `320km`, in metres.
fn metres(text: &str) -> Result<f64, Failure> {
    let [least, most] = Goal::RANGE_M;
    let value = Measure::Way.parse(text, Units::Metric).ok();
    value.filter(|m| (least..=most).contains(m)).ok_or_else(|| {
        let [least, most] = Goal::RANGE_M.map(|m| Measure::Way.text(m, Units::Metric));
        Failure::Input(format!(
            "--range {text}: is not a way (such as 200mi or 320km, from {least} to {most})"
        ))
    })
}

/// A speed such as `55mph` or `90km/h`, in metres per second.
fn pace(text: &str) -> Result<f64, Failure> {
    let plain = text.trim();
    let (number, unit) = match plain.strip_suffix("mph") {
        Some(number) => (number, M_PER_MI / 3_600.0),
        None => (plain.strip_suffix("km/h").unwrap_or(plain), 1.0 / 3.6),
    };
    let value: Option<f64> = number.trim().parse().ok();
    value
        .map(|v| v * unit)
        .filter(|v| (1.0..=50.0).contains(v))
        .ok_or_else(|| {
            Failure::Input(format!(
                "--speed {text}: is not a speed (such as 55mph or 90km/h, from 4 to 180 km/h)"
            ))
        })
}
