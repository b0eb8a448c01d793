//! How many packs a range or a day takes, for every pack of the library: a table to choose from.

use super::page;
use crate::assessment::{Goal, Journey, MOST_PACKS, Packs, Short, Size, Sizes};
use crate::findings::Severity;
use crate::part::Chemistry;
use crate::quantity::{Measure, Units};
use crate::report::page::{Page, Table};
use crate::report::pages::{NONE, PageKind};

/// Its header. It is worked out only when somebody asks for it.
pub static SIZES: PageKind = PageKind {
    id: "drive-sizes",
    title: "Packs to choose",
    checks: &[],
};

/// The page.
#[must_use]
pub fn sizes_page(journey: &Journey, sizes: &Sizes, units: Units) -> Page {
    let mut page = page(&SIZES, &[], units);
    let carried = Measure::Mass.text(journey.aboard.most_kg, units);
    let goal = goal(journey, sizes.goal, units);
    for chemistry in [Chemistry::Nmc, Chemistry::Lfp, Chemistry::Lto] {
        page.lead.push(lightest(journey, sizes, chemistry, units));
    }
    let with = |name: &str, measure: Measure| format!("{name}, {}", measure.unit(units));
    let mut columns = vec![
        ("Pack".to_owned(), false),
        ("Cells".to_owned(), false),
        ("Number".to_owned(), true),
        (with("Energy", Measure::Energy), true),
        (with("Mass", Measure::Mass), true),
        (with("Against now", Measure::Mass), true),
        (with("Payload", Measure::Mass), true),
        (with("Volume", Measure::Volume), true),
        (with("Range", Measure::Way), true),
    ];
    if sizes.goal == Goal::Day {
        columns.push((with("Spare", Measure::Energy), true));
        columns.push((with("Time", Measure::Time), true));
    }
    let columns: Vec<(&str, bool)> = columns.iter().map(|(n, r)| (n.as_str(), *r)).collect();
    let mut table = Table::new(&format!("Packs for {goal}"), &columns);
    let now_kg = journey.truck.bank.mass_kg;
    let mut row = |name: &str, cells: &str, packs: Option<&Packs>, severity| {
        let mut row = vec![name.to_owned(), cells.to_owned()];
        match packs {
            None => row.resize(columns.len(), NONE.to_owned()),
            Some(packs) => {
                row.push(packs.count.to_string());
                row.push(Measure::Energy.number(packs.energy_j, units));
                row.push(Measure::Mass.number(packs.mass_kg, units));
                row.push(Measure::Mass.signed_number(packs.mass_kg - now_kg, units));
                let payload = packs.payload_kg.as_ref();
                row.push(
                    payload.map_or_else(|_| NONE.to_owned(), |kg| Measure::Mass.number(*kg, units)),
                );
                row.push(Measure::Volume.number(packs.volume_l, units));
                row.push(Measure::Way.number(packs.range_m, units));
                if sizes.goal == Goal::Day {
                    row.push(Measure::Energy.number(packs.over_j, units));
                    row.push(Measure::Time.number(packs.time_s, units));
                }
            }
        }
        table.row(Some(severity), row);
    };
    let cells = journey.truck.bank.cell.chemistry.words();
    let now = match &sizes.now {
        Err(_) => Severity::NotAssessed,
        Ok(_) if !sizes.enough_now => Severity::Fails,
        Ok(packs) => judged(journey, packs, None),
    };
    row("On the truck now", cells, sizes.now.as_ref().ok(), now);
    for size in &sizes.sizes {
        let severity = match &size.packs {
            Ok(packs) => judged(journey, packs, size.other_v),
            Err(Short::NotEnough) => Severity::Fails,
            Err(Short::NotAssessed(_)) => Severity::NotAssessed,
        };
        let cells = size.chemistry.map_or(NONE, Chemistry::words);
        row(&size.name, cells, size.packs.as_ref().ok(), severity);
    }
    let spare = match sizes.goal {
        Goal::Day => " Spare: energy left at the end of the day above what is to be kept.",
        Goal::Range(_) => "",
    };
    table.note = Some(format!(
        "Against now: mass more or less than that of the packs on the truck. Payload: what is possible then, \
         under every limit.{spare} Over: {MOST_PACKS} of them are not enough, or the plan's load of {carried} is \
         then too much. Watch: made for another voltage than motors and converters now."
    ));
    page.tables.push(table);
    let missing = sizes.sizes.iter().filter_map(|size| match &size.packs {
        Err(Short::NotAssessed(why)) => Some(format!("{}, not assessed: {why}.", size.name)),
        _ => None,
    });
    let now = sizes.now.as_ref().err();
    let now = now.map(|why| format!("The packs on the truck now, not assessed: {why}."));
    page.lead.extend(now.into_iter().chain(missing));
    page.assumptions = assumed(sizes.goal);
    page
}

