//! Does an e-axle stand where the donor's driven axle still is?

use super::on_part::{middle, pointed};
use crate::assessment::Answers;
use crate::findings::{Check, Finding, Phrase, Report, Severity};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "double-axle",
    title: "Two axles in one place",
    question: "Does every e-axle take the place of a donor axle that comes off, and of only one?",
    method: "Each axle position may hold either the donor's own axle or one e-axle; the donor's comes off only where the chassis file lists it among the hardware.",
    source: "geometry",
    applies: "plans with e-axles",
    assumes: &[],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let vehicle = &answers.vehicle;
    let beams = || vehicle.items.iter().filter(|i| i.part.axle.is_some());
    let before = report.count();
    for item in beams() {
        let Some(axle) = &item.unsprung_axle else {
            let sentence = Phrase::new().text(format!(
                "{} is an axle but stands at no axle position.",
                item.tag
            ));
            let finding = Finding::new(Severity::Fails, item.tag.clone(), sentence);
            report.add(pointed(finding, answers, &item.tag, &middle));
            continue;
        };
        let mut listed = false;
        for other in &vehicle.donor.hardware {
            let there = other.drive_axle && other.unsprung_axle.as_ref() == Some(axle);
            listed |= there;
            if there && !vehicle.stripped.contains(&other.id) {
                let sentence = Phrase::new().text(format!(
                    "{} stands at {axle}, where the donor's \"{}\" is still on the truck.",
                    item.tag, other.name
                ));
                let finding = Finding::new(Severity::Fails, item.tag.clone(), sentence);
                report.add(pointed(finding, answers, &item.tag, &middle));
            }
        }
        let stays = vehicle.axle(axle).is_some_and(|a| !a.envelope.is_empty());
        if stays {
            let sentence = Phrase::new().text(format!(
                "{} stands at {axle}, where the donor's own axle is still on the truck: the chassis file lists it among what stays.",
                item.tag
            ));
            let finding = Finding::new(Severity::Fails, item.tag.clone(), sentence);
            report.add(pointed(finding, answers, &item.tag, &middle));
        } else if !listed {
            let missing = format!(
                "the chassis file lists no axle at {axle} that comes off; its mass is still counted"
            );
            report.not_assessed(item.tag.clone(), &missing);
        }
        let twin = vehicle.items.iter().find(|o| {
            o.tag > item.tag && o.part.axle.is_some() && o.unsprung_axle.as_ref() == Some(axle)
        });
        if let Some(twin) = twin {
            let sentence = Phrase::new().text(format!(
                "{} and {} both stand at {axle}.",
                item.tag, twin.tag
            ));
            let subject = format!("{}.{}", item.tag, twin.tag);
            let finding = Finding::new(Severity::Fails, subject, sentence);
            let mut finding = pointed(finding, answers, &item.tag, &middle);
            finding.tags.push(twin.tag.clone());
            report.add(finding);
        }
    }
    if report.count() == before && beams().next().is_some() {
        let tags: Vec<String> = beams().map(|i| i.tag.clone()).collect();
        let words = format!(
            "Each e-axle stands at an axle position of its own, with the donor's axle off it: {}.",
            tags.join(", ")
        );
        let finding = Finding::new(Severity::Holds, "e-axles", Phrase::new().text(words));
        report.add(finding.about(tags));
    }
}
