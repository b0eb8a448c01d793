//! Does anything ahead of the front axle strike when a ramp begins?

use super::angle;
use crate::assessment::Answers;
use crate::findings::{Check, Report};
use crate::plan::Moving;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "approach-angle",
    title: "Approach angle",
    question: "Does anything ahead of the front axle strike when a ramp begins?",
    method: "Tangent from the lowest thing ahead to the front tyre's arc of static loaded radius, laden, and empty with the tail high; the smaller one, at least 7° unless the plan asks for another.",
    source: "49 CFR 523.2 (definition); the limit is common practice",
    applies: "every truck whose bumper height is known",
    assumes: &[
        "level road on both sides of the break, truck standing still",
        "seen from the side; the front rides at design height when empty too",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let own = answers.vehicle.moving.approach_deg;
    let found = &answers.manoeuvre.angles.approach;
    angle::against(answers, report, "approach", found, (own, Moving::LEAST_DEG));
}
