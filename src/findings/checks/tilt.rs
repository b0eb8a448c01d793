//! How far may the truck lean on a tilt table?

use super::group_load;
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::loads::Case;
use crate::source::{Basis, Source};
use crate::stability::TANK_TILT_DEG;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "tilt-angle",
    title: "Tilt-table angle",
    question: "How far may the truck lean on a tilt table before its upper wheels lift?",
    method: "Arc tangent of the roll-over threshold with what tyres and springs give way, lowest over the cases of the finished truck without trailer: below 23 degrees, which a laden tank truck has to stand, is worth a look.",
    source: "UN Regulation 111 for tank trucks, from memory; for other trucks a benchmark",
    applies: "the truck itself, every finished case with a known height of the centre of gravity",
    assumes: &[
        "the table tilts the whole truck about the outer wheels",
        "a quarter of the rigid threshold goes to tyres and springs",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    if let Some(missing) = group_load::missing_loads(answers) {
        return report.not_assessed("truck", &missing);
    }
    let mut worst: Option<(Case, f64, f64)> = None;
    let alone = |case: Case| case >= Case::Unladen && case != Case::Coupled;
    for case in answers.balance.iter().filter(|b| alone(b.case)) {
        match &case.roll {
            Err(missing) => return report.not_assessed("truck", missing),
            Ok(roll) if worst.is_none_or(|(_, deg, _)| roll.tilt_deg < deg) => {
                worst = Some((case.case, roll.tilt_deg, roll.rigid_tilt_deg));
            }
            Ok(_) => {}
        }
    }
    let Some((case, deg, rigid_deg)) = worst else {
        return;
    };
    let severity = if deg < TANK_TILT_DEG {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text("On a tilt table the truck's upper wheels lift at about ")
        .amount(Amount::angle(deg))
        .text(format!(" ({}), ", case.words()))
        .amount(Amount::angle(rigid_deg))
        .text(" if tyres and springs were stiff; a laden tank truck has to stand ")
        .amount(Amount::angle(TANK_TILT_DEG))
        .text(".");
    let finding = Finding::new(severity, "truck", sentence)
        .at_least(Amount::angle(deg), Amount::angle(TANK_TILT_DEG))
        .by(Source::new(
            Basis::Estimate,
            "UN Regulation 111, from memory; law for tank trucks only",
        ));
    report.add(finding);
}
