//! Does the plan name only things that exist?

use crate::assessment::Answers;
use crate::findings::{Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "plan-problem",
    title: "Plan cannot be used as written",
    question: "Does everything that the plan names exist, and can it be done?",
    method: "Every id is looked up in the library and the chassis; a strip-out may not weigh more than the truck.",
    source: "the plan itself",
    applies: "always",
    assumes: &["what could not be resolved is left out of every figure"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    for problem in &answers.vehicle.problems {
        let sentence = Phrase::new().text(format!("{problem}."));
        report.add(Finding::new(
            Severity::Fails,
            problem.path.clone(),
            sentence,
        ));
    }
}
