//! Is the truck, with what rests on its fifth wheel, within GVWR?

use super::whole_load::{self, Load, Whole};
use crate::assessment::Answers;
use crate::findings::{Check, Report};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "gvwr",
    title: "Gross vehicle weight rating",
    question: "Is the truck, with what rests on its fifth wheel, within GVWR?",
    method: "Largest such mass over all cases of the finished truck, against the limit.",
    source: "certification label of the donor (49 CFR 567)",
    applies: "when the limit is known",
    assumes: &["masses are estimates until the truck is weighed"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let Some(limit) = answers.vehicle.chassis.ratings.gvwr_kg else {
        report.not_assessed("truck", "the chassis file names no GVWR");
        return;
    };
    let whole = Whole {
        subject: "truck",
        says: "The truck weighs",
        limited_by: "its GVWR",
        limit_kg: limit,
        source: Source::new(Basis::Datasheet, "GVWR, certification label of the donor"),
    };
    whole_load::against(answers, report, whole, |c| {
        let kg = c.truck.mass_kg + c.kingpin_kg.unwrap_or(0.0);
        Some(Load::with_truck(c, kg))
    });
}
