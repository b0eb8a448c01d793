//! Does a part stand ahead of the bumper or behind the end of the frame?

use super::on_part::{beyond, pointed};
use crate::assessment::Answers;
use crate::findings::{Check, Phrase, Report, Severity};
use crate::geometry::Point;

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
        let ahead = end == "bumper";
        let mut add = |severity, subject, sentence, tag: &str, by_mm: f64| {
            let finding = beyond(severity, subject, sentence, by_mm);
            // From the part's face to the end that it reaches beyond.
            report.add(pointed(finding, answers, tag, &|b| {
                let c = b.centre();
                let ends = if ahead {
                    [b.min.x, b.min.x + by_mm]
                } else {
                    [b.max.x, b.max.x - by_mm]
                };
                ends.map(|x| Point::new(x, c.y, c.z))
            }));
        };
        let mut clear = true;
        for reach in parts.iter().filter(|r| r.mm > 0.05) {
            clear = false;
            let sentence = Phrase::new()
                .text(format!("{} reaches ", reach.tag))
                .length(reach.mm)
                .text(format!(" {words}."));
            let subject = format!("{}.{end}", reach.tag);
            add(Severity::Fails, subject, sentence, &reach.tag, reach.mm);
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
            add(
                Severity::Holds,
                end.to_owned(),
                sentence,
                &reach.tag,
                reach.mm,
            );
        }
    }
}
