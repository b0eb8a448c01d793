//! Does a group of consecutive axles weigh more than the bridge formula allows over its length?

use crate::assessment::{Answers, Bridge};
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::geometry::Point;
use crate::law::Raised;
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "road-bridge",
    title: "Road law, bridge formula",
    question: "Does a group of consecutive axles weigh more than the bridge formula allows over its length?",
    method: "Every group of two or more consecutive axles of truck and trailer, in the case in which it is heaviest: W = 500 (L N / (N - 1) + 12 N + 36) lb for N axles over L feet, to the nearest 500 lb with halves down, with the table's special rows above 8 ft, and 34,000 lb for each of two tandems 36 ft or more apart from first to last axle.",
    source: "23 U.S.C. 127(a)(2) (read); rows of the table in state reprints (read up to 33 ft, computed beyond)",
    applies: "when the road law of the plan has a bridge formula",
    assumes: &[
        "the exact length goes into the formula; scales and states may round it to the nearest foot first",
        "the axles of the trailer carry the same; raised axles do not count",
        "axle groups, single axles and gross weight are held to their own limits by their own checks",
        "masses are estimates until the truck is weighed",
    ],
    run,
};

fn run(answers: &Answers, report: &mut Report) {
    let groups = match &answers.bridge {
        Ok(groups) => groups,
        Err(missing) => return report.not_assessed("truck", missing),
    };
    let Some(source) = source(answers) else {
        return;
    };
    let own = || groups.iter().filter(|b| !b.group.held_elsewhere);
    let mut over = own().filter(|b| is_over(b)).peekable();
    if over.peek().is_some() {
        for bridge in over {
            report.add(finding(bridge, Severity::Fails, too_heavy(bridge), &source));
        }
        return;
    }
    // A short truck may have no group that only the formula holds; it passes all the same.
    let near = |a, b| if nearer(b, a) { b } else { a };
    let nearest = own().reduce(near).or_else(|| groups.iter().reduce(near));
    if let Some(bridge) = nearest.filter(|b| !is_over(b)) {
        report.add(finding(
            bridge,
            Severity::Holds,
            nearest_to_it(bridge),
            &source,
        ));
    }
}

fn is_over(bridge: &Bridge) -> bool {
    bridge.group.margin_kg() < -1e-6
}

fn nearer(one: &Bridge, other: &Bridge) -> bool {
    one.group.margin_kg() < other.group.margin_kg()
}

/// Who sets the limits: the formula, and the reading of the allowance where that raises them.
fn source(answers: &Answers) -> Option<Source> {
    let law = answers.vehicle.law.as_ref()?;
    let formula = &law.bridge.as_ref()?.source;
    let raises = law.allowance_raises.as_ref();
    let raises = raises.filter(|r| answers.vehicle.allowance && r.limits.contains(&Raised::Bridge));
    Some(match raises {
        None => formula.clone(),
        Some(raises) => Source::new(
            Basis::max(formula.basis, raises.source.basis),
            format!("{}; {}", formula.document, raises.source.document),
        ),
    })
}

fn subject(bridge: &Bridge) -> String {
    let (from, to) = bridge.group.numbers;
    format!("axles {from} to {to}")
}

fn too_heavy(bridge: &Bridge) -> Phrase {
    let group = &bridge.group;
    let (from, to) = group.numbers;
    let sentence = Phrase::new()
        .text(format!("Axles {from} to {to} carry "))
        .mass(group.actual_kg)
        .text(" over a length of ")
        .length(group.length_mm())
        .text(format!(" ({}), ", bridge.case.words()))
        .mass(-group.margin_kg())
        .text(" over the ")
        .mass(group.allowed_kg)
        .text(format!(" that are allowed ({}); ", group.rule.words()));
    match group.spread_mm() {
        Some((apart, more)) => sentence
            .text("to pass, the outer two would have to stand ")
            .length(apart)
            .text(" apart, ")
            .length(more)
            .text(" more."),
        None => sentence.text("standing farther apart would not help."),
    }
}

fn nearest_to_it(bridge: &Bridge) -> Phrase {
    let group = &bridge.group;
    let subject = subject(bridge);
    Phrase::new()
        .text(format!(
            "Of all groups of axles, {subject} come nearest to the bridge formula: "
        ))
        .mass(group.actual_kg)
        .text(" over a length of ")
        .length(group.length_mm())
        .text(format!(" ({}), ", bridge.case.words()))
        .mass(group.margin_kg())
        .text(" under the ")
        .mass(group.allowed_kg)
        .text(format!(" that are allowed ({}).", group.rule.words()))
}

fn finding(bridge: &Bridge, severity: Severity, sentence: Phrase, source: &Source) -> Finding {
    let group = &bridge.group;
    let on_the_ground = |x: f64| Point::new(x, 0.0, 0.0);
    Finding::new(severity, subject(bridge), sentence)
        .at_most(
            Amount::mass(group.actual_kg),
            Amount::mass(group.allowed_kg),
        )
        .by(source.clone())
        .about(group.axles.iter().cloned())
        .pointing(on_the_ground(group.x_mm.0), on_the_ground(group.x_mm.1))
}
