//! Is the short-time rating of the packs enough for the route?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "pack-power",
    title: "Peak and continuous power of the packs",
    question: "Is the short-time rating of the packs enough for the route?",
    method: "A budget of 30 seconds at peak power, spent above the continuous rating and given back below it; the rating falls in the cold, in the heat and towards empty.",
    source: "common practice: 30 seconds; cold by chemistry",
    applies: "every drive",
    assumes: &["all packs share equally and have one temperature"],
    run,
};

/// Share of the time with a spent budget before somebody should look (common practice).
const LOOK: f64 = 0.02;

fn run(journey: &Journey, report: &mut Report) {
    let run = &journey.run;
    let bank = &journey.truck.bank;
    let (left, spent_s) = run.pack_peak;
    let share = spent_s / run.time_s.max(1.0);
    let severity = if share > LOOK {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text("The packs give up to ")
        .quantity(Measure::Power, run.pack_most_w)
        .text(", made for ")
        .quantity(Measure::Power, bank.continuous_w)
        .text(" continuous and ")
        .quantity(Measure::Power, bank.peak_w)
        .text(" peak when warm; of their short-time budget ")
        .share(left)
        .text(" is left at the least, and it is spent for ")
        .quantity(Measure::Time, spent_s)
        .text(".");
    report.add(
        Finding::new(severity, "packs", sentence)
            .at_most(Amount::share(share), Amount::share(LOOK)),
    );
}
