//! What the checks of legal shares share: the load of some axles as a part of a whole, laden.

use super::group_load::{finished, missing_loads};
use crate::assessment::Answers;
use crate::findings::{Amount, Finding, Phrase, Report, Severity};
use crate::law::Share;
use crate::legality::{RoadAxle, road_axles};
use crate::loads::{Case, CaseLoads};

/// Which axles, of what whole.
pub(super) struct Asked {
    /// Subject of the finding.
    pub(super) subject: &'static str,
    /// The whole, in words.
    pub(super) of: &'static str,
    /// Which axles count.
    pub(super) pick: fn(&RoadAxle) -> bool,
    /// The whole, kg.
    pub(super) whole: fn(&CaseLoads) -> f64,
}

/// Holds the smallest share over the laden cases against the least that is asked for.
pub(super) fn against(answers: &Answers, report: &mut Report, asked: &Asked, share: &Share) {
    if let Some(missing) = missing_loads(answers) {
        return report.not_assessed(asked.subject, &missing);
    }
    let axles = road_axles(&answers.vehicle);
    let picked: Vec<&RoadAxle> = axles.iter().filter(|a| (asked.pick)(a)).collect();
    let carried = |case: &CaseLoads| -> f64 {
        let of = |axle: &&RoadAxle| case.axles.iter().find(|a| a.id == axle.id);
        picked.iter().filter_map(of).map(|a| a.load_kg).sum()
    };
    let laden = finished(answers).filter(|c| c.case >= Case::Laden);
    let worst = laden
        .filter_map(|c| {
            let whole = (asked.whole)(c);
            (whole > 0.0).then(|| (c.case, carried(c) / whole))
        })
        .reduce(|a, b| if b.1 < a.1 { b } else { a });
    let Some((case, found)) = worst else {
        return report.not_assessed(asked.subject, "no load is planned");
    };
    let severity = if found < share.least - 1e-9 {
        Severity::Fails
    } else {
        Severity::Holds
    };
    let sentence = Phrase::new()
        .text(format!("The {} carry ", asked.subject))
        .share(found)
        .text(format!(" {} ({}); at least ", asked.of, case.words()))
        .share(share.least)
        .text(" are asked for.");
    let finding = Finding::new(severity, asked.subject, sentence)
        .at_least(Amount::share(found), Amount::share(share.least))
        .by(share.source.clone())
        .about(picked.iter().map(|a| a.id.clone()));
    report.add(finding);
}
