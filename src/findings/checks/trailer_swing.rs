//! Does anything stand in the way of the trailer as it turns about its kingpin?

use super::gap;
use crate::assessment::Answers;
use crate::clearance::State;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "trailer-swing",
    title: "Trailer swing",
    question: "Does anything stand in the way of the trailer as it turns about its kingpin?",
    method: "Shortest distance between the solids, negative when they overlap, against the larger of what the two sides ask for; of several solids the pair with the least margin.",
    source: "SAE J701 asks for 4 in (102 mm); read in an abstract",
    applies: "tractors with a trailer",
    assumes: &[
        "rigid parts at their planned places, truck at design height",
        "the trailer is a box from the underside of its nose up, over its whole length; what hangs below that (frame, axles) is left out",
        "level ground: on a ramp the nose comes lower",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    gap::against(answers, report, State::Swing, "the turning trailer");
}
