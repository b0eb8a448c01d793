//! Placed parts: outline with the hatch of the kind, symbol, and whether one can see them.

use super::cover::{Cover, sights};
use super::plane::{Path, Rect, at};
use super::scene::{Group, Owner, Role, Sight};
use super::tags::Tag;
use super::{Severity, Style, View, symbol};
use crate::geometry::Solid;
use crate::numeric::ascending;
use crate::part::Kind;
use crate::quantity::Measure;
use crate::shared::Shared;
use crate::vehicle::{BodyKind, Item, Vehicle};

/// A part as the view sees it.
#[derive(Clone, Copy, Debug)]
pub struct Seen {
    /// Index among the vehicle's items.
    pub index: usize,
    /// Box of its outline.
    pub rect: Rect,
    /// Whether it can be seen.
    pub sight: Sight,
    /// Part in front of it, when that hides it.
    pub by: Option<usize>,
    /// Nearness to the eye.
    pub near: f64,
}

/// Farthest a part may stand from the front axle and still be drawn, mm.
const REACH_MM: f64 = 30_000.0;

/// All parts that have a place, farthest first.
#[must_use]
pub fn seen(vehicle: &Vehicle, view: View, room: &Rect) -> Vec<Seen> {
    let limit = Rect::about(at(0.0, 0.0), 2.0 * REACH_MM, 2.0 * REACH_MM);
    let mut parts: Vec<Seen> = Vec::with_capacity(vehicle.items.len());
    let mut covers = Vec::with_capacity(vehicle.items.len() + vehicle.bodies.len());
    // Of what is equally near the truck's own covers first.
    for body in vehicle.bodies.iter() {
        // A body and a trailer are drawn as outlines only in plan, and hide nothing there.
        if view == View::Plan && body.kind == BodyKind::Body {
            continue;
        }
        let box_ = body.bounds();
        let mut rect = view.rect(&box_);
        if view == View::Side && matches!(body.kind, BodyKind::Tyre(_)) {
            // A disc fills less than its box.
            rect = rect.grown(-rect.width() * 0.06);
        }
        covers.push(Cover {
            rect,
            near: view.near_face(&box_),
            item: None,
        });
    }
    covers.extend(hood(vehicle, view));
    for (index, item) in vehicle.items.iter().enumerate() {
        let rect = view.rect(&item.bounds);
        if !item.bounds.has_place() || !limit.contains(&rect) {
            continue;
        }
        let near = view.near_face(&item.bounds);
        // Cables, brackets and fluid lie along others and hide nothing.
        let near = if item.part.soft {
            near - 10_000.0
        } else {
            near
        };
        covers.push(Cover {
            rect,
            near,
            item: Some(index),
        });
        parts.push(Seen {
            index,
            rect,
            sight: Sight::Open,
            by: None,
            near,
        });
    }
    let sights = sights(covers, room, vehicle.items.len());
    for part in &mut parts {
        (part.sight, part.by) = sights[part.index];
    }
    let order = ascending(parts.iter().map(|part| part.near));
    order.into_iter().map(|at| parts[at]).collect()
}

/// The hood, which is no body of the vehicle but hides what lies below it.
fn hood(vehicle: &Vehicle, view: View) -> Option<Cover> {
    let chassis = &vehicle.chassis;
    let (front, back) = (chassis.dimensions.bumper_x_mm(), chassis.cab.front_x_mm);
    let half = chassis.cab.width_mm / 2.0;
    let top = chassis.cab.hood_top_z_mm;
    match view {
        View::Side => Some(Cover {
            rect: Rect::new(
                at(front, -top),
                at(back, -chassis.dimensions.frame_top_laden_mm),
            ),
            near: half,
            item: None,
        }),
        View::Plan | View::Turn => Some(Cover {
            rect: Rect::new(at(front, -half), at(back, half)),
            near: top,
            item: None,
        }),
        View::Rear => None,
    }
}

/// The group of one part.
#[must_use]
pub fn part(
    item: &Item,
    seen: &Seen,
    view: View,
    style: &Style,
    tag: Option<&Shared<Tag>>,
    severity: Option<Severity>,
    unit: f64,
) -> Group {
    let selected = style.selected.as_deref() == Some(item.tag.as_str());
    let mut group = Group::new(Owner::Part {
        tag: item.tag.clone(),
        kind: item.part.kind,
        label: label(item, style),
        sight: seen.sight,
        soft: item.part.soft,
        selected,
        severity,
    });
    match item.solids.as_slice() {
        [Solid::Block(_)] => group.rounded(Role::Shape, seen.rect, 22.0),
        _ => group.draw(Role::Shape, |p| outline(p, item, view)),
    }
    if seen.sight == Sight::Behind && !selected {
        return group;
    }
    group.draw(Role::Symbol, |p| {
        fittings(p, item, view, &seen.rect, unit);
        glyph(p, item.part.kind, &seen.rect, tag.map(AsRef::as_ref), unit);
    });
    group
}

/// What a person is told about a part.
fn label(item: &Item, style: &Style) -> String {
    // Put together piece by piece: there is one for each part in each of three views.
    let mut label = String::with_capacity(96);
    label.push_str(&item.tag);
    label.push(' ');
    label.push_str(&item.part.name);
    label.push_str(", ");
    Measure::Mass.write(&mut label, item.planned_kg(), style.units);
    label.push_str(", ");
    let zone = item.zone.as_deref().unwrap_or("placed freely");
    label.extend(zone.chars().map(|c| if c == '-' { ' ' } else { c }));
    label
}

