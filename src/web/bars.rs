//! Axle bars and the verdict.

use crate::assessment::Assessment;
use crate::findings::Severity;
use crate::loads::thin_kg;
use crate::quantity::{Units, mass, signed_mass};
use serde::Serialize;

/// One bar: an axle group, the trailer's axles or the gross weight, against its governing limit.
#[derive(Debug, PartialEq, Serialize)]
pub struct Bar {
    id: String,
    name: String,
    load: String,
    limit: String,
    margin: String,
    governs: String,
    /// Load divided by limit.
    fill: f64,
    severity: Severity,
    word: &'static str,
    case: &'static str,
}

/// The verdict in one line.
#[derive(Debug, PartialEq, Serialize)]
pub struct Verdict {
    severity: Severity,
    word: &'static str,
    text: String,
}

/// Longest bar that the page draws.
const LONGEST: f64 = 1.3;

struct Measured<'a> {
    id: &'a str,
    name: &'a str,
    load: f64,
    limit: Option<f64>,
    governs: &'a str,
    thin: f64,
}

fn bar(m: &Measured<'_>, case: &'static str, units: Units) -> Bar {
    let margin = m.limit.map(|limit| limit - m.load);
    let severity = Severity::of_margin(margin, m.thin);
    let fill = m
        .limit
        .filter(|l| *l > 0.0)
        .map_or(0.0, |l| (m.load / l).clamp(0.0, LONGEST));
    Bar {
        id: m.id.to_owned(),
        name: m.name.to_owned(),
        load: mass(m.load, units),
        limit: m
            .limit
            .map_or_else(|| "unknown".to_owned(), |kg| mass(kg, units)),
        margin: margin.map_or_else(String::new, |kg| signed_mass(kg, units)),
        governs: m.governs.to_owned(),
        fill,
        severity,
        word: severity.words(),
        case,
    }
}

/// Bars of the heaviest case that the plan states.
pub(super) fn bars(assessment: &Assessment, units: Units) -> Vec<Bar> {
    let answers = &assessment.answers;
    let Some(case) = answers.heaviest() else {
        return Vec::new();
    };
    let words = case.case.words();
    let mut bars = Vec::new();
    for of_case in &case.groups {
        // The worst case of each group, as its finding says it.
        let (words, group) = answers
            .loads
            .heaviest_of(&of_case.id)
            .map_or((words, of_case), |(case, group)| (case.words(), group));
        let limits = answers.road.limits.iter().find(|l| l.id == group.id);
        if limits.is_some_and(|l| l.up) {
            continue;
        }
        let lowest = limits.and_then(|l| l.lowest());
        let measured = Measured {
            id: &group.id,
            name: limits.map_or(group.id.as_str(), |l| l.name.as_str()),
            load: group.load_kg,
            limit: lowest.map(|l| l.kg),
            governs: lowest.map_or("no limit known", |l| l.kind.words()),
            thin: group.thin_kg(),
        };
        bars.push(bar(&measured, words, units));
    }
    let vehicle = &answers.vehicle;
    if let (Some(load), Some(limit)) = (case.trailer_axles_kg, &answers.road.trailer) {
        let measured = Measured {
            id: "trailer-axles",
            name: "trailer axles",
            load,
            limit: Some(limit.kg),
            governs: limit.by,
            thin: 0.0,
        };
        bars.push(bar(&measured, words, units));
    }
    let law = answers.road.gross_kg;
    let rating = if vehicle.trailer.is_some() {
        (vehicle.chassis.ratings.gcwr_kg, "GCWR")
    } else {
        (vehicle.chassis.ratings.gvwr_kg, "GVWR")
    };
    let (limit, governs) = match (law, rating.0) {
        (Some(law), Some(kg)) if kg < law => (Some(kg), rating.1),
        (Some(law), _) => (Some(law), "road law"),
        (None, kg) => (kg, rating.1),
    };
    let measured = Measured {
        id: "gross",
        name: "gross weight",
        load: case.gross_kg,
        limit,
        governs,
        thin: thin_kg(case.sigma_kg(|_| 1.0)),
    };
    bars.push(bar(&measured, words, units));
    bars
}

/// The verdict.
pub(super) fn verdict(assessment: &Assessment) -> Verdict {
    let count = |s: Severity| {
        assessment
            .findings
            .iter()
            .filter(|f| f.severity == s)
            .count()
    };
    let worst = assessment.worst();
    let plural = |n: usize, one: &str, many: &str| {
        if n == 1 {
            format!("1 {one}")
        } else {
            format!("{n} {many}")
        }
    };
    let mut parts = Vec::new();
    for (severity, one, many) in [
        (Severity::Fails, "check fails", "checks fail"),
        (Severity::Caution, "to watch", "to watch"),
        (Severity::NotAssessed, "not assessed", "not assessed"),
        (Severity::Holds, "clear", "clear"),
    ] {
        let n = count(severity);
        if n > 0 {
            parts.push(plural(n, one, many));
        }
    }
    Verdict {
        severity: worst,
        word: worst.words(),
        text: parts.join(" · "),
    }
}
