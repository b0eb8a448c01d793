//! Fields of the road law: which one, which allowance, and every figure of a law of the user's own.

use super::fields::{Choice, Field, choices};
use super::session::Session;
use crate::law::Regime;
use crate::plan::{Edit, LawChoice, Plan, Refusal};
use crate::quantity::{Measure, Units};

/// Adds the fields.
pub(super) fn add(session: &Session, plan: &Plan, fields: &mut Vec<Field>, units: Units) {
    let now = plan.law.regime.as_deref().unwrap_or("");
    let list = session.library.laws.iter();
    let mut laws = choices("none", list.map(|(id, law)| (id, &law.name)));
    let chosen = chosen(session, plan);
    laws.push(Choice {
        id: Regime::OWN.to_owned(),
        name: match chosen {
            Some(law) if law.id == Regime::OWN => law.name.clone(),
            Some(_) => "own limits, from the chosen law".to_owned(),
            None => "own limits".to_owned(),
        },
    });
    fields.push(Field::choice("law", "Road law", now, laws));
    let Some(law) = chosen else { return };
    if let Some(first) = law.allowances.first() {
        let claimed = plan.law.which.as_ref().unwrap_or(&first.id);
        let claimed = if plan.law.allowance { claimed } else { "" };
        let list = law.allowances.iter().map(|a| (&a.id, &a.name));
        let of = law.allowances.iter().find(|a| a.id == claimed);
        let hint = of.unwrap_or(first).source.document.clone();
        let field = Field::choice(
            "allowance",
            "Allowance",
            claimed,
            choices("not claimed", list),
        );
        fields.push(field.hinting(hint));
    }
    if law.gross.iter().any(|g| g.intermodal) {
        let label = "Container in intermodal transport";
        fields.push(Field::switch("intermodal", label, plan.law.intermodal));
    }
    if law.id != Regime::OWN {
        return;
    }
    let hint = |may_differ: bool, source: &crate::source::Source| {
        let differs = if may_differ {
            "; states may differ"
        } else {
            ""
        };
        format!("{source}{differs}")
    };
    let mut own = law.clone();
    let all = law.clone();
    own.walk(&mut |place, figure| {
        let source = figure
            .source
            .as_ref()
            .or(place.source)
            .unwrap_or(&all.source);
        let value = figure.inside(place.measure);
        let hint = if figure.is_stated() {
            hint(figure.may_differ, source)
        } else {
            "empty: no limit".to_owned()
        };
        let id = format!("own.{}", place.path);
        let field = Field::number(&id, &place.label, place.measure, value, units);
        fields.push(field.hinting(hint));
    });
}

/// The law that the plan chooses.
fn chosen<'a>(session: &'a Session, plan: &'a Plan) -> Option<&'a Regime> {
    let id = plan.law.regime.as_ref()?;
    let own = plan.law.own.as_deref().filter(|_| id == Regime::OWN);
    own.or_else(|| session.library.laws.get(id).map(|law| &**law))
}

/// The edit that a law field and a text stand for; `None` for other fields.
///
/// # Errors
/// Why the text cannot be used.
pub(super) fn edit(
    session: &Session,
    field: &str,
    typed: &str,
    units: Units,
) -> Result<Option<Edit>, Refusal> {
    let plan = session.plan();
    let mut law = plan.law.clone();
    match field {
        "law" => choose(session, plan, &mut law, typed),
        "allowance" => {
            // "on" and "off" claim the first one, and none.
            law.allowance = !matches!(typed, "" | "off");
            law.which = Some(typed.to_owned()).filter(|t| !matches!(t.as_str(), "" | "on" | "off"));
        }
        "intermodal" => law.intermodal = typed == "on",
        _ => {
            let Some(path) = field.strip_prefix("own.") else {
                return Ok(None);
            };
            let unknown = || Refusal(format!("\"{field}\" is not a field"));
            let own = law.own.as_mut().ok_or_else(unknown)?;
            let mut done = Err(unknown());
            own.walk(&mut |place, figure| {
                if place.path == path {
                    done = value(place.measure, typed, units)
                        .map(|value| figure.enter(place.measure, value))
                        .map_err(|why| Refusal(format!("{}: {why}", place.label)));
                }
            });
            done?;
        }
    }
    Ok(Some(Edit::Law(law)))
}

fn value(measure: Measure, typed: &str, units: Units) -> Result<Option<f64>, String> {
    if typed.is_empty() {
        return Ok(None);
    }
    measure.parse(typed, units).map(Some)
}

/// A law of the user's own begins with the figures of the law that was chosen before.
fn choose(session: &Session, plan: &Plan, law: &mut LawChoice, typed: &str) {
    let old = chosen(session, plan);
    law.regime = (!typed.is_empty()).then(|| typed.to_owned());
    let keeps = |law: &LawChoice, regime: Option<&Regime>| {
        let all = regime.map_or(&[][..], |r| &r.allowances);
        law.allowance
            && all
                .iter()
                .any(|a| law.which.as_ref().is_none_or(|id| &a.id == id))
    };
    if typed == Regime::OWN {
        let blank = || old.map_or_else(Regime::blank, Regime::to_own);
        law.own.get_or_insert_with(|| Box::new(blank()));
    }
    let next = match typed {
        Regime::OWN => law.own.as_deref(),
        id => session.library().laws.get(id).map(|law| &**law),
    };
    law.allowance = keeps(law, next);
    if !law.allowance {
        law.which = None;
    }
}
