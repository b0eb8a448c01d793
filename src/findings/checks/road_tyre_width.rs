//! Does an axle carry more than the road law allows for the width of its tyres?

use super::group_load::{and_uncertain, finished, missing_loads};
use crate::assessment::Answers;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::legality::{Allowed, RoadAxle, road_axles};
use crate::loads::thin_kg;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "road-tyre-width",
    title: "Road law, tyre width",
    question: "Does an axle carry more than the road law allows for the width of its tyres?",
    method: "Load of the axle against the allowed load for each unit of width, times the section width of all its tyres together.",
    source: "the road law named in the plan: states set such limits, often 500 to 650 lb/in",
    applies: "when the law states a load for tyre width",
    assumes: &[
        "the section width in the file is the width that the law means; some laws take the width moulded on the tyre",
        "the axles of the trailer carry the same",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let vehicle = &answers.vehicle;
    let Some(law) = &vehicle.law else { return };
    let Some(rule) = &law.tyre_width else { return };
    let Some(allowed) = Allowed::to(vehicle) else {
        return;
    };
    let figure = |axle: &RoadAxle| {
        if axle.steered {
            &rule.steered
        } else {
            &rule.others
        }
    };
    let axles = road_axles(vehicle);
    for axle in axles.iter().filter(|a| figure(a).kg_per_mm().is_some()) {
        let Some(limit) = allowed.tyre_width_kg(axle) else {
            report.not_assessed(axle.id.clone(), "the width of the tyres is not known");
            continue;
        };
        if let Some(missing) = missing_loads(answers) {
            report.not_assessed(axle.id.clone(), &missing);
            continue;
        }
        let count = axles.iter().filter(|a| a.on_trailer).count();
        let most = finished(answers)
            .filter_map(|case| {
                let own = case.axles.iter().find(|a| a.id == axle.id);
                #[expect(clippy::cast_precision_loss, reason = "a handful of axles")]
                let trailer = case.trailer_axles_kg.map(|kg| kg / count as f64);
                let kg = own
                    .map(|a| a.load_kg)
                    .or(trailer.filter(|_| axle.on_trailer))?;
                Some((case, kg))
            })
            .reduce(|a, b| if b.1 > a.1 { b } else { a });
        let Some((case, kg)) = most else { continue };
        let sigma_kg = case.sigma_on_kg(&answers.vehicle, |id| id == axle.id);
        let severity = Severity::of_margin(Some(limit - kg), thin_kg(sigma_kg));
        let sentence = Phrase::new()
            .text(format!("{} carries ", axle.id.replace('-', " ")))
            .mass(kg)
            .text(format!(
                " ({}); the width of its tyres allows ",
                case.case.words()
            ))
            .mass(limit)
            .text(if figure(axle).may_differ {
                " (states may set another figure)"
            } else {
                ""
            });
        let sentence = and_uncertain(sentence, severity, sigma_kg);
        let finding = Finding::new(severity, axle.id.clone(), sentence)
            .which(axle.id.replace('-', " "))
            .at_most(Amount::mass(kg), Amount::mass(limit))
            .by(law.source_of(figure(axle)).clone())
            .about([axle.id.clone()]);
        report.add(finding);
    }
}
