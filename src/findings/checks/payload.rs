//! How much payload is left, and is it what was promised?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::source::Source;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "payload",
    title: "Payload",
    question: "How much payload is possible, what stops it, and is it as much as was promised?",
    method: "For each limit: (limit - load without payload) / share of each kilogram of payload; the smallest governs.",
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
    let Some(governing) = capacity.governing() else {
        return report.not_assessed("payload", "no limit is known");
    };
    let most = governing.payload_kg;
    let loads = &answers.vehicle.loads;
    let stated = loads.trailer.as_ref().map(|t| t.payload_kg);
    let stated = stated
        .or(loads.payload.as_ref().map(|p| p.mass_kg))
        .unwrap_or(0.0);
    let wanted = loads.target_payload_kg.unwrap_or(0.0).max(stated);
    let severity = if most < 0.0 || wanted > most + 0.5 {
        Severity::Fails
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text("Payload up to ")
        .mass(most.max(0.0))
        .text(format!(
            ", limited by the {} ({})",
            governing.name, governing.by
        ));
    let sentence = if wanted > most + 0.5 {
        sentence.text("; ").mass(wanted).text(" are asked for.")
    } else if wanted > 0.0 {
        sentence.text("; ").mass(wanted).text(" are planned.")
    } else {
        sentence.text(".")
    };
    let finding = Finding::new(severity, "payload", sentence)
        .at_least(Amount::mass(most), Amount::mass(wanted))
        .by(Source::common_practice());
    report.add(finding);
}
