//! Zones of the chassis as faint outlines with their names.

use super::View;
use super::labels::Labels;
use super::plane::{Rect, at};
use super::scene::{Anchor, Group, Owner, Role, Text, TextRole};
use super::text::width;
use crate::vehicle::Vehicle;

/// Size of a name, paper millimetres.
const FIGURE: f64 = 2.5;

/// All zones but the one that is the whole frame, and their names, which stand over the parts. Zones that
/// coincide in the view share a name.
pub fn zones(
    vehicle: &Vehicle,
    view: View,
    room: &Rect,
    labels: &mut Labels<'_>,
    unit: f64,
) -> (Vec<Group>, Group) {
    // Open zones reach far above the truck; what lies outside of the drawing is not drawn.
    let room = room.grown(-unit);
    let mut named: Vec<(Rect, Vec<&str>)> = Vec::new();
    let mut groups = Vec::new();
    for zone in vehicle
        .zones
        .iter()
        .filter(|z| z.id != "frame" && z.volume.has_place())
    {
        let r = view.rect(&zone.volume);
        let r = Rect {
            left: r.left.max(room.left),
            top: r.top.max(room.top),
            right: r.right.min(room.right),
            bottom: r.bottom.min(room.bottom),
        };
        if r.width() < 1.0 || r.height() < 1.0 {
            continue;
        }
        let mut group = Group::new(Owner::Zone(zone.id.clone()));
        group.rounded(Role::Zone, r, 0.0);
        groups.push(group);
        match named.iter_mut().find(|(rect, _)| *rect == r) {
            Some((_, names)) => names.push(&zone.name),
            None => named.push((r, vec![&zone.name])),
        }
    }
    let mut words = Group::layer("zone-names");
    let size = FIGURE * unit;
    for (r, names) in named {
        let text = names.join(" / ");
        let (wide, tall) = (width(&text, size, false) + unit, size * 1.15);
        let (left, right) = (r.left + 0.6 * unit, r.right - 0.6 * unit);
        let (top, bottom) = (r.top + 0.5 * unit, r.bottom - 0.5 * unit);
        let boxes = [
            Rect::new(at(left, top), at(left + wide, top + tall)),
            Rect::new(at(right - wide, top), at(right, top + tall)),
            Rect::new(at(left, bottom - tall), at(left + wide, bottom)),
            Rect::new(at(right - wide, bottom - tall), at(right, bottom)),
        ];
        let Some(spot) = boxes.into_iter().find(|b| labels.is_free(b)) else {
            continue;
        };
        labels.take(spot);
        let (x, y) = (spot.left + 0.5 * unit, spot.bottom - 0.28 * size);
        words.text(Text::new(TextRole::Zone, x, y, Anchor::Start, size, text));
    }
    (groups, words)
}
