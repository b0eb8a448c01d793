//! Panels of lines, one below the other over one axis.

use super::place::{Letters, in_row, number, spread, title};
use super::thin::thinned;
use super::ticks::{Ticks, extent};
use super::{Axis, Chart, Line, Panel, Pencil, Tint};
use crate::drawing::plane::{Rect, at};
use crate::drawing::scene::{Anchor, Group, Role};

/// Length of the piece of pen beside a name, pixels.
const PIECE: f64 = 22.0;
/// From the end of the lines to the piece of pen, pixels.
const LEAD: f64 = 8.0;
/// Room at the edges, pixels.
const EDGE: f64 = 8.0;

/// Where the panels lie.
struct Frame {
    left: f64,
    right: f64,
    boxes: Vec<Rect>,
}

pub(super) fn compose(chart: &Chart, x: &Axis, panels: &[Panel]) -> Vec<Group> {
    let letters = Letters::of(chart.strip);
    let mut words = Group::layer("words");
    let top = if chart.strip {
        2.0
    } else {
        title(&mut words, &chart.title, letters, chart.size.0 - 16.0)
    };
    let heights = heights(chart, panels, letters, top);
    let ticks: Vec<Ticks> = panels
        .iter()
        .zip(&heights)
        .map(|(panel, (_, high))| {
            let values = panel
                .lines
                .iter()
                .flat_map(|l| l.points.iter().map(|p| p.1));
            let reaches = if panel.reaches.is_empty() {
                (f64::INFINITY, f64::NEG_INFINITY)
            } else {
                extent(panel.reaches.iter().copied())
            };
            Ticks::airy(extent(values), reaches, ((high / 30.0) as u32).max(2))
        })
        .collect();
    let frame = frame(chart, x, panels, letters, &heights, &ticks);
    let places = panels.iter().flat_map(|p| &p.lines).flat_map(|l| &l.points);
    let (from, to) = extent(places.map(|p| p.0).chain([0.0]));
    let wide = frame.right - frame.left;
    let across = (1..=(wide / 60.0).max(1.0) as u32)
        .rev()
        .map(|steps| Ticks::within(from, to, steps))
        .find(|t| {
            let widest = t
                .values()
                .into_iter()
                .map(|v| letters.wide(&number(v, t.decimals)));
            let each = t.step / (t.span.1 - t.span.0) * wide;
            widest.fold(0.0, f64::max) + 14.0 <= each
        })
        .unwrap_or_else(|| Ticks::within(from, to, 1));
    let mut grid = Group::layer("grid");
    let mut curves = Vec::new();
    for ((panel, area), up) in panels.iter().zip(&frame.boxes).zip(&ticks) {
        let pencil = Pencil::new("curves", area, across.span, up.span);
        rule(&mut grid, &mut words, &pencil, area, &across, up, letters);
        let y = area.top - 5.0;
        let caption = panel.axis.words();
        words.text(letters.small(area.left, y, Anchor::Start, &caption, wide));
        draw(&pencil, panel);
        let edge = chart.size.0 - EDGE;
        names(&mut grid, &mut words, &pencil, area, panel, letters, edge);
        curves.push(pencil.done());
    }
    if let Some(last) = frame.boxes.last() {
        let y = last.bottom + 4.0 + letters.small;
        let mut before = None;
        for value in across.values() {
            let place =
                frame.left + (value - across.span.0) / (across.span.1 - across.span.0) * wide;
            let label = number(value, across.decimals);
            let text = letters.small(place, y, Anchor::Middle, &label, f64::INFINITY);
            if text.bounds().right < frame.right + 22.0 {
                in_row(&mut words, &mut before, text, 3.0);
            }
        }
        let room = chart.size.0 - frame.right - 26.0;
        words.text(letters.small(frame.right + 26.0, y, Anchor::Start, &x.words(), room));
    }
    let mut all = vec![grid];
    all.extend(curves);
    all.push(words);
    all
}

/// Top and height of each panel.
fn heights(chart: &Chart, panels: &[Panel], letters: Letters, top: f64) -> Vec<(f64, f64)> {
    let caption = letters.line() + 6.0;
    let below = letters.line() + 6.0;
    let room = chart.size.1 - top - below - caption * panels.len() as f64;
    let all: f64 = panels.iter().map(|p| p.share).sum();
    let mut y = top;
    let of = |panel: &Panel| {
        let high = (room * panel.share / all.max(1e-9)).max(1.0);
        let place = (y + caption, high);
        y += caption + high;
        place
    };
    panels.iter().map(of).collect()
}

