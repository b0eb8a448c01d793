//! A sheet of A3 paper: border, title block, scale bar, parts, and the view at a standard scale.

use super::plane::{Rect, at};
use super::scene::{Anchor, Group, Page, Role, Scene, Text, TextRole};
use super::text::{fitted, width};
use super::{Marks, Style, TitleBlock, View};
use crate::quantity::{self, MM_PER_IN, Units};
use crate::vehicle::Vehicle;

/// A3, landscape, paper millimetres.
const PAPER: Rect = Rect {
    left: 0.0,
    top: 0.0,
    right: 420.0,
    bottom: 297.0,
};
/// Inside of the border; wider on the left, where sheets are bound.
const BORDER: Rect = Rect {
    left: 20.0,
    top: 10.0,
    right: 410.0,
    bottom: 287.0,
};
/// Title block.
const TITLE: Rect = Rect {
    left: 236.0,
    top: 249.0,
    right: 410.0,
    bottom: 287.0,
};
/// Room of the drawing.
const ROOM: Rect = Rect {
    left: 23.0,
    top: 13.0,
    right: 407.0,
    bottom: 246.0,
};
/// Scales to choose from, largest picture first.
const SCALES: [f64; 15] = [
    5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 75.0, 100.0, 125.0, 150.0, 200.0, 400.0,
];
/// What every sheet says.
pub const STATEMENT: &str = "planning estimate, not for certification";

/// Composes a view on paper at the largest scale at which it fits.
pub fn compose(
    vehicle: &Vehicle,
    marks: &Marks,
    view: View,
    style: &Style,
    block: &TitleBlock,
) -> Scene {
    let draw = |scale: f64| match view {
        View::Turn => super::turn::compose(vehicle, marks, style, Some(scale)),
        _ => super::compose::compose(vehicle, marks, view, style, scale),
    };
    let mut scene = draw(SCALES[0]);
    for scale in SCALES {
        scene = draw(scale);
        let b = &scene.bounds;
        if b.width() <= ROOM.width() * scale && b.height() <= ROOM.height() * scale {
            break;
        }
    }
    let scale = scene.unit;
    let (drawn, room) = (scene.bounds.centre(), ROOM.centre());
    let origin = at(room.x - drawn.x / scale, room.y - drawn.y / scale);
    let mut groups = vec![border()];
    groups.push(title(vehicle, view, style, block, scale));
    groups.push(bar(style.units, scale));
    groups.push(list(vehicle, style));
    scene.page = Some(Page {
        size: at(PAPER.right, PAPER.bottom),
        scale,
        origin,
        groups,
    });
    scene
}

fn border() -> Group {
    let mut group = Group::layer("border");
    group.draw(Role::Frame, |p| {
        p.rect(&BORDER);
    });
    group.draw(Role::Fine, |p| {
        // Marks at the middle of each side, to align copies by.
        let c = BORDER.centre();
        p.line(at(c.x, PAPER.top + 4.0), at(c.x, BORDER.top + 3.0));
        p.line(at(c.x, BORDER.bottom), at(c.x, PAPER.bottom - 4.0));
        p.line(at(PAPER.left + 4.0, c.y), at(BORDER.left + 3.0, c.y));
        p.line(at(BORDER.right - 3.0, c.y), at(PAPER.right - 4.0, c.y));
    });
    group
}

fn text(role: TextRole, x: f64, y: f64, size: f64, room: f64, words: &str) -> Text {
    Text::new(
        role,
        x,
        y,
        Anchor::Start,
        size,
        fitted(words, size, role.bold(), room),
    )
}

fn title(vehicle: &Vehicle, view: View, style: &Style, block: &TitleBlock, scale: f64) -> Group {
    let mut group = Group::layer("title-block");
    let t = &TITLE;
    let rows = [t.top + 17.0, t.top + 29.0];
    group.draw(Role::White, |p| {
        p.rect(t);
    });
    group.draw(Role::Frame, |p| {
        p.rect(t);
    });
    group.draw(Role::Fine, |p| {
        for y in rows {
            p.line(at(t.left, y), at(t.right, y));
        }
    });
    let name = if block.name.is_empty() {
        &vehicle.name
    } else {
        &block.name
    };
    let wide = t.width() - 6.0;
    // A long name is set smaller before it is cut.
    let size = [5.0, 4.5, 4.0, 3.5]
        .into_iter()
        .find(|size| width(name, *size, true) <= wide);
    let size = size.unwrap_or(3.5);
    group.text(text(
        TextRole::Title,
        t.left + 3.0,
        t.top + 7.6,
        size,
        wide,
        name,
    ));
    group.text(text(
        TextRole::Note,
        t.left + 3.0,
        t.top + 13.6,
        3.2,
        wide,
        &vehicle.chassis.name,
    ));
    let units = match style.units {
        Units::Metric => "mm, kg",
        Units::Us => "in, lb",
    };
    let shown = format!("1:{scale:.0} on A3");
    let cells: [(&str, &str, f64); 6] = [
        ("view", view_words(view), 32.0),
        ("scale", &shown, 28.0),
        ("units", units, 22.0),
        ("date", &block.date, 32.0),
        ("drawn by", &block.author, 36.0),
        ("sheet", &block.sheet, 24.0),
    ];
    let mut x = t.left;
    for (head, value, width) in cells {
        group.text(text(
            TextRole::Heading,
            x + 1.5,
            rows[0] + 3.6,
            2.2,
            width - 2.0,
            head,
        ));
        group.text(text(
            TextRole::Dimension,
            x + 1.5,
            rows[0] + 9.0,
            3.2,
            width - 2.5,
            value,
        ));
        x += width;
        if x < t.right - 1.0 {
            group.draw(Role::Fine, |p| {
                p.line(at(x, rows[0]), at(x, rows[1]));
            });
        }
    }
    group.text(text(
        TextRole::Load,
        t.left + 3.0,
        rows[1] + 6.0,
        3.4,
        88.0,
        STATEMENT,
    ));
    let made = "axle ratings, label and road law decide; weigh the finished truck";
    group.text(text(
        TextRole::Note,
        t.left + 88.0,
        rows[1] + 5.9,
        2.2,
        t.width() - 90.0,
        made,
    ));
    group
}

