//! Is the gross weight within the chosen road law?

use super::whole_load::{self, Load, Whole};
use crate::assessment::Answers;
use crate::findings::{Check, Report};
use crate::legality::{self, GrossLimit};
use crate::loads::CaseLoads;

/// Header of the check.
pub static CHECK: Check = Check {
    id: "road-gross",
    title: "Road law, gross weight",
    question: "Is the gross weight within the chosen road law?",
    method: "Largest gross weight over all cases of the finished truck, against the highest limit whose conditions it meets (number of axles, twin tyres and air springs, intermodal transport), with the allowance where it counts; the truck alone where the law limits it too.",
    source: "the road law named in the plan",
    applies: "when the limit is known",
    assumes: &["masses are estimates until the truck is weighed"],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let vehicle = &answers.vehicle;
    if vehicle.law.is_none() {
        return report.not_assessed("combination", "the plan names no road law");
    }
    let whole = |subject, says, limit: GrossLimit| Whole {
        subject,
        says,
        limited_by: "the legal limit",
        limit_kg: limit.kg,
        source: limit.source,
    };
    match legality::gross_limit(vehicle) {
        Some(limit) => {
            let whole = whole("combination", "Gross weight is", limit);
            whole_load::against(answers, report, whole, |c| {
                Some(Load::with_truck(c, c.gross_kg))
            });
        }
        None => report.not_assessed(
            "combination",
            "the law states no gross weight for so many axles",
        ),
    }
    if let Some(limit) = legality::tractor_limit(vehicle) {
        let whole = whole("truck", "The truck itself carries", limit);
        let on_axles = |c: &CaseLoads| {
            let kg = c.groups.iter().map(|g| g.load_kg).sum();
            Some(Load::with_truck(c, kg))
        };
        whole_load::against(answers, report, whole, on_axles);
    } else if vehicle.trailer.is_some() && vehicle.law.iter().any(|l| l.has_own_truck_limit()) {
        report.not_assessed(
            "truck",
            "the law states no gross weight for a truck of so many axles",
        );
    }
}
