//! Does a group of consecutive axles weigh more than the law allows over its length?

use super::group_load;
use crate::assessment::{Answers, Bridge};
use crate::findings::{Amount, Check, Finding, Phrase, Report, Severity};
use crate::geometry::Point;
use crate::law::{Raised, Regime};
use crate::legality::{self, Rule};
use crate::source::{Basis, Source};

/// Header of the check.
pub static CHECK: Check = Check {
    id: "road-bridge",
    title: "Road law, groups of axles",
    question: "Does a group of consecutive axles weigh more than the law allows over its length?",
    method: "Neighbouring axles of different groups that the law sees as one tandem or tridem; and by a bridge formula every group of two or more consecutive axles of truck and trailer, in the case in which it is heaviest: W = 500 (L N / (N - 1) + 12 N + 36) lb for N axles over L feet, to the nearest 500 lb with halves down, with the table's special rows above 8 ft, and 34,000 lb for each of two tandems 36 ft or more apart from first to last axle.",
    source: "the road law named in the plan; the formula: 23 U.S.C. 127(a)(2) (read), rows of its table in state reprints (read up to 33 ft, computed beyond)",
    applies: "when the road law of the plan has a bridge formula, or sees axles of two groups as one",
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
    let Some(law) = &answers.vehicle.law else {
        return;
    };
    let own = || groups.iter().filter(|b| !b.group.held_elsewhere);
    let mut over = own().filter(|b| is_over(b)).peekable();
    if over.peek().is_some() {
        for bridge in over {
            let source = source(answers, law, bridge);
            report.add(finding(bridge, too_heavy(bridge), &source));
        }
        return;
    }
    // A short truck may have no group that only the formula holds; it passes all the same.
    let near = |a, b| if nearer(b, a) { b } else { a };
    let any = || groups.iter().filter(|_| law.bridge.is_some());
    let nearest = own().reduce(near).or_else(|| any().reduce(near));
    if let Some(bridge) = nearest.filter(|b| !is_over(b)) {
        let (source, words) = (source(answers, law, bridge), nearest_to_it(bridge));
        report.add(finding(bridge, words, &source));
    }
}

fn is_over(bridge: &Bridge) -> bool {
    bridge.severity() == Severity::Fails
}

fn nearer(one: &Bridge, other: &Bridge) -> bool {
    one.group.margin_kg() < other.group.margin_kg()
}

/// Who sets the limit: law or formula, and the reading of the allowance where that raises it.
fn source(answers: &Answers, law: &Regime, bridge: &Bridge) -> Source {
    let (own, raised) = match bridge.group.rule {
        Rule::Table | Rule::TandemPair | Rule::SingleAxles => (
            law.bridge.as_ref().map_or(&law.source, |b| &b.source),
            Raised::Bridge,
        ),
        _ => (&law.source, Raised::Tandem),
    };
    let allowance = legality::allowance(&answers.vehicle);
    match allowance.filter(|a| a.raises.contains(&raised)) {
        None => own.clone(),
        Some(allowance) => Source::new(
            Basis::max(own.basis, allowance.source.basis),
            format!("{}; {}", own.document, allowance.source.document),
        ),
    }
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
    let sentence = Phrase::new()
        .text(format!(
            "Of all groups of axles, {subject} come nearest to their limit: "
        ))
        .mass(group.actual_kg)
        .text(" over a length of ")
        .length(group.length_mm())
        .text(format!(" ({}), ", bridge.case.words()))
        .mass(group.margin_kg())
        .text(" under the ")
        .mass(group.allowed_kg)
        .text(format!(" that are allowed ({})", group.rule.words()));
    group_load::and_uncertain(sentence, bridge.severity(), bridge.sigma_kg)
}

fn finding(bridge: &Bridge, sentence: Phrase, source: &Source) -> Finding {
    let group = &bridge.group;
    let on_the_ground = |x: f64| Point::new(x, 0.0, 0.0);
    Finding::new(bridge.severity(), subject(bridge), sentence)
        .at_most(
            Amount::mass(group.actual_kg),
            Amount::mass(group.allowed_kg),
        )
        .by(source.clone())
        .about(group.axles.iter().cloned())
        .pointing(on_the_ground(group.x_mm.0), on_the_ground(group.x_mm.1))
}
