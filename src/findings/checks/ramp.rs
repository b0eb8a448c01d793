//! Does the trailer strike the tractor where a ramp begins or ends?

use super::angle;
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::manoeuvre::{OnRamp, Pitch};
use crate::plan::Moving;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "trailer-ramp",
    title: "Trailer on a ramp",
    question: "Does the trailer strike the tractor where a ramp begins or ends?",
    method: "Shortest distance between the tractor and the trailer pitched about the kingpin, nose down and nose up, as far as a break between level road and a grade of 11 % pitches it, unless the plan says otherwise: they must not touch; less than 25 mm is worth a look.",
    source: "11 % is the grade named beside SAE J701, read in an abstract; 25 mm is common practice",
    applies: "tractors with a trailer",
    assumes: &[
        "straight ahead: turning on the ramp is judged by nobody here",
        "all of the tractor's axles on one side of the break and the trailer's on the other",
        "the trailer is a box with landing legs, springs at design height",
    ],
    run,
};

/// Room below which a person should look, common practice.
const LOOK_MM: f64 = 25.0;
/// Where a ramp begins, in a word.
const FOOT: &str = "foot";
/// What misses by less than this is a matter of the tape measure.
const TAPE_MM: f64 = 0.05;

fn run(answers: &Answers, report: &mut Report) {
    let near = match &answers.manoeuvre.ramp {
        None => return,
        Some(Err(missing)) => return report.not_assessed("ramp", missing),
        Some(Ok(near)) => near,
    };
    let moving = &answers.vehicle.moving;
    let percent = moving.ramp_percent.unwrap_or(Moving::RAMP_PERCENT);
    for (pitch, when, subject) in [
        (Pitch::Dip, "where it begins", FOOT),
        (Pitch::Crest, "over its crest", "crest"),
    ] {
        let mut of = near.iter().filter(|n| n.pitch == pitch).peekable();
        let ramp = format!("On a ramp of {percent} %, {when}, ");
        if of.peek().is_none() {
            let sentence = format!("{ramp}nothing on the tractor comes near the trailer.");
            let phrase = Phrase::new().text(sentence);
            let finding = Finding::new(Severity::Holds, subject, phrase);
            report.add(finding.which(which(subject, "the trailer")));
        }
        let mut own = 0;
        for (rank, one) in of.enumerate() {
            // Every part that is too near; of the truck itself the nearest says enough.
            let is_part = !one.tag.is_empty();
            let near = one.distance_mm < LOOK_MM - TAPE_MM && (is_part || own == 0);
            own += usize::from(!is_part);
            if rank == 0 || near {
                report.add(finding(answers, one, &ramp, subject));
            }
        }
    }
}

/// Where on the ramp, and near what when that is not the trailer's own box.
fn which(subject: &str, near: &str) -> String {
    match near.strip_prefix("the ") {
        Some(legs) if legs != "trailer" => format!("at its {subject}, {legs}"),
        _ => format!("at its {subject}"),
    }
}

fn finding(answers: &Answers, one: &OnRamp, ramp: &str, subject: &str) -> Finding {
    let name = angle::thing(answers, &one.tag, &one.name);
    let (severity, limit) = if one.distance_mm < -TAPE_MM {
        (Severity::Fails, 0.0)
    } else if one.distance_mm < LOOK_MM - TAPE_MM {
        (Severity::Caution, LOOK_MM)
    } else {
        (Severity::Holds, LOOK_MM)
    };
    let sentence = Phrase::new()
        .text(match severity {
            Severity::Fails => format!("{ramp}{name} and {} strike by ", one.near),
            _ => format!("{ramp}{name} comes nearest to {}, free by ", one.near),
        })
        .length(one.distance_mm.abs())
        .text(".");
    let finding = Finding::new(
        severity,
        format!("{subject}.{}.{}", one.name, one.near),
        sentence,
    )
    .at_least(Amount::length(one.distance_mm), Amount::length(limit))
    .pointing(one.on_tractor, one.on_trailer)
    .which(which(subject, one.near));
    if one.tag.is_empty() {
        finding
    } else {
        finding.about([one.tag.clone()])
    }
}
