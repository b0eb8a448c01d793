//! Does enough of the truck's weight stand on its steered axles for the chosen road law?

use super::road_share::{self, Asked};
use crate::assessment::Answers;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "road-steered-share",
    title: "Road law, weight on the steered axles",
    question: "Does enough of the truck's weight stand on its steered axles for the chosen road law?",
    method: "Load of the steered axles divided by what all axles of the truck carry, in the laden cases.",
    source: "the road law named in the plan, such as Regulation (EU) 1230/2012",
    applies: "when the law states such a share and a load is planned",
    assumes: &[
        "level road, standing still",
        "the planned load stands for the technically permissible mass of which the regulation speaks",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let law = answers.vehicle.law.as_ref();
    let Some(share) = law.and_then(|law| law.steered_share.as_ref()) else {
        return;
    };
    let asked = Asked {
        subject: "steered axles",
        of: "of the truck",
        pick: |axle| axle.steered,
        whole: |case| case.groups.iter().map(|g| g.load_kg).sum(),
    };
    road_share::against(answers, report, &asked, share);
}
