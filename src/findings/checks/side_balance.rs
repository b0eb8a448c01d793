//! Do left and right wheels carry about the same?

use super::group_load;
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "side-balance",
    title: "Left and right",
    question: "Do the left and right wheels of each axle group carry about the same?",
    method: "Difference of the sides divided by the group's load, largest over the cases of the finished truck, unladen and laden: at most 5 %; above 3 % is worth a look.",
    source: "common practice",
    applies: "every axle group",
    assumes: &[
        "payload lies where the plan says, in the middle unless it says otherwise",
        "frame soft in torsion: each mass's side offset is carried by the axles in the proportion that carries its weight",
    ],
    run,
};

/// Largest usual difference, common practice.
const MOST: f64 = 0.05;
/// Difference that is worth a look, common practice.
const LOOK: f64 = 0.03;

fn run(answers: &Answers, report: &mut Report) {
    if let Some(missing) = group_load::missing_loads(answers) {
        return report.not_assessed("truck", &missing);
    }
    for limits in &answers.road.limits {
        let worst = group_load::finished(answers)
            .filter_map(|c| {
                c.groups
                    .iter()
                    .find(|g| g.id == limits.id)
                    .map(|g| (c.case, g))
            })
            .filter(|(_, g)| g.load_kg > 1.0)
            .map(|(case, g)| (case, (g.right_kg - g.left_kg) / g.load_kg, g))
            .reduce(|a, b| if b.1.abs() > a.1.abs() { b } else { a });
        let Some((case, difference, group)) = worst else {
            continue;
        };
        let share = difference.abs();
        let severity = if share > MOST {
            Severity::Fails
        } else if share > LOOK {
            Severity::Caution
        } else {
            Severity::Holds
        };
        let side = if difference > 0.0 { "right" } else { "left" };
        let sentence = Phrase::new()
            .text(format!(
                "The {} is heavier on the {side}: left ",
                limits.name
            ))
            .mass(group.left_kg)
            .text(", right ")
            .mass(group.right_kg)
            .text(format!(" ({}); ", case.words()))
            .share(share)
            .text(" apart.");
        let finding = Finding::new(severity, limits.id.clone(), sentence)
            .at_most(Amount::share(share), Amount::share(MOST))
            .about([limits.id.clone()]);
        report.add(finding);
    }
}
