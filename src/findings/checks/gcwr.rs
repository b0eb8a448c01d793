//! Are truck and trailer together within GCWR?

use super::whole_load::{self, Load, Whole};
use crate::assessment::Answers;
use crate::findings::{Check, Report};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "gcwr",
    title: "Gross combination weight rating",
    question: "Are truck and trailer together within GCWR?",
    method: "Largest such mass over all cases of the finished truck, against the limit.",
    source: "rating of the chassis maker",
    applies: "when the limit is known",
    assumes: &["masses are estimates until the truck is weighed"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    if answers.vehicle.trailer.is_none() {
        return;
    }
    let Some(limit) = answers.vehicle.chassis.ratings.gcwr_kg else {
        report.not_assessed("combination", "the chassis file names no GCWR");
        return;
    };
    let whole = Whole {
        subject: "combination",
        says: "Truck and trailer weigh",
        limited_by: "the GCWR",
        limit_kg: limit,
        source: Source::new(Basis::Datasheet, "GCWR of the chassis maker"),
    };
    whole_load::against(answers, report, whole, |c| {
        Some(Load::with_truck(c, c.gross_kg))
    });
}
