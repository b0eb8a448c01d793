//! Are the trailer axles within their rating and the chosen road law?

use super::group_load::finished;
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "trailer-axles",
    title: "Trailer axles",
    question: "Are the trailer axles within their rating and the chosen road law?",
    method: "Largest such mass over all cases of the finished truck, against the limit.",
    source: "rating of the trailer maker; the road law named in the plan",
    applies: "when the limit is known",
    assumes: &["masses are estimates until the truck is weighed"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let Some(trailer) = &answers.vehicle.trailer else {
        return;
    };
    let rating = trailer.trailer.axles_rating_kg;
    let law = crate::legality::trailer_limit_kg(&answers.vehicle);
    let (limit, source) = match (law, &answers.vehicle.law) {
        (Some(kg), Some(law)) if kg < rating => (kg, law.source.clone()),
        _ => (
            rating,
            Source::new(Basis::Datasheet, "rating of the trailer"),
        ),
    };
    let heaviest = finished(answers)
        .filter_map(|c| c.trailer_axles_kg.map(|kg| (c.case, kg)))
        .reduce(|a, b| if b.1 > a.1 { b } else { a });
    let Some((case, kg)) = heaviest else { return };
    let over = kg - limit;
    let severity = if over > 1e-6 {
        Severity::Fails
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text("The trailer axles carry ")
        .mass(kg)
        .text(format!(" ({}), ", case.words()));
    let sentence = if over > 1e-6 {
        sentence.mass(over).text(" over their limit of ")
    } else {
        sentence.mass(-over).text(" under their limit of ")
    };
    let finding = Finding::new(severity, "trailer", sentence.mass(limit).text("."))
        .at_most(Amount::mass(kg), Amount::mass(limit))
        .by(source);
    report.add(finding);
}
