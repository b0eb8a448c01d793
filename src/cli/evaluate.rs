//! `axlewright evaluate`.

use super::{Failure, Format, plan_of, read_plan, text_of};
use crate::assessment::Assessment;
use crate::findings::Severity;
use crate::library::Library;
use crate::plan::Plan;
use crate::quantity::Units;
use crate::report;
use std::io::{BufRead as _, Write as _};
use std::path::Path;
use std::process::ExitCode;

pub(super) fn run(
    library: &Library,
    path: &Path,
    format: Format,
    units: Units,
) -> Result<ExitCode, Failure> {
    if path == Path::new("-") {
        return many(library, units);
    }
    let plan = read_plan(path)?;
    let assessment = assess(&path.display().to_string(), &plan, library)?;
    match format {
        Format::Text => print(&report::text(&assessment, units)),
        Format::Json => {
            let evaluation = report::evaluation(&assessment, units);
            let text = serde_json::to_string_pretty(&evaluation)
                .map_err(|e| Failure::Input(e.to_string()))?;
            print(&(text + "\n"));
        }
    }
    Ok(ExitCode::from(u8::from(
        assessment.worst() == Severity::Fails,
    )))
}

fn assess(file: &str, plan: &Plan, library: &Library) -> Result<Assessment, Failure> {
    let assessment = Assessment::of(plan, library).map_err(|mut problem| {
        file.clone_into(&mut problem.file);
        Failure::Input(problem.to_string())
    })?;
    // An id that does not exist is unusable input; a strip-out beyond the truck as well.
    let problems = &assessment.answers.vehicle.problems;
    if problems.is_empty() {
        return Ok(assessment);
    }
    let mut lines: Vec<String> = Vec::new();
    for problem in problems {
        let mut problem = problem.clone();
        file.clone_into(&mut problem.file);
        lines.push(problem.to_string());
    }
    Err(Failure::Input(lines.join("\n")))
}

/// One plan a line in, one result a line out; a line that cannot be used answers with its error.
fn many(library: &Library, units: Units) -> Result<ExitCode, Failure> {
    let mut worst = 0;
    let input = std::io::stdin().lock();
    // Bytes, not text: a line in another encoding must not end the lines behind it.
    for (index, line) in input.split(b'\n').enumerate() {
        let name = format!("line {}", index + 1);
        let line = line.map_err(|e| Failure::File(name.clone(), e))?;
        if line.trim_ascii().is_empty() {
            continue;
        }
        let result = text_of(&name, line)
            .and_then(|text| plan_of(&name, &text))
            .and_then(|plan| assess(&name, &plan, library));
        let text = match result {
            Ok(assessment) => {
                worst = worst.max(u8::from(assessment.worst() == Severity::Fails));
                serde_json::to_string(&report::evaluation(&assessment, units))
            }
            Err(failure) => {
                worst = 2;
                serde_json::to_string(&serde_json::json!({ "error": failure.to_string() }))
            }
        };
        print(&(text.map_err(|e| Failure::Input(e.to_string()))? + "\n"));
    }
    Ok(ExitCode::from(worst))
}

/// Writes to standard output; a reader that went away is not an error of ours.
pub(super) fn print(text: &str) {
    let _ = std::io::stdout().lock().write_all(text.as_bytes());
}
