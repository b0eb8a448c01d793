//! Do parts keep the clearance that the larger of their two sides asks for?

use super::gap;
use crate::assessment::Answers;
use crate::clearance::State;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "part-gap",
    title: "Part to part",
    question: "Do parts keep the clearance that the larger of their two sides asks for?",
    method: "Shortest distance between the solids, negative when they overlap, against the larger of what the two sides ask for; of several solids the pair with the least margin.",
    source: "clearances of the parts, common practice",
    applies: "hard parts that are not flanged together",
    assumes: &["rigid parts at their planned places, truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    gap::against(answers, report, State::Parts, "parts and parts");
}
