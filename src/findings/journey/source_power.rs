//! Does the source make what the route takes on the average?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "source-power",
    title: "Generator or fuel cell against the average",
    question: "Does the source make what the route takes on the average?",
    method: "The mean of the bus power, and its highest fading averages over 2, 10 and 30 minutes, beside the continuous power of the source at the highest place of the route, new and at the end of its life; and where the packs run down to the end of their window.",
    source: "balance of power; loss by age and by thin air are the part's own or common practice",
    applies: "trucks with a generator or fuel cell",
    assumes: &[
        "the source follows the average need and holds a state of charge, or is switched on and off between two, as the plan says; both with hysteresis",
        "no look ahead at the terrain",
        "thin air: an engine loses 1 % each 100 m above 1,000 m, a cell above 500 m, unless the part says otherwise (common practice)",
    ],
    run,
};

fn run(journey: &Journey, report: &mut Report) {
    let Some(source) = &journey.truck.source else {
        return;
    };
    let run = &journey.run;
    let mean = (run.ledger.came_in_j()) / run.time_s.max(1.0);
    let now = source.lasting_w(run.highest_m);
    let old = source.clone().worn_out().lasting_w(run.highest_m);
    let severity = if run.run_down.is_some() {
        Severity::Fails
    } else if mean > old {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let [two, ten, thirty] = run.averages.map(|(_, most)| most);
    let mut sentence = Phrase::new()
        .text("The route takes ")
        .quantity(Measure::Power, mean)
        .text(" on the average, ")
        .quantity(Measure::Power, two)
        .text(", ")
        .quantity(Measure::Power, ten)
        .text(" and ")
        .quantity(Measure::Power, thirty)
        .text(" over its hardest 2, 10 and 30 minutes; the source makes ")
        .quantity(Measure::Power, now)
        .text(" up there and ")
        .quantity(Measure::Power, old)
        .text(" at the end of its life. ");
    sentence = match run.run_down {
        Some((x, t)) => sentence
            .text("The packs run down to the end of their window at ")
            .quantity(Measure::Way, x)
            .text(" after ")
            .quantity(Measure::Time, t)
            .text("."),
        None => sentence
            .text("The packs come down to ")
            .share(run.soc_least)
            .text("."),
    };
    report.add(Finding::new(severity, "source", sentence).at_most(
        Amount::of(Measure::Power, mean),
        Amount::of(Measure::Power, old),
    ));
}
