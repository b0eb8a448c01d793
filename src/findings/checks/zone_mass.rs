//! Does a zone carry more than it may?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "zone-mass",
    title: "Zone mass limit",
    question: "Does a zone carry more than it may?",
    method: "Mass of the parts in the zone, contents as planned, against the limit of the chassis file.",
    source: "chassis file",
    applies: "zones with a limit",
    assumes: &["truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    for zone in &answers.clearances.extents.zones {
        let Some(limit) = zone.limit_kg else { continue };
        let over = zone.mass_kg > limit + 1e-6;
        let severity = if over {
            Severity::Fails
        } else {
            Severity::Holds
        };
        let sentence = Phrase::new()
            .text(format!("The zone {} carries ", zone.name))
            .mass(zone.mass_kg)
            .text(" of at most ")
            .mass(limit)
            .text(".");
        let finding = Finding::new(severity, zone.id.clone(), sentence)
            .at_most(Amount::mass(zone.mass_kg), Amount::mass(limit))
            .by(answers.vehicle.chassis.source.clone())
            .about(zone.tags.clone());
        report.add(finding);
    }
}
