//! Where on a truck there is room for a part: zone by zone, by boxes around the parts.

use super::snap::{Axes, overlaps};
use super::spot::{DECK, Search, WHOLE};
use crate::chassis::Zone;
use crate::clearance::side_towards;
use crate::geometry::{Aabb, Point, Solid};
use crate::numeric::sort_by;
use crate::vehicle::{Item, Vehicle};

/// What touches is no overlap, mm.
const TOUCH_MM: f64 = 1.0;

fn blocks(solids: &[Solid]) -> impl Iterator<Item = &Aabb> {
    solids.iter().filter_map(|solid| match solid {
        Solid::Block(block) => Some(block),
        _ => None,
    })
}

/// Step of the heights in a zone beside or below the frame, mm.
const HEIGHT_MM: f64 = 200.0;

/// True when this side of the zone is an outer side of the truck.
fn beside(zone: &Zone, y: f64) -> bool {
    let (low, high) = (zone.volume.min.y, zone.volume.max.y);
    (low < 0.0 && high > 0.0) || (y < f64::midpoint(low, high)) == (high <= 0.0)
}

/// A part looking for room on a truck.
pub(super) struct Room<'a> {
    vehicle: &'a Vehicle,
    moving: &'a Item,
    others: Vec<&'a Item>,
    pub(super) size: Point,
}

impl<'a> Room<'a> {
    pub(super) fn new(vehicle: &'a Vehicle, moving: &'a Item) -> Self {
        let others = vehicle.each_item().filter(|item| !item.part.soft).collect();
        Self {
            vehicle,
            moving,
            others,
            size: moving.bounds.size(),
        }
    }

    /// At the front of a zone: in its middle across; hung from the frame, stood upon it, or at
    /// half height where the frame says nothing. On an axle, about the axle.
    pub(super) fn front_end(&self, zone: &Zone) -> Point {
        let centre = zone.volume.centre();
        let x = if self.vehicle.axle(&zone.id).is_some() {
            centre.x - self.size.x / 2.0
        } else {
            zone.volume.min.x
        };
        let y = centre.y.round();
        Point::new(x.round(), y, self.rest(zone, y))
    }

    /// Height at which a part rests in a zone when its middle is this far to the side.
    pub(super) fn rest(&self, zone: &Zone, y: f64) -> f64 {
        let volume = &zone.volume;
        let chassis = &self.vehicle.chassis;
        let top = chassis.dimensions.frame_top_laden_mm;
        let hung = volume.max.z.min(top) - self.size.z;
        // What stands on the rails keeps its own distance from them.
        let stand = side_towards(&self.moving.clearance, Point::new(0.0, 0.0, -1.0));
        let z = if zone.id == WHOLE {
            let beside = y.abs() > chassis.dimensions.frame_width_mm / 2.0;
            if beside { hung } else { top + stand }
        } else if volume.min.z >= top - 1.0 {
            volume.min.z + stand
        } else if self.vehicle.axle(&zone.id).is_some() || volume.max.z > top + 200.0 {
            volume.centre().z - self.size.z / 2.0
        } else {
            hung
        };
        z.round()
    }

    /// Heights in a zone: where the part rests, then on top of what stands there already.
    pub(super) fn levels(&self, zone: &Zone, y: f64) -> Vec<f64> {
        let rest = self.rest(zone, y);
        let highest = zone.volume.max.z - self.size.z + 1.0;
        let axes = self.axes();
        let down = Point::new(0.0, 0.0, -1.0);
        let (from, to) = (zone.volume.min, zone.volume.max);
        let mut levels = vec![rest];
        for other in &self.others {
            let (low, high) = (other.bounds.min, other.bounds.max);
            let top = (high.z + axes.gap(other, down)).ceil();
            let under = low.x < to.x && high.x > from.x && low.y < to.y && high.y > from.y;
            if under && top > rest && top <= highest {
                levels.push(top);
            }
        }
        sort_by(&mut levels, f64::total_cmp);
        levels.dedup();
        levels
    }

