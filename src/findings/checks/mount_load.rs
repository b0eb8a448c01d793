//! Can the brackets hold the parts?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::frame::MountForces;
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "mount-load",
    title: "Mounts of parts",
    question: "Can the brackets hold the parts?",
    method: "Mass with full contents times the accelerations that the mounts have to hold, each direction by itself, against what the part's file says that brackets and bolts bear together. Without that, and where the brackets are still to be designed, nothing is judged: the forces are in the frame's table.",
    source: "parts: 4 g up and down, 8 g along, 5 g across, common practice; gas containers by the truck's gross rating, over 12 t 6.6 g along and 5 g across, UN R110, 17.4.4 and R134, 7.2 (memory); the plan may set others",
    applies: "every rigid part on the frame",
    assumes: &[
        "accelerations of a crash, not of the road; at least 0.8 g forward and 0.5 g rearward and sideways are asked for anything carried as cargo (49 CFR 393.102(a)(1), read)",
        "the force is shared as the rating of the mounts supposes; the lever between part and rail is in that rating",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let (rated, open): (Vec<&MountForces>, Vec<&MountForces>) = answers
        .mounts
        .iter()
        .map(AsRef::as_ref)
        .partition(|m: &&MountForces| m.rating_n.is_some());
    for mount in rated {
        let Some(rating) = mount.rating_n else {
            continue;
        };
        let force = mount.largest_n();
        let severity = if force > rating * (1.0 + 1e-9) {
            Severity::Fails
        } else {
            Severity::Holds
        };
        let sentence = Phrase::new()
            .text(format!("The mounts of {} have to hold ", mount.tag))
            .quantity(Measure::Force, force)
            .text(format!(" {} and bear ", mount.direction()))
            .quantity(Measure::Force, rating)
            .text(".");
        let finding = Finding::new(severity, mount.tag.clone(), sentence)
            .at_most(Amount::force(force), Amount::force(rating))
            .by(mount.source.clone())
            .about([mount.tag.clone()]);
        report.add(finding);
    }
    let (own, unknown): (Vec<&MountForces>, Vec<&MountForces>) =
        open.into_iter().partition(|m| m.own_design);
    let why = "what brackets and bolts bear is not known for";
    not_assessed(answers, report, "mounts", why, &unknown);
    let why = "who converts the truck designs the brackets, and has to prove them, of";
    not_assessed(answers, report, "mounts to design", why, &own);
}

fn not_assessed(
    answers: &Answers,
    report: &mut Report,
    subject: &str,
    why: &str,
    open: &[&MountForces],
) {
    let largest = open.iter().map(|m| (m, m.largest_n()));
    let Some((most, force)) = largest.reduce(|a, b| if b.1 > a.1 { b } else { a }) else {
        return;
    };
    let sentence = Phrase::new()
        .text(format!(
            "Not assessed: {why} {} of {} parts; the largest force is ",
            open.len(),
            answers.mounts.len()
        ))
        .quantity(Measure::Force, force)
        .text(format!(" on {}, {}.", most.tag, most.direction()));
    let finding = Finding::new(Severity::NotAssessed, subject, sentence)
        .by(most.source.clone())
        .about([most.tag.clone()]);
    report.add(finding);
}
