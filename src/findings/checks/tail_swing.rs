//! Does the tail swing out too far when a turn begins?

use super::angle;
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::geometry::Point;
use crate::plan::Moving;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "tail-swing",
    title: "Tail swing",
    question: "Does the tail swing out too far when a turn begins?",
    method: "How far a corner behind the axles swings beyond the line along which the truck's side stood, the wheels turned while standing to the turn that the plan states: root of (radius + half width)² + overhang², less radius and half width. At most 800 mm unless the plan says otherwise.",
    source: "0.80 m of European type approval, from memory; elsewhere common practice",
    applies: "trucks whose steering angle is known",
    assumes: &[
        "crawling, wheels turned while standing: the most that can be",
        "the trailer's tail is told with the path of the turn",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let turn = match &answers.manoeuvre.stated {
        Ok(turn) => turn,
        Err(missing) => return report.not_assessed("tail", missing),
    };
    let (limit, source, word) =
        angle::or_usual(answers.vehicle.moving.tail_swing_mm, Moving::TAIL_SWING_MM);
    let severity = if turn.tail_swing_mm > limit + 0.5 {
        Severity::Fails
    } else {
        Severity::Holds
    };
    let within = Phrase::new()
        .text("In a turn within a radius of ")
        .length(turn.outer_mm);
    let Some(tail) = &turn.tail_by else {
        let phrase = within.text(" nothing behind the axles swings out.");
        let finding = Finding::new(severity, "tail", phrase)
            .at_most(Amount::length(0.0), Amount::length(limit))
            .by(source);
        return report.add(finding);
    };
    let name = angle::thing(answers, &tail.tag, &tail.name);
    let sentence = within
        .text(format!(" {name} swings out by "))
        .length(turn.tail_swing_mm)
        .text("; at most ")
        .length(limit)
        .text(format!(" {word}."));
    // The hull is that of a turn to the left.
    let side = if answers.vehicle.moving.turn_left {
        1.0
    } else {
        -1.0
    };
    let at = Point::new(tail.x, side * tail.y, tail.z);
    let swung = Point::new(at.x, at.y + side * turn.tail_swing_mm, at.z);
    let mut finding = Finding::new(severity, "tail", sentence)
        .at_most(Amount::length(turn.tail_swing_mm), Amount::length(limit))
        .by(source)
        .pointing(at, swung);
    if !tail.tag.is_empty() {
        finding = finding.about([tail.tag.clone()]);
    }
    report.add(finding);
}
