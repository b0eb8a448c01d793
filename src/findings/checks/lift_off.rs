//! Would an axle group be lifted off the road, or pulled below nothing by the strip-out?

use super::group_load;
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::loads::{Case, GroupLoad};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "axle-lift-off",
    title: "Axle lifts off",
    question: "Does every axle group press on the road in every case?",
    method: "Least load of each group over all cases, the stripped state too, must not be below zero. In the stripped state a load below zero means that more was taken off than the truck had there: the items are named.",
    source: "statics",
    applies: "all cases",
    assumes: &["rigid frame, level road, standing still"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    if let Some(missing) = group_load::missing_masses(answers) {
        report.not_assessed("truck", missing);
        return;
    }
    let mut lightest: Option<(Case, &GroupLoad)> = None;
    for limits in answers.road.limits.iter().filter(|l| !l.up) {
        let cases = answers.loads.cases.iter();
        let worst = cases
            .filter_map(|c| Some((c.case, c.groups.iter().find(|g| g.id == limits.id)?)))
            .reduce(lighter);
        let Some((case, group)) = worst else { continue };
        lightest = Some(lightest.map_or((case, group), |least| lighter(least, (case, group))));
        if group.load_kg >= -1e-6 {
            continue;
        }
        let sentence = Phrase::new()
            .text(format!(
                "{}: the {} would be pulled up by ",
                case.words(),
                limits.name
            ))
            .mass(-group.load_kg)
            .text("; the truck would tip.");
        let stripped = answers.loads.case(Case::Stripped);
        let of_strip = stripped.and_then(|c| c.groups.iter().find(|g| g.id == limits.id));
        let sentence = if of_strip.is_some_and(|g| g.load_kg < -1e-6) {
            sentence.text(format!(
                " The strip-out takes more off it than the scale read there: {}.",
                answers.vehicle.strip_words()
            ))
        } else {
            sentence
        };
        let finding = Finding::new(Severity::Fails, limits.id.clone(), sentence)
            .at_least(Amount::mass(group.load_kg), Amount::mass(0.0))
            .about([limits.id.clone()]);
        report.add(finding);
    }
    let Some((case, group)) = lightest.filter(|(_, g)| g.load_kg >= -1e-6) else {
        return;
    };
    let name = group_load::group_name(answers, &group.id);
    let sentence = Phrase::new()
        .text("Every axle group presses on the road in every case; least the ")
        .text(format!("{name} with "))
        .mass(group.load_kg)
        .text(format!(" ({}).", case.words()));
    let finding = Finding::new(Severity::Holds, "truck", sentence)
        .at_least(Amount::mass(group.load_kg), Amount::mass(0.0))
        .about([group.id.clone()]);
    report.add(finding);
}

const fn lighter<'a>(a: (Case, &'a GroupLoad), b: (Case, &'a GroupLoad)) -> (Case, &'a GroupLoad) {
    if b.1.load_kg < a.1.load_kg { b } else { a }
}
