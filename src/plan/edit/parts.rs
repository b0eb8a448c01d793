//! Edits of parts on the truck.

use super::shafts::free_run;
use super::{Edit, Refusal, bare, find_placed, free_tag, known, part_of, resolved};
use crate::library::Library;
use crate::numeric::sort;
use crate::plan::{Place, Placed, Plan, ShaftRun};
use crate::quantity::repeated;
use crate::vehicle::{Item, Vehicle, listed};

impl Edit {
    pub(super) fn make_on_parts(&self, plan: &mut Plan, library: &Library) -> Result<(), Refusal> {
        match self {
            Self::Place {
                part,
                x_mm,
                y_mm,
                z_mm,
                zone,
                turn,
                tag,
            } => {
                let found = part_of(plan, library, part)?;
                if plan.placed.len() >= Plan::MOST_PARTS {
                    return Err(Refusal::new(format!("at most {} parts", Plan::MOST_PARTS)));
                }
                let tag = tag.clone().unwrap_or_else(|| free_tag(plan, &found));
                if plan.placed.iter().any(|p| p.tag == tag) {
                    return Err(Refusal::new(format!("the mark \"{tag}\" is already used")));
                }
                let carries_wheels = found.axle.is_some();
                let is_shaft = found.shaft.is_some();
                let vehicle = if carries_wheels || is_shaft {
                    resolved(plan, library)?
                } else {
                    bare(plan, library)?
                };
                if is_shaft {
                    let run = ShaftRun {
                        tag,
                        ..free_run(plan, &vehicle, &found)?
                    };
                    return Self::Shaft(run).make_on_parts(plan, library);
                }
                let place = placed_in(&vehicle, zone.as_deref(), [*x_mm, *y_mm, *z_mm])?;
                if carries_wheels {
                    strip_driven_axle(plan, &vehicle, zone.as_deref())?;
                }
                let placed = Placed {
                    tag,
                    part: part.clone(),
                    place,
                    turn: *turn,
                    fill: None,
                    locked: false,
                };
                plan.placed.push(placed.into());
            }
            Self::Move {
                tag,
                x_mm,
                y_mm,
                z_mm,
                zone,
            } => {
                let vehicle = bare(plan, library)?;
                let placed = movable(plan, tag)?;
                let keep = match &placed.place {
                    Place::Zone { id, .. } => Some(id.clone()),
                    Place::Free { .. } => None,
                };
                let zone = zone.clone().or(keep);
                placed.place = placed_in(&vehicle, zone.as_deref(), [*x_mm, *y_mm, *z_mm])?;
            }
            Self::Zone { tag, zone } => {
                let vehicle = bare(plan, library)?;
                let placed = movable(plan, tag)?;
                let at = vehicle.position(&placed.place);
                placed.place = placed_in(&vehicle, zone.as_deref(), [at.x, at.y, at.z])?;
            }
            Self::Turn { tag } => self.turn(plan, library, tag)?,
            Self::Delete { tag } => {
                let before = plan.placed.len() + plan.shafts.len();
                plan.placed.retain(|p| &p.tag != tag);
                plan.shafts.retain(|s| &s.tag != tag && &s.from != tag);
                if plan.placed.len() + plan.shafts.len() == before {
                    return Err(Refusal::new(format!("no part \"{tag}\" on the truck")));
                }
            }
            Self::Duplicate { tag } => {
                let vehicle = resolved(plan, library)?;
                let item = item_of(&vehicle, tag)?;
                let mut copy = find_placed(plan, tag)?.clone();
                let part = part_of(plan, library, &copy.part)?;
                copy.tag = free_tag(plan, &part);
                copy.locked = false;
                let gap = item
                    .clearance
                    .rear_mm
                    .unwrap_or(item.clearance.all_mm)
                    .max(30.0);
                let by = item.bounds.size().x + gap;
                match &mut copy.place {
                    Place::Zone {
                        from_front_mm: x, ..
                    }
                    | Place::Free { x_mm: x, .. } => *x += by,
                }
                plan.placed.push(copy.into());
            }
            Self::Mirror { tag } => {
                let vehicle = bare(plan, library)?;
                let placed = movable(plan, tag)?;
                // On the middle line it stays at 0, and not at a 0 with a sign.
                let at = vehicle.position(&placed.place);
                let zone = match &placed.place {
                    Place::Zone { id, .. } => Some(other_side(id)),
                    Place::Free { .. } => None,
                };
                placed.place = placed_in(&vehicle, zone.as_deref(), [at.x, 0.0 - at.y, at.z])?;
            }
            Self::Lock { tag, on } => find_placed(plan, tag)?.locked = *on,
            Self::Fill { tag, share } => {
                let id = find_placed(plan, tag)?.part.clone();
                if part_of(plan, library, &id)?.contents.is_none() {
                    return Err(Refusal::new(format!(
                        "{tag} holds nothing that could be filled"
                    )));
                }
                if !(0.0..=1.0).contains(share) {
                    let share = repeated(*share);
                    return Err(Refusal::new(format!(
                        "a level of {share} is not within 0 to 1"
                    )));
                }
                find_placed(plan, tag)?.fill = (*share != 1.0).then_some(*share);
            }
            Self::Retag { tag, new } => {
                if let Some(run) = plan.shafts.iter_mut().find(|run| &run.tag == tag) {
                    run.tag.clone_from(new);
                    return Ok(());
                }
                for run in &mut plan.shafts {
                    if &run.from == tag {
                        run.from.clone_from(new);
                    }
                }
                find_placed(plan, tag)?.tag.clone_from(new);
            }
            Self::Shaft(run) => {
                part_of(plan, library, &run.part)?;
                match plan.shafts.iter_mut().find(|s| s.tag == run.tag) {
                    Some(old) => old.clone_from(run),
                    None => plan.shafts.push(run.clone()),
                }
                let vehicle = resolved(plan, library)?;
                let path = format!("shafts.{}", run.tag);
                if let Some(problem) = vehicle.problems.iter().find(|p| p.path.starts_with(&path)) {
                    return Err(Refusal::new(problem.to_string()));
                }
            }
            _ => {}
        }
        Ok(())
    }

