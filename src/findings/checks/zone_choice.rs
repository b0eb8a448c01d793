//! Is every part in a zone that its file permits?

use crate::assessment::Answers;
use crate::findings::{Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "zone-choice",
    title: "Zone not meant for it",
    question: "Is every part in a zone that its file permits?",
    method: "The zone of each part is looked up in the list of its file.",
    source: "catalogue of the part",
    applies: "parts whose file lists zones",
    assumes: &["truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    for (tag, zone) in &answers.clearances.extents.not_permitted {
        let allowed = answers
            .vehicle
            .item(tag)
            .map_or_else(String::new, |i| i.part.zones.join(", "));
        let sentence = Phrase::new().text(format!(
            "{tag} is not made for the zone {zone}; its file names: {allowed}."
        ));
        let finding = Finding::new(Severity::Caution, tag.clone(), sentence).about([tag.clone()]);
        report.add(finding);
    }
}
