//! Do parts keep clear of the tyres at full jounce and at any steering angle?

use super::gap;
use crate::assessment::Answers;
use crate::clearance::State;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "tyre-sweep",
    title: "Tyre at full jounce and lock",
    question: "Do parts keep clear of the tyres at full jounce and at any steering angle?",
    method: "Shortest distance between the solids, negative when they overlap, against the clearance asked for.",
    source: "common practice, 25 mm without chains",
    applies: "hard parts",
    assumes: &["rigid parts at their planned places, truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    gap::against(
        answers,
        report,
        State::TyreMoving,
        "tyres at full jounce and lock",
    );
}
