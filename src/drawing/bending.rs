//! Shear and bending of a rail under the side view, to the same lengths as the truck above.

use super::marks::FrameMark;
use super::plane::{Path, Rect, at};
use super::scene::{Anchor, Group, Role, Text, TextRole};
use crate::numeric::BeamPiece;

/// Height of a figure, paper millimetres.
const FIGURE: f64 = 3.0;
/// Height of a line of text, paper millimetres.
const LINE: f64 = 4.6;
/// Heights of the two strips, paper millimetres.
const MOMENT: f64 = 20.0;
const SHEAR: f64 = 10.0;
/// Distance between the strokes of the hatch, paper millimetres.
const STROKE: f64 = 1.7;
/// How many times the peak the allowance may be to stay in the picture.
const FAR: f64 = 2.6;

struct Strip<'a> {
    pieces: &'a [BeamPiece],
    other: &'a [BeamPiece],
    value: fn(&BeamPiece, f64) -> f64,
    times: f64,
    base: f64,
    scale: f64,
    unit: f64,
}

/// Draws the diagram below `top`; returns it and where it ends.
pub fn diagram(mark: &FrameMark, top: f64, unit: f64) -> (Group, f64) {
    let u = unit;
    let mut group = Group::layer("bending");
    let left = mark.pieces.first().map_or(0.0, |p| p.from_mm);
    let mut y = top + 2.0 * u;
    let mut line = |group: &mut Group, words: &str| {
        y += LINE * u;
        let (x, size) = (left, FIGURE * u);
        let text = Text::new(
            TextRole::Heading,
            x,
            y - 1.2 * u,
            Anchor::Start,
            size,
            words,
        );
        group.text(text);
        y
    };
    let mut end = line(&mut group, &mark.heading);
    if mark.pieces.is_empty() {
        return (group, end);
    }
    let moment: fn(&BeamPiece, f64) -> f64 = |p, x| p.moment_at(x);
    let shear: fn(&BeamPiece, f64) -> f64 = |p, x| p.shear_at(x);
    let (low, high) = reach(mark, moment);
    let most = low.abs().max(high);
    let near = mark.allowed.iter().map(|a| a.2).filter(|a| *a < FAR * most);
    let near = near.fold(most, f64::max);
    let below = if high >= -low { near } else { high.max(0.0) };
    let above = if high >= -low { -low.min(0.0) } else { near };
    let scale = MOMENT * u / (below + above).max(1e-9);
    let strip = Strip {
        pieces: &mark.pieces,
        other: &mark.other,
        value: moment,
        times: mark.times,
        base: end + above * scale + 0.6 * u,
        scale,
        unit: u,
    };
    strip.draw(&mut group);
    let sign = if high >= -low { 1.0 } else { -1.0 };
    let floor = end + (below + above) * scale + 1.2 * u;
    allowance(&mut group, mark, &strip, sign, near);
    end = strip.peak(&mut group, &mark.peak, floor);
    joints(&mut group, mark, strip.base - above * scale, floor, u);
    // Shear is drawn upward where what lies ahead pushes up.
    y = end;
    let mut line = |group: &mut Group, words: &str| {
        y += LINE * u;
        let size = FIGURE * u;
        let text = Text::new(
            TextRole::Heading,
            left,
            y - 1.2 * u,
            Anchor::Start,
            size,
            words,
        );
        group.text(text);
        y
    };
    let start = line(&mut group, &mark.shear_heading);
    let (low, high) = reach(mark, shear);
    let scale = SHEAR * u / (high - low).max(1e-9);
    let strip = Strip {
        value: shear,
        base: start + high * scale + 0.6 * u,
        scale: -scale,
        ..strip
    };
    strip.draw(&mut group);
    let floor = start + (high - low) * scale + 1.2 * u;
    end = strip.peak(&mut group, &mark.shear_peak, floor);
    (group, end + u)
}

/// Smallest and largest value of either rail, zero between them, times the factor.
fn reach(mark: &FrameMark, value: fn(&BeamPiece, f64) -> f64) -> (f64, f64) {
    let (mut low, mut high) = (0.0_f64, 0.0_f64);
    for piece in mark.pieces.iter().chain(&mark.other) {
        let places = [Some(piece.from_mm), piece.turns_at(), Some(piece.to_mm)];
        for x in places.into_iter().flatten() {
            let value = value(piece, x) * mark.times;
            low = low.min(value);
            high = high.max(value);
        }
    }
    (low, high)
}

