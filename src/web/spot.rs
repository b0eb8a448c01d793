//! Room for a part that comes from the shelf: where it goes when nobody carries it, and what a
//! drawing leaves open when somebody does (a side view says nothing about left and right).
//!
//! A proposal to start from, by boxes around the parts. Whether it fits is for the checks.

use super::session::Session;
use super::snap::{Axes, SnapAnswer, SnapQuestion, overlaps};
use crate::chassis::Zone;
use crate::geometry::Point;
use crate::vehicle::{Item, Vehicle};

/// Where there is most often room.
const DECK: [&str; 3] = ["behind-cab", "frame-top", "between-rails"];
/// The zone that runs along the whole frame and holds every other.
const WHOLE: &str = "frame";

impl Session {
    /// The first free place in the first zone that the part's file permits; its first zone's front
    /// end when there is none free. `None` when there is no such part, or no such zone here.
    #[must_use]
    pub fn spot(&self, part: &str) -> Option<SnapAnswer> {
        let vehicle = Vehicle::resolve(self.plan(), self.library()).ok()?;
        let question = SnapQuestion {
            part: Some(part.to_owned()),
            ..SnapQuestion::default()
        };
        let moving = self.moving(&vehicle, &question)?;
        let room = Room::new(&vehicle, &moving);
        let zones: Vec<&Zone> = permitted(&vehicle, &moving).collect();
        let first = |zone: &&Zone| room.first_free(zone).map(|at| (zone.id.clone(), at));
        let mut own = zones
            .iter()
            .filter(|zone| zone.id != WHOLE || zones.len() == 1);
        let (zone, at) = own.find_map(first).or_else(|| {
            let zone = zones.first()?;
            Some((zone.id.clone(), room.front_end(zone)))
        })?;
        Some(SnapAnswer {
            x_mm: at.x,
            y_mm: at.y,
            z_mm: at.z,
            zone: Some(zone),
            to: Vec::new(),
        })
    }
}

/// Gives a part from the shelf the coordinate that its view does not show.
pub(super) fn complete(vehicle: &Vehicle, moving: &Item, view: &str, at: Point) -> Point {
    let room = Room::new(vehicle, moving);
    let middle = Point::new(at.x + room.size.x / 2.0, at.y, at.z + room.size.z / 2.0);
    let holds = |zone: &&Zone| {
        let (low, high) = (zone.volume.min, zone.volume.max);
        let (x, y, z) = (
            within(middle.x, low.x, high.x),
            within(middle.y, low.y, high.y),
            within(middle.z, low.z, high.z),
        );
        match view {
            "plan" => x && y,
            "rear" => y && z,
            _ => x && z,
        }
    };
    let zones: Vec<&Zone> = permitted(vehicle, moving).filter(holds).collect();
    let put = |zone: &&Zone| {
        let own = room.front_end(zone);
        match view {
            "plan" => Point::new(at.x, at.y, own.z),
            "rear" => Point::new(room.first_free(zone).unwrap_or(own).x, at.y, at.z),
            _ => Point::new(at.x, own.y, at.z),
        }
    };
    let free = zones.iter().map(put).find(|at| room.is_free(*at));
    free.or_else(|| zones.first().map(put))
        .unwrap_or_else(|| match view {
            "plan" => Point::new(at.x, at.y, vehicle.chassis.dimensions.frame_top_laden_mm),
            _ => at,
        })
}

fn within(value: f64, low: f64, high: f64) -> bool {
    low <= value && value <= high
}

/// Zones that the part's file permits, in the file's order; the zone that is the whole frame comes
/// last. A part whose file names none goes to the open deck first.
fn permitted<'a>(vehicle: &'a Vehicle, moving: &'a Item) -> impl Iterator<Item = &'a Zone> {
    let list = &moving.part.zones;
    let rank = move |zone: &Zone| {
        let same =
            |one: &String| *one == zone.id || (one == "axle" && zone.id.starts_with("axle-"));
        let place = if list.is_empty() {
            Some(
                DECK.iter()
                    .position(|id| *id == zone.id)
                    .unwrap_or(DECK.len()),
            )
        } else {
            list.iter().position(same)
        };
        place.map(|place| if zone.id == WHOLE { usize::MAX } else { place })
    };
    let mut zones: Vec<(usize, &Zone)> = vehicle
        .zones
        .iter()
        .filter_map(|zone| Some((rank(zone)?, zone)))
        .collect();
    zones.sort_by_key(|(place, _)| *place);
    zones.into_iter().map(|(_, zone)| zone)
}

