//! Where a dragged part comes to rest: at a zone's ends, at a neighbour's clearance, on a grid.

use super::session::Session;
use super::spot::complete;
use crate::clearance::side_towards;
use crate::geometry::{Aabb, Point};
use crate::plan::{Place, Placed};
use crate::vehicle::{Item, Vehicle, find_part};
use serde::{Deserialize, Serialize};

/// A part under the pointer.
#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
#[serde(default)]
pub struct SnapQuestion {
    /// Tag, for a part that is on the truck.
    pub tag: Option<String>,
    /// Part id, for one that comes from the shelf.
    pub part: Option<String>,
    /// Front face.
    pub x_mm: f64,
    /// Middle.
    pub y_mm: f64,
    /// Underside.
    pub z_mm: f64,
    /// Quarter turns.
    pub turn: u8,
    /// In which view it is dragged: that view's two axes snap.
    pub view: String,
    /// The pointer is at the middle of the part, not at its origin (from the shelf).
    pub centred: bool,
}

/// Where it comes to rest.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SnapAnswer {
    /// Front face.
    pub x_mm: f64,
    /// Middle.
    pub y_mm: f64,
    /// Underside.
    pub z_mm: f64,
    /// Zone that holds its middle, if one does.
    pub zone: Option<String>,
    /// What it came to rest at, in words.
    pub to: Vec<String>,
}

/// How near is near enough to snap.
const REACH_MM: f64 = 40.0;
/// Grid.
const GRID_MM: f64 = 5.0;

impl Session {
    /// Snaps a dragged part. `None` when there is no such part.
    #[must_use]
    pub fn snap(&self, question: &SnapQuestion) -> Option<SnapAnswer> {
        if ![question.x_mm, question.y_mm, question.z_mm]
            .iter()
            .all(|v| v.is_finite())
        {
            return None;
        }
        let vehicle = Vehicle::resolve(self.plan(), self.library()).ok()?;
        let moving = self.moving(&vehicle, question)?;
        let size = moving.bounds.size();
        let mut at = Point::new(question.x_mm, question.y_mm, question.z_mm);
        if question.centred {
            at = Point::new(at.x - size.x / 2.0, at.y, at.z - size.z / 2.0);
        }
        if question.tag.is_none() {
            at = complete(&vehicle, &moving, &question.view, at);
        }
        let zone = zone_for(&vehicle, &moving, at, size, question.tag.is_none());
        let mut to = Vec::new();
        let (along, across, up) = match question.view.as_str() {
            "plan" => (true, true, false),
            "rear" => (false, true, true),
            _ => (true, false, true),
        };
        let others: Vec<&Item> = vehicle
            .each_item()
            .filter(|i| Some(&i.tag) != question.tag.as_ref() && !i.part.soft)
            .collect();
        let space = zone.and_then(|id| vehicle.zone(id)).map(|z| z.volume);
        let axes = Axes {
            moving: &moving,
            others: &others,
            space,
            size,
        };
        if along {
            at.x = axes.snap_x(at, &mut to);
        }
        if across {
            at.y = axes.snap_y(at, &mut to);
        }
        if up {
            at.z = axes.snap_z(at, &mut to);
        }
        let zone = zone.map(str::to_owned);
        Some(SnapAnswer {
            x_mm: at.x,
            y_mm: at.y,
            z_mm: at.z,
            zone,
            to,
        })
    }

    /// The part as it would stand at the asked place.
    pub(super) fn moving(&self, vehicle: &Vehicle, question: &SnapQuestion) -> Option<Item> {
        if let Some(tag) = &question.tag {
            return vehicle.item(tag).cloned();
        }
        let part = find_part(self.plan(), self.library(), question.part.as_deref()?)?;
        let placed = Placed {
            tag: String::new(),
            part: part.id.clone(),
            place: Place::Free {
                x_mm: question.x_mm,
                y_mm: question.y_mm,
                z_mm: question.z_mm,
            },
            turn: question.turn % 4,
            fill: None,
            locked: false,
        };
        Some(vehicle.trial(placed, &part))
    }
}

pub(super) struct Axes<'a> {
    pub moving: &'a Item,
    pub others: &'a [&'a Item],
    pub space: Option<Aabb>,
    pub size: Point,
}

