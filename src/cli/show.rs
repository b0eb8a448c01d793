//! Commands that list, draw and explain.

use super::evaluate::print;
use super::{Failure, read_plan};
use crate::assessment::Assessment;
use crate::drawing::View;
use crate::findings;
use crate::library::Library;
use crate::plan::Plan;
use crate::quantity::{Units, length, mass};
use crate::report;
use std::fmt::Write as _;
use std::path::Path;
use std::process::ExitCode;

pub(super) fn draw(
    library: &Library,
    path: &Path,
    (view, frame): (View, bool),
    output: &Path,
    date: String,
    units: Units,
) -> Result<ExitCode, Failure> {
    let plan = read_plan(path)?;
    let assessment = Assessment::of(&plan, library).map_err(|mut problem| {
        problem.file = path.display().to_string();
        Failure::Input(problem.to_string())
    })?;
    let svg = report::sheet_with(&assessment, view, date, units, frame);
    std::fs::write(output, svg).map_err(|e| Failure::File(output.display().to_string(), e))?;
    Ok(ExitCode::SUCCESS)
}

pub(super) fn templates(library: &Library) -> ExitCode {
    let mut out = String::from("Chassis\n");
    for chassis in library.chassis.values() {
        let wheelbase = length(chassis.dimensions.wheelbase_mm, Units::Metric);
        let _ = writeln!(out, "  {:<20}{}  WB {wheelbase}", chassis.id, chassis.name);
    }
    out.push_str("Trailers\n");
    for trailer in library.trailers.values() {
        let _ = writeln!(out, "  {:<20}{}", trailer.id, trailer.name);
    }
    out.push_str("Road laws\n");
    for law in library.laws.values() {
        let _ = writeln!(
            out,
            "  {:<20}{} (checked {})",
            law.id, law.name, law.checked
        );
    }
    print(&out);
    ExitCode::SUCCESS
}

pub(super) fn routes() -> ExitCode {
    let mut out = String::new();
    for (id, name) in crate::route::SHIPPED {
        let _ = writeln!(out, "{id:<20}{name}");
    }
    out.push_str(crate::route::NOT_SHIPPED);
    out.push('\n');
    print(&out);
    ExitCode::SUCCESS
}

pub(super) fn parts(library: &Library) -> ExitCode {
    let mut out = String::new();
    for part in library.parts.values() {
        let kg = mass(part.mass_kg, Units::Metric);
        let _ = writeln!(
            out,
            "{:<20}{:<28}{kg:>10}  {}",
            part.id,
            part.kind.words(),
            part.name
        );
    }
    print(&out);
    ExitCode::SUCCESS
}

pub(super) fn new(library: &Library, id: &str) -> Result<ExitCode, Failure> {
    let chassis = library.chassis.get(id).ok_or_else(|| {
        let known: Vec<&str> = library.chassis.keys().map(String::as_str).collect();
        Failure::Input(format!(
            "--chassis = {id}: is not a chassis of the library ({})",
            known.join(", ")
        ))
    })?;
    print(&Plan::on(chassis).to_json());
    Ok(ExitCode::SUCCESS)
}

pub(super) fn explain(id: Option<&str>) -> Result<ExitCode, Failure> {
    let Some(id) = id else {
        let mut out = String::new();
        for check in findings::CHECKS {
            let _ = writeln!(out, "{:<24}{}", check.id, check.title);
        }
        out.push_str("On a drive\n");
        for check in findings::JOURNEY_CHECKS {
            let _ = writeln!(out, "{:<24}{}", check.id, check.title);
        }
        print(&out);
        return Ok(ExitCode::SUCCESS);
    };
    let manual = findings::manual(id).ok_or_else(|| {
        let of_plans = findings::CHECKS.iter().map(|c| c.id);
        let of_drives = findings::JOURNEY_CHECKS.iter().map(|c| c.id);
        let known: Vec<&str> = of_plans.chain(of_drives).collect();
        Failure::Input(format!("{id}: is not a check ({})", known.join(", ")))
    })?;
    print(&manual);
    Ok(ExitCode::SUCCESS)
}
