//! Findings that point at a place: a ring around the closest points, and a sentence beside it; or at a
//! length, such as the road between two axles: a line with its ends.

use super::labels::{Labels, leader};
use super::loads::icon_at;
use super::marks::Marks;
use super::plane::{Rect, at};
use super::scene::{Anchor, Group, Owner, Role, Text, TextRole};
use super::text::width;
use super::{Style, View};
use crate::numeric::sort_by;

/// Most sentences on one drawing; more places than that only get their rings.
const MOST_WORDS: usize = 40;
/// Size of a sentence, paper millimetres.
const FIGURE: f64 = 2.8;
/// Points farther apart than this are the ends of a length and get no ring, mm.
const LENGTH_MM: f64 = 2_000.0;

/// All pointers; the chosen one first, so that it finds room for its words. `drawn` is what can be
/// seen: a length that goes on behind it ends there.
pub fn pointers(
    marks: &Marks,
    drawn: &Rect,
    view: View,
    style: &Style,
    labels: &mut Labels<'_>,
    unit: f64,
) -> Vec<Group> {
    let u = unit;
    let mut order: Vec<_> = marks
        .pointers
        .iter()
        .filter(|p| p.from.has_place() && p.to.has_place())
        .collect();
    let key = |p: &super::marks::Pointer| (Some(p.finding) != style.finding, p.severity, p.finding);
    sort_by(&mut order, |a, b| key(a).cmp(&key(b)));
    let mut groups = Vec::new();
    for (rank, pointer) in order.into_iter().enumerate() {
        let chosen = style.finding == Some(pointer.finding);
        let faint = style.finding.is_some() && !chosen;
        let owner = Owner::Pointer {
            finding: pointer.finding,
            severity: pointer.severity,
            chosen,
            faint,
        };
        let mut group = Group::new(owner);
        let (a, b) = (view.at(pointer.from), view.at(pointer.to));
        let apart = crate::numeric::hypot(b.x - a.x, b.y - a.y);
        let is_length = apart > LENGTH_MM;
        let ends = [a, b].into_iter().filter(|p| drawn.nearest(*p) == *p);
        let (a, b) = if is_length {
            (drawn.nearest(a), drawn.nearest(b))
        } else {
            (a, b)
        };
        let c = Rect::new(a, b).centre();
        let radius = if is_length {
            1.2 * u
        } else {
            (apart / 2.0 + u).max(2.4 * u)
        };
        group.draw(Role::Gap, |p| {
            p.line(a, b);
            if !is_length {
                p.circle(a, 0.35 * u).circle(b, 0.35 * u);
            }
        });
        group.draw(Role::Ring, |p| {
            if is_length {
                // Upright strokes at the ends that can be seen, the length between them.
                for end in ends {
                    p.line(at(end.x, end.y - 1.6 * u), at(end.x, end.y + 1.6 * u));
                }
                p.line(a, b);
            } else {
                p.circle(c, radius);
            }
        });
        if rank < MOST_WORDS && !pointer.text.is_empty() && !faint {
            let size = FIGURE * u;
            let icon = 3.6 * u;
            let wide = width(&pointer.text, size, true) + icon + 1.2 * u;
            let tall = 4.2 * u;
            let ring = Rect::about(c, 2.0 * radius, 2.0 * radius);
            if let Some(spot) = labels.place(&ring, wide, tall, false) {
                let (from, _) = leader(&spot.rect, &ring, radius);
                group.draw(Role::Leader, |p| {
                    let far = crate::numeric::hypot(from.x - c.x, from.y - c.y).max(1.0);
                    let k = (radius / far).min(1.0);
                    p.line(from, at(c.x + (from.x - c.x) * k, c.y + (from.y - c.y) * k));
                });
                group.rounded(Role::Plate, spot.rect, 0.7 * u);
                let y = spot.rect.centre().y;
                icon_at(
                    &mut group,
                    pointer.severity,
                    at(spot.rect.left + 2.2 * u, y),
                    1.4 * u,
                );
                group.text(Text::new(
                    TextRole::Finding,
                    spot.rect.left + icon + 0.6 * u,
                    y + 0.36 * size,
                    Anchor::Start,
                    size,
                    pointer.text.clone(),
                ));
            }
        }
        groups.push(group);
    }
    // The chosen one is painted last, on top.
    groups.reverse();
    groups
}
