//! Do parts keep clear of the tyres over their whole travel and at any steering angle?

use super::gap;
use crate::assessment::Answers;
use crate::clearance::State;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "tyre-sweep",
    title: "Tyre over travel and lock",
    question: "Do parts keep clear of the tyres over their whole travel and at any steering angle?",
    method: "Shortest distance between the solids, negative when they overlap, against the larger of what the two sides ask for; of several solids the pair with the least margin.",
    source: "common practice, 25 mm without chains",
    applies: "hard parts",
    assumes: &[
        "rigid parts at their planned places, truck at design height",
        "wheels steer about the upright line through the tyre's centre; every angle counts, by a bound that is at most 0.1 mm on the safe side",
        "a part that is round and lies counts with up to 0.2 % of its radius more",
        "a raised axle also comes down",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    gap::against(
        answers,
        report,
        State::TyreMoving,
        "tyres over travel and lock",
    );
}
