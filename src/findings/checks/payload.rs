//! How much payload is left, and is it what was promised?

use crate::assessment::{Answers, Capacity};
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::source::Source;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "payload",
    title: "Payload",
    question: "How much payload is possible, what stops it, and is it as much as was promised?",
    method: "For each limit: (limit - load without payload) / share of each kilogram of payload; the smallest governs. Where a limit is passed without any payload, none is possible, even when payload would not bring that limit nearer.",
    source: "moments and the limits named",
    applies: "when the plan says where payload goes",
    assumes: &[
        "payload lies where the plan says, whatever its mass",
        "tanks as planned, driver aboard",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let capacity = match &answers.capacity {
        Ok(capacity) => capacity,
        Err(missing) => return report.not_assessed("payload", missing),
    };
    if capacity.rows.is_empty() && capacity.passed.is_empty() {
        return report.not_assessed("payload", "no limit is known");
    }
    let most = capacity.payload_kg();
    let loads = &answers.vehicle.loads;
    let stated = loads.trailer.as_ref().map(|t| t.payload_kg);
    let stated = stated
        .or(loads.payload.as_ref().map(|p| p.mass_kg))
        .unwrap_or(0.0);
    let wanted = loads.target_payload_kg.unwrap_or(0.0).max(stated);
    let short = wanted > most + 0.5;
    let severity = if short || !capacity.passed.is_empty() {
        Severity::Fails
    } else {
        Severity::Holds
    };
    let sentence = possible(capacity);
    let sentence = if short {
        sentence.text("; ").mass(wanted).text(" are asked for.")
    } else if wanted > 0.0 {
        sentence.text("; ").mass(wanted).text(" are planned.")
    } else {
        sentence.text(".")
    };
    let finding = Finding::new(severity, "payload", sentence).by(Source::common_practice());
    report.add(match capacity.passed.first() {
        Some(first) => finding.at_most(
            Amount::mass(first.limit_kg + first.over_kg),
            Amount::mass(first.limit_kg),
        ),
        None => finding.at_least(Amount::mass(most), Amount::mass(wanted)),
    });
}

/// How much payload is possible and what stops it, or why none is: the same words wherever a payload
/// is named.
#[must_use]
pub fn possible(capacity: &Capacity) -> Phrase {
    if let Some(first) = capacity.passed.first() {
        let many = first.name.contains("axles");
        let limit = match (first.by, many) {
            ("road law", _) => "the legal limit".to_owned(),
            ("bridge formula", _) => "the bridge formula".to_owned(),
            (by, true) => format!("their {by}"),
            (by, false) => format!("its {by}"),
        };
        let words = match first.by {
            "least share" => Phrase::new()
                .text(format!(
                    "No payload is possible: without any, the {} miss",
                    first.name
                ))
                .text(if many { " their" } else { "es its" })
                .text(" least share by ")
                .mass(first.over_kg),
            _ => Phrase::new()
                .text(format!(
                    "No payload is possible: without any, the {} {} already ",
                    first.name,
                    if many { "are" } else { "is" }
                ))
                .mass(first.over_kg)
                .text(format!(" over {limit}")),
        };
        return match capacity.passed.len() {
            1 => words,
            2 => words.text(", and another limit is passed"),
            n => words.text(format!(", and {} other limits are passed", n - 1)),
        };
    }
    let words = Phrase::new()
        .text("Payload up to ")
        .mass(capacity.payload_kg());
    match capacity.governing() {
        Some(row) => words.text(format!(", limited by the {} ({})", row.name, row.by)),
        None => words,
    }
}
