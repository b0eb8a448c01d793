//! Does a tank stand ahead of the front axle?

use super::on_part::{beyond, fine, pointed};
use crate::assessment::Answers;
use crate::findings::{Check, Phrase, Report, Severity};
use crate::geometry::Point;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "gas-ahead-of-axle",
    title: "Gas ahead of the front axle",
    question: "Does a tank stand ahead of the front axle?",
    method: "Foremost point of each part that must stay behind the front axle.",
    source: "common practice; California 13 CCR on fuel tanks says so for liquid fuel (read in an excerpt)",
    applies: "parts marked so in the catalogue",
    assumes: &["truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let parts = &answers.clearances.extents.ahead_of_axle;
    let mut clear = true;
    for reach in parts.iter().filter(|r| r.mm > 0.05) {
        clear = false;
        let sentence = Phrase::new()
            .text(format!("{} reaches ", reach.tag))
            .length(reach.mm)
            .text(" ahead of the front axle, into the crash zone.");
        let finding = beyond(Severity::Fails, reach.tag.clone(), sentence, reach.mm);
        report.add(pointed(finding, answers, &reach.tag, &|b| {
            let c = b.centre();
            [b.min.x, 0.0].map(|x| Point::new(x, c.y, c.z))
        }));
    }
    if clear && !parts.is_empty() {
        let words = "Every part that must not stand ahead of the front axle is behind it.";
        report.add(fine("tanks", words.to_owned()));
    }
}
