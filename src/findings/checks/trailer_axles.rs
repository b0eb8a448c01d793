//! Are the trailer axles within their rating and the chosen road law?

use super::whole_load::{self, Load, Whole};
use crate::assessment::Answers;
use crate::findings::{Check, Report};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "trailer-axles",
    title: "Trailer axles",
    question: "Are the trailer axles within their rating and the chosen road law?",
    method: "Largest such mass over all cases of the finished truck, against the limit.",
    source: "rating of the trailer maker; the road law named in the plan",
    applies: "when the limit is known",
    assumes: &["masses are estimates until the truck is weighed"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let Some(limit) = &answers.road.trailer else {
        return;
    };
    let whole = Whole {
        subject: "trailer",
        says: "The trailer axles carry",
        limited_by: "their limit",
        limit_kg: limit.kg,
        source: limit.source.clone(),
    };
    whole_load::against(answers, report, whole, |c| {
        c.trailer_axles_kg.map(Load::stated)
    });
}
