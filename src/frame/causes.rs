//! What bends a rail at one place: each mass with the share of the axles' push that it brings about.

use super::masses::{Masses, Of};
use super::rails::{middle, on_mounts, parts};
use super::{SIDES, Standing};
use crate::chassis::Group;
use crate::numeric::{Influence, sort_by};
use crate::quantity::N_PER_KG;
use crate::vehicle::Vehicle;

/// One cause of a bending moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Cause {
    /// What it is, in words.
    pub words: String,
    /// Tag of the part, if it is one.
    pub tag: Option<String>,
    /// Its share of the moment, N·mm, with its sign.
    pub moment_nmm: f64,
}

/// Most causes that are told.
const MOST: usize = 8;

/// Causes of the moment at a place of one rail: those that add to it, largest first; then what the rest
/// adds, and what takes off, N·mm. All together are the moment.
pub(super) fn causes(
    vehicle: &Vehicle,
    influence: &Influence,
    masses: &Masses,
    stand: &Standing,
    (x, side): (f64, usize),
) -> (Vec<Cause>, f64, f64) {
    debug_assert!(side < SIDES.len());
    let groups = &vehicle.chassis.groups;
    let unit = |g: &Group| pushed(vehicle, g, x, &of_group(vehicle, g, stand));
    let lift: Vec<f64> = groups.iter().map(unit).collect();
    // What the axles answer to a mass on this rail.
    let answer = |kg: f64, moment_kg_mm: f64| -> f64 {
        let push = |i: usize| influence.per_kg[i] * kg + influence.per_kg_mm[i] * moment_kg_mm;
        lift.iter()
            .enumerate()
            .map(|(i, lift)| push(i) * lift)
            .sum()
    };
    let mut sums: Vec<(Of, f64)> = Vec::with_capacity(masses.list.len() + 2);
    for mass in &masses.list {
        let (kg, couple) = mass.on(side, stand);
        let mut sum = answer(kg, kg * mass.middle_mm() + couple);
        sum -= kg * ramp(x, mass.from_mm, mass.to_mm);
        if mass.from_mm < x {
            sum += couple;
        }
        match sums.last_mut() {
            Some((of, before)) if *of == mass.of => *before += sum,
            _ => sums.push((mass.of, sum)),
        }
    }
    let (mut axles, mut set) = (0.0, 0.0);
    for ((group, lift), constant_kg) in groups.iter().zip(&lift).zip(&influence.constant_kg) {
        let own = of_axles(vehicle, masses, group);
        for (_, kg, moment) in &own {
            axles += answer(kg / 2.0, moment / 2.0);
        }
        axles -= pushed(vehicle, group, x, &own) / 2.0;
        set += constant_kg / 2.0 * lift;
    }
    sums.extend([(Of::Axles, axles), (Of::Set, set)]);
    let whole: f64 = sums.iter().map(|(_, sum)| sum).sum();
    let against: f64 = sums
        .iter()
        .map(|(_, s)| s)
        .filter(|s| *s * whole <= 0.0)
        .sum();
    sums.retain(|(_, sum)| sum * whole > 0.0);
    sort_by(&mut sums, |a, b| b.1.abs().total_cmp(&a.1.abs()));
    let rest: f64 = sums.iter().skip(MOST).map(|(_, sum)| sum).sum();
    sums.truncate(MOST);
    let told = sums
        .into_iter()
        .map(|(of, sum)| told(vehicle, of, sum * N_PER_KG));
    (told.collect(), rest * N_PER_KG, against * N_PER_KG)
}

/// A push of one from a group: axle, part, moment of that part about the front axle.
fn of_group(vehicle: &Vehicle, group: &Group, stand: &Standing) -> Vec<(usize, f64, f64)> {
    let place = |axle: usize| vehicle.chassis.axles[axle].x_mm;
    let parts = parts(vehicle, group, stand).into_iter();
    parts.map(|(i, part)| (i, part, part * place(i))).collect()
}

/// What the axles of a group weigh themselves, with the moment.
fn of_axles(vehicle: &Vehicle, masses: &Masses, group: &Group) -> Vec<(usize, f64, f64)> {
    let axles = vehicle.chassis.axles.iter().enumerate();
    let mine = axles.filter(|(_, a)| group.axles.contains(&a.id));
    mine.map(|(i, _)| {
        let (kg, moment) = masses.unsprung[i];
        (i, kg, moment)
    })
    .collect()
}

/// Moment at `x`, mm, when a group's mounts push up with these forces of its axles.
fn pushed(vehicle: &Vehicle, group: &Group, x: f64, forces: &[(usize, f64, f64)]) -> f64 {
    let mut sum = 0.0;
    let mut add = |force: f64, moment: f64, at: f64, mounts: &[f64]| {
        let mut first = None;
        let couple = on_mounts(force, moment, at, mounts, |row, part| {
            first.get_or_insert(row);
            sum += part * (x - row).max(0.0);
        });
        if first.is_some_and(|row| row < x) {
            sum -= couple;
        }
    };
    if group.mounts_mm.is_empty() {
        for (axle, force, moment) in forces {
            let axle = &vehicle.chassis.axles[*axle];
            add(*force, *moment, axle.x_mm, &axle.suspension.mounts_mm);
        }
    } else {
        let whole: f64 = forces.iter().map(|f| f.1).sum();
        let moment: f64 = forces.iter().map(|f| f.2).sum();
        add(whole, moment, middle(vehicle, group), &group.mounts_mm);
    }
    sum
}

/// Mean of how far a load that lies from `from` to `to` is ahead of `x`; what is behind counts nothing.
fn ramp(x: f64, from: f64, to: f64) -> f64 {
    let length = to - from;
    if length <= 1e-6 {
        return (x - from).max(0.0);
    }
    let part = |end: f64| (x - end).max(0.0).powi(2) / 2.0;
    (part(from) - part(to)) / length
}

fn told(vehicle: &Vehicle, of: Of, moment_nmm: f64) -> Cause {
    let name = |text: Option<&String>| text.map_or_else(String::new, Clone::clone);
    let (words, tag) = match of {
        Of::Item(index) => vehicle.items.get(index).map_or_else(
            || (String::new(), None),
            |item| {
                let words = format!("{} {}", item.part.kind.words(), item.tag);
                (words, Some(item.tag.clone()))
            },
        ),
        Of::Kept(index) => (name(vehicle.donor.kept.get(index).map(|k| &k.name)), None),
        Of::Hardware(index) => (
            name(vehicle.donor.hardware.get(index).map(|h| &h.name)),
            None,
        ),
        Of::Driver => ("the driver".to_owned(), None),
        Of::Payload => ("the payload".to_owned(), None),
        Of::Kingpin => ("the load on the fifth wheel".to_owned(), None),
        Of::Slide => ("the fifth wheel itself".to_owned(), None),
        Of::NewRail => ("the new piece of rail".to_owned(), None),
        Of::Axles => ("what the axles weigh themselves".to_owned(), None),
        Of::Set => ("how the springs are set".to_owned(), None),
        Of::Unlisted => ("what the donor's lists leave out".to_owned(), None),
    };
    Cause {
        words,
        tag,
        moment_nmm,
    }
}
