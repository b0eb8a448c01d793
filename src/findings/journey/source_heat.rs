//! Does heat take power away from the generator or fuel cell?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "source-heat",
    title: "Cooling of the source",
    question: "Does heat take power away from the generator or fuel cell?",
    method: "Coolant temperature over the route from the source's heat and the radiators (cross flow, effectiveness and transfer units); above its limit power is taken back over 5 K. The air outside up to which continuous power lasts is that in which the radiators give away its heat with the coolant at its limit and the fans at full speed.",
    source: "F. P. Incropera and others, eq. 11.32; air flow, recirculation and heat capacity are common practice",
    applies: "trucks with a generator or fuel cell",
    assumes: &[
        "two circuits with one thermal mass each",
        "a quarter of each radiator serves motors and inverters",
        "behind the cab or at the side: a tenth of the road speed as ram air, 5 K warmer",
    ],
    run,
};

fn run(journey: &Journey, report: &mut Report) {
    let Some(source) = &journey.truck.source else {
        return;
    };
    if let Err(missing) = &journey.truck.cooling {
        report.not_assessed("source", missing);
        return;
    }
    let run = &journey.run;
    let severity = if run.source_least < 0.98 {
        Severity::Fails
    } else if run.source_hot_s > 0.0 {
        Severity::Caution
    } else {
        Severity::Holds
    };
    let outside = journey.route.weather.temperature_c;
    let mut sentence = Phrase::new()
        .text("At ")
        .quantity(Measure::Temperature, outside)
        .text(" outside its coolant reaches ")
        .quantity(Measure::Temperature, run.source_most_c);
    if run.source_hot_s > 0.0 {
        sentence = sentence
            .text("; heat takes power back for ")
            .quantity(Measure::Time, run.source_hot_s)
            .text(", down to ")
            .share(run.source_least)
            .text(" of its power");
    }
    if let Some([_, climbing, ..]) = journey.cooled_to() {
        let at = sentence
            .text(". At ")
            .quantity(Measure::RoadSpeed, climbing.v_mps)
            .text(" its continuous power ");
        sentence = match climbing.source_c {
            Some(c) => at
                .text("can be cooled without end up to ")
                .quantity(Measure::Temperature, c)
                .text(" outside"),
            None => at.text("cannot be cooled without end in any air"),
        };
    }
    report.add(
        Finding::new(severity, "source", sentence.text(".")).at_most(
            Amount::of(Measure::Temperature, run.source_most_c),
            Amount::of(Measure::Temperature, source.coolant_c),
        ),
    );
}