fn frame(
    chart: &Chart,
    x: &Axis,
    panels: &[Panel],
    letters: Letters,
    heights: &[(f64, f64)],
    ticks: &[Ticks],
) -> Frame {
    let widest = |words: &mut dyn Iterator<Item = String>| {
        words.map(|w| letters.wide(&w)).fold(0.0, f64::max)
    };
    let labels = |t: &Ticks| {
        t.values()
            .into_iter()
            .map(move |v| (v, t.decimals))
            .collect::<Vec<_>>()
    };
    let left = widest(&mut ticks.iter().flat_map(labels).map(|(v, d)| number(v, d)));
    let names = panels.iter().flat_map(|p| &p.lines).map(|l| l.name.clone());
    let right = widest(&mut names.into_iter()).min(chart.size.0 / 4.0) + PIECE + LEAD + 6.0;
    let right = right.max(letters.wide(&x.words()) + 26.0);
    let (left, right) = (EDGE + left + 6.0, chart.size.0 - right - EDGE);
    let area = |(top, high): &(f64, f64)| Rect {
        left,
        top: *top,
        right,
        bottom: top + high,
    };
    Frame {
        left,
        right,
        boxes: heights.iter().map(area).collect(),
    }
}

/// Grid, numbers beside it, and the line of nought.
fn rule(
    grid: &mut Group,
    words: &mut Group,
    pencil: &Pencil,
    area: &Rect,
    across: &Ticks,
    up: &Ticks,
    letters: Letters,
) {
    for value in across.values() {
        let x = pencil.place(value, up.span.0).x;
        grid.draw(Role::Grid, |p| {
            p.line(at(x, area.top), at(x, area.bottom));
        });
    }
    let mut before = None;
    for value in up.values() {
        let y = pencil.place(across.span.0, value).y;
        let role = if value.abs() < 1e-9 {
            Role::Nought
        } else {
            Role::Grid
        };
        grid.draw(role, |p| {
            p.line(at(area.left, y), at(area.right, y));
        });
        let label = number(value, up.decimals);
        let place = (area.left - 5.0, y + letters.half());
        let text = letters.small(place.0, place.1, Anchor::End, &label, f64::INFINITY);
        in_row(words, &mut before, text, 0.5);
    }
    grid.draw(Role::Edge, |p| {
        p.line(at(area.left, area.top), at(area.left, area.bottom));
    });
}

fn draw(pencil: &Pencil, panel: &Panel) {
    for line in &panel.lines {
        for piece in thinned(&line.points, |x| pencil.column(x)) {
            if line.filled {
                pencil.area(Role::Tint(Tint::Under), &piece);
            }
            pencil.line(Role::Pen(line.pen), &piece);
        }
    }
}

/// Names at the ends of the lines, each with a piece of its pen.
fn names(
    grid: &mut Group,
    words: &mut Group,
    pencil: &Pencil,
    area: &Rect,
    panel: &Panel,
    letters: Letters,
    edge: f64,
) {
    let finite = |p: &&(f64, f64)| extent(std::iter::once(p.1)).0 == p.1;
    let end = |line: &Line| line.points.iter().rev().find(finite).copied();
    let ends: Vec<(&Line, f64, f64)> = panel
        .lines
        .iter()
        .filter_map(|line| {
            let place = end(line).map(|(x, y)| pencil.place(x, y))?;
            Some((line, place.x, place.y))
        })
        .collect();
    let wished: Vec<f64> = ends.iter().map(|(_, _, y)| *y).collect();
    let half = letters.line() / 2.0;
    let places = spread(
        &wished,
        letters.line(),
        (area.top + half - 4.0, area.bottom - half + 4.0),
    );
    for ((line, x, y), to) in ends.into_iter().zip(places) {
        let start = area.right + LEAD;
        grid.draw(Role::Lead, |p| {
            p.from(at(x, y)).to(at(area.right, y)).to(at(start, to));
        });
        if line.filled {
            let box_ = Rect {
                left: start,
                top: to,
                right: start + PIECE,
                bottom: to + 4.0,
            };
            grid.rounded(Role::Tint(Tint::Under), box_, 0.0);
        }
        grid.draw(Role::Pen(line.pen), |p| {
            p.line(at(start, to), at(start + PIECE, to));
        });
        let from = start + PIECE + 4.0;
        let room = edge - from;
        words.text(letters.small(from, to + letters.half(), Anchor::Start, &line.name, room));
    }
}
