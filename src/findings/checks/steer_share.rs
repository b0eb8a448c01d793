//! Does enough of the truck's weight stand on the steered axle?

use super::group_load;
use crate::assessment::Answers;
use crate::chassis::{AxleKind, Class};
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "steer-share",
    title: "Weight on the steered axle",
    question: "Does enough of the truck's weight stand on the steered axle to steer it?",
    method: "Load of the steered group divided by the weight on all axles of the truck, smallest over the cases of the finished truck: at least 20 %; below 25 % unladen is worth a look.",
    source: "common practice; 20 % for rigid trucks also in Regulation (EU) 1230/2012",
    applies: "every finished case",
    assumes: &["level road, standing still"],
    run,
};

/// Least share, common practice.
const LEAST: f64 = 0.20;
/// Share below which an unladen truck is worth a look, common practice.
const LOOK: f64 = 0.25;

fn run(answers: &Answers, report: &mut Report) {
    if let Some(missing) = group_load::missing_loads(answers) {
        return report.not_assessed("steer", missing);
    }
    let chassis = &answers.vehicle.chassis;
    let steered: Vec<&str> = chassis
        .groups
        .iter()
        .filter(|g| {
            let steers = |id: &String| {
                chassis
                    .axles
                    .iter()
                    .any(|a| &a.id == id && a.kind == AxleKind::Steer)
            };
            g.axles.iter().any(steers)
        })
        .map(|g| g.id.as_str())
        .collect();
    let worst = group_load::finished(answers)
        .filter_map(|c| {
            let all: f64 = c.groups.iter().map(|g| g.load_kg).sum();
            let front: f64 = c
                .groups
                .iter()
                .filter(|g| steered.contains(&g.id.as_str()))
                .map(|g| g.load_kg)
                .sum();
            (all > 0.0).then_some((c.case, front / all))
        })
        .reduce(|a, b| if b.1 < a.1 { b } else { a });
    let Some((case, share)) = worst else { return };
    let severity = if share < LEAST {
        Severity::Fails
    } else if share < LOOK && chassis.class == Class::Rigid {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text("The steered axle carries ")
        .share(share)
        .text(format!(" of the truck ({}); at least ", case.words()))
        .share(LEAST)
        .text(" is usual.");
    let finding = Finding::new(severity, "steer", sentence)
        .at_least(Amount::share(share), Amount::share(LEAST))
        .about(steered);
    report.add(finding);
}
