//! Bars to the right of their names.

use super::place::{Letters, in_row, number, title};
use super::ticks::{FARTHEST, Ticks, extent};
use super::{Axis, Bar, Chart, Pencil, Tint};
use crate::drawing::plane::{Rect, at};
use crate::drawing::scene::{Anchor, Group, Role};

/// Room at the edges, pixels.
const EDGE: f64 = 8.0;
/// Width of the piece of fill in the key, pixels.
const PIECE: f64 = 16.0;

pub(super) fn compose(
    chart: &Chart,
    axis: &Axis,
    bars: &[Bar],
    key: &[(&'static str, Tint)],
) -> Vec<Group> {
    let letters = Letters::of(chart.strip);
    let mut words = Group::layer("words");
    let mut grid = Group::layer("grid");
    let top = title(&mut words, &chart.title, letters, chart.size.0 - 16.0);
    let top = legend(&mut grid, &mut words, key, letters, top);
    let widest =
        |of: fn(&Bar) -> &str| bars.iter().map(|b| letters.wide(of(b))).fold(0.0, f64::max);
    let names = widest(|b| &b.name).min(chart.size.0 / 3.0);
    let area = Rect {
        left: EDGE + names + 8.0,
        top: top + 4.0,
        right: chart.size.0 - EDGE - widest(|b| &b.words) - 8.0,
        bottom: chart.size.1 - 2.0 * letters.line() - 10.0,
    };
    let shown = |bar: &Bar| {
        if bar.value.abs() < FARTHEST {
            bar.value
        } else {
            0.0
        }
    };
    let (least, most) = extent(bars.iter().map(shown).chain([0.0]));
    let across = Ticks::round(least, most, (area.width() / 90.0).max(1.0) as u32);
    let count = bars.len().max(1) as f64;
    let pencil = Pencil::new("bars", &area, across.span, (count, 0.0));
    // Upside down: the first bar is on top.
    let mut before = None;
    for value in across.values() {
        let x = pencil.place(value, 0.0).x;
        let role = if value.abs() < 1e-9 {
            Role::Nought
        } else {
            Role::Grid
        };
        grid.draw(role, |p| {
            p.line(at(x, area.top), at(x, area.bottom));
        });
        let y = area.bottom + 4.0 + letters.small;
        let label = number(value, across.decimals);
        let text = letters.small(x, y, Anchor::Middle, &label, f64::INFINITY);
        in_row(&mut words, &mut before, text, 4.0);
    }
    let y = area.bottom + 4.0 + letters.small + letters.line();
    let middle = area.centre().x;
    words.text(letters.small(middle, y, Anchor::Middle, &axis.words(), area.width()));
    for (i, bar) in bars.iter().enumerate() {
        let row = i as f64;
        let value = shown(bar);
        pencil.bar(
            Role::Tint(bar.tint),
            [(0.0, row + 0.16), (value, row + 0.84)],
        );
        let y = pencil.place(0.0, row + 0.5).y + letters.half();
        words.text(letters.small(area.left - 8.0, y, Anchor::End, &bar.name, names + 1.0));
        let end = pencil.place(value.max(0.0), row).x + 6.0;
        let room = chart.size.0 - end - 2.0;
        words.text(letters.small(end, y, Anchor::Start, &bar.words, room));
    }
    vec![grid, pencil.done(), words]
}

/// What the fills stand for, in one line below the title.
fn legend(
    grid: &mut Group,
    words: &mut Group,
    key: &[(&'static str, Tint)],
    letters: Letters,
    top: f64,
) -> f64 {
    if key.is_empty() {
        return top;
    }
    let mut x = EDGE;
    let y = top + letters.small;
    for (name, tint) in key {
        let piece = Rect {
            left: x,
            top: y - letters.small * 0.75,
            right: x + PIECE,
            bottom: y + 1.0,
        };
        grid.rounded(Role::Tint(*tint), piece, 0.0);
        x += PIECE + 4.0;
        words.text(letters.small(x, y, Anchor::Start, name, f64::INFINITY));
        x += letters.wide(name) + 16.0;
    }
    y + 4.0
}