    /// Turns about the middle, so that the part stays where it is seen.
    fn turn(&self, plan: &mut Plan, library: &Library, tag: &str) -> Result<(), Refusal> {
        let middle = |vehicle: &Vehicle| item_of(vehicle, tag).map(|i| i.bounds.centre());
        let before = middle(&resolved(plan, library)?)?;
        let placed = movable(plan, tag)?;
        placed.turn = (placed.turn + 1) % 4;
        let after = middle(&resolved(plan, library)?)?;
        match &mut movable(plan, tag)?.place {
            Place::Zone {
                from_front_mm: x, ..
            }
            | Place::Free { x_mm: x, .. } => {
                *x += before.x - after.x;
            }
        }
        Ok(())
    }
}

fn item_of<'a>(vehicle: &'a Vehicle, tag: &str) -> Result<&'a Item, Refusal> {
    vehicle
        .item(tag)
        .ok_or_else(|| Refusal::new(format!("no part \"{tag}\" on the truck")))
}

fn movable<'a>(plan: &'a mut Plan, tag: &str) -> Result<&'a mut Placed, Refusal> {
    let placed = find_placed(plan, tag)?;
    if placed.locked {
        return Err(Refusal::new(format!("{tag} is locked; free it first")));
    }
    Ok(placed)
}

/// A place from truck coordinates, counted in a zone or free.
fn placed_in(vehicle: &Vehicle, zone: Option<&str>, at: [f64; 3]) -> Result<Place, Refusal> {
    let [x_mm, y_mm, z_mm] = at;
    let Some(id) = zone else {
        return Ok(Place::Free { x_mm, y_mm, z_mm });
    };
    let Some(found) = vehicle.zone(id) else {
        let known = listed(vehicle.zones.iter().map(|z| &z.id));
        return Err(Refusal::new(format!(
            "no zone \"{id}\" on this chassis ({known})"
        )));
    };
    let from_front_mm = x_mm - found.volume.min.x;
    Ok(Place::Zone {
        id: id.to_owned(),
        from_front_mm,
        y_mm,
        z_mm,
    })
}

fn other_side(zone: &str) -> String {
    match zone {
        "saddle-left" => "saddle-right".to_owned(),
        "saddle-right" => "saddle-left".to_owned(),
        other => other.to_owned(),
    }
}

/// An e-axle takes the place of the donor's driven axle, which therefore comes off.
fn strip_driven_axle(
    plan: &mut Plan,
    vehicle: &Vehicle,
    zone: Option<&str>,
) -> Result<(), Refusal> {
    let axle_ids = || vehicle.chassis.axles.iter().skip(1).map(|a| &a.id);
    let Some(axle) = zone.filter(|id| axle_ids().any(|a| a == id)) else {
        let list = listed(axle_ids());
        return Err(Refusal::new(format!(
            "an e-axle goes to an axle position ({list})"
        )));
    };
    known("axle", axle, vehicle.chassis.axles.iter().map(|a| &a.id))?;
    let on_it = |item: &Item| item.unsprung_axle.as_deref() == Some(axle);
    if let Some(other) = vehicle.items.iter().find(|item| on_it(item)) {
        return Err(Refusal::new(format!("{} is already at {axle}", other.tag)));
    }
    for item in &vehicle.donor.hardware {
        if item.drive_axle
            && item.unsprung_axle.as_deref() == Some(axle)
            && !plan.changes.stripped.contains(&item.id)
        {
            plan.changes.stripped.push(item.id.clone());
        }
    }
    sort(&mut plan.changes.stripped);
    Ok(())
}
