//! Are the rails cut where little bends them?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::frame::Splice;
use crate::geometry::Point;
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "frame-splice",
    title: "Place of the splice",
    question: "Are the rails cut where little bends them?",
    method: "Largest standing moment at a joint over all cases, as a part of the largest anywhere: more than 75 % is worth a look, as is a joint between the mounts of one axle. The welded joint has to keep the wanted design factor.",
    source: "common practice; 15 % off at a weld: a truck maker's bodybuilder instructions, 2012, 2.4.8 (read)",
    applies: "when the wheelbase is changed",
    assumes: &[
        "welded joints; a chassis maker may forbid welding heat-treated rails: follow its written guidance",
        "a doubler over the joint counts only when the plan lists it as a reinforcement",
    ],
    run,
};

/// Part of the largest moment above which a joint is worth a look, common practice.
const LOOK: f64 = 0.75;

fn run(answers: &Answers, report: &mut Report) {
    let vehicle = &answers.vehicle;
    if vehicle.stretch_mm.abs() < 0.5 {
        return;
    }
    let splice = match &answers.frame {
        Ok(frame) => frame.splice.as_ref().map(|s| (s, frame.factors.design)),
        Err(missing) => return report.not_assessed("splice", missing),
    };
    let Some((splice, wanted)) = splice else {
        return report.not_assessed("splice", "no load case bends the rails");
    };
    let weak = splice.factor.is_some_and(|f| f < wanted - 1e-9);
    let severity = if weak {
        Severity::Fails
    } else if splice.of_peak > LOOK || splice.at_axle.is_some() {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let d = &vehicle.chassis.dimensions;
    let half = d.frame_width_mm / 2.0;
    let y = if splice.side == 1 { half } else { -half };
    let at = |z: f64| Point::new(splice.worst_mm, y, z);
    let top = d.frame_top_laden_mm;
    let finding = Finding::new(severity, "splice", sentence(splice, wanted))
        .at_most(Amount::share(splice.of_peak), Amount::share(LOOK))
        .pointing(at(top), at(top - vehicle.chassis.rail.depth_mm));
    report.add(finding);
}

fn sentence(splice: &Splice, wanted: f64) -> Phrase {
    let mut sentence = Phrase::new()
        .text("The joint ")
        .length(splice.worst_mm)
        .text(" behind the front axle carries ")
        .quantity(Measure::Moment, splice.moment_nmm)
        .text(format!(" ({}), ", splice.case.words()))
        .share(splice.of_peak)
        .text(" of the largest moment, which is at ")
        .length(splice.peak_mm);
    if let Some(factor) = splice.factor {
        sentence = sentence
            .text("; welded it is ")
            .quantity(Measure::Factor, factor)
            .text(" times below yield (wanted ")
            .quantity(Measure::Factor, wanted)
            .text(")");
    }
    sentence = sentence.text(".");
    if let Some(axle) = &splice.at_axle {
        let axle = axle.replace('-', " ");
        sentence = sentence.text(format!(
            " A joint lies between the places where {axle} is fixed to the rails."
        ));
    }
    sentence
}
