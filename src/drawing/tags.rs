//! Tag plates of the parts: inside where they fit, else beside with a leader.

use super::drawn::Drawn;
use super::labels::{Labels, Spot, leader};
use super::parts::Seen;
use super::plane::{Rect, at};
use super::scene::{Anchor, Group, Owner, Role, Sight, Text, TextRole};
use super::text::width;
use super::{Style, View};
use crate::numeric::ascending;
use crate::quantity;
use crate::shared::Shared;
use crate::vehicle::{Item, Vehicle};

/// Size of a tag, paper millimetres.
const FIGURE: f64 = 3.0;
/// Height of its plate, paper millimetres.
const PLATE: f64 = 4.2;

/// A tag that found its place.
#[derive(Clone, Debug)]
pub struct Tag {
    /// Where.
    pub spot: Spot,
    words: Shared<Words>,
    target: Rect,
}

/// What a plate says, and how wide that is.
#[derive(Clone, Debug)]
struct Words {
    text: String,
    /// The mass, where there is room for it beside the tag.
    mass: Option<String>,
    /// Width of the plate with the tag; the mass stands to its right.
    plate: f64,
    /// Width of both.
    wide: f64,
    hidden: bool,
    /// Names parts behind the part as well.
    shared: bool,
}

/// Places the tags of all parts: the chosen one first, then the large before the small. A part that
/// lies exactly behind another shares its plate. In the order of the vehicle's items.
pub fn place(
    vehicle: &Vehicle,
    parts: &[Seen],
    view: View,
    style: &Style,
    labels: &mut Labels<'_>,
    unit: f64,
    before: Option<&Drawn>,
) -> Vec<Option<Shared<Tag>>> {
    let u = unit;
    let mut by_index: Vec<Option<&Seen>> = vec![None; vehicle.items.len()];
    for seen in parts {
        by_index[seen.index] = Some(seen);
    }
    let mut behind: Vec<Vec<usize>> = vec![Vec::new(); by_index.len()];
    let mut own = by_index.clone();
    for seen in parts {
        let front = seen.by.and_then(|i| by_index[i]);
        let front =
            front.filter(|front| front.sight != Sight::Behind && same(&front.rect, &seen.rect));
        if let Some(front) = front {
            behind[front.index].push(seen.index);
            own[seen.index] = None;
        }
    }
    let chosen = |s: &Seen| style.selected.as_deref() == Some(vehicle.items[s.index].tag.as_str());
    let turn = |s: &Seen| match s.sight {
        _ if chosen(s) => 0,
        Sight::Behind => 2,
        Sight::Open | Sight::Through => 1,
    };
    let mut order: Vec<&Seen> = Vec::with_capacity(parts.len());
    for now in 0..3 {
        let all: Vec<&Seen> = own
            .iter()
            .flatten()
            .copied()
            .filter(|s| turn(s) == now)
            .collect();
        let large_first = ascending(all.iter().map(|s| -s.rect.width() * s.rect.height()));
        order.extend(large_first.into_iter().map(|at| all[at]));
    }
    let mut placed: Vec<Option<Shared<Tag>>> = vec![None; by_index.len()];
    for seen in order {
        let item = &vehicle.items[seen.index];
        // Cables and brackets behind other parts, and from behind the truck whatever is hidden, would
        // only crowd out the tags of what one sees.
        let crowd = view == View::Rear || item.part.soft;
        if crowd && seen.sight == Sight::Behind && !chosen(seen) {
            continue;
        }
        let hidden = seen.sight == Sight::Behind;
        let behind = &behind[seen.index];
        // With parts behind it, it says their tags too, which may be other ones now.
        let known = before.filter(|_| behind.is_empty());
        let known = known.and_then(|b| b.part(vehicle, seen.index)?.tag.as_ref());
        let known = known.filter(|tag| tag.words.hidden == hidden && !tag.words.shared);
        let words = known.map_or_else(
            || {
                let behind = behind.iter().map(|i| &*vehicle.items[*i].tag);
                let behind: Vec<&str> = behind.collect();
                words(item, seen, &behind, style, u).into()
            },
            |tag| tag.words.clone(),
        );
        if let Some(spot) = labels.place(&seen.rect, words.wide, PLATE * u, !hidden) {
            let known = known.filter(|tag| tag.spot == spot).cloned();
            let tag = known.unwrap_or_else(|| {
                let target = seen.rect;
                Tag {
                    spot,
                    words,
                    target,
                }
                .into()
            });
            placed[seen.index] = Some(tag);
        }
    }
    placed
}

fn words(item: &Item, seen: &Seen, behind: &[&str], style: &Style, unit: f64) -> Words {
    let u = unit;
    let hidden = seen.sight == Sight::Behind;
    let mut text = if hidden {
        format!("({})", item.tag)
    } else {
        item.tag.clone()
    };
    if !behind.is_empty() {
        text = format!("{text} ({})", behind.join(" "));
    }
    let text = super::text::fitted(&text, FIGURE * u, true, 60.0 * u);
    let plate = width(&text, FIGURE * u, true) + 1.6 * u;
    let large = seen.rect.width() > plate + 8.0 * u && seen.rect.height() > 2.4 * PLATE * u;
    let mass = (!hidden && large && !text.contains('('))
        .then(|| quantity::mass(item.planned_kg(), style.units));
    let full = plate
        + mass
            .as_deref()
            .map_or(0.0, |m| width(m, FIGURE * 0.9 * u, false) + 1.4 * u);
    let mass = mass.filter(|_| seen.rect.width() > full + 2.0 * u);
    Words {
        wide: if mass.is_some() { full } else { plate },
        text,
        mass,
        plate,
        hidden,
        shared: !behind.is_empty(),
    }
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
    let (r, words) = (tag.spot.rect, &tag.words);
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
        right: r.left + words.plate,
        ..r
    };
    if let Some(mass) = words.mass.as_ref().filter(|_| !tag.spot.leader) {
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
        if words.hidden {
            Role::White
        } else {
            Role::Black
        },
        plate,
        0.6 * u,
    );
    let role = if words.hidden {
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
        words.text.clone(),
    ));
    group
}
