//! Does enough of the whole weight stand on the driven axles for the chosen road law?

use super::road_share::{self, Asked};
use crate::assessment::Answers;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "road-driven-share",
    title: "Road law, weight on the driven axles",
    question: "Does enough of the whole weight stand on the driven axles for the chosen road law?",
    method: "Load of the axles that are driven divided by the weight of truck and trailer, in the laden cases; an axle whose donor drive came off without an e-axle in its place is not driven.",
    source: "the road law named in the plan, such as Directive 96/53/EC Annex I 4.1",
    applies: "when the law states such a share and a load is planned",
    assumes: &["level road, standing still"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let law = answers.vehicle.law.as_ref();
    let Some(share) = law.and_then(|law| law.driven_share.as_ref()) else {
        return;
    };
    let asked = Asked {
        subject: "driven axles",
        of: "of the whole weight",
        pick: |axle| axle.driven,
        whole: |case| case.gross_kg,
    };
    road_share::against(answers, report, &asked, share);
}
