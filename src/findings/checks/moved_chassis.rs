//! Does the chassis keep clear of itself where a new wheelbase or fifth-wheel place has moved it?

use super::gap;
use crate::assessment::Answers;
use crate::clearance::State;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "moved-chassis",
    title: "Chassis to chassis",
    question: "Does the chassis keep clear of itself where a new wheelbase or fifth-wheel place has moved it?",
    method: "Tyres over travel and lock, kept axles over their travel, obstacles, cab, body and kept hardware against each other, wherever the plan has brought two of them nearer than they were on the donor; shortest distance between the solids against the larger clearance of the two.",
    source: "common practice: 25 mm to what moves, else the clearances of the chassis file",
    applies: "plans with a changed wheelbase or a slid fifth wheel",
    assumes: &[
        "what the donor had no nearer than now is the chassis maker's own design",
        "rails are cut to length and left out; tyres against tyres too",
        "truck at design height",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    gap::against(
        answers,
        report,
        State::Moved,
        "what the new wheelbase or fifth-wheel place has moved",
    );
}
