//! Composes a view: truck, parts, dimensions, loads, findings and tags, each in its place.

use super::drawn::{Bare, Drawn, Made, PartDrawn};
use super::labels::Labels;
use super::plane::{Rect, at};
use super::scene::{Group, Role, Scene};
use super::{
    Marks, Style, View, angles, bending, dimensions, loads, parts, pointers, spans, tags, truck,
    zones,
};
use crate::shared::Shared;
use crate::vehicle::Vehicle;

/// Truck millimetres to one paper millimetre on the page's stage.
pub const STAGE_UNIT: f64 = 42.0;

/// Composes one view; `unit` is how many truck millimetres one millimetre of paper shows.
#[must_use]
pub fn compose(vehicle: &Vehicle, marks: &Marks, view: View, style: &Style, unit: f64) -> Scene {
    scene(vehicle, marks, view, style, unit, None).0
}

/// Draws one view of the truck for the page's stage ([`View::Turn`] as a plan without its turn, which
/// is followed only when somebody asks for it); what looks alike is taken from the drawing before.
#[must_use]
pub fn stage(
    vehicle: &Shared<Vehicle>,
    marks: &Marks,
    view: View,
    style: &Style,
    before: Option<&Drawn>,
) -> Drawn {
    let alike = |b: &&Drawn| b.scene.view == view && b.style.units == style.units;
    let before = before.filter(alike);
    let (scene, made) = scene(vehicle, marks, view, style, STAGE_UNIT, before);
    Drawn {
        scene,
        of: vehicle.clone(),
        style: style.clone(),
        made,
    }
}

