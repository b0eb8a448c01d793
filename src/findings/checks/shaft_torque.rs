//! Does a driveshaft carry the motor's largest torque in its lowest gear?

use super::shaft_line::{Said, along, name, worst};
use crate::assessment::Answers;
use crate::driveline::Shaft;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "shaft-torque",
    title: "Driveshaft torque",
    question: "Does a driveshaft carry the motor's largest torque in its lowest gear?",
    method: "Motor's largest torque times the ratio of its lowest gear, half of it between two axles, against the ratings of tube and joints in the shaft's file.",
    source: "the shaft's own file",
    applies: "every driveshaft, and the shaft between two driven axles of the donor that stay",
    assumes: &[
        "no losses; the tyres' grip may limit the torque before",
        "between two axles the differential is open",
        "regenerating asks no more than driving",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let shafts = &answers.driveline.shafts;
    let said = shafts.iter().flat_map(|shaft| {
        [
            ("tube", "rating_nm", shaft.tube.rating_nm),
            ("joints", "joint_nm", shaft.tube.joint_nm),
        ]
        .map(|(what, field, rating)| {
            let subject = format!("{}.{what}", shaft.tag);
            let rating = rating.ok_or_else(|| {
                format!("the torque rating of the {what} is not in the shaft's file ({field})")
            });
            let said = rating.and_then(|rating| ask(shaft, &subject, what, rating));
            (subject, said)
        })
    });
    worst(report, said);
}

fn ask(shaft: &Shaft, subject: &str, what: &str, rating: f64) -> Said {
    let torque = *shaft.torque_nm.as_ref().map_err(Clone::clone)?;
    let severity = if torque > rating {
        Severity::Fails
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text(format!("{} gets up to ", name(shaft)))
        .amount(Amount::torque(torque))
        .text(format!(" in the lowest gear; its {what} may carry "))
        .amount(Amount::torque(rating))
        .text(".");
    let finding = Finding::new(severity, subject, sentence)
        .which(what)
        .at_most(Amount::torque(torque), Amount::torque(rating))
        .by(Source::new(Basis::Datasheet, "the shaft's own file"));
    Ok(along(shaft, finding))
}
