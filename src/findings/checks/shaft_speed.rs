//! May a driveshaft turn as fast as the motor can drive it without bending away?

use super::shaft_line::{Said, along, each, name};
use crate::assessment::Answers;
use crate::driveline::{Shaft, ShaftSpeed, Whirl};
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "shaft-speed",
    title: "Driveshaft critical speed",
    question: "May a driveshaft turn as fast as the motor can drive it without bending away?",
    method: "Motor's highest speed over the ratio of its top gear, against 0.70 of the critical speed of the longest piece, 1.21e8 sqrt(D2 + d2) / L2 rpm with diameters and the longest length over the travel in mm.",
    source: "a propshaft maker's technical page, read",
    applies: "every driveshaft, and the shaft between two driven axles of the donor that stay",
    assumes: &[
        "a steel tube of one diameter from joint to joint, free to turn at both ends",
        "bearings and mounts do not give way",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    each(answers, report, |shaft| Some(ask(shaft)));
}

fn ask(shaft: &Shaft) -> Said {
    let whirl = shaft.whirl.as_ref().map_err(Clone::clone)?;
    let speed = shaft.speed.as_ref().map_err(Clone::clone)?;
    Ok(finding(shaft, whirl, speed))
}

fn finding(shaft: &Shaft, whirl: &Whirl, speed: &ShaftSpeed) -> Finding {
    let severity = if speed.most_rpm > whirl.safe_rpm {
        Severity::Fails
    } else {
        Severity::Holds
    };
    let mut sentence = Phrase::new()
        .text(format!("{} can be driven to ", name(shaft)))
        .amount(Amount::speed(speed.most_rpm));
    if let Some(road) = speed.road_rpm {
        sentence = sentence
            .text(" (")
            .amount(Amount::speed(road))
            .text(" on the road)");
    }
    sentence = sentence
        .text("; a piece ")
        .length(whirl.length_mm)
        .text(" long bends away at ")
        .amount(Amount::speed(whirl.critical_rpm))
        .text(" and may turn at ")
        .amount(Amount::speed(whirl.safe_rpm));
    if let (Severity::Fails, Some(pieces)) = (severity, shaft.pieces_needed()) {
        sentence = sentence.text(format!("; this tube would need {pieces} pieces"));
    }
    let finding = Finding::new(severity, shaft.tag.clone(), sentence.text("."))
        .at_most(Amount::speed(speed.most_rpm), Amount::speed(whirl.safe_rpm))
        .by(Source::new(
            Basis::Datasheet,
            "a propshaft maker's technical page, read",
        ));
    along(shaft, finding)
}
