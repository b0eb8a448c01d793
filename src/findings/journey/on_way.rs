//! Can the truck be charged where the route has a charger?

use crate::assessment::Journey;
use crate::findings::{Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "charge-on-the-way",
    title: "Charging on the way",
    question: "Can the truck be charged where the route has a charger?",
    method: "At each stop with a charger: the strongest plug of that standard that an inlet and the packs take, for the whole dwell, within the packs' limits at their temperature.",
    source: "limits of the plugs as their standards are described (memory)",
    applies: "routes with chargers",
    assumes: &["no waiting for a free post, and no time to plug in"],
    run,
};

fn run(journey: &Journey, report: &mut Report) {
    for (index, stop) in journey.run.charged.iter().enumerate() {
        let subject = format!("stop {}", index + 1);
        let finding = match &stop.by {
            Err(why) => {
                let sentence = Phrase::new()
                    .text("At ")
                    .quantity(Measure::Way, stop.at_m)
                    .text(format!(" nothing is charged: {why}."));
                Finding::new(Severity::Caution, subject, sentence)
            }
            Ok(by) => {
                let sentence = Phrase::new()
                    .text("At ")
                    .quantity(Measure::Way, stop.at_m)
                    .text(format!(" {by} charges "))
                    .quantity(Measure::Energy, stop.energy_j)
                    .text(" in ")
                    .quantity(Measure::Time, stop.dwell_s)
                    .text(", with up to ")
                    .quantity(Measure::Power, stop.most_w)
                    .text(", from ")
                    .share(stop.soc.0)
                    .text(" to ")
                    .share(stop.soc.1)
                    .text(".");
                Finding::new(Severity::Holds, subject, sentence)
            }
        };
        report.add(finding);
    }
}
