//! Does an axle group carry more than the e-axle in it may?

use super::group_load;
use crate::assessment::{Answers, LimitKind};
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "e-axle-rating",
    title: "E-axle rating",
    question: "Does an axle group carry more than the e-axle in it may?",
    method: "Largest load of the group over all cases of the finished truck, against the lowest limit of its axles divided by their shares.",
    source: "datasheet of the e-axle",
    applies: "every axle group on the ground",
    assumes: &[
        "rigid frame, level road, standing still",
        "masses are estimates until the truck is weighed",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    group_load::against(answers, report, LimitKind::EAxle);
}
