//! Is the whole no higher than the chosen road law allows?

use super::size::{self, Words};
use crate::assessment::Answers;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "road-height",
    title: "Road law, height",
    question: "Is the whole no higher than the chosen road law allows?",
    method: "Highest point of cab, body, parts and trailer at design height, against the limit.",
    source: "the road law named in the plan",
    applies: "when the law states a height",
    assumes: &["laden height; an empty truck stands higher"],
    run,
};

const HEIGHT: [Words; 1] = [("height", " reach up to ", "")];

fn run(answers: &Answers, report: &mut Report) {
    size::against(answers, report, &HEIGHT);
}
