//! Zones, ground, width and ends: how far parts reach, and what zones carry.

use crate::geometry::Outset;
use crate::shared::Shared;
use crate::vehicle::{Item, Vehicle};
use std::fmt;
use std::ops::Deref;

/// What a zone carries and what sticks out of it.
#[derive(Clone, Debug, PartialEq)]
pub struct ZoneUse {
    /// Zone id.
    pub id: String,
    /// Zone name.
    pub name: String,
    /// Mass of the parts in it, contents as planned.
    pub mass_kg: f64,
    /// Most that it may carry.
    pub limit_kg: Option<f64>,
    /// Tags in it.
    pub tags: Vec<String>,
}

/// One part sticking out of its zone.
#[derive(Clone, Debug, PartialEq)]
pub struct Outside {
    /// Tag of the part.
    pub tag: String,
    /// Zone id.
    pub zone: String,
    /// How far, on the worst side; negative when it is inside with room.
    pub by_mm: f64,
    /// Which side that is, in words.
    pub side: &'static str,
}

/// How far one part reaches. It reads as the part: `reach.tag`.
#[derive(Clone, PartialEq)]
pub struct Reach {
    /// The part itself.
    pub item: Shared<Item>,
    /// Height, width or position, see the list it stands in.
    pub mm: f64,
}

impl Deref for Reach {
    type Target = Item;

    fn deref(&self) -> &Item {
        &self.item
    }
}

impl fmt::Debug for Reach {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {:?}", self.tag, self.mm)
    }
}

/// All extents.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Extents {
    /// Zones in use.
    pub zones: Vec<ZoneUse>,
    /// Parts and their zones.
    pub outside: Vec<Outside>,
    /// Parts in a zone that their file does not permit: tag and zone.
    pub not_permitted: Vec<(String, String)>,
    /// Lowest point of each sprung part above ground, laden.
    pub ground: Vec<Reach>,
    /// Lowest point of each part that rides on an axle above ground, tyres laden.
    pub ground_under_axles: Vec<Reach>,
    /// Twice the farthest distance of each part from the middle.
    pub width: Vec<Reach>,
    /// How far each part reaches ahead of the bumper (positive: beyond).
    pub ahead_of_bumper: Vec<Reach>,
    /// How far each part reaches behind the end of the frame or body (positive: beyond).
    pub behind_end: Vec<Reach>,
    /// How far each part that must not is ahead of the front axle (positive: ahead).
    pub ahead_of_axle: Vec<Reach>,
    /// Free space between the back of the cab and each part behind it.
    pub behind_cab: Vec<Reach>,
}

/// Measures the extents.
#[must_use]
pub fn extents(vehicle: &Vehicle) -> Extents {
    let mut out = Extents::default();
    for zone in vehicle.zones.iter() {
        let inside: Vec<&Item> = vehicle
            .each_item()
            .filter(|i| i.zone.as_deref() == Some(zone.id.as_str()))
            .collect();
        if inside.is_empty() {
            continue;
        }
        out.zones.push(ZoneUse {
            id: zone.id.clone(),
            name: zone.name.clone(),
            mass_kg: inside.iter().map(|i| i.planned_kg()).sum(),
            limit_kg: zone.mass_limit_kg,
            tags: inside.iter().map(|i| i.tag.clone()).collect(),
        });
        for item in inside.iter().filter(|i| !i.part.soft) {
            let (by_mm, side) = worst(&item.bounds.outset_beyond(&zone.volume));
            let zone = zone.id.clone();
            out.outside.push(Outside {
                tag: item.tag.clone(),
                zone,
                by_mm,
                side,
            });
        }
        for item in inside {
            let allowed = &item.part.zones;
            if !allowed.is_empty() && !allowed.iter().any(|id| permits(id, &zone.id)) {
                out.not_permitted.push((item.tag.clone(), zone.id.clone()));
            }
        }
    }
    let d = &vehicle.chassis.dimensions;
    let end = vehicle
        .chassis
        .body
        .as_ref()
        .map_or(d.frame_end_x_mm(), |body| {
            body.rear_x_mm.max(d.frame_end_x_mm())
        });
    let cab = &vehicle.chassis.cab;
    let boc = d.back_of_cab_x_mm();
    for item in vehicle.items.iter().filter(|i| !i.part.soft) {
        let b = &item.bounds;
        let reach = |mm: f64| Reach {
            item: item.clone(),
            mm,
        };
        if item.unsprung_axle.is_none() {
            out.ground.push(reach(b.min.z));
        } else {
            out.ground_under_axles.push(reach(b.min.z));
        }
        out.width
            .push(reach(2.0 * b.min.y.abs().max(b.max.y.abs())));
        out.ahead_of_bumper.push(reach(d.bumper_x_mm() - b.min.x));
        out.behind_end.push(reach(b.max.x - end));
        if item.part.behind_front_axle {
            out.ahead_of_axle.push(reach(-b.min.x));
        }
        let beside = b.max.y > -cab.width_mm / 2.0 && b.min.y < cab.width_mm / 2.0;
        let level = b.max.z > cab.floor_z_mm && b.min.z < cab.roof_z_mm;
        if beside && level && b.centre().x > boc {
            out.behind_cab.push(reach(b.min.x - boc));
        }
    }
    out
}

/// `axle` in a part's list stands for every axle position.
fn permits(allowed: &str, zone: &str) -> bool {
    allowed == zone || (allowed == "axle" && zone.starts_with("axle-"))
}

fn worst(out: &Outset) -> (f64, &'static str) {
    [
        (out.front, "ahead of"),
        (out.rear, "behind"),
        (out.left, "left of"),
        (out.right, "right of"),
        (out.below, "below"),
        (out.above, "above"),
    ]
    .into_iter()
    .fold(
        (f64::NEG_INFINITY, "inside"),
        |a, b| if b.0 > a.0 { b } else { a },
    )
}
