//! Axle loads with their margins under the axles, severity icons, and the centre of gravity.

use super::labels::Labels;
use super::marks::{Marks, Severity};
use super::plane::{At, Path, Rect, at};
use super::scene::{Anchor, Group, Owner, Role, Text, TextRole};
use super::text::width;
use crate::numeric::sort_by;

/// Size of the load's figure, paper millimetres.
const FIGURE: f64 = 3.2;
/// Distance between its lines, paper millimetres.
const LINE: f64 = 4.1;

/// Loads below `top`; returns their groups and where they end.
pub fn loads(marks: &Marks, top: f64, unit: f64) -> (Vec<Group>, f64) {
    let u = unit;
    let mut groups = Vec::new();
    let mut rows: Vec<f64> = Vec::new();
    let mut sorted: Vec<_> = marks
        .axle_loads
        .iter()
        .filter(|m| m.x_mm.is_finite())
        .collect();
    sort_by(&mut sorted, |a, b| a.x_mm.total_cmp(&b.x_mm));
    for mark in sorted {
        let (name, size) = (FIGURE * 0.85 * u, FIGURE * u);
        let icon = 4.4 * u;
        let wide = [
            width(&mark.name, name, false),
            width(&mark.load, size, true) + icon,
            width(&mark.margin, name, false),
        ]
        .into_iter()
        .fold(0.0, f64::max);
        let left = mark.x_mm + 1.0 * u;
        let right = left + wide + 2.0 * u;
        let row = rows
            .iter()
            .position(|taken| *taken <= left)
            .unwrap_or(rows.len());
        if row == rows.len() {
            rows.push(right);
        } else {
            rows[row] = right;
        }
        #[expect(clippy::cast_precision_loss, reason = "a few rows")]
        let y = top + row as f64 * (3.0 * LINE + 1.5) * u;
        let mut group = Group::new(Owner::Load {
            id: mark.id.clone(),
            severity: mark.severity,
        });
        // The load is what the ground pushes up with.
        group.draw(Role::Dimension, |p| {
            p.line(at(mark.x_mm, 1.2 * u), at(mark.x_mm, y + 3.0 * LINE * u));
        });
        group.draw(Role::Arrow, |p| {
            p.polygon(&[
                at(mark.x_mm, 0.4 * u),
                at(mark.x_mm + 1.3 * u, 3.4 * u),
                at(mark.x_mm - 1.3 * u, 3.4 * u),
            ]);
        });
        let room = Rect::new(at(left - 0.4 * u, y), at(right, y + 3.0 * LINE * u));
        group.rounded(Role::White, room, 0.0);
        let line = |i: f64| y + (i + 0.8) * LINE * u;
        let text = |role, x: f64, i: f64, size: f64, words: &str| {
            Text::new(role, x, line(i), Anchor::Start, size, words)
        };
        group.text(text(TextRole::Heading, left, 0.0, name, &mark.name));
        icon_at(
            &mut group,
            mark.severity,
            at(left + 1.7 * u, line(1.0) - 1.15 * u),
            1.6 * u,
        );
        group.text(text(TextRole::Load, left + icon, 1.0, size, &mark.load));
        group.text(text(TextRole::Margin, left, 2.0, name, &mark.margin));
        groups.push(group);
    }
    #[expect(clippy::cast_precision_loss, reason = "a few rows")]
    let end = top + rows.len() as f64 * (3.0 * LINE + 1.5) * u;
    (groups, end)
}

/// The sign of a severity, told by its form: cross in an octagon, bar in a triangle, tick in a
/// circle, question in a square.
pub fn icon_at(group: &mut Group, severity: Severity, c: At, r: f64) {
    let p = |x: f64, y: f64| at(c.x + x * r, c.y + y * r);
    let mut plate = Path::new();
    let mut sign = Path::new();
    match severity {
        Severity::Fails => {
            let k = 0.414;
            plate.polygon(&[
                p(-k, -1.0),
                p(k, -1.0),
                p(1.0, -k),
                p(1.0, k),
                p(k, 1.0),
                p(-k, 1.0),
                p(-1.0, k),
                p(-1.0, -k),
            ]);
            sign.line(p(-0.45, -0.45), p(0.45, 0.45))
                .line(p(-0.45, 0.45), p(0.45, -0.45));
        }
        Severity::Caution => {
            plate.polygon(&[p(0.0, -1.05), p(1.1, 0.9), p(-1.1, 0.9)]);
            sign.line(p(0.0, -0.35), p(0.0, 0.28))
                .line(p(0.0, 0.6), p(0.0, 0.64));
        }
        Severity::Holds => {
            plate.circle(c, r);
            sign.polyline(&[p(-0.45, 0.05), p(-0.1, 0.4), p(0.5, -0.4)]);
        }
        Severity::NotAssessed => {
            plate.rect(&Rect::about(c, 1.8 * r, 1.8 * r));
            sign.from(p(-0.35, -0.3))
                .bend(p(-0.3, -0.65), p(0.0, -0.62));
            sign.bend(p(0.45, -0.58), p(0.32, -0.2))
                .bend(p(0.05, 0.0), p(0.0, 0.25));
            sign.line(p(0.0, 0.55), p(0.0, 0.6));
        }
    }
    group.path(Role::Icon, plate);
    group.path(Role::Symbol, sign);
}

/// The centre of gravity as a quartered circle with its name.
pub fn cg(c: At, labels: &mut Labels<'_>, unit: f64) -> Group {
    let mut group = Group::layer("cg");
    let r = 2.3 * unit;
    let (top, bottom) = (at(c.x, c.y - r), at(c.x, c.y + r));
    let (left, right) = (at(c.x - r, c.y), at(c.x + r, c.y));
    group.draw(Role::CgLight, |p| {
        p.circle(c, r);
    });
    group.draw(Role::CgDark, |p| {
        p.from(c).to(top).arc(r, true, right).close();
        p.from(c).to(bottom).arc(r, true, left).close();
    });
    group.draw(Role::Dimension, |p| {
        p.line(at(c.x - 1.6 * r, c.y), at(c.x + 1.6 * r, c.y));
        p.line(at(c.x, c.y - 1.6 * r), at(c.x, c.y + 1.6 * r));
    });
    let mark = Rect::about(c, 2.0 * r, 2.0 * r);
    labels.take(mark);
    let size = FIGURE * unit;
    let (wide, tall) = (width("CG", size, true) + 0.8 * unit, size * 1.15);
    let (dx, dy) = (r * 1.2 + wide / 2.0, r * 0.95 + tall / 2.0);
    let near = [
        (dx, -dy),
        (-dx, -dy),
        (dx, dy),
        (-dx, dy),
        (0.0, -dy - 0.8 * r),
        (0.0, dy + 0.8 * r),
    ];
    let near = near
        .into_iter()
        .map(|(x, y)| Rect::about(at(c.x + x, c.y + y), wide, tall));
    if let Some(spot) = near.into_iter().find(|spot| labels.is_free(spot)) {
        labels.take(spot);
        group.rounded(Role::White, spot, 0.5 * unit);
        let x = spot.centre().x;
        let y = spot.bottom - 0.28 * size;
        group.text(Text::new(TextRole::Load, x, y, Anchor::Middle, size, "CG"));
    }
    group
}
