//! Is the lowest part high enough above the road when the truck is laden?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "ground-clearance",
    title: "Ground clearance",
    question: "Is the lowest part high enough above the road when the truck is laden?",
    method: "Lowest point of every sprung part above ground at design height: at least 250 mm; below 300 mm is worth a look.",
    source: "common practice",
    applies: "sprung parts",
    assumes: &["truck at design height"],
    run,
};

/// Least ground clearance, common practice.
const LEAST_MM: f64 = 250.0;
/// Ground clearance below which high-voltage and gas parts are worth a look, common practice.
const LOOK_MM: f64 = 300.0;

fn run(answers: &Answers, report: &mut Report) {
    let parts = &answers.clearances.extents.ground;
    let lowest = parts.iter().reduce(|a, b| if b.mm < a.mm { b } else { a });
    let Some(lowest) = lowest else { return };
    let low = |mm: f64| mm < LOOK_MM - 0.05;
    for reach in parts.iter().filter(|r| low(r.mm) || r.tag == lowest.tag) {
        let (severity, limit) = if reach.mm < LEAST_MM - 0.05 {
            (Severity::Fails, LEAST_MM)
        } else if low(reach.mm) {
            (Severity::Caution, LOOK_MM)
        } else {
            (Severity::Holds, LOOK_MM)
        };
        let sentence = Phrase::new()
            .text(format!("{} is ", reach.tag))
            .length(reach.mm)
            .text(" above the road, laden; ")
            .length(limit)
            .text(" is usual.");
        let mut finding = Finding::new(severity, reach.tag.clone(), sentence)
            .at_least(Amount::length(reach.mm), Amount::length(limit))
            .about([reach.tag.clone()]);
        if let Some(item) = answers.vehicle.item(&reach.tag) {
            let c = item.bounds.centre();
            let at = |z: f64| crate::geometry::Point::new(c.x, c.y, z);
            finding = finding.pointing(at(item.bounds.min.z), at(0.0));
        }
        report.add(finding);
    }
}
