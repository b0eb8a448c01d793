//! Is a driveshaft of a usual length and speed, or does it need a centre bearing?

use super::shaft_line::{along, each, name};
use crate::assessment::Answers;
use crate::driveline::{LENGTH_LEAST_MM, LENGTH_MOST_MM, Ride, Shaft, WINDOW_RPM};
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "shaft-length",
    title: "Driveshaft pieces",
    question: "Is a driveshaft of a usual length and speed, or does it need a centre bearing?",
    method: "Length of each piece between its joints, laden: 18 to 57 in, beyond which two pieces with a centre bearing are usual; and at most 3,000 rpm on the road. Outside of either is worth a look.",
    source: "an engine maker's installation guide, read",
    applies: "every driveshaft",
    assumes: &["joint centres stand for the bearing caps from which the guide measures"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    // What the truck maker fitted between its own axles is as long as the axles are apart.
    let own = |shaft: &Shaft| !shaft.between_axles;
    each(answers, report, |shaft| {
        own(shaft).then(|| Ok(length(shaft)))
    });
    for finding in answers
        .driveline
        .shafts
        .iter()
        .filter(|s| own(s))
        .filter_map(speed)
    {
        report.add(finding);
    }
}

fn guide() -> Source {
    Source::new(
        Basis::Datasheet,
        "an engine maker's installation guide, read",
    )
}

fn length(shaft: &Shaft) -> Finding {
    let pieces = &shaft.state(Ride::Laden).pieces;
    let lengths = || pieces.iter().map(|p| p.length_mm);
    let longest = lengths().fold(0.0, f64::max);
    let shortest = lengths().fold(f64::INFINITY, f64::min);
    let count = match pieces.len() {
        1 => "in one piece".to_owned(),
        many => format!("in {many} pieces"),
    };
    let begin = Phrase::new().text(format!("{} is made {count}, the ", name(shaft)));
    let finding = if shortest < LENGTH_LEAST_MM {
        let sentence = begin
            .text("shortest ")
            .length(shortest)
            .text("; below ")
            .length(LENGTH_LEAST_MM)
            .text(" small movements make large angles.");
        Finding::new(Severity::Caution, shaft.tag.clone(), sentence)
            .at_least(Amount::length(shortest), Amount::length(LENGTH_LEAST_MM))
    } else {
        let sentence = begin.text("longest ").length(longest);
        let (severity, sentence) = if longest > LENGTH_MOST_MM {
            let needed = shaft.pieces_needed().map_or_else(
                || "more pieces".to_owned(),
                |n| format!("{} pieces", n.max(2)),
            );
            let words = format!(" {needed} with a centre bearing between them are usual.");
            let sentence = sentence.text("; above ").length(LENGTH_MOST_MM);
            (Severity::Caution, sentence.text(words))
        } else {
            let sentence = sentence.text("; up to ").length(LENGTH_MOST_MM);
            (
                Severity::Holds,
                sentence.text(" no centre bearing is needed."),
            )
        };
        Finding::new(severity, shaft.tag.clone(), sentence)
            .at_most(Amount::length(longest), Amount::length(LENGTH_MOST_MM))
    };
    along(shaft, finding.by(guide()))
}

fn speed(shaft: &Shaft) -> Option<Finding> {
    let rpm = shaft.speed.as_ref().ok()?.running_rpm();
    if rpm <= WINDOW_RPM {
        return None;
    }
    let sentence = Phrase::new()
        .text(format!("{} turns at ", name(shaft)))
        .amount(Amount::speed(rpm))
        .text("; ")
        .amount(Amount::speed(WINDOW_RPM))
        .text(" is the most that is usual.");
    let finding = Finding::new(Severity::Caution, format!("{}.speed", shaft.tag), sentence)
        .at_most(Amount::speed(rpm), Amount::speed(WINDOW_RPM))
        .by(guide());
    Some(along(shaft, finding))
}
