//! Has the cab room to move on its own suspension?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "behind-cab",
    title: "Behind the cab",
    question: "Has the cab room to move on its own suspension?",
    method: "Free length between the back of the cab and each part behind it, against the allowance of the chassis file.",
    source: "common practice: 75 mm behind an air-sprung cab, 50 mm behind a rigid one",
    applies: "parts behind the cab at its height and within its width",
    assumes: &["truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let asked = answers.vehicle.chassis.cab.motion_clearance_mm;
    let boc = answers.vehicle.chassis.dimensions.back_of_cab_x_mm();
    let mut closest: Option<Finding> = None;
    let mut nearest = f64::INFINITY;
    for reach in &answers.clearances.extents.behind_cab {
        let fails = reach.mm < asked - 0.05;
        let severity = if fails {
            Severity::Fails
        } else {
            Severity::Holds
        };
        let sentence = Phrase::new()
            .text(format!("{} stands ", reach.tag))
            .length(reach.mm)
            .text(" behind the cab; the cab needs ")
            .length(asked)
            .text(" to move.");
        let mut finding = Finding::new(severity, reach.tag.clone(), sentence)
            .at_least(Amount::length(reach.mm), Amount::length(asked))
            .about([reach.tag.clone()]);
        if let Some(item) = answers.vehicle.item(&reach.tag) {
            let c = item.bounds.centre();
            let at = |x: f64| crate::geometry::Point::new(x, c.y, c.z);
            finding = finding.pointing(at(item.bounds.min.x), at(boc));
        }
        if fails {
            report.add(finding);
        } else if reach.mm < nearest {
            nearest = reach.mm;
            closest = Some(finding);
        }
    }
    if let Some(finding) = closest {
        report.add(finding);
    }
}
