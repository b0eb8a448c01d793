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
    method: "Shortest distance between the solids, negative when they overlap, against the clearance asked for.",
    source: "common practice, 25 mm at the stops",
    applies: "e-axles",
    assumes: &["rigid parts at their planned places, truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    gap::against(answers, report, State::Travel, "what rides on the axles");
}
