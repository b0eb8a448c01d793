//! Do a driveshaft's joints together make the axle's speed waver too much?

use super::shaft_line::{Said, along, each, name, no_inclination};
use crate::assessment::Answers;
use crate::driveline::{RIPPLE_MOST, Ride, Shaft, ripple};
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "shaft-ripple",
    title: "Driveshaft shake",
    question: "Do a driveshaft's joints together make the axle's speed waver too much?",
    method: "Each joint shakes with the square of its angle, in the plane in which it bends; the joint at the other end of a piece with yokes in line shakes the other way. What is left, times the square of the speed, empty and laden: at most 400 rad/s2. The speed is that of the truck's highest road speed, or of the motor's highest in top gear.",
    source: "pairs of angles in a joint maker's table at 1,600 and 1,700 rpm (read), which follow from 400 rad/s2",
    applies: "every driveshaft, and the shaft between two driven axles of the donor that stay",
    assumes: &[
        "both yokes of each piece are in line",
        "formula of small angles, good to a few percent up to 15 degrees",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    each(answers, report, |shaft| Some(ask(shaft)));
}

fn ask(shaft: &Shaft) -> Said {
    let rpm = shaft.speed.as_ref().map_err(Clone::clone)?.running_rpm();
    let worst = Ride::RUNNING
        .into_iter()
        .filter_map(|ride| Some((ride, shaft.state(ride).left_deg?)))
        .reduce(|a, b| if b.1 > a.1 { b } else { a });
    let (ride, left_deg) = worst.ok_or_else(|| no_inclination(shaft))?;
    let shake = ripple(rpm, left_deg);
    let severity = if shake > RIPPLE_MOST {
        Severity::Fails
    } else {
        Severity::Holds
    };
    let count = |value: f64| Amount {
        measure: Measure::Count,
        value,
    };
    let sentence = Phrase::new()
        .text(format!("{} shakes the axle by ", name(shaft)))
        .amount(count(shake))
        .text(" rad/s² at ")
        .amount(Amount::speed(rpm))
        .text(format!(" ({}), as one joint of ", ride.words()))
        .amount(Amount::angle(left_deg))
        .text(" would; ")
        .amount(count(RIPPLE_MOST))
        .text(" rad/s² are the most.");
    let finding = Finding::new(severity, shaft.tag.clone(), sentence)
        .at_most(count(shake), count(RIPPLE_MOST))
        .by(Source::new(
            Basis::Datasheet,
            "a joint maker's table of angle pairs, read; 400 rad/s² follows from it",
        ));
    Ok(along(shaft, finding))
}
