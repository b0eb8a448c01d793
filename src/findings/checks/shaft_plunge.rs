//! Can a driveshaft become as long and as short as the axle's travel asks?

use super::shaft_line::{Said, along, each, name};
use crate::assessment::Answers;
use crate::driveline::{Ride, Shaft};
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "shaft-plunge",
    title: "Driveshaft slip",
    question: "Can a driveshaft become as long and as short as the axle's travel asks?",
    method: "Longest less shortest distance between the joints of the piece at the axle, over empty, laden, full jounce and full rebound, against the slip in the shaft's file.",
    source: "the shaft's own file",
    applies: "every driveshaft, and the shaft between two driven axles of the donor that stay",
    assumes: &[
        "the shaft is built so that its slip reaches both ends of what is asked",
        "the axle moves straight up and down; the drive does not move on its mounts",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    each(answers, report, |shaft| Some(ask(shaft)));
}

fn ask(shaft: &Shaft) -> Said {
    let slip = shaft.tube.plunge_mm;
    let slip = slip.ok_or("how far the shaft slips is not in its file (plunge_mm)")?;
    let severity = if shaft.plunge_mm > slip {
        Severity::Fails
    } else {
        Severity::Holds
    };
    let last = |ride: Ride| shaft.state(ride).pieces.last().map_or(0.0, |p| p.length_mm);
    let sentence = Phrase::new()
        .text(format!("{} changes its length by ", name(shaft)))
        .length(shaft.plunge_mm)
        .text(" over the axle's travel (laden ")
        .length(last(Ride::Laden))
        .text(", full jounce ")
        .length(last(Ride::Jounce))
        .text(", full rebound ")
        .length(last(Ride::Rebound))
        .text("); it slips by ")
        .length(slip)
        .text(".");
    let finding = Finding::new(severity, shaft.tag.clone(), sentence)
        .at_most(Amount::length(shaft.plunge_mm), Amount::length(slip))
        .by(Source::new(Basis::Datasheet, "the shaft's own file"));
    Ok(along(shaft, finding))
}