    /// Free places in a zone, the likeliest first and no more than are worth a try: where the part
    /// rests before on top of others, in the middle across before at the sides, in front before behind.
    /// What is reached from beside the truck (a plug) stands at the sides alone, the left one first, and
    /// behind the cab as long as there is room.
    pub(super) fn places(&self, zone: &Zone, search: &Search) -> Vec<Point> {
        let volume = &zone.volume;
        let front = self.front_end(zone);
        if self.vehicle.axle(&zone.id).is_some() {
            return vec![front];
        }
        let last = volume.max.x - self.size.x + 1.0;
        let mut along = vec![front.x];
        for other in &self.others {
            along.push((other.bounds.max.x + self.gap(other)).ceil());
        }
        let plugged = self.moving.part.inlet.is_some();
        let cab = self.vehicle.chassis.dimensions.back_of_cab_x_mm().ceil();
        let first = if plugged && !search.everywhere {
            front.x.max(cab)
        } else {
            front.x
        };
        along.push(first);
        let mut x = first + search.step_mm;
        while x <= last {
            along.push(x);
            x += search.step_mm;
        }
        along.retain(|x| *x >= first && (*x <= last || *x == first));
        sort_by(&mut along, f64::total_cmp);
        along.dedup();
        let half = self.size.y / 2.0;
        let (left, right) = (volume.min.y + half, volume.max.y - half);
        let sides = [left.ceil(), right.floor()];
        let mut across = vec![front.y];
        if plugged {
            // Of a zone on one side only its outer edge.
            across = sides.into_iter().filter(|y| beside(zone, *y)).collect();
        } else if (search.everywhere || DECK.contains(&zone.id.as_str()))
            && right - left > self.size.y
        {
            across.extend(sides);
        }
        if search.across_mm > 0.0 && !plugged {
            let mut y = left.ceil();
            while y < right {
                across.push(y);
                y += search.across_mm;
            }
            sort_by(&mut across, |a, b| {
                (a - front.y).abs().total_cmp(&(b - front.y).abs())
            });
        }
        let mut found = Vec::new();
        let mut levels = self.levels(zone, front.y);
        let stepped = search.across_mm > 0.0;
        // Over the frame a part stands on something, and the whole frame says nothing of heights.
        if stepped && zone.id != WHOLE && !DECK.contains(&zone.id.as_str()) {
            let mut z = volume.min.z.ceil();
            while z + self.size.z <= volume.max.z {
                levels.push(z);
                z += HEIGHT_MM;
            }
        }
        // Step by step there are many places on each level, and the next level has its turn too.
        let mut before = 0;
        for z in levels {
            for y in &across {
                for x in &along {
                    let at = Point::new(*x, *y, z);
                    if found.len() - before < search.most && self.is_free(at) && !self.strikes(at) {
                        found.push(at);
                    }
                }
            }
            if stepped {
                before = found.len();
            }
        }
        found
    }

    /// The foremost free place of a zone that is long and high enough.
    pub(super) fn first_free(&self, zone: &Zone) -> Option<Point> {
        let front = self.front_end(zone);
        let space = zone.volume.size();
        if self.size.x > space.x || self.size.y > space.y || self.size.z > space.z {
            return None;
        }
        let behind = self
            .others
            .iter()
            .map(|other| other.bounds.max.x + self.gap(other));
        let mut stops: Vec<f64> = behind.filter(|x| *x > front.x).collect();
        stops.push(front.x);
        sort_by(&mut stops, f64::total_cmp);
        let inside = |x: &f64| x + self.size.x <= zone.volume.max.x + 1.0;
        let places = stops
            .into_iter()
            .filter(inside)
            .map(|x| Point::new(x.ceil(), front.y, front.z));
        places.into_iter().find(|at| self.is_free(*at))
    }

    pub(super) fn is_free(&self, at: Point) -> bool {
        self.others.iter().all(|other| {
            let (low, high) = (other.bounds.min, other.bounds.max);
            let gap = self.gap(other) - 1.0;
            let along = overlaps(at.x, self.size.x, low.x - gap, high.x + gap);
            let across = overlaps(at.y - self.size.y / 2.0, self.size.y, low.y, high.y);
            !(along && across && overlaps(at.z, self.size.z, low.z, high.z))
        })
    }

    /// A box of the part there lies in a box of the chassis: no need to ask every check.
    fn strikes(&self, at: Point) -> bool {
        let own = self.moving.bounds;
        let by = at - Point::new(own.min.x, own.centre().y, own.min.z);
        let mut boxes = blocks(&self.moving.solids);
        boxes.any(|own| {
            let own = own.translated(by).inflated(-TOUCH_MM);
            let mut there = self.vehicle.bodies.iter().flat_map(|b| blocks(&b.solids));
            there.any(|block| block.overlaps(&own))
        })
    }

    /// Clearance along the truck between this part and another, whichever is in front.
    fn gap(&self, other: &Item) -> f64 {
        let axes = self.axes();
        let rear = Point::new(1.0, 0.0, 0.0);
        axes.gap(other, rear).max(axes.gap(other, rear * -1.0))
    }

    fn axes(&self) -> Axes<'_> {
        Axes {
            moving: self.moving,
            others: &self.others,
            space: None,
            size: self.size,
        }
    }
}
