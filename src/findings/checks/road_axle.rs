//! Does an axle group weigh more than the chosen road law allows?

use super::group_load;
use crate::assessment::{Answers, LimitKind};
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "road-axle",
    title: "Road law, axle groups",
    question: "Does an axle group weigh more than the chosen road law allows?",
    method: "Largest load of the group over all cases of the finished truck, against the lowest limit of its axles divided by their shares.",
    source: "the road law named in the plan",
    applies: "every axle group on the ground",
    assumes: &[
        "rigid frame, level road, standing still",
        "masses are estimates until the truck is weighed",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    if answers.vehicle.law.is_none() {
        report.not_assessed("truck", "the plan names no road law");
        return;
    }
    group_load::against(answers, report, LimitKind::Law);
}