impl Strip<'_> {
    fn y(&self, piece: &BeamPiece, x: f64) -> f64 {
        self.base + (self.value)(piece, x) * self.times * self.scale
    }

    /// The curve of a rail: a parabola is drawn as the parabola that it is.
    fn curve(&self, pieces: &[BeamPiece]) -> Path {
        let mut path = Path::new();
        let mut last = f64::NAN;
        for piece in pieces {
            let (a, b) = (self.y(piece, piece.from_mm), self.y(piece, piece.to_mm));
            if path.steps.is_empty() {
                path.from(at(piece.from_mm, self.base));
                last = self.base;
            }
            if (a - last).abs() > 1e-6 {
                path.to(at(piece.from_mm, a));
            }
            let middle = f64::midpoint(piece.from_mm, piece.to_mm);
            let bow = 2.0 * self.y(piece, middle) - f64::midpoint(a, b);
            if (bow - f64::midpoint(a, b)).abs() > 1e-3 * self.unit {
                path.bend(at(middle, bow), at(piece.to_mm, b));
            } else {
                path.to(at(piece.to_mm, b));
            }
            last = b;
        }
        if let Some(piece) = pieces.last() {
            path.to(at(piece.to_mm, self.base));
        }
        path
    }

    fn draw(&self, group: &mut Group) {
        let (Some(first), Some(last)) = (self.pieces.first(), self.pieces.last()) else {
            return;
        };
        let step = STROKE * self.unit;
        group.draw(Role::Extension, |p| {
            let mut x = first.from_mm + step / 2.0;
            let mut behind = self.pieces;
            while x < last.to_mm {
                while behind.first().is_some_and(|piece| piece.to_mm < x) {
                    behind = &behind[1..];
                }
                if let Some(piece) = behind.first() {
                    let y = self.y(piece, x);
                    if (y - self.base).abs() > 0.2 * self.unit {
                        p.line(at(x, self.base), at(x, y));
                    }
                }
                x += step;
            }
        });
        group.path(Role::Ghost, self.curve(self.other));
        group.path(Role::Symbol, self.curve(self.pieces));
        group.draw(Role::Dimension, |p| {
            p.line(at(first.from_mm, self.base), at(last.to_mm, self.base));
        });
    }

    /// Marks the peak and writes its figure in a row below `floor`; returns where the row ends.
    fn peak(&self, group: &mut Group, (x, words): &(f64, String), floor: f64) -> f64 {
        let u = self.unit;
        let end = floor + LINE * u;
        let holds = |p: &&BeamPiece| p.from_mm <= *x && *x <= p.to_mm;
        let values = self.pieces.iter().filter(holds).map(|p| self.y(p, *x));
        let farther = |a: f64, b: f64| {
            if (b - self.base).abs() > (a - self.base).abs() {
                b
            } else {
                a
            }
        };
        let Some(y) = values.reduce(farther) else {
            return end;
        };
        group.draw(Role::Leader, |p| {
            p.line(at(*x, y), at(*x, floor + 0.8 * u));
        });
        group.draw(Role::Dot, |p| {
            p.circle(at(*x, y), 0.8 * u);
        });
        let size = FIGURE * u;
        let text = Text::new(
            TextRole::Load,
            *x,
            end - 1.0 * u,
            Anchor::Middle,
            size,
            words,
        );
        group.rounded(Role::White, text.bounds().grown(0.3 * u), 0.4 * u);
        group.text(text);
        end
    }
}

fn allowance(group: &mut Group, mark: &FrameMark, strip: &Strip<'_>, sign: f64, near: f64) {
    let (u, mut path) = (strip.unit, Path::new());
    let mut last = None;
    for (from, to, allowed) in &mark.allowed {
        let y = strip.base + sign * allowed.min(near) * strip.scale;
        if *allowed > near * (1.0 + 1e-9) {
            last = None;
            continue;
        }
        match last {
            Some(_) => path.to(at(*from, y)),
            None => path.from(at(*from, y)),
        };
        path.to(at(*to, y));
        last = Some(y);
    }
    group.path(Role::Phantom, path);
    let end = strip.pieces.last().map_or(0.0, |p| p.to_mm);
    let at_y = last.unwrap_or(strip.base + sign * near * strip.scale);
    let size = FIGURE * u;
    let (x, y) = (end + 1.5 * u, at_y + 0.36 * size);
    group.text(Text::new(
        TextRole::Heading,
        x,
        y,
        Anchor::Start,
        size,
        &*mark.allowed_words,
    ));
}

fn joints(group: &mut Group, mark: &FrameMark, top: f64, floor: f64, u: f64) {
    for x in &mark.joints {
        group.draw(Role::CentreLine, |p| {
            p.line(at(*x, top - 1.0 * u), at(*x, floor));
        });
        // The sign of a butt weld: a small filled lozenge on the line.
        let r = Rect::about(at(*x, top - 1.0 * u), 1.8 * u, 1.8 * u);
        group.draw(Role::Black, |p| {
            p.polygon(&[
                at(r.left, r.centre().y),
                at(*x, r.top),
                at(r.right, r.centre().y),
                at(*x, r.bottom),
            ]);
        });
    }
}
