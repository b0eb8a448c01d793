//! Does anything behind the cab stand in the way of the swinging trailer nose?

use super::gap;
use crate::assessment::Answers;
use crate::clearance::State;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "trailer-swing",
    title: "Trailer swing",
    question: "Does anything behind the cab stand in the way of the swinging trailer nose?",
    method: "Shortest distance between the solids, negative when they overlap, against the clearance asked for.",
    source: "SAE J701 asks for 4 in (102 mm); read in an abstract",
    applies: "tractors with a trailer",
    assumes: &["rigid parts at their planned places, truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    gap::against(answers, report, State::Swing, "the swinging trailer nose");
}
