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
    method: "Radius of the farthest corners of the box about each thing from the kingpin, against the circle of the legs; the larger of what the two sides ask for.",
    source: "common practice, 100 mm",
    applies: "tractors with a trailer",
    assumes: &[
        "rigid parts at their planned places, truck at design height",
        "legs at any angle, over their whole width",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    gap::against(answers, report, State::Legs, "the landing legs");
}
