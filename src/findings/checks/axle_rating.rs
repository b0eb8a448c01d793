//! Does an axle group carry more than the donor's axle rating allows?

use super::group_load;
use crate::assessment::{Answers, LimitKind};
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "axle-rating",
    title: "Axle rating",
    question: "Does an axle group carry more than the donor's axle rating allows?",
    method: "Largest load of the group over all cases of the finished truck, against the lowest limit of its axles divided by their shares.",
    source: "certification label of the donor (49 CFR 567)",
    applies: "every axle group on the ground",
    assumes: &[
        "rigid frame, level road, standing still",
        "masses are estimates until the truck is weighed",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    group_load::against(answers, report, LimitKind::Gawr);
}
