//! How hard may the truck corner before its inner wheels leave the road?

use super::group_load;
use crate::assessment::{Answers, CaseBalance};
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::geometry::Point;
use crate::loads::Case;
use crate::source::{Basis, Source};
use crate::stability::{LEAST_G, Rollover};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "rollover",
    title: "Roll-over threshold",
    question: "How hard may the truck corner before its inner wheels leave the road?",
    method: "Half the track, less the side offset of the centre of gravity, over its height: (T/2 - y) / h, each axle's track counted by its load; a quarter off for tyres and springs that give way (SAE 2003-01-3385: 0.39 g measured where T/2h gives 0.52). Lowest over the cases of the finished truck: at least 0.35 g. With a trailer, truck and trailer lean together; below 0.35 g that is worth a look, because the trailer and its load decide it. Tank trucks are compared to 0.40 g (Billing and Patten, NRC Canada).",
    source: "New Zealand, Land Transport Rule: Vehicle Dimensions and Mass, factsheet 13e (0.35 g by law there, for large trucks); no law in the US or the EU for trucks other than tanks",
    applies: "every finished case with a known height of the centre of gravity",
    assumes: &[
        "steady cornering, level road; no steering, braking, swinging or liquid load",
        "all axles lean together: frame and fifth wheel stiff in torsion",
        "heights are those of the laden truck; without payload the sprung mass is raised by the difference of the frame's heights at the rear",
        "the donor's height is taken from its ticket as if weighed at laden height",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    if let Some(missing) = group_load::missing_loads(answers) {
        return report.not_assessed("truck", &missing);
    }
    for (subject, coupled) in [("truck", false), ("combination", true)] {
        let cases = answers
            .balance
            .iter()
            .filter(|b| b.case >= Case::Unladen && (b.case == Case::Coupled) == coupled);
        let mut worst: Option<(&CaseBalance, Rollover)> = None;
        for case in cases {
            match &case.roll {
                Err(missing) => {
                    report.not_assessed(subject, missing);
                    worst = None;
                    break;
                }
                Ok(roll) if worst.is_none_or(|(_, w)| roll.reduced_g < w.reduced_g) => {
                    worst = Some((case, *roll));
                }
                Ok(_) => {}
            }
        }
        if let Some((case, roll)) = worst {
            report.add(finding(subject, case, roll));
        }
    }
}

fn finding(subject: &'static str, case: &CaseBalance, roll: Rollover) -> Finding {
    let coupled = case.case == Case::Coupled;
    let severity = if roll.reduced_g >= LEAST_G {
        Severity::Holds
    } else if coupled {
        Severity::Caution
    } else {
        Severity::Fails
    };
    let mut sentence = Phrase::new()
        .text(format!("The {subject} tips at about "))
        .amount(Amount::gravity(roll.reduced_g))
        .text(format!(
            " of cornering ({}): centre of gravity ",
            case.case.words()
        ))
        .length(roll.height_mm)
        .text(" high on a track of ")
        .length(roll.track_mm)
        .text("; stiff tyres and springs would give ")
        .amount(Amount::gravity(roll.rigid_g));
    if let Some(Ok(donor)) = case.donor.as_ref().map(|d| &d.roll) {
        sentence = sentence
            .text(", the diesel donor so loaded tips at ")
            .amount(Amount::gravity(donor.reduced_g));
    }
    sentence = sentence.text(".");
    if let (true, Some(mm)) = (severity != Severity::Holds, case.payload_z_max_mm) {
        sentence = if mm > 0.0 {
            sentence
                .text(" The payload's centre of gravity would have to be below ")
                .length(mm)
                .text(".")
        } else {
            sentence.text(" No place of the payload would mend that.")
        };
    }
    let at = |z: f64| Point::new(case.truck.x_mm, case.truck.y_mm, z);
    Finding::new(severity, subject, sentence)
        .which(subject)
        .at_least(Amount::gravity(roll.reduced_g), Amount::gravity(LEAST_G))
        .by(Source::new(
            Basis::Standard,
            "New Zealand, Land Transport Rule: Vehicle Dimensions and Mass, factsheet 13e; law there, a benchmark elsewhere",
        ))
        .pointing(at(0.0), at(roll.height_mm))
}
