//! Lines of approach, breakover and departure on the side view: from the tyre to what touches first.

use super::labels::{Labels, leader};
use super::plane::{At, Rect, at};
use super::scene::{Anchor, Group, Role, Text, TextRole};
use super::text::width;
use super::{Marks, View};

/// Size of the figures, paper millimetres.
const FIGURE: f64 = 2.8;
/// How far a line goes on behind what it touches, paper millimetres.
const BEYOND: f64 = 7.0;

/// All lines with their figures.
#[must_use]
pub fn angles(marks: &Marks, labels: &mut Labels, u: f64) -> Group {
    let mut group = Group::layer("angles");
    for mark in &marks.angles {
        let touch = View::Side.at(mark.at);
        for foot in [Some(mark.tyre), mark.other].into_iter().flatten() {
            let foot = View::Side.at(foot);
            group.draw(Role::Dimension, |p| {
                p.line(foot, beyond(foot, touch, BEYOND * u));
            });
        }
        group.draw(Role::Dot, |p| {
            p.circle(touch, 0.6 * u);
        });
        let size = FIGURE * u;
        let target = Rect::about(touch, u, u);
        let wide = width(&mark.text, size, false) + u;
        if let Some(spot) = labels.place(&target, wide, 1.3 * size, false) {
            let (from, to) = leader(&spot.rect, &target, 0.5 * u);
            group.draw(Role::Leader, |p| {
                p.line(from, to);
            });
            let (x, y) = (spot.rect.centre().x, spot.rect.bottom - 0.4 * size);
            let role = TextRole::Dimension;
            group.text(Text::new(
                role,
                x,
                y,
                Anchor::Middle,
                size,
                mark.text.clone(),
            ));
        }
    }
    group
}

/// A point on the line from `a` through `b`, this far behind `b`.
fn beyond(a: At, b: At, by: f64) -> At {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let far = crate::numeric::hypot(dx, dy).max(1.0);
    at(b.x + dx / far * by, b.y + dy / far * by)
}
