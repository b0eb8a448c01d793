//! `axlewright drive`, `size` and `charge`.

use super::evaluate::print;
use super::{Failure, Format, read, read_plan};
use crate::assessment::{Assessment, Journey, sizes};
use crate::drawing::{Chart, draw_chart};
use crate::findings::{self, Severity};
use crate::library::Library;
use crate::quantity::{M_PER_MI, Units};
use crate::report;
use crate::route::{Route, from_csv, shipped};
use std::path::Path;
use std::process::ExitCode;

/// Speed where a table of the road names none, metre per second (80 km/h).
const PLAIN_MPS: f64 = 80.0 / 3.6;
/// Route when neither the command nor the plan names one.
const USUAL: &str = "cruise-65";

fn route(named: Option<&str>, plan: Option<&str>) -> Result<Route, Failure> {
    let id = named.or(plan).unwrap_or(USUAL);
    let path = Path::new(id);
    let found = if path
        .extension()
        .is_some_and(|e| e.eq_ignore_ascii_case("csv"))
    {
        from_csv(id, &read(path)?, PLAIN_MPS)
    } else {
        shipped(id)
    };
    found.map_err(|problems| Failure::Input(problems.to_string()))
}

fn drive(library: &Library, path: &Path, named: Option<&str>) -> Result<Journey, Failure> {
    let plan = read_plan(path)?;
    let file = path.display().to_string();
    let assessment = Assessment::of(&plan, library).map_err(|mut problem| {
        file.clone_into(&mut problem.file);
        Failure::Input(problem.to_string())
    })?;
    let route = route(named, plan.duty.route.as_deref())?;
    Journey::of(assessment.answers, &route, &mut |_| true)
        .map_err(|missing| Failure::Input(format!("{file}: not assessed: {}", missing.join("; "))))
}

pub(super) fn run(
    library: &Library,
    path: &Path,
    named: Option<&str>,
    format: Format,
    units: Units,
    charts: Option<&Path>,
) -> Result<ExitCode, Failure> {
    let journey = drive(library, path, named)?;
    let found = findings::of_journey(&journey);
    if let Some(folder) = charts {
        let answers = report::drive_answers(&journey, &found, units);
        let all = answers.into_iter().filter_map(|a| a.chart);
        write(folder, all.chain(report::drive_strip(&journey, units)))?;
    }
    match format {
        Format::Text => print(&report::journey_text(&journey, &found, units)),
        Format::Json => {
            let data = report::journey_data(&journey, &found, units);
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
    named: Option<&str>,
    range: &str,
    units: Units,
) -> Result<ExitCode, Failure> {
    let range_m = way(range)?;
    let journey = drive(library, path, named)?;
    let table = sizes(&journey, library.parts.values(), range_m);
    print(&report::sizes_text(&table, range_m, units));
    Ok(ExitCode::SUCCESS)
}

pub(super) fn charge(
    library: &Library,
    path: &Path,
    inlet: Option<&str>,
    units: Units,
    charts: Option<&Path>,
) -> Result<ExitCode, Failure> {
    let journey = drive(library, path, None)?;
    if let Some(id) = inlet {
        let items = &journey.answers.vehicle.items;
        let known = items
            .iter()
            .filter(|i| i.part.inlet.is_some() || i.part.charger.is_some());
        let known: Vec<&str> = known
            .flat_map(|i| [i.tag.as_str(), i.part.id.as_str()])
            .collect();
        if !known.contains(&id) {
            let hint = known.join(", ");
            return Err(Failure::Input(format!(
                "--inlet {id}: is not an inlet or charger on this truck ({hint})"
            )));
        }
    }
    if let Some(folder) = charts {
        let answers = report::drive_answers(&journey, &[], units);
        let all = answers.into_iter().filter(|a| a.page.id == "drive-charge");
        write(folder, all.filter_map(|a| a.chart))?;
    }
    print(&report::charge_text(&journey, units));
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
fn way(text: &str) -> Result<f64, Failure> {
    let text = text.trim();
    let (number, unit) = match text.strip_suffix("mi") {
        Some(number) => (number, M_PER_MI),
        None => (text.strip_suffix("km").unwrap_or(text), 1_000.0),
    };
    let value: Option<f64> = number.trim().parse().ok();
    value
        .filter(|v| v.is_finite() && *v > 0.0 && *v * unit <= 5e6)
        .map(|v| v * unit)
        .ok_or_else(|| {
            Failure::Input(format!(
                "--range {text}: is not a way (such as 200mi or 320km, at most 5,000 km)"
            ))
        })
}