fn assumed(goal: Goal) -> Vec<String> {
    let drive = match goal {
        Goal::Range(_) => {
            "The range is on the packs alone, without generator or fuel cell and without charging on the \
             way, with the reserve kept, one trip of the route after the other."
        }
        Goal::Day => {
            "The whole day is driven as the duty says, with generator or fuel cell, chargers and loads on \
             the way; the reserve is left at its end."
        }
    };
    [
        drive,
        "The truck carries the load of the plan; the packs' mass stands where today's packs stand, in their \
         proportion, and every limit of payload is asked with it.",
        "Volume is that of the packs' envelopes. Whether there is room for them, what holds them and what \
         else they need (cooling, cables, junction boxes) is not looked at.",
    ]
    .map(str::to_owned)
    .to_vec()
}

/// What the packs are for, in words.
fn goal(journey: &Journey, goal: Goal, units: Units) -> String {
    match goal {
        Goal::Range(m) => format!("{} on the packs alone", Measure::Way.text(m, units)),
        Goal::Day => {
            let trips = super::trips(journey.trips);
            format!("the day, {trips}: {}", journey.once.name)
        }
    }
}

/// Held against what the truck carries and what its bus is made for.
fn judged(journey: &Journey, packs: &Packs, other_v: Option<f64>) -> Severity {
    match packs.payload_kg {
        Err(_) => Severity::NotAssessed,
        Ok(kg) if kg < journey.aboard.most_kg => Severity::Fails,
        Ok(_) if other_v.is_some() => Severity::Caution,
        Ok(_) => Severity::Holds,
    }
}

/// The lightest set of packs with cells of one chemistry, in a sentence.
fn lightest(journey: &Journey, sizes: &Sizes, chemistry: Chemistry, units: Units) -> String {
    let cells = chemistry.words();
    let made = |size: &&Size| size.chemistry == Some(chemistry) && size.packs.is_ok();
    let mass = |size: &Size| size.packs.as_ref().map_or(f64::INFINITY, |p| p.mass_kg);
    let best = sizes
        .sizes
        .iter()
        .filter(made)
        .min_by(|a, b| mass(a).total_cmp(&mass(b)));
    let Some((size, packs)) = best.and_then(|size| Some((size, size.packs.as_ref().ok()?))) else {
        return format!("{cells} cells: no pack of the library is enough.");
    };
    let show = |measure: Measure, value: f64| measure.text(value, units);
    let more = packs.mass_kg - journey.truck.bank.mass_kg;
    let than = if more < 0.0 { "less" } else { "more" };
    let payload = packs.payload_kg.as_ref().map_or_else(
        |why| format!("payload not assessed: {why}"),
        |kg| {
            let carried = journey.aboard.most_kg;
            let over = if *kg < carried {
                format!(
                    ", less than the {} of the plan",
                    show(Measure::Mass, carried)
                )
            } else {
                String::new()
            };
            format!("payload up to {}{over}", show(Measure::Mass, *kg))
        },
    );
    format!(
        "Lightest with {cells} cells: {} × {}, {}, {} {than} than now, {}; {payload}.",
        packs.count,
        size.name,
        show(Measure::Mass, packs.mass_kg),
        show(Measure::Mass, more.abs()),
        show(Measure::Volume, packs.volume_l),
    )
}
