//! Does anything behind the last axle strike when a ramp ends?

use super::angle;
use crate::assessment::Answers;
use crate::findings::{Check, Report};
use crate::plan::Moving;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "departure-angle",
    title: "Departure angle",
    question: "Does anything behind the last axle strike when a ramp ends?",
    method: "Tangent from the lowest thing behind to the last tyre's arc of static loaded radius, laden and empty; the smaller one, at least 7° unless the plan asks for another.",
    source: "49 CFR 523.2 (definition); the limit is common practice",
    applies: "things behind the last axle on the road",
    assumes: &[
        "level road on both sides of the break, truck standing still",
        "seen from the side; the front rides at design height when empty too",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let own = answers.vehicle.moving.departure_deg;
    let found = &answers.manoeuvre.angles.departure;
    angle::against(
        answers,
        report,
        "departure",
        found,
        (own, Moving::LEAST_DEG),
    );
}
