//! Do parts keep clear of the tyres at rest?

use super::gap;
use crate::assessment::Answers;
use crate::clearance::State;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "tyre-gap",
    title: "Tyre at rest",
    question: "Do parts keep clear of the tyres at rest?",
    method: "Shortest distance between the solids, negative when they overlap, against the larger of what the two sides ask for; of several solids the pair with the least margin.",
    source: "common practice, 75 mm",
    applies: "hard parts",
    assumes: &["rigid parts at their planned places, truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    gap::against(answers, report, State::TyreAtRest, "tyres at rest");
}
