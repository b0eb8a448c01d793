//! Does a part stand ahead of the bumper or behind the end of the frame?

use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "front-and-rear-end",
    title: "Front and rear end",
    question: "Does a part stand ahead of the bumper or behind the end of the frame?",
    method: "How far each part reaches beyond the bumper, and beyond the end of the frame or body.",
    source: "common practice: nothing beyond the ends without its own guard",
    applies: "hard parts",
    assumes: &["truck at design height"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let extents = &answers.clearances.extents;
    let ends = [
        (&extents.ahead_of_bumper, "ahead of the bumper", "bumper"),
        (
            &extents.behind_end,
            "behind the end of the truck",
            "rear end",
        ),
    ];
    for (parts, words, end) in ends {
        let mut clear = true;
        for reach in parts.iter().filter(|r| r.mm > 0.05) {
            clear = false;
            let sentence = Phrase::new()
                .text(format!("{} reaches ", reach.tag))
                .length(reach.mm)
                .text(format!(" {words}."));
            let finding = Finding::new(Severity::Fails, format!("{}.{end}", reach.tag), sentence)
                .at_most(Amount::length(reach.mm), Amount::length(0.0))
                .about([reach.tag.clone()]);
            report.add(finding);
        }
        let farthest = parts.iter().reduce(|a, b| if b.mm > a.mm { b } else { a });
        if let (true, Some(reach)) = (clear, farthest) {
            let sentence = Phrase::new()
                .text(format!(
                    "No part reaches {words}; the nearest is {} with ",
                    reach.tag
                ))
                .length(-reach.mm)
                .text(" to spare.");
            let finding = Finding::new(Severity::Holds, end, sentence)
                .at_most(Amount::length(reach.mm), Amount::length(0.0))
                .about([reach.tag.clone()]);
            report.add(finding);
        }
    }
}
