//! Is the gross weight within the chosen road law?

use super::whole_load::{self, Whole};
use crate::assessment::Answers;
use crate::findings::{Check, Report};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "road-gross",
    title: "Road law, gross weight",
    question: "Is the gross weight within the chosen road law?",
    method: "Largest such mass over all cases of the finished truck, against the limit.",
    source: "the road law named in the plan",
    applies: "when the limit is known",
    assumes: &["masses are estimates until the truck is weighed"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let Some(law) = &answers.vehicle.law else {
        report.not_assessed("combination", "the plan names no road law");
        return;
    };
    let Some(limit) = crate::legality::gross_limit_kg(&answers.vehicle) else {
        return;
    };
    let source = if answers.vehicle.allowance {
        Source::new(
            Basis::Standard,
            format!("{}; {}", law.source.document, law.allowance_source.document),
        )
    } else {
        law.source.clone()
    };
    let whole = Whole {
        subject: "combination",
        says: "Gross weight is",
        limited_by: "the legal limit",
        limit_kg: limit,
        source,
    };
    whole_load::against(answers, report, whole, |c| Some(c.gross_kg));
}
