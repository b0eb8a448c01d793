//! Where the weight lies in each case, and how far the truck may lean, beside the diesel donor.

use super::{NONE, PageKind};
use crate::assessment::{Assessment, CaseBalance};
use crate::findings::{Amount, Severity};
use crate::loads::Case;
use crate::quantity::{Units, length, mass};
use crate::report::page::{Page, Table};
use crate::stability::{COMPLIANCE, LEAST_G, TANK_G, TANK_TILT_DEG};

/// The page.
pub(super) static PAGE: PageKind = PageKind {
    id: "balance",
    title: "Balance",
    checks: &[
        "rollover",
        "tilt-angle",
        "cg-offset",
        "side-balance",
        "steer-share",
    ],
};

/// Builds it.
pub(super) fn build(assessment: &Assessment, units: Units) -> Page {
    let answers = &assessment.answers;
    let mut page = Page::new(&PAGE);
    if let Some(missing) = &answers.loads.missing {
        page.lead.push(format!("Not assessed: {missing}."));
        return page;
    }
    for check in ["rollover", "tilt-angle", "cg-offset"] {
        page.say_findings(check, assessment, units);
    }
    page.tables.push(centres(&answers.balance, units));
    page.tables.push(thresholds(&answers.balance, units));
    page
}

fn centres(cases: &[CaseBalance], units: Units) -> Table {
    let mut table = Table::new(
        "Centre of gravity of the truck with what it carries itself",
        &[
            ("Case", false),
            ("Mass", true),
            ("Behind front axle", true),
            ("Beside the middle", true),
            ("Above ground", true),
            ("Left / right wheels", true),
            ("On steered axles", true),
            ("Diesel donor above ground", true),
        ],
    );
    for one in cases {
        let height = |z: Option<f64>| z.map_or_else(|| "unknown".to_owned(), |z| length(z, units));
        let share = one.steer_share.map(|s| Amount::share(s).text(units));
        let donor = one.donor.as_ref().map(|d| height(d.truck.z_mm));
        table.row(
            None,
            vec![
                one.case.words().to_owned(),
                mass(one.truck.mass_kg, units),
                length(one.truck.x_mm, units),
                beside(one.truck.y_mm, units),
                height(one.truck.z_mm),
                format!(
                    "{} / {}",
                    mass(one.left_kg, units),
                    mass(one.right_kg, units)
                ),
                share.unwrap_or_else(|| NONE.to_owned()),
                donor.unwrap_or_else(|| NONE.to_owned()),
            ],
        );
    }
    table
}

fn beside(y_mm: f64, units: Units) -> String {
    let side = if y_mm > 0.0 { "right" } else { "left" };
    format!("{} {side}", length(y_mm.abs(), units))
}

fn thresholds(cases: &[CaseBalance], units: Units) -> Table {
    let mut table = Table::new(
        "Cornering at which the inner wheels lift",
        &[
            ("Case", false),
            ("Track", true),
            ("Height", true),
            ("Stiff, T/2h", true),
            ("Tyres and springs give way", true),
            ("Tilt table", true),
            ("Diesel donor", true),
            ("Payload's centre of gravity below", true),
        ],
    );
    for one in cases {
        let none = || NONE.to_owned();
        let gravity = |g: f64| Amount::gravity(g).text(units);
        let donor = one.donor.as_ref().and_then(|d| d.roll.as_ref().ok());
        let donor = donor.map_or_else(none, |roll| gravity(roll.reduced_g));
        let name = one.case.words().to_owned();
        let (severity, cells) = match &one.roll {
            Err(missing) => {
                let mut cells = vec![name, format!("not assessed: {missing}")];
                cells.extend((0..6).map(|_| none()));
                (Severity::NotAssessed, cells)
            }
            Ok(roll) => {
                let severity = match (roll.reduced_g < LEAST_G, one.case) {
                    (false, _) => Severity::Holds,
                    (true, Case::Coupled) => Severity::Caution,
                    (true, _) => Severity::Fails,
                };
                let cells = vec![
                    name,
                    length(roll.track_mm, units),
                    length(roll.height_mm, units),
                    gravity(roll.rigid_g),
                    gravity(roll.reduced_g),
                    Amount::angle(roll.tilt_deg).text(units),
                    donor,
                    one.payload_z_max_mm
                        .map_or_else(none, |mm| length(mm, units)),
                ];
                (severity, cells)
            }
        };
        let finished = one.case >= Case::Unladen;
        table.row(finished.then_some(severity), cells);
    }
    let gravity = |g: f64| Amount::gravity(g).text(units);
    table.note = Some(format!(
        "Large trucks must reach {} by law in New Zealand (factsheet 13e of its rule on vehicle dimensions and mass); tank trucks are compared to {} (Billing and Patten, NRC Canada) and have to stand {} on the tilt table (UN Regulation 111, from memory). T/2h overstates: tyres and springs leave about {} of it (SAE 2003-01-3385). The last column keeps the whole at {}.",
        gravity(LEAST_G),
        gravity(TANK_G),
        Amount::angle(TANK_TILT_DEG).text(units),
        Amount::share(COMPLIANCE).text(units),
        gravity(LEAST_G),
    ));
    table
}
