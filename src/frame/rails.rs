//! One load case: what pushes the rails up, and where shear and moment are largest.

use super::masses::Masses;
use super::{RailCase, Section, Standing};
use crate::chassis::Group;
use crate::numeric::{BeamEvent, BeamPiece, Influence, beam_pieces, beam_remainder, on_rows};
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
    let mut on = Vec::with_capacity(masses.list.len());
    for mass in &masses.list {
        let [left, right] = [0, 1].map(|side| mass.on(side, stand));
        let more = (right.0 - left.0) / 2.0;
        more_kg += more;
        more_moment += more * mass.middle_mm() + (right.1 - left.1) / 2.0;
        on.push([left, right]);
    }
    let mut ends = [0, 1].map(|side| {
        let mut events = loads(masses, &on, side);
        let sign = if side == 1 { 1.0 } else { -1.0 };
        let more = (sign * more_kg, sign * more_moment);
        push_up(vehicle, influence, masses, stand, more, &mut events);
        balanced(&events).map(|()| summed_up(beam_pieces(&events), sections))
    });
    let right = std::mem::replace(&mut ends[1], Err(String::new()))?;
    let left = std::mem::replace(&mut ends[0], Err(String::new()))?;
    Ok([left, right])
}

/// What presses one rail down; `on` is mass and couple of each on both.
fn loads(masses: &Masses, on: &[[(f64, f64); 2]], side: usize) -> Vec<BeamEvent> {
    let mut events = Vec::with_capacity(masses.stations.len() + 16);
    events.extend(masses.stations.iter().map(|station| {
        let mut event = BeamEvent {
            x_mm: station.x_mm,
            ..BeamEvent::default()
        };
        let index = station.mass.map(|i| i as usize);
        if let Some((mass, on)) = index.and_then(|i| Some((masses.list.get(i)?, on.get(i)?))) {
            let (kg, couple) = on[side];
            let newton = kg * N_PER_KG;
            match mass.length_mm() {
                None => {
                    event.force_n = newton;
                    event.couple_nmm = couple * N_PER_KG;
                }
                Some(length) if station.ends => event.more_n_per_mm = -newton / length,
                Some(length) => event.more_n_per_mm = newton / length,
            }
        }
        event
    }));
    events
}

/// Where each group pushes one rail up. `more` is how much more than half of the sprung mass, kg, and
/// of its moment, kg·mm, this rail carries.
fn push_up(
    vehicle: &Vehicle,
    influence: &Influence,
    masses: &Masses,
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
            let (kg, moment) = masses.unsprung[axle];
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
    let mut first = None;
    let left_over = on_mounts(kg, moment, x_mm, mounts_mm, |x_mm, kg| {
        // Behind whatever is here already.
        let at = events.partition_point(|e| e.x_mm.total_cmp(&x_mm).is_le());
        first = first.map_or(Some(at), |f: usize| Some(f + usize::from(at <= f)));
        events.insert(
            at,
            BeamEvent {
                x_mm,
                force_n: -kg * N_PER_KG,
                ..BeamEvent::default()
            },
        );
    });
    if let Some(event) = first.and_then(|at| events.get_mut(at)) {
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
        let mut see = |x: f64, moment: f64, shear: f64| {
            if moment.abs() > rail.peak.1.abs() {
                rail.peak = (x, moment);
            }
            if shear.abs() > rail.shear.1.abs() {
                rail.shear = (x, shear);
            }
            if let Some(resist) = section.resist_nmm
                && moment.abs() > used * resist
            {
                used = moment.abs() / resist;
                rail.most_used = Some((x, moment));
            }
        };
        see(piece.from_mm, piece.moment_nmm, piece.shear_n);
        if let Some(x) = piece.turns_at() {
            see(x, piece.moment_at(x), piece.shear_at(x));
        }
        let x = piece.to_mm;
        see(x, piece.moment_at(x), piece.shear_at(x));
    }
    rail.pieces = pieces;
    rail
}
