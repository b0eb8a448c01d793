//! Can the tanks hold the fuel that they are said to?

use crate::assessment::Journey;
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::plant::ROUNDING;
use crate::quantity::Measure;

/// Header of the check.
pub static CHECK: Check<Journey> = Check {
    id: "tank-mass",
    title: "Fuel in the tanks",
    question: "Can the tanks hold the fuel that they are said to?",
    method: "Water volume times the density of the real gas at the working pressure and 15 °C, against the mass that the part states; 2 % more is taken for rounding. The smaller of the two is driven with, less what stays in the tank at 2 MPa.",
    source: "hydrogen: J. Res. NIST 113, 341 (2008); methane: Setzmann and Wagner (1991); mixtures by Kay's rule; 2 MPa and 15 °C common practice",
    applies: "trucks with gas tanks and what burns the gas",
    assumes: &[
        "the stated pressure is taken as absolute: below half a per cent of difference",
        "natural gas is pure methane unless the plan states a mixture",
    ],
    run,
};

fn run(journey: &Journey, report: &mut Report) {
    for (tag, tank) in &journey.truck.tanks {
        let Some(holds_kg) = tank.holds_kg else {
            let missing = format!("water volume or working pressure of {tag} is not stated");
            report.not_assessed(tag.as_str(), &missing);
            continue;
        };
        let most_kg = holds_kg * (1.0 + ROUNDING);
        let severity = Severity::of_margin(Some(most_kg - tank.stated_kg), 0.0);
        let sentence = Phrase::new()
            .text(format!("{tag} is said to hold "))
            .mass(tank.stated_kg)
            .text("; its volume holds ")
            .mass(holds_kg)
            .text(" at its pressure and 15 °C. ")
            .mass(tank.usable_kg())
            .text(" of what is aboard can be used, ")
            .mass(tank.left_kg)
            .text(" stay in it; filling takes at least ")
            .quantity(Measure::Time, tank.refill_s)
            .text(".");
        report.add(
            Finding::new(severity, tag.as_str(), sentence)
                .at_most(Amount::mass(tank.stated_kg), Amount::mass(most_kg))
                .about([tag.as_str()]),
        );
    }
}
