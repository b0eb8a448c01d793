//! The evaluation as text for a person at a terminal.

use super::{Page, Table, cautions::caution_lines, frame, json, page};
use crate::assessment::{Assessment, Capacity};
use crate::findings::{Severity, payload_possible};
use crate::quantity::{Units, length, mass, signed_mass};
use std::fmt::Write as _;

/// Writes the evaluation in words.
#[must_use]
pub fn text(assessment: &Assessment, units: Units) -> String {
    let mut out = String::new();
    // Writing to a string cannot fail.
    let _ = write(&mut out, assessment, units);
    out
}

fn write(out: &mut String, assessment: &Assessment, units: Units) -> std::fmt::Result {
    let answers = &assessment.answers;
    let vehicle = &answers.vehicle;
    writeln!(out, "{}", vehicle.name)?;
    writeln!(out, "on {} ({})", vehicle.chassis.name, vehicle.chassis.id)?;
    writeln!(out, "\nVerdict: {}\n", assessment.worst().words())?;
    if let Some(missing) = &answers.loads.missing {
        writeln!(out, "Loads not assessed: {missing}.\n")?;
    }
    for case in &answers.loads.cases {
        write!(
            out,
            "{:<26}{:>12}",
            case.case.words(),
            mass(case.truck.mass_kg, units)
        )?;
        for group in &case.groups {
            write!(out, "   {} {}", group.id, mass(group.load_kg, units))?;
        }
        if let Some(kg) = case.trailer_axles_kg {
            write!(out, "   trailer axles {}", mass(kg, units))?;
        }
        if let Some(missing) = &case.missing {
            write!(out, "   not assessed: {missing}")?;
        }
        writeln!(out)?;
    }
    if let Some(case) = answers.heaviest() {
        writeln!(out, "\nAxle groups, {}:", case.case.words())?;
        for group in &case.groups {
            let limits = answers.road.limits.iter().find(|l| l.id == group.id);
            match limits.and_then(|l| l.lowest().map(|limit| (l, limit))) {
                Some((limits, limit)) => writeln!(
                    out,
                    "  {:<16}{:>12} of {:>12}  {:>12}  ({})",
                    limits.name,
                    mass(group.load_kg, units),
                    mass(limit.kg, units),
                    signed_mass(limit.kg - group.load_kg, units),
                    limit.kind.words()
                )?,
                None => writeln!(out, "  {:<16}{:>12}", group.id, mass(group.load_kg, units))?,
            }
        }
    }
    bridge_table(out, assessment, units)?;
    super::moving::lines(out, assessment, units)?;
    for id in ["balance", "shafts"] {
        let tables = page(id, assessment, units).map_or_else(Vec::new, |page| page.tables);
        for table in &tables {
            write_table(out, table, false)?;
        }
    }
    frame::text(out, answers, units)?;
    match &answers.capacity {
        Ok(capacity) => {
            let possible = payload_possible(capacity).words(units);
            writeln!(out, "\n{possible}.\nPayload at each limit:")?;
            for (name, payload) in payload_rows(capacity, units) {
                writeln!(out, "  {payload:>12}  {name}")?;
            }
        }
        Err(missing) => writeln!(out, "\nPayload not assessed: {missing}.")?,
    }
    if let Ok(best) = answers.best_positions() {
        writeln!(out, "\nLargest payload that keeps every limit:")?;
        for (place, best) in best.rows() {
            let payload = mass(best.payload_kg, units);
            let at = |mm: Option<f64>| mm.map_or_else(|| "–".to_owned(), |mm| length(mm, units));
            let (ahead, axles) = (at(best.ahead_mm), at(best.kingpin_to_axles_mm));
            let stopped = best.stopped_by.join(", ");
            writeln!(
                out,
                "  {place:<20}{ahead:>12}{axles:>12}{payload:>12}  ({stopped})"
            )?;
        }
    }
    for severity in [
        Severity::Fails,
        Severity::Caution,
        Severity::NotAssessed,
        Severity::Holds,
    ] {
        let list: Vec<_> = assessment
            .findings
            .iter()
            .filter(|f| f.severity == severity)
            .collect();
        if list.is_empty() {
            continue;
        }
        writeln!(out, "\n{} ({})", severity.words(), list.len())?;
        for finding in list {
            let sentence = finding.sentence.words(units);
            writeln!(
                out,
                "  {:<22}{sentence} [{}]",
                finding.check, finding.source
            )?;
        }
    }
    writeln!(out, "\nTaken for granted")?;
    for line in json::ASSUMPTIONS {
        writeln!(out, "  {line}")?;
    }
    out.push_str(&caution_lines(vehicle));
    writeln!(out, "\n{}", json::NOTICE)
}

