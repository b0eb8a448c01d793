//! Would an axle group be lifted off the road, or pulled below nothing by the strip-out?

use super::group_load;
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "axle-lift-off",
    title: "Axle lifts off",
    question: "Does every axle group press on the road in every case?",
    method: "Load of each group in each case must be above zero; in the stripped state a load below zero means that more was taken off than the truck had there.",
    source: "statics",
    applies: "all cases",
    assumes: &["rigid frame, level road, standing still"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    if let Some(missing) = group_load::missing_loads(answers) {
        report.not_assessed("truck", missing);
        return;
    }
    for case in &answers.loads.cases {
        for group in case.groups.iter().filter(|g| g.load_kg < -1e-6) {
            let sentence = Phrase::new()
                .text(format!(
                    "{}: the group {} would be pulled up by ",
                    case.case.words(),
                    group.id
                ))
                .mass(-group.load_kg)
                .text("; the truck would tip.");
            let subject = format!("{}.{}", case.case.words(), group.id);
            let finding = Finding::new(Severity::Fails, subject, sentence)
                .at_least(Amount::mass(group.load_kg), Amount::mass(0.0))
                .about([group.id.clone()]);
            report.add(finding);
        }
    }
}
