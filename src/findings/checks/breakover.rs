//! Does anything between two axles strike on a crest?

use super::angle;
use crate::assessment::Answers;
use crate::findings::{Check, Report};
use crate::plan::Moving;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "breakover-angle",
    title: "Breakover angle",
    question: "Does anything between two axles strike on a crest?",
    method: "Sum of the two tangents from the lowest thing between neighbouring axles to their tyres' arcs of static loaded radius, laden: at least 7° unless the plan asks for another.",
    source: "49 CFR 523.2 (definition); the limit is common practice",
    applies: "things between two axles on the road",
    assumes: &[
        "level road on both sides of the break, truck standing still",
        "seen from the side; the front rides at design height when empty too",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let own = answers.vehicle.moving.breakover_deg;
    let found = &answers.manoeuvre.angles.breakover;
    angle::against(
        answers,
        report,
        "breakover",
        found,
        (own, Moving::LEAST_DEG),
    );
}
