//! Does enough of the truck's weight stand on the steered axle?

use super::group_load;
use crate::assessment::Answers;
use crate::chassis::AxleKind;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::loads::Case;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "steer-share",
    title: "Weight on the steered axle",
    question: "Does enough of the truck's weight stand on the steered axle to steer it?",
    method: "Load of the steered group divided by the weight on all axles of the truck, in every case of the finished truck. Laden, with or without a trailer: at least 20 %. Without payload: at least 20 %, and below 25 % is worth a look, because a light front axle slides and locks first.",
    source: "common practice: 20 to 25 % of gross for rigid trucks and tractors; 20 % for rigid trucks also in Regulation (EU) 1230/2012",
    applies: "every finished case",
    assumes: &["level road, standing still"],
    run,
};

/// Least share, common practice.
const LEAST: f64 = 0.20;
/// Share below which a truck without payload is worth a look, common practice.
const LOOK: f64 = 0.25;

fn run(answers: &Answers, report: &mut Report) {
    if let Some(missing) = group_load::missing_loads(answers) {
        return report.not_assessed("steer", &missing);
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
            let judged = |share: f64| {
                let light = matches!(c.case, Case::Unladen | Case::HalfTanks);
                if share < LEAST {
                    (Severity::Fails, LEAST)
                } else if share < LOOK && light {
                    (Severity::Caution, LOOK)
                } else {
                    (Severity::Holds, LEAST)
                }
            };
            let share = front / all;
            (all > 0.0).then(|| (c.case, share, judged(share)))
        })
        .reduce(|a, b| {
            let worse = (b.2.0, b.1) < (a.2.0, a.1);
            if worse { b } else { a }
        });
    let Some((case, share, (severity, least))) = worst else {
        return;
    };
    let sentence = Phrase::new()
        .text("The steered axle carries ")
        .share(share)
        .text(format!(" of the truck ({}); at least ", case.words()))
        .share(least)
        .text(" is usual.");
    let finding = Finding::new(severity, "steer", sentence)
        .at_least(Amount::share(share), Amount::share(least))
        .about(steered);
    report.add(finding);
}
