//! Do the rails bear what hangs on them?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::frame::{Frame, SIDES, Worst};
use crate::geometry::Point;
use crate::quantity::Measure;
use crate::source::{Basis, Source};
use std::borrow::Cow;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "frame-strength",
    title: "Frame strength",
    question: "Do the rails bear what hangs on them?",
    method: "Each rail is a beam on the mounts of its suspensions, in every case of the finished truck. Where it is used most: yield strength over the standing bending stress at least 3 (the plan may say otherwise), and the standing moment times the dynamic factor (2 unless the plan says otherwise) at most the resisting bending moment RBM = section modulus x yield strength. Below four thirds of the wanted factor it is worth a look: severe service is usually asked for 4.",
    source: "design factor: common practice; dynamic factor 2 to 3: Barton and Fieldhouse, Automotive Chassis Engineering, 4.3.2.1 (read); RBM: trade handbooks (read)",
    applies: "when a scale ticket and the rail's yield strength are known",
    assumes: &[
        "section modulus of the channel with round corners, 0.95 of the square-cornered one, unless the chassis file has the maker's own",
        "parts hang at their stated bracket rows, else at a quarter of their length from each end",
        "a load beside the rails hangs on the nearer rail alone; the twist goes into the crossmembers and is not assessed",
        "body and payload lie evenly on the rails and do not stiffen them; holes are left out",
        "within 100 mm of a splice's weld the yield strength counts 15 % less, unless the plan says otherwise",
    ],
    run,
};

/// Wanted factor times this: below it somebody should look.
const LOOK: f64 = 4.0 / 3.0;

fn run(answers: &Answers, report: &mut Report) {
    let frame = match &answers.frame {
        Ok(frame) => frame,
        Err(missing) => return report.not_assessed("rails", missing),
    };
    let Some(worst) = &frame.worst else {
        return report.not_assessed("rails", "the yield strength of the rails is not known");
    };
    let wanted = frame.factors.design;
    let severity = if worst.factor < wanted - 1e-9 || worst.used > 1.0 + 1e-9 {
        Severity::Fails
    } else if worst.factor < wanted * LOOK {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let chassis = &answers.vehicle.chassis;
    let half = chassis.dimensions.frame_width_mm / 2.0;
    let y = if worst.side == 1 { half } else { -half };
    let top = chassis.dimensions.frame_top_laden_mm;
    let at = |z: f64| Point::new(worst.x_mm, y, z);
    let mut finding = Finding::new(severity, "rails", sentence(frame, worst))
        .at_least(Amount::factor(worst.factor), Amount::factor(wanted))
        .by(Source::new(
            Basis::CommonPractice,
            "static design factor on rail yield",
        ))
        .about(worst.causes.iter().filter_map(|c| c.tag.clone()).take(3))
        .pointing(at(top), at(top - chassis.rail.depth_mm));
    finding.assumptions = at_the_axle(frame);
    report.add(finding);
}

fn sentence(frame: &Frame, worst: &Worst) -> Phrase {
    let side = SIDES[worst.side.min(1)];
    let mut sentence = Phrase::new()
        .text(format!("The {side} rail is used most "))
        .length(worst.x_mm)
        .text(format!(" behind the front axle ({}): ", worst.case.words()))
        .quantity(Measure::Moment, worst.moment_nmm)
        .text(" standing, ")
        .quantity(Measure::Stress, worst.stress_mpa)
        .text(", ")
        .quantity(Measure::Factor, worst.factor)
        .text(" times below yield; on a rough road, times ")
        .quantity(Measure::Factor, frame.factors.dynamic)
        .text(", ")
        .share(worst.used)
        .text(" of the RBM of ")
        .quantity(Measure::Moment, worst.resist_nmm)
        .text(".");
    if let Some(section) = frame.sections.get(worst.section) {
        if section.welded {
            sentence = sentence
                .text(" It is at the splice, where welding takes ")
                .share(frame.factors.weld_loss)
                .text(" of the yield strength.");
        }
        let ends = |s: &crate::frame::Section| s.to_mm == worst.x_mm || s.from_mm == worst.x_mm;
        let beside = frame.sections.iter().filter(|s| ends(s));
        let lost = beside.flat_map(|s| &s.reinforced);
        if let Some(name) = lost
            .into_iter()
            .find(|name| !section.reinforced.contains(name))
        {
            sentence = sentence.text(format!(" There the {name} ends."));
        }
    }
    let causes: Vec<&str> = worst
        .causes
        .iter()
        .take(3)
        .map(|c| c.words.as_str())
        .collect();
    match causes.as_slice() {
        [] => sentence,
        [one] => sentence.text(format!(" What bends it there most: {one}.")),
        [first @ .., last] => sentence.text(format!(
            " What bends it there most: {} and {last}.",
            first.join(", ")
        )),
    }
}

fn at_the_axle(frame: &Frame) -> Vec<Cow<'static, str>> {
    if frame.unknown_mounts.is_empty() {
        return Vec::new();
    }
    let said = format!(
        "where {} is fixed to the rails is not known: it pushes at the axle's centre",
        frame.unknown_mounts.join(", ")
    );
    vec![said.into()]
}
