//! Does the source make what the route takes on the average?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "source-power",
    title: "Generator or fuel cell against the average",
    question: "Does the source make what the route takes on the average?",
    method: "The highest average of the bus power over two minutes beside the continuous power of the source, and whether the packs run down to the end of their window.",
    source: "balance of power",
    applies: "trucks with a generator or fuel cell",
    assumes: &[
        "the source follows the average need and holds a state of charge",
        "no look ahead at the terrain",
    ],
    run,
};

fn run(journey: &Journey, report: &mut Report) {
    let Some(source) = &journey.truck.source else {
        return;
    };
    let run = &journey.run;
    let mean = (run.ledger.cells_j + run.ledger.source_j) / run.time_s.max(1.0);
    let low = run.soc_least <= journey.truck.bank.soc_low + 0.02;
    let severity = if low {
        Severity::Fails
    } else if mean > source.continuous_w {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text("The route takes ")
        .quantity(Measure::Power, mean)
        .text(" on the average and ")
        .quantity(Measure::Power, run.average_most_w)
        .text(" over its hardest two minutes; the source makes ")
        .quantity(Measure::Power, source.continuous_w)
        .text(", and the packs come down to ")
        .share(run.soc_least)
        .text(".");
    report.add(Finding::new(severity, "source", sentence).at_most(
        Amount::of(Measure::Power, mean),
        Amount::of(Measure::Power, source.continuous_w),
    ));
}
