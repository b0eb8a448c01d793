//! Do parts and frame keep clear of the trailer landing legs in a tight turn?

use super::gap;
use crate::assessment::Answers;
use crate::clearance::State;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "landing-legs",
    title: "Landing legs",
    question: "Do parts and frame keep clear of the trailer landing legs in a tight turn?",
    method: "Shortest distance between the solids, negative when they overlap, against the clearance asked for.",
    source: "common practice, 100 mm",
    applies: "tractors with a trailer",
    assumes: &["rigid parts at their planned places, truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    gap::against(answers, report, State::Legs, "the landing legs");
}
