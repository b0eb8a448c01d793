//! Does anything under the truck strike a bump in the road?

use super::angle;
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::geometry::Point;
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "bump-clearance",
    title: "Over a bump",
    question: "Does anything under the truck strike a bump in the road?",
    method: "Height of the lowest thing above a bump right under it, an arc 100 mm high and 12 ft long unless the plan says otherwise; wheels that stand on the bump lift the truck. Strikes at rest: fails; strikes with all springs at their stops: worth a look.",
    source: "common practice: a speed hump",
    applies: "hard parts and what stays on the truck, tyres left out",
    assumes: &[
        "laden, one bump at a time, all springs at rest or all at their stops",
        "the trailer is left out",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let Some(over) = &answers.manoeuvre.bump else {
        return report.not_assessed("bump", "nothing of known height hangs under the truck");
    };
    let (severity, mm, state) = if over.at_rest_mm < 0.0 {
        (Severity::Fails, over.at_rest_mm, "with its springs at rest")
    } else if over.at_stops_mm < 0.0 {
        (
            Severity::Caution,
            over.at_stops_mm,
            "with its springs at the stops",
        )
    } else {
        (
            Severity::Holds,
            over.at_stops_mm,
            "with its springs at the stops",
        )
    };
    let moving = &answers.vehicle.moving;
    let own = moving.bump_height_mm.is_some() || moving.bump_length_mm.is_some();
    let name = angle::thing(answers, &over.tag, &over.by);
    let sentence = Phrase::new()
        .text("Over a bump ")
        .length(over.height_mm)
        .text(" high, laden, ")
        .text(if mm < 0.0 {
            format!("{name} strikes by ")
        } else {
            format!("{name} is lowest, free by ")
        })
        .length(mm.abs())
        .text(format!(" {state}."));
    let mut finding = Finding::new(severity, "bump", sentence)
        .at_least(Amount::length(mm), Amount::length(0.0))
        .pointing(over.at, Point::new(over.at.x, over.at.y, 0.0));
    if own {
        finding = finding.by(Source::new(Basis::CommonPractice, "bump set in the plan"));
    }
    if !over.tag.is_empty() {
        finding = finding.about([over.tag.clone()]);
    }
    report.add(finding);
}
