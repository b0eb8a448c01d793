//! Which dimensions each view shows.

use super::plane::{At, Rect, at};
use super::scene::{Group, TextRole};
use super::spans::{Rows, Run, Span};
use super::{Style, View};
use crate::geometry::Point;
use crate::quantity;
use crate::vehicle::{Item, Vehicle};

/// Where the rows of dimensions may start.
#[derive(Clone, Copy, Debug)]
pub struct Edges {
    /// Room of the truck itself in the view.
    pub truck: Rect,
    /// Below everything that hangs under the truck, such as the axle loads.
    pub below: f64,
    /// Truck millimetres to one paper millimetre.
    pub unit: f64,
}

fn truck_span(from: At, to: At, text: String) -> Span {
    Span { from, to, text, role: TextRole::Dimension }
}

/// Spreads of the axle groups, close under the wheels. Returns the group and where it ends.
pub fn spreads(vehicle: &Vehicle, style: &Style, edges: &Edges) -> (Group, f64) {
    let mut group = Group::layer("dimensions");
    let mut rows = Rows::new(Run::Level, edges.below, edges.unit);
    if style.dimensions {
        for axles in &vehicle.chassis.groups {
            let xs: Vec<f64> =
                axles.axles.iter().filter_map(|id| vehicle.axle(id)).map(|a| a.x_mm).collect();
            for pair in xs.windows(2) {
                let text = quantity::length(pair[1] - pair[0], style.units);
                rows.add(&mut group, &truck_span(at(pair[0], 0.0), at(pair[1], 0.0), text), 0);
            }
        }
    }
    if let Some(item) = chosen(vehicle, style) {
        let b = &item.bounds;
        for (from, to, text) in lengthwise(item, style) {
            let y = |x: f64| if x == 0.0 && from == 0.0 { 0.0 } else { -b.min.z.max(0.0) };
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
        rows.end().max(edges.below + super::spans::PITCH * edges.unit)
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
    let mut right = Rows::new(Run::RightOf, edges.truck.right + u, u);
    let mut left = Rows::new(Run::LeftOf, edges.truck.left - u, u);
    if style.dimensions {
        match view {
            View::Side => side(vehicle, style, &mut group, &mut below, &mut right, edges),
            View::Plan => plan(vehicle, style, &mut group, &mut left, &mut right),
            View::Rear => rear(vehicle, style, &mut group, &mut below, &mut right),
        }
    }
    if let Some(item) = chosen(vehicle, style) {
        part(item, view, style, &mut group, &mut below, &mut right);
    }
    let room = Rect {
        left: left.end(),
        right: right.end(),
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
    right.add(group, &truck_span(at(end, 0.0), at(end, -top), length(top)), 0);
    if let Some(fw) = &vehicle.chassis.fifth_wheel {
        let x = vehicle.kingpin().map_or(end, |k| k.x);
        let span = truck_span(at(x.max(end), 0.0), at(x + 600.0, -fw.top_z_mm), length(fw.top_z_mm));
        right.add(group, &span, 1);
    } else {
        let (x, z) = vehicle
            .chassis
            .body
            .as_ref()
            .map_or((d.back_of_cab_x_mm(), vehicle.chassis.cab.roof_z_mm), |b| (b.rear_x_mm, b.top_z_mm));
        right.add(group, &truck_span(at(end.max(x), 0.0), at(x, -z), length(z)), 1);
    }
}

fn plan(vehicle: &Vehicle, style: &Style, group: &mut Group, left: &mut Rows, right: &mut Rows) {
    let d = &vehicle.chassis.dimensions;
    let length = |mm: f64| quantity::length(mm, style.units);
    let across = |x: f64, width: f64| {
        truck_span(at(x, -width / 2.0), at(x, width / 2.0), length(width))
    };
    left.add(group, &across(d.bumper_x_mm() + 150.0, d.overall_width_mm), 0);
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
    right.add(group, &truck_span(at(d.frame_width_mm / 2.0, 0.0), at(d.frame_width_mm / 2.0, -top), length(top)), 0);
}

fn chosen<'a>(vehicle: &'a Vehicle, style: &Style) -> Option<&'a Item> {
    let tag = style.selected.as_deref().filter(|_| style.part_dimensions)?;
    vehicle.item(tag).filter(|item| item.bounds.has_place())
}

/// Front face behind the front axle, and length, of a part.
fn lengthwise(item: &Item, style: &Style) -> [(f64, f64, String); 2] {
    let b = &item.bounds;
    let size = b.size();
    [
        (0.0, b.min.x, format!("x {}", quantity::length(b.min.x, style.units))),
        (b.min.x, b.max.x, format!("L {}", quantity::length(size.x, style.units))),
    ]
}

fn part(
    item: &Item,
    view: View,
    style: &Style,
    group: &mut Group,
    below: &mut Rows,
    right: &mut Rows,
) {
    let b = &item.bounds;
    let r = view.rect(b);
    let middle = b.centre();
    let mut add = |rows: &mut Rows, from: At, to: At, text: String| {
        let span = Span { from, to, text, role: TextRole::PartDimension };
        rows.add(group, &span, 0);
    };
    let y_text = format!("y {}", quantity::length(middle.y, style.units));
    let z_text = format!("z {}", quantity::length(b.min.z, style.units));
    let low = view.at(Point::new(b.max.x, b.max.y, b.min.z));
    match view {
        View::Side => add(right, at(r.right, 0.0), at(r.right, low.y), z_text),
        View::Plan => {
            for (from, to, text) in lengthwise(item, style) {
                add(below, at(from, r.bottom), at(to, r.bottom), text);
            }
            add(right, at(r.right, 0.0), at(r.right, r.centre().y), y_text);
        }
        View::Rear => {
            add(below, at(0.0, r.bottom), at(r.centre().x, r.bottom), y_text);
            add(right, at(r.right, 0.0), at(r.right, low.y), z_text);
        }
    }
}
