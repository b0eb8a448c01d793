//! Do packs, motors and converters go together?

use crate::assessment::Journey;
use crate::findings::{Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "voltage-match",
    title: "Voltages on one bus",
    question: "Do packs, motors and converters go together?",
    method: "Nominal voltage of every high-voltage part against the packs', within 10 %; the highest voltage of every inlet against that of the full packs.",
    source: "common practice",
    applies: "every drive",
    assumes: &["nominal voltages as the parts state them"],
    run,
};

/// Difference that is taken for the same bus (common practice).
const SPAN: f64 = 0.1;

fn run(journey: &Journey, report: &mut Report) {
    let bus = journey.truck.bank.nominal_v;
    let odd: Vec<String> = journey
        .answers
        .vehicle
        .items
        .iter()
        .filter(|item| {
            let part = &item.part;
            let volts = part.motor.as_ref().and_then(|m| m.nominal_v);
            let volts = volts.or(part.converter.as_ref().and_then(|c| c.nominal_v));
            let least = part.inlet.as_ref().and_then(|i| i.max_v);
            volts.is_some_and(|v| (v - bus).abs() > SPAN * bus)
                || least.is_some_and(|v| v < journey.truck.bank.top_v())
        })
        .map(|item| item.tag.clone())
        .collect();
    let finding = if odd.is_empty() {
        let sentence = Phrase::new().text(format!(
            "Packs, motors, converters and inlets are all made for about {bus:.0} V."
        ));
        Finding::new(Severity::Holds, "bus", sentence)
    } else {
        let sentence = Phrase::new().text(format!(
            "The packs have {bus:.0} V; {} are made for another voltage.",
            odd.join(", ")
        ));
        Finding::new(Severity::Fails, "bus", sentence).about(odd)
    };
    report.add(finding);
}
