//! Does what rides on an axle keep clear of everything else over the whole travel?

use super::gap;
use crate::assessment::Answers;
use crate::clearance::State;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "suspension-travel",
    title: "Suspension travel",
    question: "Does what rides on an axle keep clear of everything else over the whole travel?",
    method: "Shortest distance between the solids, negative when they overlap, against the larger of what the two sides ask for; of several solids the pair with the least margin.",
    source: "common practice, 25 mm at the stops",
    applies: "parts against e-axles and against donor axles that are kept",
    assumes: &[
        "rigid parts at their planned places, truck at design height",
        "an axle moves straight up and down",
        "an axle of which the chassis file gives no shape is not assessed",
        "kept axles against the rest of the chassis are the maker's, unless the plan moves them (moved-chassis)",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    gap::against(answers, report, State::Travel, "what rides on the axles");
}
