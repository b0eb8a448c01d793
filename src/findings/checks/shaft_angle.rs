//! Do a driveshaft's joints bend more than they may at the speed at which they turn?

use super::shaft_line::{Said, along, each, joint_maker, name, no_inclination, place};
use crate::assessment::Answers;
use crate::driveline::{Joint, Ride, Shaft, angle_by_length_deg, angle_by_speed_deg};
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "shaft-angle",
    title: "Driveshaft angle, running",
    question: "Do a driveshaft's joints bend more than they may at the speed at which they turn?",
    method: "Angle in space between the axes before and behind each joint, empty and laden, against a joint maker's table by shaft speed: 3.2 degrees at 5,000 rpm, 4.2 at 4,000, 5.8 at 3,000, 8.7 at 2,000, 11.5 at 1,500 and slower. The speed is that of the truck's highest road speed, or of the motor's highest speed in top gear where no road speed is known. Above a fifth of the shaft's length in inches with parallel axes, a tenth with axes that meet, is worth a look.",
    source: "a joint maker's operating-angle table (3,500 rpm and faster read, below from memory); length rule of a driveline service article, read",
    applies: "every driveshaft, and the shaft between two driven axles of the donor that stay",
    assumes: &[
        "the axle moves straight up and down against the frame and keeps its inclination to it",
        "the drive's output points along the part, inclined as the shaft's run says; the part itself is checked level",
        "empty: the frame is as much higher above the axle as it is above the ground",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    for tag in &answers.driveline.undriven {
        report.not_assessed(tag.clone(), "no driveshaft runs from it to an axle");
    }
    each(answers, report, |shaft| Some(ask(shaft)));
}

fn ask(shaft: &Shaft) -> Said {
    let laden = shaft.state(Ride::Laden);
    if laden.joints.len() <= laden.pieces.len() {
        return Err(no_inclination(shaft));
    }
    let rpm = shaft.speed.as_ref().map_err(Clone::clone)?.running_rpm();
    let by_speed = angle_by_speed_deg(rpm).ok_or("the table of angles ends at 5,000 rpm")?;
    let worst = shaft.worst_joint(&Ride::RUNNING);
    let worst = worst.ok_or("the shaft has no joint")?;
    Ok(finding(shaft, worst, rpm, by_speed))
}

fn finding(
    shaft: &Shaft,
    (ride, index, joint): (Ride, usize, &Joint),
    rpm: f64,
    by_speed: f64,
) -> Finding {
    let length: f64 = shaft.state(ride).pieces.iter().map(|p| p.length_mm).sum();
    let by_length = angle_by_length_deg(length, shaft.parallel.unwrap_or(false));
    let (severity, limit, source) = if joint.angle_deg > by_speed {
        (Severity::Fails, by_speed, joint_maker())
    } else if joint.angle_deg > by_length {
        let rule = "a driveline service article's rule of thumb, read";
        (
            Severity::Caution,
            by_length,
            Source::new(Basis::CommonPractice, rule),
        )
    } else {
        (Severity::Holds, by_speed, joint_maker())
    };
    let sentence = Phrase::new()
        .text(format!("{} bends by ", name(shaft),))
        .amount(Amount::angle(joint.angle_deg))
        .text(format!(" at {} ({}): ", place(shaft, index), ride.words()))
        .amount(Amount::angle(joint.side_deg.abs()))
        .text(" seen from the side, ")
        .amount(Amount::angle(joint.plan_deg.abs()))
        .text(" from above; ")
        .amount(Amount::angle(limit));
    let sentence = if severity == Severity::Caution {
        sentence.text(" is the most that a shaft of this length usually bends.")
    } else {
        sentence
            .text(" is the most at ")
            .amount(Amount::speed(rpm))
            .text(".")
    };
    let finding = Finding::new(severity, shaft.tag.clone(), sentence)
        .at_most(Amount::angle(joint.angle_deg), Amount::angle(limit))
        .by(source);
    along(shaft, finding)
}
