//! What the checks of gaps share: every gap that is too small, and the closest one that is enough.

use crate::assessment::Answers;
use crate::clearance::{Gap, State, Thing};
use crate::findings::{Amount, Finding, Phrase, Report, Severity};
use crate::vehicle::{Body, BodyKind};

/// A gap that misses its clearance by less than this is a matter of the tape measure.
const TAPE_MM: f64 = 0.05;

/// Reports the gaps of one state.
pub(super) fn against(answers: &Answers, report: &mut Report, state: State, what: &str) {
    if !applies(answers, state) {
        return;
    }
    for (missing_state, missing) in &answers.clearances.missing {
        if *missing_state == state {
            report.not_assessed(what, missing);
        }
    }
    let gaps = || answers.clearances.gaps.iter().filter(|g| g.state == state);
    let mut failed = false;
    for gap in gaps().filter(|g| g.margin_mm() < -TAPE_MM) {
        failed = true;
        report.add(finding(answers, gap, Severity::Fails));
    }
    if failed {
        return;
    }
    let closest = gaps().reduce(|a, b| if b.margin_mm() < a.margin_mm() { b } else { a });
    match closest {
        Some(gap) => report.add(finding(answers, gap, Severity::Holds)),
        None if answers.clearances.missing.iter().any(|(s, _)| *s == state) => {}
        // Nothing near is a result too, and silence would not be one.
        None => report.add(Finding::new(
            Severity::Holds,
            what,
            Phrase::new().text(format!("Nothing comes near: {what}.")),
        )),
    }
}

/// Whether there is anything on this truck that the state is about.
fn applies(answers: &Answers, state: State) -> bool {
    let vehicle = &answers.vehicle;
    match state {
        State::Swing | State::Legs => vehicle.chassis.fifth_wheel.is_some(),
        State::Travel => {
            let on = |b: &Body| matches!(b.kind, BodyKind::Hardware | BodyKind::Axle);
            let rides = |b: &Body| on(b) && b.axle.is_some();
            let mut missing = answers.clearances.missing.iter();
            missing.any(|(state, _)| *state == State::Travel)
                || vehicle.items.iter().any(|i| i.unsprung_axle.is_some())
                || vehicle.bodies.iter().any(rides)
        }
        State::Moved => vehicle.has_moved(),
        _ => true,
    }
}

fn finding(answers: &Answers, gap: &Gap, severity: Severity) -> Finding {
    let (first, second) = (name(answers, &gap.first), name(answers, &gap.second));
    let sentence = if gap.distance_mm < -TAPE_MM {
        Phrase::new()
            .text(format!("{first} reaches into {second} by "))
            .length(-gap.distance_mm)
            .text("; ")
            .length(gap.required_mm)
            .text(format!(" of room are asked for ({}).", gap.why))
    } else if gap.distance_mm <= TAPE_MM && gap.required_mm > 0.0 {
        Phrase::new()
            .text(format!("{first} touches {second}; "))
            .length(gap.required_mm)
            .text(format!(" of room are asked for ({}).", gap.why))
    } else if severity == Severity::Fails {
        Phrase::new()
            .text(format!("{first} is too close to {second} by "))
            .length(-gap.margin_mm())
            .text(": ")
            .length(gap.distance_mm)
            .text(", asked for ")
            .length(gap.required_mm)
            .text(format!(" ({}).", gap.why))
    } else {
        Phrase::new()
            .text(format!("Closest: {first} and {second}, free by "))
            .length(gap.distance_mm)
            .text(", asked for ")
            .length(gap.required_mm)
            .text(format!(" ({}).", gap.why))
    };
    // Parts have their marks; the rest has a name.
    let rest = [(&gap.first, &first), (&gap.second, &second)];
    let rest = rest
        .into_iter()
        .filter(|(thing, _)| !matches!(thing, Thing::Part(_)));
    let rest = rest.map(|(_, name)| name.strip_prefix("the ").unwrap_or(name));
    let which = rest.collect::<Vec<_>>().join(", ");
    let tags = [&gap.first, &gap.second]
        .into_iter()
        .map(|t| t.name().to_owned());
    Finding::new(
        severity,
        format!("{}.{}", gap.first.name(), gap.second.name()),
        sentence,
    )
    .at_least(
        Amount::length(gap.distance_mm),
        Amount::length(gap.required_mm),
    )
    .about(tags.collect::<Vec<_>>())
    .which(which)
    .pointing(gap.on_first, gap.on_second)
}

fn name(answers: &Answers, thing: &Thing) -> String {
    match thing {
        Thing::Part(tag) => tag.clone(),
        Thing::Sweep(name) => format!("the {name}"),
        Thing::Body(id) => {
            let found = answers.vehicle.bodies.iter().find(|b| &b.id == id);
            found.map_or_else(
                || id.clone(),
                |body| format!("the {}", lower_first(&body.name)),
            )
        }
    }
}

/// "Crossmember behind the engine" within a sentence; "ABS valve" stays.
// Letters beyond ASCII stay as they are: the table of their cases is 4 kB for the page to load.
pub(super) fn lower_first(name: &str) -> String {
    let mut name = name.to_owned();
    if let [first, second, ..] = name.as_bytes()
        && first.is_ascii_uppercase()
        && second.is_ascii_lowercase()
        && let Some(first) = name.get_mut(..1)
    {
        first.make_ascii_lowercase();
    }
    name
}