fn scene(
    vehicle: &Vehicle,
    marks: &Marks,
    view: View,
    style: &Style,
    unit: f64,
    before: Option<&Drawn>,
) -> (Scene, Made) {
    let u = unit;
    let bare = before.and_then(|b| b.bare(vehicle)).unwrap_or_else(|| {
        let bare = Bare {
            extent: extent(vehicle, view),
            truck: shared(truck::truck(vehicle, view)),
            trailer: truck::trailer(vehicle, view).map(Shared::from),
        };
        bare.into()
    });
    let extent = bare.extent;
    let parts = parts::seen(vehicle, view, &extent.grown(2_000.0));
    let truck = parts.iter().fold(extent, |sum, part| sum.union(&part.rect));

    // What stands below and beside the truck comes first: its room is known without searching.
    let mut outside = Vec::new();
    // Behind a trailer's nose the frame ends in the open: upright dimensions stand there.
    let end = vehicle.chassis.dimensions.frame_end_x_mm();
    let rear = vehicle
        .trailer
        .as_ref()
        .filter(|_| view == View::Side)
        .map(|coupled| {
            let legs = coupled.kingpin.x + coupled.trailer.legs.behind_kingpin_mm;
            (
                parts.iter().map(|part| part.rect.right).fold(end, f64::max),
                legs,
            )
        });
    let rear = rear
        .filter(|(end, legs)| end + 13.0 * u < *legs)
        .map_or(truck.right, |r| r.0);
    let mut edges = dimensions::Edges {
        truck,
        rear,
        below: truck.bottom + 0.5 * u,
        unit: u,
    };
    if view == View::Side {
        edges.below = truck.bottom.max(0.0) + 3.6 * u;
        if style.angles && !marks.angles.is_empty() {
            let (group, end) = angles::angles(marks, u);
            outside.push(group);
            edges.below = edges.below.max(end + 1.4 * u);
        }
        let (group, end) = dimensions::spreads(vehicle, style, &edges);
        let (groups, end) = loads::loads(marks, end + 0.6 * u, u);
        outside.extend(groups);
        outside.push(group);
        edges.below = end;
    }
    let (group, mut used) = dimensions::main(vehicle, view, style, &edges);
    outside.push(group);
    let bending = marks
        .frame
        .as_ref()
        .filter(|_| view == View::Side && style.frame);
    if let Some(mark) = bending {
        let (group, end) = bending::diagram(mark, used.bottom, u);
        outside.push(group);
        used.bottom = end;
    }
    let room = Rect {
        left: used.left - 2.0 * u,
        right: used.right + 2.0 * u,
        top: truck.top - 7.0 * u,
        bottom: used.bottom + u,
    };
    let texts = outside.iter().flat_map(spans::text_rects);
    let room = texts.fold(room, |sum, t| sum.union(&t.grown(u)));

    let mut labels = Labels::new(room, 5.0 * u, before.map(|b| &b.made.labels));
    for rect in outside.iter().flat_map(spans::text_rects) {
        labels.take(rect.grown(0.3 * u));
    }
    // Tags stay above the ground, off the rows of dimensions.
    if view != View::Plan {
        labels.take(Rect {
            top: 0.5 * u,
            bottom: room.bottom,
            ..room
        });
    }
    // In the order of the plan, which a move does not change.
    let mut boxes: Vec<Option<Rect>> = vec![None; vehicle.items.len()];
    for part in &parts {
        boxes[part.index] = Some(part.rect);
    }
    for rect in boxes.into_iter().flatten() {
        labels.avoid(rect);
    }
    let swing = (view == View::Plan && style.dimensions)
        .then(|| truck::swing_words(vehicle, style, &mut labels, u))
        .flatten();
    let cg = marks
        .cg
        .filter(|p| p.has_place())
        .map(|p| loads::cg(view.at(p), &mut labels, u));
    let pointers = pointers::pointers(marks, &truck, view, style, &mut labels, u);
    let tags = tags::place(vehicle, &parts, view, style, &mut labels, u, before);
    let (zones, zone_names) = if style.zones {
        zones::zones(vehicle, view, &room, &mut labels, u)
    } else {
        (Vec::new(), Group::layer("zone-names"))
    };

    let mut drawn: Vec<Option<PartDrawn>> = vec![None; vehicle.items.len()];
    let mut groups = vec![Shared::from(ground(view, &truck, &room, u))];
    if view != View::Plan {
        groups.extend(bare.trailer.clone());
    }
    groups.extend(bare.truck.iter().cloned());
    if style.hardware {
        groups.push(truck::ghosts(vehicle, view).into());
    }
    groups.extend(shared(zones));
    let behind = |seen: &&parts::Seen| seen.sight == super::Sight::Behind;
    let in_order = parts.iter().filter(|s| !behind(s));
    for seen in in_order.chain(parts.iter().filter(behind)) {
        let item = &vehicle.items[seen.index];
        let tag = tags[seen.index].as_ref();
        let selected = style.selected.as_deref() == Some(item.tag.as_str());
        let severity = marks.parts.get(&item.tag).copied();
        let known = before.and_then(|b| b.part(vehicle, seen.index));
        let known = known.filter(|p| p.is_of(seen.sight, selected, severity, tag));
        let part = known.cloned().unwrap_or_else(|| PartDrawn {
            sight: seen.sight,
            selected,
            severity,
            tag: tag.cloned(),
            group: parts::part(item, seen, view, style, tag, severity, u).into(),
            plate: tag.map(|tag| tags::draw(tag, &item.tag, u).into()),
        });
        groups.push(part.group.clone());
        drawn[seen.index] = Some(part);
    }
    if view == View::Plan {
        groups.extend(bare.trailer.clone());
    }
    groups.push(zone_names.into());
    groups.extend(swing.map(Shared::from));
    groups.extend(shared(outside));
    groups.extend(drawn.iter().flatten().filter_map(|part| part.plate.clone()));
    groups.extend(cg.map(Shared::from));
    groups.extend(shared(pointers));
    groups.retain(|g| !g.shapes.is_empty());

    let scene = Scene {
        view,
        title: format!("{}, {} view", vehicle.name, view.word()),
        description: description(vehicle, marks, view),
        unit: u,
        bounds: room.grown(u),
        kinds: parts::kinds(vehicle, &parts),
        groups,
        page: None,
    };
    let made = Made {
        bare,
        labels: labels.into_record(),
        parts: drawn,
    };
    (scene, made)
}

