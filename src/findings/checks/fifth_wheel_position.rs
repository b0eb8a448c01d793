//! Where may the fifth wheel stand so that every axle group keeps its limit?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::loads::Binding;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "fifth-wheel-position",
    title: "Fifth-wheel position",
    question: "Is there a slider position with every axle group within its limit, and is the planned one such?",
    method: "Axle loads are linear in the slider's position; the range is where all of them keep the lowest of rating, tyres, suspension and road law.",
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
                Phrase::new()
                    .text("No position of the fifth wheel keeps every axle group within its limit.")
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
                Binding::Group(id) => format!("limit of {id}"),
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
