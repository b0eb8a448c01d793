//! Dimension lines, packed into rows so that no figure touches another.

use super::plane::{At, Path, Rect, at};
use super::scene::{Anchor, Group, Role, Text, TextRole};
use super::text::width;

/// Which way a dimension runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Run {
    /// Along x; rows go down.
    Level,
    /// Along y; rows go to the right.
    RightOf,
    /// Along y; rows go to the left.
    LeftOf,
}

/// One dimension to be drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Span {
    /// One measured point.
    pub from: At,
    /// The other.
    pub to: At,
    /// The figure.
    pub text: String,
    /// A dimension of the truck or of a chosen part.
    pub role: TextRole,
}

/// Rows of dimensions beside the drawing.
#[derive(Debug)]
pub struct Rows {
    run: Run,
    unit: f64,
    /// Distance of the first row's line from the drawing, as a coordinate.
    first: f64,
    /// Taken stretches of each row.
    rows: Vec<Vec<(f64, f64)>>,
}

/// Height of a figure, paper millimetres.
pub const FIGURE: f64 = 3.0;
/// Distance between rows, paper millimetres.
pub const PITCH: f64 = 5.4;

impl Rows {
    /// Rows that start at this coordinate (y for level ones, x for the others).
    #[must_use]
    pub const fn new(run: Run, first: f64, unit: f64) -> Self {
        Self {
            run,
            unit,
            first,
            rows: Vec::new(),
        }
    }

    /// Coordinate behind the last row in use.
    #[must_use]
    pub fn end(&self) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "a few rows")]
        let used = self.rows.len() as f64 * PITCH * self.unit;
        match self.run {
            Run::LeftOf => self.first - used,
            _ => self.first + used,
        }
    }

    /// Draws a dimension in the first row, from `row` on, that has room for it.
    pub fn add(&mut self, group: &mut Group, span: &Span, row: usize) {
        let u = self.unit;
        let along = |p: At| if self.run == Run::Level { p.x } else { p.y };
        let (a, b) = (along(span.from), along(span.to));
        if !(a.is_finite() && b.is_finite()) {
            return;
        }
        let (low, high) = (a.min(b), a.max(b));
        let long = width(&span.text, FIGURE * u, span.role.bold()) + 0.6 * u;
        // The figure stands clear of the line, so it may reach over the arrows.
        let inside = high - low >= long.max(5.6 * u);
        // Figure between the arrows, else beyond one end with the arrows turned round.
        let choices = if inside {
            let middle = f64::midpoint(low, high);
            vec![(middle, low, high)]
        } else {
            let reach = 3.6 * u;
            vec![
                (high + reach + long / 2.0, low - reach, high + reach + long),
                (low - reach - long / 2.0, low - reach - long, high + reach),
            ]
        };
        let gap = 0.4 * u;
        for index in row.. {
            while self.rows.len() <= index {
                self.rows.push(Vec::new());
            }
            let free = |from: f64, to: f64| {
                self.rows[index]
                    .iter()
                    .all(|(x, y)| to <= x + gap || *y <= from + gap)
            };
            let Some(choice) = choices.iter().find(|c| free(c.1, c.2)) else {
                continue;
            };
            let (middle, from, to) = *choice;
            self.rows[index].push((from, to));
            #[expect(clippy::cast_precision_loss, reason = "a few rows")]
            let step = (index as f64 + 0.75) * PITCH * u;
            let line = if self.run == Run::LeftOf {
                self.first - step
            } else {
                self.first + step
            };
            self.ink(group, span, line, (low, high), (from, to), middle, inside);
            return;
        }
    }

    #[expect(clippy::too_many_arguments, reason = "one caller")]
    fn ink(
        &self,
        group: &mut Group,
        span: &Span,
        line: f64,
        (low, high): (f64, f64),
        (from, to): (f64, f64),
        middle: f64,
        inside: bool,
    ) {
        let u = self.unit;
        let level = self.run == Run::Level;
        let place = |s: f64, t: f64| if level { at(s, t) } else { at(t, s) };
        let beyond = if self.run == Run::LeftOf { -u } else { u };
        group.draw(Role::Extension, |p| {
            for end in [span.from, span.to] {
                let (s, t) = if level {
                    (end.x, end.y)
                } else {
                    (end.y, end.x)
                };
                p.line(place(s, t + beyond), place(s, line + beyond));
            }
        });
        let (a, b) = if inside { (low, high) } else { (from, to) };
        group.draw(Role::Dimension, |p| {
            p.line(place(a, line), place(b, line));
        });
        let out = if inside { 1.0 } else { -1.0 };
        group.draw(Role::Arrow, |p| {
            arrow(p, place(low, line), place(low + out * 2.2 * u, line), u);
            arrow(p, place(high, line), place(high - out * 2.2 * u, line), u);
        });
        // Above a level line; left of an upright one, reading upward.
        let base = line - 0.8 * u;
        let at_ = place(middle, base);
        let mut text = Text::new(
            span.role,
            at_.x,
            at_.y,
            Anchor::Middle,
            FIGURE * u,
            span.text.clone(),
        );
        text.upward = !level;
        group.text(text);
    }
}

/// A filled arrow head with its tip at `tip`.
pub fn arrow(p: &mut Path, tip: At, tail: At, unit: f64) {
    if let Some(n) = super::eye::across(tip, tail, 0.42 * unit) {
        p.polygon(&[
            tip,
            at(tail.x + n.x, tail.y + n.y),
            at(tail.x - n.x, tail.y - n.y),
        ]);
    }
}

/// Boxes of all texts of a group.
#[must_use]
pub fn text_rects(group: &Group) -> Vec<Rect> {
    let texts = group.shapes.iter().filter_map(|shape| match shape {
        super::scene::Shape::Text(text) => Some(text.bounds()),
        _ => None,
    });
    texts.collect()
}
