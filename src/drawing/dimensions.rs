//! Which dimensions each view shows.

use super::plane::{At, Rect, at};
use super::scene::{Anchor, Group, Role, Text, TextRole};
use super::spans::{FIGURE, Rows, Run, Span, arrow};
use super::{Style, View};
use crate::quantity;
use crate::vehicle::{Item, Vehicle};

/// Where the rows of dimensions may start.
#[derive(Clone, Copy, Debug)]
pub struct Edges {
    /// Room of the truck itself in the view.
    pub truck: Rect,
    /// Where upright dimensions at the rear may stand.
    pub rear: f64,
    /// Below everything that hangs under the truck, such as the axle loads.
    pub below: f64,
    /// Truck millimetres to one paper millimetre.
    pub unit: f64,
}

fn truck_span(from: At, to: At, text: String) -> Span {
    Span {
        from,
        to,
        text,
        role: TextRole::Dimension,
    }
}

/// Spreads of the axle groups, close under the wheels. Returns the group and where it ends.
pub fn spreads(vehicle: &Vehicle, style: &Style, edges: &Edges) -> (Group, f64) {
    let mut group = Group::layer("dimensions");
    let mut rows = Rows::new(Run::Level, edges.below, edges.unit);
    if style.dimensions {
        for axles in &vehicle.chassis.groups {
            let xs: Vec<f64> = axles
                .axles
                .iter()
                .filter_map(|id| vehicle.axle(id))
                .map(|a| a.x_mm)
                .collect();
            for pair in xs.windows(2) {
                let text = quantity::length(pair[1] - pair[0], style.units);
                rows.add(
                    &mut group,
                    &truck_span(at(pair[0], 0.0), at(pair[1], 0.0), text),
                    0,
                );
            }
        }
    }
    if let Some(item) = chosen(vehicle, style) {
        let b = &item.bounds;
        for (from, to, text) in lengthwise(item, style) {
            let y = |x: f64| {
                if x == 0.0 && from == 0.0 {
                    0.0
                } else {
                    -b.min.z.max(0.0)
                }
            };
            let span = Span {
                from: at(from, y(from)),
                to: at(to, y(to)),
                text,
                role: TextRole::PartDimension,
            };
            rows.add(&mut group, &span, 0);
        }
    }
    // The row stays, chosen part or not, so that the drawing does not jump while one drags.
    let end = if style.part_dimensions || !group.shapes.is_empty() {
        rows.end()
            .max(edges.below + super::spans::PITCH * edges.unit)
    } else {
        edges.below
    };
    (group, end)
}

/// Main dimensions. Returns the group, and the room that it takes.
pub fn main(vehicle: &Vehicle, view: View, style: &Style, edges: &Edges) -> (Group, Rect) {
    let mut group = Group::layer("dimensions");
    let u = edges.unit;
    let mut below = Rows::new(Run::Level, edges.below, u);
    let mut right = Rows::new(Run::RightOf, edges.rear + u, u);
    let mut left = Rows::new(Run::LeftOf, edges.truck.left - u, u);
    if style.dimensions {
        match view {
            View::Side => side(vehicle, style, &mut group, &mut below, &mut right, edges),
            View::Plan | View::Turn => plan(vehicle, style, &mut group, &mut left, &mut right),
            View::Rear => rear(vehicle, style, &mut group, &mut below, &mut right),
        }
    }
    if let Some(item) = chosen(vehicle, style) {
        part(item, view, style, &mut group, &mut below, u);
    }
    let room = Rect {
        left: left.end(),
        right: right.end().max(edges.truck.right),
        top: edges.truck.top,
        bottom: below.end().max(edges.below),
    };
    (group, room)
}

fn side(
    vehicle: &Vehicle,
    style: &Style,
    group: &mut Group,
    below: &mut Rows,
    right: &mut Rows,
    edges: &Edges,
) {
    let d = &vehicle.chassis.dimensions;
    let length = |mm: f64| quantity::length(mm, style.units);
    let bumper = d.bumper_x_mm();
    let cab = d.back_of_cab_x_mm();
    let (axle, end) = (d.wheelbase_mm, d.frame_end_x_mm());
    let y = edges.below;
    let mut add = |row: usize, from: f64, to: f64, name: &str, mm: f64| {
        let span = truck_span(at(from, y), at(to, y), format!("{name} {}", length(mm)));
        below.add(group, &span, row);
    };
    add(0, bumper, 0.0, "BA", d.bumper_to_axle_mm);
    add(0, 0.0, axle, "WB", d.wheelbase_mm);
    add(0, axle, end, "AF", d.after_frame_mm);
    add(1, bumper, cab, "BBC", d.bumper_to_back_of_cab_mm);
    add(1, cab, axle, "CA", d.cab_to_axle_mm());
    add(2, bumper, end, "OAL", d.overall_length_mm());
    let top = d.frame_top_laden_mm;
    right.add(
        group,
        &truck_span(at(end, 0.0), at(end, -top), length(top)),
        0,
    );
    if let Some(fw) = &vehicle.chassis.fifth_wheel {
        let x = vehicle.kingpin().map_or(end, |k| k.x);
        let span = truck_span(
            at(x.max(end), 0.0),
            at(x + 600.0, -fw.top_z_mm),
            length(fw.top_z_mm),
        );
        right.add(group, &span, 1);
    } else {
        let (x, z) = vehicle
            .chassis
            .body
            .as_ref()
            .map_or((d.back_of_cab_x_mm(), vehicle.chassis.cab.roof_z_mm), |b| {
                (b.rear_x_mm, b.top_z_mm)
            });
        right.add(
            group,
            &truck_span(at(end.max(x), 0.0), at(x, -z), length(z)),
            1,
        );
    }
}

