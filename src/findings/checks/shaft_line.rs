//! What the checks of driveshafts share: which shafts there are, what they are called, where they are.

use crate::assessment::Answers;
use crate::driveline::{Ride, Shaft};
use crate::findings::{Finding, Report, Severity};
use crate::source::{Basis, Source};

/// What a check says of a shaft: a finding, or what is missing for it.
pub(super) type Said = Result<Finding, String>;

/// Asks every shaft. Everything that does not hold is reported; when all hold, the one with the least
/// room stands for them.
pub(super) fn each(answers: &Answers, report: &mut Report, ask: impl Fn(&Shaft) -> Option<Said>) {
    let shafts = answers.driveline.shafts.iter();
    let said = shafts.filter_map(|shaft| Some((shaft.tag.clone(), ask(shaft)?)));
    worst(report, said);
}

/// Reports everything that does not hold, else what has the least room.
pub(super) fn worst(report: &mut Report, said: impl Iterator<Item = (String, Said)>) {
    let mut nearest: Option<Finding> = None;
    let mut over = false;
    for (subject, said) in said {
        match said {
            Err(missing) => report.not_assessed(subject, &missing),
            Ok(finding) if finding.severity == Severity::Holds => {
                if nearest
                    .as_ref()
                    .is_none_or(|n| finding.badness() < n.badness())
                {
                    nearest = Some(finding);
                }
            }
            Ok(finding) => {
                over = true;
                report.add(finding);
            }
        }
    }
    if let Some(finding) = nearest.filter(|_| !over) {
        report.add(finding);
    }
}

/// What a person calls the shaft, at the beginning of a sentence.
pub(super) fn name(shaft: &Shaft) -> String {
    if shaft.between_axles {
        format!("The shaft from {} to {}", shaft.from, shaft.to_axle)
    } else {
        format!("Shaft {}", shaft.tag)
    }
}

/// What is at one of its joints.
pub(super) fn place(shaft: &Shaft, joint: usize) -> String {
    if joint == 0 {
        shaft.from.clone()
    } else if joint + 1 > shaft.state(Ride::Laden).pieces.len() {
        shaft.to_axle.clone()
    } else {
        format!("centre bearing {joint}")
    }
}

/// What is missing for angles at the axle's end.
pub(super) fn no_inclination(shaft: &Shaft) -> String {
    format!(
        "how far the input of {} is inclined is not in the chassis file (input_down_deg)",
        shaft.to_axle
    )
}

/// Names what a finding concerns, and points along the shaft at design height.
pub(super) fn along(shaft: &Shaft, finding: Finding) -> Finding {
    let finding = finding.about([&shaft.tag, &shaft.from, &shaft.to_axle].map(Clone::clone));
    let pieces = &shaft.state(Ride::Laden).pieces;
    match (pieces.first(), pieces.last()) {
        (Some(first), Some(last)) => finding.pointing(first.from, last.to),
        _ => finding,
    }
}

/// A joint maker's operating-angle table.
pub(super) fn joint_maker() -> Source {
    Source::new(
        Basis::Datasheet,
        "a joint maker's operating-angle table (3,500 rpm and faster read, below from memory)",
    )
}