/// A page of answers in words.
#[must_use]
pub fn page_text(page: &Page) -> String {
    let mut out = String::new();
    // Writing to a string cannot fail.
    let _ = write_page(&mut out, page);
    out
}

/// A table in words.
#[must_use]
pub(super) fn table_text(table: &Table) -> String {
    let mut out = String::new();
    // Writing to a string cannot fail.
    let _ = write_table(&mut out, table, true);
    if let Some(note) = &table.note {
        let _ = writeln!(out, "  {note}");
    }
    out
}

fn write_page(out: &mut String, page: &Page) -> std::fmt::Result {
    for line in &page.lead {
        writeln!(out, "{line}")?;
    }
    for table in &page.tables {
        out.push_str(&table_text(table));
    }
    for line in &page.assumptions {
        writeln!(out, "  {line}")?;
    }
    Ok(())
}

/// A page's table, its columns as wide as they need to be; `marked` where it begins with what its rows come
/// to.
fn write_table(out: &mut String, table: &Table, marked: bool) -> std::fmt::Result {
    writeln!(out, "\n{}:", table.title)?;
    let marked = marked && table.rows.iter().any(|row| row.severity.is_some());
    let mark = |severity: Option<Severity>| severity.map_or("", Severity::words);
    let heads: Vec<String> = table.columns.iter().map(|c| c.name.clone()).collect();
    let lines = || std::iter::once(&heads).chain(table.rows.iter().map(|r| &r.cells));
    let wide = |index: usize| {
        let cells = lines().filter_map(|cells| cells.get(index));
        cells.map(|c| c.chars().count()).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..heads.len()).map(wide).collect();
    for (index, cells) in lines().enumerate() {
        let mut line = String::new();
        for ((cell, width), column) in cells.iter().zip(&widths).zip(&table.columns) {
            if column.numeric {
                write!(line, "  {cell:>width$}")?;
            } else {
                write!(line, "  {cell:<width$}")?;
            }
        }
        if marked {
            let row = index.checked_sub(1).and_then(|i| table.rows.get(i));
            line.insert_str(0, &format!("  {:<8}", mark(row.and_then(|r| r.severity))));
        }
        writeln!(out, "{}", line.trim_end())?;
    }
    Ok(())
}

fn bridge_table(out: &mut String, assessment: &Assessment, units: Units) -> std::fmt::Result {
    let groups = match &assessment.answers.bridge {
        Ok(groups) if groups.is_empty() => return Ok(()),
        Ok(groups) => groups,
        Err(missing) => return writeln!(out, "\nGroups of axles not assessed: {missing}."),
    };
    writeln!(out, "\nGroups of axles, each in its heaviest case:")?;
    for bridge in groups {
        let group = &bridge.group;
        let (from, to) = group.numbers;
        writeln!(
            out,
            "  {:<16}{:>12}{:>12} of {:>12}  {:>12}  ({})",
            format!("axles {from} to {to}"),
            length(group.length_mm(), units),
            mass(group.actual_kg, units),
            mass(group.allowed_kg, units),
            signed_mass(group.margin_kg(), units),
            group.rule.words()
        )?;
    }
    Ok(())
}

/// What each limit says about payload: limits that are passed without any first.
#[must_use]
pub fn payload_rows(capacity: &Capacity, units: Units) -> Vec<(String, String)> {
    let passed = capacity.passed.iter().map(|p| {
        let over = format!("{} over", mass(p.over_kg, units));
        (format!("{} ({})", p.name, p.by), over)
    });
    let open = capacity.rows.iter().filter(|row| row.payload_kg >= 0.0);
    let open = open.map(|row| {
        let payload = mass(row.payload_kg, units);
        (format!("{} ({})", row.name, row.by), payload)
    });
    passed.chain(open).collect()
}