fn plan(vehicle: &Vehicle, style: &Style, group: &mut Group, left: &mut Rows, right: &mut Rows) {
    let d = &vehicle.chassis.dimensions;
    let length = |mm: f64| quantity::length(mm, style.units);
    let across =
        |x: f64, width: f64| truck_span(at(x, -width / 2.0), at(x, width / 2.0), length(width));
    left.add(
        group,
        &across(d.bumper_x_mm() + 150.0, d.overall_width_mm),
        0,
    );
    right.add(group, &across(d.frame_end_x_mm(), d.frame_width_mm), 0);
    if let Some(axle) = vehicle.chassis.axles.last() {
        right.add(group, &across(axle.x_mm, axle.track_mm), 1);
    }
}

fn rear(vehicle: &Vehicle, style: &Style, group: &mut Group, below: &mut Rows, right: &mut Rows) {
    let d = &vehicle.chassis.dimensions;
    let length = |mm: f64| quantity::length(mm, style.units);
    let across =
        |z: f64, width: f64| truck_span(at(-width / 2.0, -z), at(width / 2.0, -z), length(width));
    if let Some(axle) = vehicle.chassis.axles.last() {
        below.add(group, &across(0.0, axle.track_mm), 0);
    }
    below.add(group, &across(0.0, d.overall_width_mm), 1);
    let top = d.frame_top_laden_mm;
    right.add(
        group,
        &truck_span(
            at(d.frame_width_mm / 2.0, 0.0),
            at(d.frame_width_mm / 2.0, -top),
            length(top),
        ),
        0,
    );
}

fn chosen<'a>(vehicle: &'a Vehicle, style: &Style) -> Option<&'a Item> {
    let tag = style
        .selected
        .as_deref()
        .filter(|_| style.part_dimensions)?;
    vehicle.item(tag).filter(|item| item.bounds.has_place())
}

/// Front face behind the front axle, and length, of a part.
fn lengthwise(item: &Item, style: &Style) -> [(f64, f64, String); 2] {
    let b = &item.bounds;
    let size = b.size();
    [
        (
            0.0,
            b.min.x,
            format!("x {}", quantity::length(b.min.x, style.units)),
        ),
        (
            b.min.x,
            b.max.x,
            format!("L {}", quantity::length(size.x, style.units)),
        ),
    ]
}

fn part(item: &Item, view: View, style: &Style, group: &mut Group, below: &mut Rows, unit: f64) {
    let b = &item.bounds;
    let r = view.rect(b);
    let middle = b.centre();
    let mut add = |from: At, to: At, text: String| {
        let span = Span {
            from,
            to,
            text,
            role: TextRole::PartDimension,
        };
        below.add(group, &span, 0);
    };
    let y_text = format!("y {}", quantity::length(middle.y, style.units));
    let z_text = format!("z {}", quantity::length(b.min.z, style.units));
    // Beside the part, on the side where nothing else stands.
    let forward = r.left > 0.0;
    match view {
        View::Side => upright(group, &r, (0.0, r.bottom), forward, z_text, unit),
        View::Plan | View::Turn => {
            for (from, to, text) in lengthwise(item, style) {
                add(at(from, r.bottom), at(to, r.bottom), text);
            }
            upright(group, &r, (0.0, r.centre().y), forward, y_text, unit);
        }
        View::Rear => {
            add(at(0.0, r.bottom), at(r.centre().x, r.bottom), y_text);
            upright(group, &r, (0.0, r.bottom), r.centre().x > 0.0, z_text, unit);
        }
    }
}

/// A short upright dimension beside a part, its figure lying next to it.
fn upright(group: &mut Group, r: &Rect, (from, to): (f64, f64), left: bool, text: String, u: f64) {
    if (to - from).abs() < 1.0 || !r.is_finite() {
        return;
    }
    let sign = if left { -1.0 } else { 1.0 };
    let edge = if left { r.left } else { r.right };
    let x = edge + sign * 1.6 * u;
    let role = TextRole::PartDimension;
    group.draw(Role::Extension, |p| {
        p.line(at(edge + sign * 0.4 * u, to), at(x + sign * u, to));
        p.line(at(x - sign * u, from), at(x + sign * u, from));
    });
    group.draw(Role::Dimension, |p| {
        p.line(at(x, from), at(x, to));
    });
    let way = if to > from { 1.0 } else { -1.0 };
    group.draw(Role::Arrow, |p| {
        arrow(p, at(x, from), at(x, from + way * 2.2 * u), u);
        arrow(p, at(x, to), at(x, to - way * 2.2 * u), u);
    });
    let anchor = if left { Anchor::End } else { Anchor::Start };
    let y = f64::midpoint(from, to) + 0.36 * FIGURE * u;
    group.text(Text::new(
        role,
        x + sign * 0.9 * u,
        y,
        anchor,
        FIGURE * u,
        text,
    ));
}