const fn view_words(view: View) -> &'static str {
    match view {
        View::Side => "left side",
        View::Plan => "plan",
        View::Rear => "rear",
        View::Turn => "turn",
    }
}

/// A scale bar of four stretches, half of them filled.
fn bar(units: Units, scale: f64) -> Group {
    let mut group = Group::layer("scale-bar");
    let stretch = match units {
        Units::Metric => 500.0,
        Units::Us => 24.0 * MM_PER_IN,
    };
    // Long enough for its figures to stand apart.
    let stretch = if scale > 100.0 {
        5.0 * stretch
    } else {
        stretch
    };
    let (left, top) = (BORDER.left + 3.0, BORDER.bottom - 6.5);
    let step = stretch / scale;
    let cell = |i: f64| {
        Rect::new(
            at(left + i * step, top),
            at(left + (i + 1.0) * step, top + 1.6),
        )
    };
    group.draw(Role::Black, |p| {
        p.rect(&cell(0.0)).rect(&cell(2.0));
    });
    group.draw(Role::Fine, |p| {
        p.rect(&Rect::new(at(left, top), at(left + 4.0 * step, top + 1.6)));
    });
    let mut label = |i: f64, words: String| {
        let anchor = if i == 0.0 {
            Anchor::Start
        } else {
            Anchor::Middle
        };
        group.text(Text::new(
            TextRole::Note,
            left + i * step,
            top + 4.8,
            anchor,
            2.4,
            words,
        ));
    };
    label(0.0, "0".to_owned());
    label(2.0, quantity::length(2.0 * stretch, units));
    label(4.0, quantity::length(4.0 * stretch, units));
    let words = "(tag): hidden in this view";
    let x = left + (4.0 * step + 16.0).max(60.0);
    group.text(text(
        TextRole::Note,
        x,
        top + 1.6,
        2.4,
        TITLE.left - x - 3.0,
        words,
    ));
    group
}

/// Tags, names and masses, as far as they find room.
fn list(vehicle: &Vehicle, style: &Style) -> Group {
    const ROWS: usize = 8;
    const COLUMNS: usize = 3;
    let mut group = Group::layer("parts-list");
    let (left, top) = (BORDER.left + 3.0, TITLE.top + 1.0);
    let wide = (TITLE.left - BORDER.left - 4.0) / 3.0;
    let all = vehicle.items.len();
    let shown = if all > ROWS * COLUMNS {
        ROWS * COLUMNS - 1
    } else {
        all
    };
    let place = |i: usize| {
        #[expect(clippy::cast_precision_loss, reason = "a few rows")]
        let (column, row) = ((i / ROWS) as f64, (i % ROWS) as f64);
        at(left + column * wide, top + 2.6 + row * 3.5)
    };
    for (i, item) in vehicle.items.iter().take(shown).enumerate() {
        let p = place(i);
        let mass = quantity::mass(item.planned_kg(), style.units);
        let room = wide - 9.0 - 17.0;
        group.text(text(TextRole::Load, p.x, p.y, 2.3, 8.5, &item.tag));
        group.text(text(
            TextRole::Note,
            p.x + 9.0,
            p.y,
            2.3,
            room,
            &item.part.name,
        ));
        let x = p.x + wide - 4.0;
        group.text(Text::new(TextRole::Note, x, p.y, Anchor::End, 2.3, mass));
    }
    if shown < all {
        let p = place(shown);
        let words = format!("and {} more, see the list of parts", all - shown);
        group.text(text(TextRole::Note, p.x, p.y, 2.3, wide - 3.0, &words));
    }
    group
}
