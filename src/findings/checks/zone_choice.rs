//! Is every part in a zone that its file permits?

use super::on_part::{fine, middle, pointed};
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
    let wrong = &answers.clearances.extents.not_permitted;
    for (tag, zone) in wrong {
        let allowed = answers
            .vehicle
            .item(tag)
            .map_or_else(String::new, |i| i.part.zones.join(", "));
        let sentence = Phrase::new().text(format!(
            "{tag} is not made for the zone {zone}; its file names: {allowed}."
        ));
        let finding = Finding::new(Severity::Caution, tag.clone(), sentence);
        report.add(pointed(finding, answers, tag, &middle));
    }
    let mut items = answers.vehicle.items.iter();
    if wrong.is_empty() && items.any(|i| i.zone.is_some() && !i.part.zones.is_empty()) {
        let words = "Every part stands in a zone that its file names, or its file names none.";
        report.add(fine("zones", words.to_owned()));
    }
}
