//! The front of the trailer as far as the tractor's plan needs it: nose, legs, swing.

use super::super::labels::{Labels, leader};
use super::super::plane::{Path, Rect, at};
use super::super::scene::{Anchor, Group, Role, Text, TextRole};
use super::super::text::width;
use super::super::{Style, View};
use super::{side_rect, xz};
use crate::numeric::{cos, sin};
use crate::quantity;
use crate::vehicle::Vehicle;

/// How much of the trailer is drawn behind the end of the frame, mm.
const SHOWN_MM: f64 = 750.0;

/// Nose with a broken line, landing legs, and in plan the circle on which the nose swings.
#[must_use]
pub fn trailer(vehicle: &Vehicle, view: View) -> Option<Group> {
    let coupled = vehicle.trailer.as_ref()?;
    let t = &coupled.trailer;
    let mut group = Group::layer("trailer-front");
    let whole = coupled.box_ahead();
    let nose = whole.min.x;
    let king = coupled.kingpin;
    let half = t.width_mm / 2.0;
    let legs_x = king.x + t.legs.behind_kingpin_mm;
    let end = vehicle.chassis.dimensions.frame_end_x_mm();
    let cut = whole
        .max
        .x
        .min((end + SHOWN_MM).max(legs_x + 500.0))
        .max(nose + 500.0);
    match view {
        View::Side => {
            let (low, high) = (t.nose_z_mm, t.top_z_mm);
            group.draw(Role::Trailer, |p| {
                p.from(xz(cut, low))
                    .to(xz(nose + 30.0, low))
                    .to(xz(nose, low + 90.0));
                p.to(xz(nose, high - 70.0))
                    .bend(xz(nose, high), xz(nose + 70.0, high));
                p.to(xz(cut, high));
                zigzag(p, cut, -high, -low);
                p.close();
            });
            group.draw(Role::Rib, |p| {
                p.line(xz(nose + 12.0, low + 150.0), xz(cut, low + 150.0));
                p.line(xz(nose + 30.0, high - 90.0), xz(cut, high - 90.0));
                p.line(xz(nose + 190.0, low + 150.0), xz(nose + 190.0, high - 90.0));
            });
            group.draw(Role::Break, |p| {
                p.from(xz(cut, high));
                zigzag(p, cut, -high, -low);
            });
            group.draw(Role::Phantom, |p| {
                let foot = t.legs.bottom_z_mm;
                p.rect(&side_rect(legs_x, legs_x + 150.0, foot + 30.0, low));
                p.rect(&side_rect(legs_x - 60.0, legs_x + 210.0, foot, foot + 30.0));
                p.rect(&side_rect(king.x - 25.0, king.x + 25.0, king.z - 80.0, low));
            });
        }
        View::Plan | View::Turn => {
            group.draw(Role::Phantom, |p| {
                p.from(at(cut, -half))
                    .to(at(nose, -half))
                    .to(at(nose, half))
                    .to(at(cut, half));
                let (outer, wide) = (t.legs.width_mm / 2.0, 160.0);
                for sign in [-1.0, 1.0] {
                    let (a, b) = (sign * outer, sign * (outer - wide));
                    p.rect(&Rect::new(at(legs_x, a), at(legs_x + 150.0, b)));
                }
            });
            group.draw(Role::Break, |p| {
                p.from(at(cut, -half));
                zigzag(p, cut, -half, half);
            });
            let radius = coupled.swing_radius_mm();
            let turn = coupled.articulation_deg.clamp(0.0, 90.0).to_radians();
            group.draw(Role::CentreLine, |p| {
                // The nose's corners, from one full turn to the other, by way of straight ahead.
                let c = view.at(king);
                p.from(at(c.x - radius * cos(turn), c.y + radius * sin(turn)));
                p.arc(radius, true, at(c.x - radius, c.y));
                p.arc(
                    radius,
                    true,
                    at(c.x - radius * cos(turn), c.y - radius * sin(turn)),
                );
            });
        }
        View::Rear => {
            group.draw(Role::Phantom, |p| {
                p.rounded(
                    &Rect::new(at(-half, -t.top_z_mm), at(half, -t.nose_z_mm)),
                    40.0,
                );
                let outer = t.legs.width_mm / 2.0;
                for sign in [-1.0, 1.0] {
                    let (a, b) = (sign * outer, sign * (outer - 160.0));
                    p.rect(&Rect::new(at(a, -t.nose_z_mm), at(b, -t.legs.bottom_z_mm)));
                }
            });
        }
    }
    Some(group)
}

/// The radius of the nose's swing, beside its circle.
#[must_use]
pub fn swing_words(
    vehicle: &Vehicle,
    style: &Style,
    labels: &mut Labels<'_>,
    unit: f64,
) -> Option<Group> {
    let coupled = vehicle.trailer.as_ref()?;
    let radius = coupled.swing_radius_mm();
    let text = format!("swing R {}", quantity::length(radius, style.units));
    let size = 2.8 * unit;
    let (wide, tall) = (width(&text, size, false) + unit, 1.15 * size);
    // On the upper half of the circle, ahead of the kingpin.
    let c = View::Plan.at(coupled.kingpin);
    let on = at(c.x - radius * 0.5, c.y - radius * 0.866);
    let spot = labels.place(&Rect::about(on, unit, unit), wide, tall, false)?;
    let mut group = Group::layer("swing");
    let (from, to) = leader(&spot.rect, &Rect::about(on, unit, unit), unit);
    group.draw(Role::Leader, |p| {
        p.line(from, to);
    });
    let (x, y) = (spot.rect.centre().x, spot.rect.bottom - 0.3 * size);
    group.text(Text::new(
        TextRole::Dimension,
        x,
        y,
        Anchor::Middle,
        size,
        text,
    ));
    Some(group)
}

/// Continues a path downward along a broken edge.
fn zigzag(p: &mut Path, x: f64, top: f64, bottom: f64) {
    let step = (bottom - top) / 7.0;
    p.to(at(x, top + step * 2.0));
    p.to(at(x + 110.0, top + step * 2.4))
        .to(at(x - 110.0, top + step * 2.6));
    p.to(at(x, top + step * 3.0)).to(at(x, top + step * 5.0));
    p.to(at(x + 110.0, top + step * 5.4))
        .to(at(x - 110.0, top + step * 5.6));
    p.to(at(x, top + step * 6.0)).to(at(x, bottom));
}
