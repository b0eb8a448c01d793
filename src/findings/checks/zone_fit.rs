//! Does every part stand inside the zone it is counted in?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "zone-fit",
    title: "Outside its zone",
    question: "Does every part stand inside the zone it is counted in?",
    method: "How far the part sticks out of the zone volume on its worst side.",
    source: "zones are planning volumes, common practice",
    applies: "hard parts in a zone",
    assumes: &["truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    for out in answers
        .clearances
        .extents
        .outside
        .iter()
        .filter(|o| o.by_mm > 0.05)
    {
        let zone = answers
            .vehicle
            .zone(&out.zone)
            .map_or(out.zone.as_str(), |z| z.name.as_str());
        let sentence = Phrase::new()
            .text(format!("{} stands ", out.tag))
            .length(out.by_mm)
            .text(format!(" {} its zone, {zone}.", out.side));
        let finding = Finding::new(Severity::Caution, out.tag.clone(), sentence)
            .at_most(Amount::length(out.by_mm), Amount::length(0.0))
            .about([out.tag.clone()]);
        report.add(finding);
    }
}
