//! Is the lowest part high enough above the road when the truck is laden?

use crate::assessment::Answers;
use crate::clearance::Reach;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::geometry::Point;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "ground-clearance",
    title: "Ground clearance",
    question: "Is the lowest part high enough above the road when the truck is laden?",
    method: "Lowest point of every sprung part above ground at design height: at least 250 mm, below 300 mm is worth a look. Under an axle, lowest point of what rides on it: at least 150 mm, below 200 mm is worth a look.",
    source: "common practice",
    applies: "hard parts",
    assumes: &[
        "truck at design height",
        "what rides on an axle does not come down with the springs, so less is usual there",
    ],
    run,
};

/// What is usual and the least of it, common practice.
struct Usual {
    least_mm: f64,
    look_mm: f64,
    /// After "above the road, laden": what kind of part that is, where it matters.
    words: &'static str,
}

/// Parts on the springs, high-voltage and gas parts above all.
const SPRUNG: Usual = Usual {
    least_mm: 250.0,
    look_mm: 300.0,
    words: "",
};

/// Parts that ride on an axle.
const UNDER_AXLE: Usual = Usual {
    least_mm: 150.0,
    look_mm: 200.0,
    words: " under an axle",
};

fn run(answers: &Answers, report: &mut Report) {
    let extents = &answers.clearances.extents;
    against(answers, report, &extents.ground, &SPRUNG);
    against(answers, report, &extents.ground_under_axles, &UNDER_AXLE);
}

fn against(answers: &Answers, report: &mut Report, parts: &[Reach], usual: &Usual) {
    let lowest = parts.iter().reduce(|a, b| if b.mm < a.mm { b } else { a });
    let Some(lowest) = lowest else { return };
    let low = |mm: f64| mm < usual.look_mm - 0.05;
    for reach in parts.iter().filter(|r| low(r.mm) || r.tag == lowest.tag) {
        let (severity, limit) = if reach.mm < usual.least_mm - 0.05 {
            (Severity::Fails, usual.least_mm)
        } else if low(reach.mm) {
            (Severity::Caution, usual.look_mm)
        } else {
            (Severity::Holds, usual.look_mm)
        };
        let sentence = Phrase::new()
            .text(format!("{} is ", reach.tag))
            .length(reach.mm)
            .text(format!(" above the road{}, laden; ", usual.words))
            .length(usual.look_mm)
            .text(" is usual, ")
            .length(usual.least_mm)
            .text(" the least.");
        let mut finding = Finding::new(severity, reach.tag.clone(), sentence)
            .at_least(Amount::length(reach.mm), Amount::length(limit))
            .about([reach.tag.clone()]);
        if let Some(item) = answers.vehicle.item(&reach.tag) {
            let c = item.bounds.centre();
            let at = |z: f64| Point::new(c.x, c.y, z);
            finding = finding.pointing(at(item.bounds.min.z), at(0.0));
        }
        report.add(finding);
    }
}
