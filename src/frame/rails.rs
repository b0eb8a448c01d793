//! One load case: what pushes the rails up, and where shear and moment are largest.

use super::masses::{Masses, unsprung};
use super::{RailCase, Section, Standing};
use crate::chassis::Group;
use crate::numeric::{
    BeamEvent, BeamPiece, Influence, beam_pieces, beam_remainder, on_rows, sort_by,
};
use crate::quantity::N_PER_KG;
use crate::vehicle::Vehicle;

/// Imbalance that is rounding and nothing else, as a part of all loads times the length.
const ROUNDING: f64 = 1e-7;

/// Left and right rail in one case.
pub(super) fn rails(
    vehicle: &Vehicle,
    influence: &Influence,
    masses: &Masses,
    sections: &[Section],
    stand: &Standing,
) -> Result<[RailCase; 2], String> {
    // How much more than half of mass and moment the right rail carries.
    let (mut more_kg, mut more_moment) = (0.0, 0.0);
    for mass in &masses.list {
        let more = (mass.kg_on(1, stand) - mass.kg_on(0, stand)) / 2.0;
        more_kg += more;
        more_moment +=
            more * mass.middle_mm() + (mass.couple_on(1, stand) - mass.couple_on(0, stand)) / 2.0;
    }
    let mut ends = [0, 1].map(|side| {
        let mut events = loads(masses, stand, side);
        let sign = if side == 1 { 1.0 } else { -1.0 };
        let more = (sign * more_kg, sign * more_moment);
        push_up(vehicle, influence, stand, more, &mut events);
        // In order but for a handful: a stable sort finds that at once.
        sort_by(&mut events, |a, b| a.x_mm.total_cmp(&b.x_mm));
        balanced(&events).map(|()| summed_up(beam_pieces(&events), sections))
    });
    let right = std::mem::replace(&mut ends[1], Err(String::new()))?;
    let left = std::mem::replace(&mut ends[0], Err(String::new()))?;
    Ok([left, right])
}

/// What presses one rail down.
fn loads(masses: &Masses, stand: &Standing, side: usize) -> Vec<BeamEvent> {
    let mut events = Vec::with_capacity(masses.stations.len() + 16);
    for station in &masses.stations {
        let mut event = BeamEvent {
            x_mm: station.x_mm,
            ..BeamEvent::default()
        };
        if let Some(mass) = station.mass.and_then(|i| masses.list.get(i as usize)) {
            let newton = mass.kg_on(side, stand) * N_PER_KG;
            match mass.length_mm() {
                None => {
                    event.force_n = newton;
                    event.couple_nmm = mass.couple_on(side, stand) * N_PER_KG;
                }
                Some(length) if station.ends => event.more_n_per_mm = -newton / length,
                Some(length) => event.more_n_per_mm = newton / length,
            }
        }
        events.push(event);
    }
    events
}

/// Where each group pushes one rail up. `more` is how much more than half of the sprung mass, kg, and
/// of its moment, kg·mm, this rail carries.
fn push_up(
    vehicle: &Vehicle,
    influence: &Influence,
    stand: &Standing,
    more: (f64, f64),
    events: &mut Vec<BeamEvent>,
) {
    for (index, group) in vehicle.chassis.groups.iter().enumerate() {
        let extra = influence.per_kg[index] * more.0 + influence.per_kg_mm[index] * more.1;
        let parts = parts(vehicle, group, stand);
        let mut whole = (0.0, 0.0);
        for (axle, part) in parts {
            let x = vehicle.chassis.axles[axle].x_mm;
            let (kg, moment) = unsprung(vehicle, axle);
            let load = stand.axles_kg.get(axle).copied().unwrap_or(0.0);
            let force = (load - kg) / 2.0 + extra * part;
            let moment = (load * x - moment) / 2.0 + extra * part * x;
            if group.mounts_mm.is_empty() {
                let mounts = &vehicle.chassis.axles[axle].suspension.mounts_mm;
                up(events, force, moment, x, mounts);
            } else {
                whole = (whole.0 + force, whole.1 + moment);
            }
        }
        if !group.mounts_mm.is_empty() {
            up(
                events,
                whole.0,
                whole.1,
                middle(vehicle, group),
                &group.mounts_mm,
            );
        }
    }
}

/// A push of so many kilograms with this moment about the front axle, on mounts counted from `x_mm`.
fn up(events: &mut Vec<BeamEvent>, kg: f64, moment: f64, x_mm: f64, mounts_mm: &[f64]) {
    let first = events.len();
    let left_over = on_mounts(kg, moment, x_mm, mounts_mm, |x_mm, kg| {
        events.push(BeamEvent {
            x_mm,
            force_n: -kg * N_PER_KG,
            ..BeamEvent::default()
        });
    });
    if let Some(event) = events.get_mut(first) {
        event.couple_nmm = -left_over * N_PER_KG;
    }
}

