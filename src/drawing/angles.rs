//! Lines of approach, breakover and departure on the side view: from the tyre to what touches first. Their
//! figures stand in a row of their own under the ground, where they cover nothing of the truck.

use super::plane::{At, at};
use super::scene::{Anchor, Group, Role, Text, TextRole};
use super::text::width;
use super::{Marks, View};
use crate::numeric::sort_by;

/// Size of the figures, paper millimetres.
const FIGURE: f64 = 2.8;
/// How far a line goes on behind what it touches, paper millimetres.
const BEYOND: f64 = 7.0;
/// Below the ground line: where the row begins, and where it ends.
const ROW: (f64, f64) = (1.6, 5.6);
/// Room beside an arrow of an axle load, paper millimetres.
const ARROW: f64 = 1.6;

/// All lines with their figures; and where their row ends.
#[must_use]
pub fn angles(marks: &Marks, u: f64) -> (Group, f64) {
    let mut group = Group::layer("angles");
    let size = FIGURE * u;
    // The arrows of the axle loads go through the row.
    let arrows = marks.axle_loads.iter().map(|load| (load.x_mm, ARROW * u));
    let mut taken: Vec<(f64, f64)> = arrows.collect();
    let mut all: Vec<_> = marks.angles.iter().collect();
    sort_by(&mut all, |a, b| a.at.x.total_cmp(&b.at.x));
    for mark in all {
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
        let half = width(&mark.text, size, false) / 2.0 + 0.5 * u;
        let x = free(&taken, touch.x, half, u);
        taken.push((x, half));
        let top = at(x, ROW.0 * u);
        group.draw(Role::Leader, |p| {
            p.line(top, touch);
        });
        group.text(Text::new(
            TextRole::Dimension,
            x,
            (ROW.1 - 0.8) * u,
            Anchor::Middle,
            size,
            mark.text.clone(),
        ));
    }
    (group, ROW.1 * u)
}

/// The place nearest to `x` at which so much to either side is free.
fn free(taken: &[(f64, f64)], x: f64, half: f64, u: f64) -> f64 {
    for n in 0..200_u32 {
        let by = f64::from(n) * 0.5 * u;
        for x in [x + by, x - by] {
            if taken.iter().all(|(at, room)| (at - x).abs() >= half + room) {
                return x;
            }
        }
    }
    x
}

/// A point on the line from `a` through `b`, this far behind `b`.
fn beyond(a: At, b: At, by: f64) -> At {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let far = crate::numeric::hypot(dx, dy).max(1.0);
    at(b.x + dx / far * by, b.y + dy / far * by)
}
