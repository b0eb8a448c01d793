//! Does the kingpin press on the fifth wheel with more than its rating?

use super::whole_load::{self, Load, Whole};
use crate::assessment::Answers;
use crate::findings::{Check, Report};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "fifth-wheel-load",
    title: "Fifth-wheel load",
    question: "Does the kingpin press on the fifth wheel with more than its rating?",
    method: "Largest such mass over all cases of the finished truck, against the limit.",
    source: "rating of the fifth-wheel maker",
    applies: "when the limit is known",
    assumes: &["masses are estimates until the truck is weighed"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let Some(fw) = &answers.vehicle.chassis.fifth_wheel else {
        return;
    };
    if answers.vehicle.trailer.is_none() {
        report.not_assessed("fifth wheel", "no trailer is coupled");
        return;
    }
    let whole = Whole {
        subject: "fifth wheel",
        says: "The kingpin load is",
        limited_by: "the rating",
        limit_kg: fw.rating_kg,
        source: Source::new(Basis::Datasheet, "rating of the fifth wheel"),
    };
    whole_load::against(answers, report, whole, |c| c.kingpin_kg.map(Load::stated));
}