/// [`on_rows`] for mounts counted from the axle; without any, at its centre.
pub(super) fn on_mounts(
    force: f64,
    moment: f64,
    x_mm: f64,
    mounts_mm: &[f64],
    mut put: impl FnMut(f64, f64),
) -> f64 {
    let mounts_mm = if mounts_mm.is_empty() {
        &[0.0]
    } else {
        mounts_mm
    };
    on_rows(force, moment - force * x_mm, mounts_mm, |row, part| {
        put(row + x_mm, part);
    })
}

/// Axles of a group, by index, with the part of the group's load that each carries.
pub(super) fn parts(vehicle: &Vehicle, group: &Group, stand: &Standing) -> Vec<(usize, f64)> {
    let load = |i: usize| stand.axles_kg.get(i).copied().unwrap_or(0.0);
    let axles = vehicle.chassis.axles.iter().enumerate();
    let mine: Vec<usize> = axles
        .filter(|(_, a)| group.axles.contains(&a.id))
        .map(|(i, _)| i)
        .collect();
    let all: f64 = mine.iter().map(|i| load(*i)).sum();
    #[expect(clippy::cast_precision_loss, reason = "a handful of axles")]
    let equal = 1.0 / mine.len().max(1) as f64;
    mine.into_iter()
        .map(|i| {
            (
                i,
                if all.abs() > 1e-9 {
                    load(i) / all
                } else {
                    equal
                },
            )
        })
        .collect()
}

/// Middle of a group's axles, mm.
pub(super) fn middle(vehicle: &Vehicle, group: &Group) -> f64 {
    let places = vehicle.chassis.axles.iter();
    let places: Vec<f64> = places
        .filter(|a| group.axles.contains(&a.id))
        .map(|a| a.x_mm)
        .collect();
    #[expect(clippy::cast_precision_loss, reason = "a handful of axles")]
    let middle = places.iter().sum::<f64>() / places.len().max(1) as f64;
    middle
}

/// Ids of axles whose mounts on the rails are not known.
pub(super) fn unknown_mounts(vehicle: &Vehicle) -> Vec<String> {
    let chassis = &vehicle.chassis;
    let known = |id: &String| {
        let of_group = chassis.groups.iter().find(|g| g.axles.contains(id));
        of_group.is_some_and(|g| !g.mounts_mm.is_empty())
    };
    chassis
        .axles
        .iter()
        .filter(|a| a.suspension.mounts_mm.is_empty() && !known(&a.id))
        .map(|a| a.id.clone())
        .collect()
}

fn balanced(events: &[BeamEvent]) -> Result<(), String> {
    let (shear, moment) = beam_remainder(events);
    let all: f64 = events.iter().map(|e| e.force_n.abs()).sum();
    let length = match (events.first(), events.last()) {
        (Some(first), Some(last)) => last.x_mm - first.x_mm,
        _ => 0.0,
    };
    if shear.abs() <= ROUNDING * all && moment.abs() <= ROUNDING * all * length {
        Ok(())
    } else {
        Err("axle loads and masses do not balance on the rails".to_owned())
    }
}

/// Finds the peaks. Each piece lies within one section: the sections' ends are stations.
fn summed_up(pieces: Vec<BeamPiece>, sections: &[Section]) -> RailCase {
    let mut rail = RailCase {
        pieces: Vec::new(),
        peak: (0.0, 0.0),
        shear: (0.0, 0.0),
        most_used: None,
    };
    let mut used = 0.0;
    let mut behind = sections;
    for piece in &pieces {
        while behind.first().is_some_and(|s| s.to_mm <= piece.from_mm) {
            behind = &behind[1..];
        }
        // Ahead of the rails and behind them nothing is a rail.
        let Some(section) = behind.first().filter(|s| s.from_mm <= piece.from_mm) else {
            continue;
        };
        let ends = [Some(piece.from_mm), piece.turns_at(), Some(piece.to_mm)];
        for x in ends.into_iter().flatten() {
            let (moment, shear) = (piece.moment_at(x), piece.shear_at(x));
            if moment.abs() > rail.peak.1.abs() {
                rail.peak = (x, moment);
            }
            if shear.abs() > rail.shear.1.abs() {
                rail.shear = (x, shear);
            }
            let Some(resist) = section.resist_nmm else {
                continue;
            };
            if moment.abs() > used * resist {
                used = moment.abs() / resist;
                rail.most_used = Some((x, moment));
            }
        }
    }
    rail.pieces = pieces;
    rail
}