impl Axes<'_> {
    fn snap_x(&self, at: Point, to: &mut Vec<String>) -> f64 {
        let mut stops = Vec::new();
        if let Some(space) = self.space {
            stops.push((space.min.x, "front end of the zone".to_owned()));
            stops.push((space.max.x - self.size.x, "rear end of the zone".to_owned()));
        }
        let rear = Point::new(1.0, 0.0, 0.0);
        for other in self.others {
            let beside = overlaps(
                at.y - self.size.y / 2.0,
                self.size.y,
                other.bounds.min.y,
                other.bounds.max.y,
            ) && overlaps(at.z, self.size.z, other.bounds.min.z, other.bounds.max.z);
            if beside {
                let behind = self.gap(other, rear * -1.0);
                let ahead = self.gap(other, rear);
                stops.push((other.bounds.max.x + behind, beside_words(other, behind)));
                stops.push((
                    other.bounds.min.x - self.size.x - ahead,
                    beside_words(other, ahead),
                ));
            }
        }
        nearest(at.x, stops, to)
    }

    fn snap_y(&self, at: Point, to: &mut Vec<String>) -> f64 {
        let half = self.size.y / 2.0;
        let mut stops = vec![(0.0, "centre line".to_owned())];
        if let Some(space) = self.space {
            stops.push((space.min.y + half, "left side of the zone".to_owned()));
            stops.push((space.max.y - half, "right side of the zone".to_owned()));
        }
        let right = Point::new(0.0, 1.0, 0.0);
        for other in self.others {
            let beside = overlaps(at.x, self.size.x, other.bounds.min.x, other.bounds.max.x)
                && overlaps(at.z, self.size.z, other.bounds.min.z, other.bounds.max.z);
            if beside {
                let after = self.gap(other, right * -1.0);
                let before = self.gap(other, right);
                stops.push((
                    other.bounds.max.y + half + after,
                    beside_words(other, after),
                ));
                stops.push((
                    other.bounds.min.y - half - before,
                    beside_words(other, before),
                ));
            }
        }
        nearest(at.y, stops, to)
    }

    fn snap_z(&self, at: Point, to: &mut Vec<String>) -> f64 {
        let mut stops = Vec::new();
        if let Some(space) = self.space {
            stops.push((space.min.z, "bottom of the zone".to_owned()));
            stops.push((space.max.z - self.size.z, "top of the zone".to_owned()));
        }
        let top = Point::new(0.0, 0.0, 1.0);
        for other in self.others {
            let beside = overlaps(at.x, self.size.x, other.bounds.min.x, other.bounds.max.x)
                && overlaps(
                    at.y - self.size.y / 2.0,
                    self.size.y,
                    other.bounds.min.y,
                    other.bounds.max.y,
                );
            if beside {
                let over = self.gap(other, top * -1.0);
                let under = self.gap(other, top);
                stops.push((other.bounds.max.z + over, beside_words(other, over)));
                stops.push((
                    other.bounds.min.z - self.size.z - under,
                    beside_words(other, under),
                ));
            }
        }
        nearest(at.z, stops, to)
    }

    /// Clearance between the moving part and another that lies in this direction from it.
    pub fn gap(&self, other: &Item, towards: Point) -> f64 {
        let own = side_towards(&self.moving.clearance, towards);
        let back = side_towards(&other.clearance, towards * -1.0);
        let kinds = [(self.moving, other), (other, self.moving)];
        let away = kinds.iter().flat_map(|(one, two)| {
            one.part
                .keep_away
                .iter()
                .filter(|rule| rule.kind == two.part.kind)
                .map(|r| r.mm)
        });
        away.fold(own.max(back), f64::max)
    }
}

fn beside_words(other: &Item, gap: f64) -> String {
    format!("{} at {gap:.0} mm", other.tag)
}

pub(super) fn overlaps(from: f64, size: f64, low: f64, high: f64) -> bool {
    from < high && low < from + size
}

/// The nearest stop within reach, else the grid.
fn nearest(value: f64, stops: Vec<(f64, String)>, to: &mut Vec<String>) -> f64 {
    let mut best: Option<(f64, String)> = None;
    for (stop, words) in stops {
        let far = (stop - value).abs();
        let better = best.as_ref().is_none_or(|(b, _)| far < (b - value).abs());
        if far <= REACH_MM && better {
            best = Some((stop, words));
        }
    }
    match best {
        Some((stop, words)) => {
            to.push(words);
            stop
        }
        None => (value / GRID_MM).round() * GRID_MM,
    }
}

/// The zone that holds the part's middle: the one it is in if that does, else the smallest one that
/// its file permits.
fn zone_for<'a>(
    vehicle: &'a Vehicle,
    moving: &Item,
    at: Point,
    size: Point,
    new: bool,
) -> Option<&'a str> {
    let middle = Point::new(at.x + size.x / 2.0, at.y, at.z + size.z / 2.0);
    let spot = Aabb {
        min: middle,
        max: middle,
    };
    let holds = |id: &str| {
        vehicle
            .zone(id)
            .is_some_and(|z| z.volume.contains(&spot, 0.0))
    };
    if !new && let Some(own) = moving.zone.as_deref().filter(|id| holds(id)) {
        return vehicle.zone(own).map(|z| z.id.as_str());
    }
    let volume = |a: &Aabb| {
        let s = a.size();
        s.x * s.y * s.z
    };
    let permits = |id: &str| {
        let list = &moving.part.zones;
        list.is_empty()
            || list
                .iter()
                .any(|one| one == id || (one == "axle" && id.starts_with("axle-")))
    };
    let inside = || {
        vehicle
            .zones
            .iter()
            .filter(|z| z.volume.contains(&spot, 0.0))
    };
    let smallest = |list: Vec<&'a crate::chassis::Zone>| {
        list.into_iter()
            .min_by(|a, b| volume(&a.volume).total_cmp(&volume(&b.volume)))
    };
    smallest(inside().filter(|z| permits(&z.id)).collect())
        .or_else(|| smallest(inside().collect()))
        .map(|z| z.id.as_str())
}
