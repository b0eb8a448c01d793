//! Where may the fifth wheel stand so that every limit is kept?

use crate::assessment::{Answers, Binding};
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "fifth-wheel-position",
    title: "Fifth-wheel position",
    question: "Is there a slider position with every limit kept, and is the planned one such?",
    method: "Loads are linear in the slider's position and the limits of groups of axles of truck and trailer are steps; between steps the passing positions are worked out for all limits at once: ratings, tyres, suspension, road law with its groups of axles and lengths, and the least weight on the steered axle.",
    source: "moments; 49 CFR 393.70(b) asks that the position does not harm steering",
    applies: "tractors with a trailer",
    assumes: &["trailer swing and landing legs are checked on their own"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let Some(fw) = &answers.vehicle.chassis.fifth_wheel else {
        return;
    };
    let range = match &answers.fifth_wheel {
        Ok(range) => range,
        Err(missing) => return report.not_assessed("fifth wheel", missing),
    };
    let now = fw.ahead_mm;
    let finding = match range.ahead_mm {
        None => {
            let groups = range.always_over.join(", ");
            let sentence = if groups.is_empty() {
                Phrase::new().text("No position of the fifth wheel keeps every limit.")
            } else {
                Phrase::new().text(format!(
                    "At every position of the fifth wheel this stays over its limit: {groups}."
                ))
            };
            Finding::new(Severity::Fails, "fifth wheel", sentence)
        }
        Some((low, high)) => {
            let inside = now >= low - 1e-6 && now <= high + 1e-6;
            let severity = if inside {
                Severity::Holds
            } else {
                Severity::Fails
            };
            let why = |binding: &Binding| match binding {
                Binding::Slider => "end of the slider".to_owned(),
                Binding::Limit(what) => format!("limit: {what}"),
            };
            let sentence = Phrase::new()
                .text("Counted from the driven axles, the fifth wheel may stand from ")
                .ahead(low)
                .text(format!(" ({}) to ", why(&range.bound_by.0)))
                .ahead(high)
                .text(format!(" ({}); it stands ", why(&range.bound_by.1)))
                .ahead(now)
                .text(".");
            let finding = Finding::new(severity, "fifth wheel", sentence);
            if now > high {
                finding.at_most(Amount::length(now), Amount::length(high))
            } else {
                finding.at_least(Amount::length(now), Amount::length(low))
            }
        }
    };
    report.add(finding);
}