fn shared(groups: impl IntoIterator<Item = Group>) -> Vec<Shared<Group>> {
    groups.into_iter().map(Shared::from).collect()
}

fn description(vehicle: &Vehicle, marks: &Marks, view: View) -> String {
    let from = match view {
        View::Side => "from its left side, front to the left",
        View::Plan | View::Turn => "from above, front to the left",
        View::Rear => "from behind",
    };
    let loads: Vec<String> = marks
        .axle_loads
        .iter()
        .map(|m| format!("{} {}, {}", m.name, m.load, m.margin))
        .collect();
    let loads = if loads.is_empty() {
        String::new()
    } else {
        format!(" {}.", loads.join("; "))
    };
    format!(
        "{} seen {from}, with {} placed parts.{loads}",
        vehicle.chassis.name,
        vehicle.items.len()
    )
}

/// Room of the bare truck, its body and the trailer's front in the view.
fn extent(vehicle: &Vehicle, view: View) -> Rect {
    let d = &vehicle.chassis.dimensions;
    let bodies = vehicle
        .bodies
        .iter()
        .map(super::super::vehicle::Body::bounds);
    let boxes = bodies
        .filter(crate::geometry::Aabb::has_place)
        .map(|b| view.rect(&b));
    // Mirrors stand beside the cab.
    let half = (d.overall_width_mm / 2.0).max(vehicle.chassis.cab.width_mm / 2.0 + 240.0);
    let base = match view {
        View::Side => Rect::new(at(d.bumper_x_mm(), 0.0), at(d.frame_end_x_mm(), -1_000.0)),
        View::Plan | View::Turn => {
            Rect::new(at(d.bumper_x_mm(), -half), at(d.frame_end_x_mm(), half))
        }
        View::Rear => Rect::new(at(-half, 0.0), at(half, -1_000.0)),
    };
    let mut all = boxes.fold(base, |sum, one| sum.union(&one));
    if let Some(group) = truck::trailer(vehicle, view) {
        for shape in &group.shapes {
            let room = match shape {
                super::Shape::Path(_, path) => path.bounds(),
                super::Shape::Box(_, r, _) => Some(*r),
                super::Shape::Text(_) => None,
            };
            all = room.map_or(all, |b| all.union(&b));
        }
    }
    if view != View::Plan {
        // Tyres reach a little below the ground before they are flattened.
        all.bottom = 0.0;
    }
    all
}

/// Ground line with earth strokes, or the centre line in plan.
fn ground(view: View, truck: &Rect, room: &Rect, u: f64) -> Group {
    let mut group = Group::layer("ground");
    match view {
        View::Plan | View::Turn => group.draw(Role::CentreLine, |p| {
            p.line(
                at(truck.left - 3.0 * u, 0.0),
                at(truck.right + 3.0 * u, 0.0),
            );
        }),
        View::Side | View::Rear => {
            let left = (truck.left - 6.0 * u).max(room.left);
            let right = (truck.right + 3.0 * u).min(room.right);
            group.draw(Role::Earth, |p| {
                let mut x = left;
                while x < right - 1.2 * u {
                    p.line(at(x + 1.2 * u, 0.0), at(x, 1.2 * u));
                    x += 2.4 * u;
                }
            });
            group.draw(Role::Ground, |p| {
                p.line(at(left, 0.0), at(right, 0.0));
            });
            if view == View::Rear {
                group.draw(Role::CentreLine, |p| {
                    p.line(at(0.0, truck.top - 3.0 * u), at(0.0, 2.0 * u));
                });
            }
        }
    }
    group
}
