//! Can hood or cab still be opened?

use super::gap;
use crate::assessment::Answers;
use crate::clearance::State;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "cab-opening",
    title: "Hood and cab opening",
    question: "Can hood or cab still be opened?",
    method: "Shortest distance between the solids, negative when they overlap, against the larger of what the two sides ask for; of several solids the pair with the least margin.",
    source: "common practice, 50 mm",
    applies: "when the chassis file gives the swept space",
    assumes: &["rigid parts at their planned places, truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    gap::against(
        answers,
        report,
        State::Opening,
        "the space hood and cab need to open",
    );
}
