//! Are the angles at both ends of a driveshaft alike, and enough to keep the needles rolling?

use super::shaft_line::{Said, along, each, name, no_inclination};
use crate::assessment::Answers;
use crate::driveline::{JOINT_LEAST_DEG, Ride, Shaft, UNEQUAL_MOST_DEG};
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "shaft-ends",
    title: "Driveshaft ends alike",
    question: "Are the angles at both ends of a driveshaft alike, and enough to keep the needles rolling?",
    method: "Difference between the angles of the first and the last joint of a shaft in one piece, larger of empty and laden: at most 1 degree. A joint that bends less than 0.5 degrees in both is worth a look.",
    source: "truck driveline handbooks, from memory; 0.5 degrees and 1 degree also on a joint maker's page, read",
    applies: "driveshafts in one piece",
    assumes: &[
        "both yokes of the shaft are in line",
        "the axle keeps its inclination to the frame",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    each(answers, report, |shaft| {
        (shaft.state(Ride::Laden).pieces.len() == 1).then(|| ask(shaft))
    });
}

fn ask(shaft: &Shaft) -> Said {
    let worst = Ride::RUNNING
        .into_iter()
        .filter_map(|ride| Some((ride, shaft.state(ride).unequal_deg()?)))
        .reduce(|a, b| if b.1 > a.1 { b } else { a });
    let (ride, apart) = worst.ok_or_else(|| no_inclination(shaft))?;
    Ok(finding(shaft, ride, apart))
}

fn finding(shaft: &Shaft, ride: Ride, apart: f64) -> Finding {
    let joints = &shaft.state(ride).joints;
    let angle = |index: usize| joints.get(index).map_or(0.0, |j| j.angle_deg);
    // A joint must stay straight at both ride heights before its needles stand still.
    let straight = (0..joints.len()).any(|index| {
        Ride::RUNNING.iter().all(|ride| {
            let joint = shaft.state(*ride).joints.get(index);
            joint.is_some_and(|j| j.angle_deg < JOINT_LEAST_DEG)
        })
    });
    let severity = if apart > UNEQUAL_MOST_DEG {
        Severity::Fails
    } else if straight {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let mut sentence = Phrase::new()
        .text(format!("{} bends by ", name(shaft)))
        .amount(Amount::angle(angle(0)))
        .text(format!(" at {} and by ", shaft.from))
        .amount(Amount::angle(angle(1)))
        .text(format!(" at {} ({}), ", shaft.to_axle, ride.words()))
        .amount(Amount::angle(apart))
        .text(" apart; ")
        .amount(Amount::angle(UNEQUAL_MOST_DEG))
        .text(" is usual");
    if straight {
        sentence = sentence
            .text(", and a joint should bend by at least ")
            .amount(Amount::angle(JOINT_LEAST_DEG))
            .text(" so that its needles roll");
    }
    let finding = Finding::new(severity, shaft.tag.clone(), sentence.text("."))
        .at_most(Amount::angle(apart), Amount::angle(UNEQUAL_MOST_DEG))
        .by(Source::new(
            Basis::CommonPractice,
            "truck driveline handbooks, from memory; also on a joint maker's page, read",
        ));
    along(shaft, finding)
}
