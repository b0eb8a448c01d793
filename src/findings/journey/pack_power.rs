//! Is the short-time rating of the packs enough for the route?

use super::short_time;
use crate::assessment::Journey;
use crate::findings::{Check, Phrase, Report};
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

fn run(journey: &Journey, report: &mut Report) {
    let run = &journey.run;
    let bank = &journey.truck.bank;
    let made_for = Phrase::new()
        .text("The packs give up to ")
        .quantity(Measure::Power, run.pack_most_w)
        .text(", made for ")
        .quantity(Measure::Power, bank.continuous_w)
        .text(" continuous and ")
        .quantity(Measure::Power, bank.peak_w)
        .text(" peak when warm");
    short_time(journey, "packs", run.pack_peak, made_for, report);
}
