//! Does the truck's weight lie in the middle?

use super::group_load;
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::geometry::Point;
use crate::loads::Case;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "cg-offset",
    title: "Weight to one side",
    question: "Does the truck's weight lie in the middle?",
    method: "Distance of the whole truck's centre of gravity from the centre line, largest over the cases of the finished truck without payload: above 25 mm is worth a look; what single axle groups may differ by is another check.",
    source: "common practice",
    applies: "the finished truck without payload",
    assumes: &[
        "donor wheel loads left and right as on its ticket; equal where the ticket has none",
    ],
    run,
};

/// Largest usual distance, mm, common practice.
const LOOK_MM: f64 = 25.0;

fn run(answers: &Answers, report: &mut Report) {
    if let Some(missing) = group_load::missing_masses(answers) {
        return report.not_assessed("truck", missing);
    }
    let bare = |case: Case| matches!(case, Case::Unladen | Case::HalfTanks);
    let worst = answers
        .balance
        .iter()
        .filter(|b| bare(b.case))
        .reduce(|a, b| {
            if b.truck.y_mm.abs() > a.truck.y_mm.abs() {
                b
            } else {
                a
            }
        });
    let Some(case) = worst else { return };
    let y = case.truck.y_mm;
    let severity = if y.abs() > LOOK_MM {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let side = if y > 0.0 { "right" } else { "left" };
    let mut sentence = Phrase::new()
        .text("The truck's centre of gravity lies ")
        .length(y.abs())
        .text(format!(
            " {side} of the middle ({}): all left wheels carry ",
            case.case.words()
        ))
        .mass(case.left_kg)
        .text(", all right ones ")
        .mass(case.right_kg);
    if let Some(donor) = answers.balance.iter().find(|b| b.case == Case::Donor) {
        let side = if donor.truck.y_mm > 0.0 {
            "right"
        } else {
            "left"
        };
        sentence = sentence
            .text("; the donor's ")
            .length(donor.truck.y_mm.abs())
            .text(format!(" {side}"));
    }
    let z = case.truck.z_mm.unwrap_or(0.0);
    let finding = Finding::new(severity, "truck", sentence.text("."))
        .at_most(Amount::length(y.abs()), Amount::length(LOOK_MM))
        .pointing(
            Point::new(case.truck.x_mm, 0.0, z),
            Point::new(case.truck.x_mm, y, z),
        );
    report.add(finding);
}