/// A part looking for room on a truck.
struct Room<'a> {
    vehicle: &'a Vehicle,
    moving: &'a Item,
    others: Vec<&'a Item>,
    size: Point,
}

impl<'a> Room<'a> {
    fn new(vehicle: &'a Vehicle, moving: &'a Item) -> Self {
        let others = vehicle
            .items
            .iter()
            .filter(|item| !item.part.soft)
            .collect();
        Self {
            vehicle,
            moving,
            others,
            size: moving.bounds.size(),
        }
    }

    /// At the front of a zone: in its middle across; hung from the frame, stood upon it, or at
    /// half height where the frame says nothing. On an axle, about the axle.
    fn front_end(&self, zone: &Zone) -> Point {
        let volume = &zone.volume;
        let centre = volume.centre();
        let on_axle = self.vehicle.axle(&zone.id).is_some();
        let top = self.vehicle.chassis.dimensions.frame_top_laden_mm;
        let x = if on_axle {
            centre.x - self.size.x / 2.0
        } else {
            volume.min.x
        };
        let z = if volume.min.z >= top - 1.0 {
            volume.min.z
        } else if on_axle || volume.max.z > top + 200.0 {
            centre.z - self.size.z / 2.0
        } else {
            volume.max.z.min(top) - self.size.z
        };
        Point::new(x.round(), centre.y.round(), z.round())
    }

    /// The foremost free place of a zone that is long and high enough.
    fn first_free(&self, zone: &Zone) -> Option<Point> {
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
        stops.sort_by(f64::total_cmp);
        let inside = |x: &f64| x + self.size.x <= zone.volume.max.x + 1.0;
        let places = stops
            .into_iter()
            .filter(inside)
            .map(|x| Point::new(x.ceil(), front.y, front.z));
        places.into_iter().find(|at| self.is_free(*at))
    }

    fn is_free(&self, at: Point) -> bool {
        self.others.iter().all(|other| {
            let (low, high) = (other.bounds.min, other.bounds.max);
            let gap = self.gap(other) - 1.0;
            let along = overlaps(at.x, self.size.x, low.x - gap, high.x + gap);
            let across = overlaps(at.y - self.size.y / 2.0, self.size.y, low.y, high.y);
            !(along && across && overlaps(at.z, self.size.z, low.z, high.z))
        })
    }

    /// Clearance along the truck between this part and another, whichever is in front.
    fn gap(&self, other: &Item) -> f64 {
        let axes = Axes {
            moving: self.moving,
            others: &self.others,
            space: None,
            size: self.size,
        };
        let rear = Point::new(1.0, 0.0, 0.0);
        axes.gap(other, rear).max(axes.gap(other, rear * -1.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn second_saddle_pack_goes_to_the_other_side_and_the_third_does_not_overlap() {
        let mut session = Session::new().unwrap();
        let template = session.plan().clone();
        let crate::plan::ChassisChoice::Template(id) = template.chassis else {
            panic!("template")
        };
        session.start(&id).unwrap();
        let mut sides = Vec::new();
        for _ in 0..2 {
            let spot = session.spot("PK-S118").unwrap();
            sides.push(spot.y_mm.signum());
            let edit = crate::plan::Edit::Place {
                part: "PK-S118".to_owned(),
                x_mm: spot.x_mm,
                y_mm: spot.y_mm,
                z_mm: spot.z_mm,
                zone: spot.zone,
                turn: 0,
                tag: None,
            };
            session.apply(&edit).unwrap();
        }
        assert_eq!(sides, [-1.0, 1.0]);
    }

    #[test]
    fn side_view_leaves_the_side_to_the_zones_of_the_part() {
        let session = Session::new().unwrap();
        let question = SnapQuestion {
            part: Some("PK-S118".to_owned()),
            x_mm: 2_400.0,
            z_mm: 600.0,
            view: "side".to_owned(),
            centred: true,
            ..SnapQuestion::default()
        };
        let found = session.snap(&question).unwrap();
        assert!(found.zone.is_some_and(|zone| zone.starts_with("saddle")));
        assert!(found.y_mm.abs() > 400.0);
        assert!(session.spot("no such part").is_none());
    }
}
