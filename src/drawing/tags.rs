//! Tag plates of the parts: inside where they fit, else beside with a leader.

use super::labels::{Labels, Spot, leader};
use super::parts::Seen;
use super::plane::{Rect, at};
use super::scene::{Anchor, Group, Owner, Role, Sight, Text, TextRole};
use super::text::width;
use super::{Style, View};
use crate::numeric::sort_by;
use crate::quantity;
use crate::vehicle::Vehicle;
use std::collections::BTreeMap;

/// Size of a tag, paper millimetres.
const FIGURE: f64 = 3.0;
/// Height of its plate, paper millimetres.
const PLATE: f64 = 4.2;

/// A tag that found its place.
#[derive(Clone, Debug)]
pub struct Tag {
    /// Where.
    pub spot: Spot,
    /// Width of the plate with the tag; the mass, if it fits, stands to its right.
    plate: f64,
    text: String,
    mass: Option<String>,
    target: Rect,
    hidden: bool,
}

/// Places the tags of all parts: the chosen one first, then the large before the small. A part that
/// lies exactly behind another shares its plate. Index among the vehicle's items.
pub fn place(
    vehicle: &Vehicle,
    parts: &[Seen],
    view: View,
    style: &Style,
    labels: &mut Labels,
    unit: f64,
) -> BTreeMap<usize, Tag> {
    let u = unit;
    let mut shared: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    let by_index: BTreeMap<usize, &Seen> = parts.iter().map(|s| (s.index, s)).collect();
    let mut order: Vec<&Seen> = Vec::with_capacity(parts.len());
    for seen in parts {
        let front = seen
            .by
            .and_then(|i| by_index.get(&i))
            .filter(|front| front.sight != Sight::Behind && same(&front.rect, &seen.rect));
        match front {
            Some(front) => shared.entry(front.index).or_default().push(seen.index),
            None => order.push(seen),
        }
    }
    let chosen = |s: &Seen| style.selected.as_deref() == Some(vehicle.items[s.index].tag.as_str());
    let area = |s: &Seen| s.rect.width() * s.rect.height();
    sort_by(&mut order, |a, b| {
        let open = |s: &Seen| s.sight == Sight::Behind;
        chosen(b)
            .cmp(&chosen(a))
            .then(open(a).cmp(&open(b)))
            .then(area(b).total_cmp(&area(a)))
            .then(a.index.cmp(&b.index))
    });
    let mut placed = BTreeMap::new();
    for seen in order {
        let item = &vehicle.items[seen.index];
        // Cables and brackets behind other parts, and from behind the truck whatever is hidden, would
        // only crowd out the tags of what one sees.
        let crowd = view == View::Rear || item.part.soft;
        if crowd && seen.sight == Sight::Behind && !chosen(seen) {
            continue;
        }
        let hidden = seen.sight == Sight::Behind;
        let mut text = if hidden {
            format!("({})", item.tag)
        } else {
            item.tag.clone()
        };
        if let Some(behind) = shared.get(&seen.index) {
            let tags: Vec<&str> = behind
                .iter()
                .map(|i| vehicle.items[*i].tag.as_str())
                .collect();
            text = format!("{text} ({})", tags.join(" "));
        }
        let text = super::text::fitted(&text, FIGURE * u, true, 60.0 * u);
        let plate = width(&text, FIGURE * u, true) + 1.6 * u;
        let tall = PLATE * u;
        let inside = !hidden;
        let large = seen.rect.width() > plate + 8.0 * u && seen.rect.height() > 2.4 * tall;
        let mass = (inside && large && !text.contains('('))
            .then(|| quantity::mass(item.planned_kg(), style.units));
        let full = plate
            + mass
                .as_deref()
                .map_or(0.0, |m| width(m, FIGURE * 0.9 * u, false) + 1.4 * u);
        let roomy = mass.is_some() && seen.rect.width() > full + 2.0 * u;
        let wide = if roomy { full } else { plate };
        if let Some(spot) = labels.place(&seen.rect, wide, tall, inside) {
            let mass = mass.filter(|_| roomy && !spot.leader);
            placed.insert(
                seen.index,
                Tag {
                    spot,
                    plate,
                    text,
                    mass,
                    target: seen.rect,
                    hidden,
                },
            );
        }
    }
    placed
}

fn same(a: &Rect, b: &Rect) -> bool {
    let near = |x: f64, y: f64| (x - y).abs() < 40.0;
    near(a.left, b.left) && near(a.right, b.right) && near(a.top, b.top) && near(a.bottom, b.bottom)
}

/// The plate of one part.
#[must_use]
pub fn draw(tag: &Tag, of: &str, unit: f64) -> Group {
    let u = unit;
    let mut group = Group::new(Owner::Tag(of.to_owned()));
    let r = tag.spot.rect;
    if tag.spot.leader {
        let (from, to) = leader(&r, &tag.target, 1.2 * u);
        group.draw(Role::Leader, |p| {
            p.line(from, to);
        });
        group.draw(Role::Dot, |p| {
            p.circle(to, 0.5 * u);
        });
    }
    let plate = Rect {
        right: r.left + tag.plate,
        ..r
    };
    if let Some(mass) = &tag.mass {
        group.rounded(Role::White, r, 0.6 * u);
        let x = plate.right + 0.6 * u;
        let y = r.centre().y + 0.33 * FIGURE * u;
        group.text(Text::new(
            TextRole::Margin,
            x,
            y,
            Anchor::Start,
            FIGURE * 0.9 * u,
            mass.clone(),
        ));
    }
    group.rounded(
        if tag.hidden { Role::White } else { Role::Black },
        plate,
        0.6 * u,
    );
    let role = if tag.hidden {
        TextRole::Note
    } else {
        TextRole::Tag
    };
    let at_ = at(plate.centre().x, plate.centre().y + 0.36 * FIGURE * u);
    group.text(Text::new(
        role,
        at_.x,
        at_.y,
        Anchor::Middle,
        FIGURE * u,
        tag.text.clone(),
    ));
    group
}
