//! Do parts keep clear of rails, cab, body, obstacles and kept hardware?

use super::gap;
use crate::assessment::Answers;
use crate::clearance::State;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "frame-gap",
    title: "Part to chassis",
    question: "Do parts keep clear of rails, cab, body, obstacles and kept hardware?",
    method: "Shortest distance between the solids, negative when they overlap, against the larger of what the two sides ask for; of several solids the pair with the least margin.",
    source: "clearances of chassis and parts, common practice",
    applies: "hard parts",
    assumes: &["rigid parts at their planned places, truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    gap::against(answers, report, State::Fixed, "parts and chassis");
}
