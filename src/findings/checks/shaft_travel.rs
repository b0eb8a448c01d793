//! Do a driveshaft's yokes touch when the axle is as far up or down as it goes?

use super::shaft_line::{Said, along, each, name, no_inclination, place};
use crate::assessment::Answers;
use crate::driveline::{Ride, Shaft};
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "shaft-travel",
    title: "Driveshaft angle, full travel",
    question: "Do a driveshaft's yokes touch when the axle is as far up or down as it goes?",
    method: "Largest angle of any joint at full jounce and full rebound of the axle, between two axles with one up and the other down, against the largest angle in the shaft's file.",
    source: "the shaft's own file",
    applies: "every driveshaft, and the shaft between two driven axles of the donor that stay",
    assumes: &[
        "the axle moves straight up and down against the frame and keeps its inclination to it",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    each(answers, report, |shaft| Some(ask(shaft)));
}

fn ask(shaft: &Shaft) -> Said {
    let most = shaft.tube.joint_max_deg;
    let most =
        most.ok_or("the largest angle of the joints is not in the shaft's file (joint_max_deg)")?;
    let worst = shaft.worst_joint(&[Ride::Jounce, Ride::Rebound]);
    let (ride, index, joint) = worst.ok_or("the shaft has no joint")?;
    let all_known = shaft.state(ride).joints.len() > shaft.state(ride).pieces.len();
    let severity = if joint.angle_deg > most {
        Severity::Fails
    } else if all_known {
        Severity::Holds
    } else {
        return Err(no_inclination(shaft));
    };
    let sentence = Phrase::new()
        .text(format!("{} bends by ", name(shaft)))
        .amount(Amount::angle(joint.angle_deg))
        .text(format!(
            " at {} at {}; its joints allow ",
            place(shaft, index),
            ride.words()
        ))
        .amount(Amount::angle(most))
        .text(".");
    let finding = Finding::new(severity, shaft.tag.clone(), sentence)
        .at_most(Amount::angle(joint.angle_deg), Amount::angle(most))
        .by(Source::new(Basis::Datasheet, "the shaft's own file"));
    Ok(along(shaft, finding))
}
