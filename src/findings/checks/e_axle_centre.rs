//! Does every e-axle stand where the axle stands that it replaces?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::geometry::Point;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "e-axle-centre",
    title: "E-axle on its axle's centre",
    question: "Does every e-axle stand where the axle stands that it replaces?",
    method: "Distance in plan from the middle of the e-axle's envelope to the axle's centre and the truck's centre line: at most 10 mm. Wheels, suspension and loads stay at the axle's centre; an e-axle beside it could not carry them.",
    source: "common practice",
    applies: "e-axles at an axle position",
    assumes: &[
        "the middle of an e-axle's envelope is the line of its wheels; its height is not judged",
    ],
    run,
};

/// Farthest from the centre, common practice: what shims and bushes of an axle seat take up.
const MOST_MM: f64 = 10.0;

fn run(answers: &Answers, report: &mut Report) {
    let vehicle = &answers.vehicle;
    for item in &vehicle.items {
        let axle = item.unsprung_axle.as_deref();
        let Some(axle) = axle.and_then(|id| vehicle.axle(id)) else {
            continue;
        };
        let middle = item.bounds.centre();
        let centre = Point::new(axle.x_mm, 0.0, middle.z);
        let off = (middle - centre).length();
        let severity = if off > MOST_MM + 1e-6 {
            Severity::Fails
        } else {
            Severity::Holds
        };
        let sentence = Phrase::new()
            .text(format!("The middle of {} is ", item.tag))
            .length(off)
            .text(format!(" from the centre of {}; at most ", axle.words()))
            .length(MOST_MM)
            .text(" is usual.");
        let finding = Finding::new(severity, item.tag.clone(), sentence)
            .at_most(Amount::length(off), Amount::length(MOST_MM))
            .about([item.tag.clone()])
            .pointing(middle, centre);
        report.add(finding);
    }
}
