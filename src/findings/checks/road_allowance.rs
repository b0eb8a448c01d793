//! Does the allowance that the plan claims fit this driveline, and what does it raise?

use crate::assessment::Answers;
use crate::findings::{Check, Finding, Phrase, Report, Severity};
use crate::legality;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "road-allowance",
    title: "Road law, allowance for the driveline",
    question: "Does the allowance that the plan claims fit this driveline, and what does it raise?",
    method: "Batteries alone, or the fuel of the generators and fuel cells aboard, against the drivelines that the law names; one that it neither names nor may be read to name gets nothing.",
    source: "the allowance of the road law named in the plan",
    applies: "when the law has such an allowance",
    assumes: &[
        "the allowance is never taken without a claim",
        "an allowance for auxiliary power units is not claimed: there is no idling engine to replace",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let vehicle = &answers.vehicle;
    let Some(law) = &vehicle.law else { return };
    let Some(first) = law.allowances.first() else {
        return;
    };
    let power = legality::power(vehicle);
    let driven_by = power.map_or("a driveline that no part names", |p| p.words());
    let Some(claimed) = legality::claimed(vehicle) else {
        if vehicle.allowance {
            return report.not_assessed("allowance", "the law has no such allowance");
        }
        let words = format!("No allowance is claimed (the law has one: {}).", first.name);
        let finding = Finding::new(Severity::Holds, "allowance", Phrase::new().text(words));
        return report.add(finding.by(first.source.clone()));
    };
    let raises: Vec<&str> = claimed.raises.iter().map(|r| r.words()).collect();
    let raises = raises.join(", ");
    let fits = power.is_some_and(|p| claimed.names.contains(&p));
    let possible = power.is_some_and(|p| claimed.possible.contains(&p));
    let (severity, words) = if fits {
        (Severity::Holds, "the law names it")
    } else if possible {
        (
            Severity::Caution,
            "possible, but that is a reading of the law, so ask before you count on it",
        )
    } else if power.is_some() {
        (
            Severity::Fails,
            "the law does not name it, so nothing is added",
        )
    } else {
        (
            Severity::Caution,
            "it counts as claimed until parts show the driveline",
        )
    };
    let sentence = Phrase::new().text(format!(
        "The allowance \"{}\" is claimed, the truck runs on {driven_by}: {words}.",
        claimed.name
    ));
    let sentence = if severity == Severity::Fails {
        sentence
    } else {
        sentence
            .text(" It adds ")
            .mass(claimed.adds.kg().unwrap_or(0.0))
            .text(format!(" to: {raises}; nothing else rises."))
    };
    let finding = Finding::new(severity, "allowance", sentence);
    report.add(finding.by(claimed.source.clone()));
}