fn outline(p: &mut Path, item: &Item, view: View) {
    let bottle = matches!(item.part.kind, Kind::GasTank);
    for solid in &item.solids {
        let r = view.rect(&solid.aabb());
        match solid {
            Solid::Cylinder { from, to, radius } if bottle => {
                let (a, b) = (view.at(*from), view.at(*to));
                let (dx, dy) = ((a.x - b.x).abs(), (a.y - b.y).abs());
                if dx.min(dy) > 1.0 || dx.max(dy) < radius * 0.8 {
                    p.join(&view.outline(solid));
                } else {
                    symbol::bottle(p, &r, dx > dy);
                }
            }
            Solid::Block(_) => {
                p.rect(&r);
            }
            _ => {
                p.join(&view.outline(solid));
            }
        }
    }
}

/// What a part of its kind has on the outside, filling its outline.
fn fittings(p: &mut Path, item: &Item, view: View, r: &Rect, unit: f64) {
    let (w, h) = (r.width(), r.height());
    if w.min(h) < 2.2 * unit {
        return;
    }
    match item.part.kind {
        Kind::BatteryPack => {
            // Lid seam and mounting feet.
            let lid = r.top + (0.1 * h).min(70.0);
            if view != View::Plan {
                p.line(at(r.left, lid), at(r.right, lid));
            }
            let inset = 0.9 * unit;
            if w.min(h) > 6.0 * unit {
                let inner = r.grown(-inset);
                for (x, y) in [
                    (inner.left, inner.bottom),
                    (inner.right, inner.bottom),
                    (inner.left, inner.top.max(lid + inset)),
                    (inner.right, inner.top.max(lid + inset)),
                ] {
                    p.circle(at(x, y), 0.35 * unit);
                }
            }
        }
        Kind::GasTank
            if !item
                .solids
                .iter()
                .any(|s| matches!(s, Solid::Cylinder { .. })) =>
        {
            rack(p, item, view, r);
        }
        Kind::Radiator | Kind::BrakeResistor => {
            let bar = (0.12 * h).min(80.0);
            p.line(at(r.left, r.top + bar), at(r.right, r.top + bar));
            p.line(at(r.left, r.bottom - bar), at(r.right, r.bottom - bar));
        }
        Kind::FuelCell => {
            let bar = (0.1 * w).min(90.0);
            p.line(at(r.left + bar, r.top), at(r.left + bar, r.bottom));
            p.line(at(r.right - bar, r.top), at(r.right - bar, r.bottom));
        }
        Kind::JunctionBox | Kind::Inverter | Kind::DcDc | Kind::OnBoardCharger => {
            p.rounded(&r.grown(-0.6 * unit), 20.0);
        }
        _ => {}
    }
}

/// Cylinders in a rack that the catalogue gives as one box: they lie along its longest level side.
fn rack(p: &mut Path, item: &Item, view: View, r: &Rect) {
    let size = item.bounds.size();
    let across = size.y >= size.x;
    let round = if across { size.x } else { size.y } * 0.84;
    let end_on = matches!((view, across), (View::Side, true) | (View::Rear, false));
    let stack = |height: f64| {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped"
        )]
        let count = (height / (round * 1.06)).floor().clamp(1.0, 12.0) as u32;
        (count, height / f64::from(count))
    };
    if view == View::Plan {
        let inner = r.grown(-r.width().min(r.height()) * 0.08);
        symbol::bottle(p, &inner, !across);
        return;
    }
    let (count, pitch) = stack(r.height());
    for i in 0..count {
        let y = r.top + (f64::from(i) + 0.5) * pitch;
        let thick = round.min(pitch * 0.92);
        if end_on {
            p.circle(at(r.centre().x, y), thick / 2.0);
            p.circle(at(r.centre().x, y), thick * 0.08);
        } else {
            let lying = Rect::about(at(r.centre().x, y), r.width() * 0.94, thick);
            symbol::bottle(p, &lying, true);
        }
    }
}

/// The symbol of the kind, where the tag leaves room for it.
fn glyph(p: &mut Path, kind: Kind, r: &Rect, tag: Option<&Tag>, unit: f64) {
    let half = (r.width().min(r.height()) * 0.36).min(4.2 * unit);
    if half < 1.1 * unit {
        return;
    }
    let mut free = *r;
    if let Some(tag) = tag.filter(|tag| !tag.spot.leader) {
        // The larger strip beside or below the tag.
        let t = &tag.spot.rect;
        let right = Rect {
            left: t.right,
            ..*r
        };
        let left = Rect {
            right: t.left,
            ..*r
        };
        let below = Rect {
            top: t.bottom,
            ..*r
        };
        let above = Rect {
            bottom: t.top,
            ..*r
        };
        let room = |s: &Rect| s.width().min(s.height());
        let best = [below, right, above, left]
            .into_iter()
            .reduce(|a, b| if room(&b) > room(&a) + 1.0 { b } else { a });
        free = best.unwrap_or(*r);
    }
    let half = half.min(free.width() * 0.4).min(free.height() * 0.4);
    if half >= 1.1 * unit {
        symbol::draw(p, kind, free.centre(), half);
    }
}

/// Kinds that occur among the seen parts, for their hatches.
pub fn kinds(vehicle: &Vehicle, parts: &[Seen]) -> std::collections::BTreeSet<Kind> {
    parts
        .iter()
        .map(|s| vehicle.items[s.index].part.kind)
        .collect()
}
