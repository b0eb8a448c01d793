//! Room for a part that comes from the shelf: where it goes when nobody carries it, and what a
//! drawing leaves open when somebody does (a side view says nothing about left and right).
//!
//! Candidates come from boxes around the parts; for a part that nobody carries the checks themselves
//! say which of them fits.

use super::room::Room;
use super::session::Session;
use super::snap::{SnapAnswer, SnapQuestion};
use crate::assessment::Assessment;
use crate::chassis::Zone;
use crate::findings::Severity;
use crate::geometry::Point;
use crate::numeric::sort_by;
use crate::plan::{Edit, Refusal};
use crate::vehicle::{Item, Vehicle, find_part};

/// Where there is most often room.
pub(super) const DECK: [&str; 3] = ["behind-cab", "frame-top", "between-rails"];
/// The zone that runs along the whole frame and holds every other.
pub(super) const WHOLE: &str = "frame";

/// How a zone is searched.
pub(super) struct Search {
    /// Step along the truck, mm.
    pub(super) step_mm: f64,
    /// At the sides of every zone, and not of the open deck alone; a plug beside the cab as well.
    pub(super) everywhere: bool,
    /// Step across the truck besides middle and sides, mm; none of them with 0.
    pub(super) across_mm: f64,
    /// Most free places of one zone that are held against every check; across in steps, of one height.
    pub(super) most: usize,
}

/// A quick look, a closer one where it found nothing, and one that leaves little out: it takes a second.
const SEARCHES: [Search; 3] = [
    Search {
        step_mm: 100.0,
        everywhere: false,
        across_mm: 0.0,
        most: 25,
    },
    Search {
        step_mm: 50.0,
        everywhere: true,
        across_mm: 0.0,
        most: 60,
    },
    Search {
        step_mm: 100.0,
        everywhere: true,
        across_mm: 100.0,
        most: 150,
    },
];

/// Why no place is offered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoSpot {
    /// There is no such part, or no zone here that its file permits.
    NoZone,
    /// Something fails at every place that was tried.
    NoRoom,
    /// A driveshaft, and why none can be run.
    Refused(Refusal),
}

impl NoSpot {
    /// What a person can do instead.
    #[must_use]
    pub fn words(&self) -> &str {
        match self {
            Self::NoZone => "this truck has no zone for that part: carry it to its place",
            Self::NoRoom => "no room found where nothing fails: carry it to its place",
            Self::Refused(why) => &why.0,
        }
    }
}

impl Session {
    /// The first place in the zones that the part's file permits at which no check has anything
    /// against the part; where there is none, the one of those where nothing fails that has the fewest
    /// cautions.
    ///
    /// # Errors
    /// There is no such part or no zone for it, or something fails at every place that was tried.
    pub fn spot(&self, part: &str) -> Result<SnapAnswer, NoSpot> {
        let vehicle = Vehicle::resolve(self.plan(), self.library()).map_err(|_| NoSpot::NoZone)?;
        if find_part(self.plan(), self.library(), part).is_some_and(|part| part.shaft.is_some()) {
            return self.run_of(part).map_err(NoSpot::Refused);
        }
        let question = SnapQuestion {
            part: Some(part.to_owned()),
            ..SnapQuestion::default()
        };
        let moving = self.moving(&vehicle, &question).ok_or(NoSpot::NoZone)?;
        let room = Room::new(&vehicle, &moving);
        let zones: Vec<&Zone> = permitted(&vehicle, &moving).collect();
        if zones.is_empty() {
            return Err(NoSpot::NoZone);
        }
        let answer = |zone: &Zone, at: Point| SnapAnswer {
            x_mm: at.x,
            y_mm: at.y,
            z_mm: at.z,
            zone: Some(zone.id.clone()),
            to: Vec::new(),
        };
        for search in &SEARCHES {
            let mut best: Option<(usize, SnapAnswer)> = None;
            for zone in &zones {
                for at in room.places(zone, search) {
                    let place = answer(zone, at);
                    let (fails, cautions) = self.against(part, &place);
                    if fails > 0 || best.as_ref().is_some_and(|(least, _)| *least <= cautions) {
                        continue;
                    }
                    if cautions == 0 {
                        return Ok(place);
                    }
                    best = Some((cautions, place));
                }
            }
            if let Some((_, place)) = best {
                return Ok(place);
            }
        }
        Err(NoSpot::NoRoom)
    }

    /// A driveshaft goes from a drive to an axle, whether that suits it or not.
    fn run_of(&self, part: &str) -> Result<SnapAnswer, Refusal> {
        let mut place = SnapAnswer {
            x_mm: 0.0,
            y_mm: 0.0,
            z_mm: 0.0,
            zone: None,
            to: Vec::new(),
        };
        let plan = placing(part, &place).applied(self.plan(), self.library())?;
        let with = Vehicle::resolve(&plan, self.library()).map_err(|p| Refusal(p.to_string()))?;
        if let Some(shaft) = plan.shafts.last().and_then(|run| with.item(&run.tag)) {
            (place.x_mm, place.y_mm, place.z_mm) = (shaft.origin.x, shaft.origin.y, shaft.origin.z);
        }
        Ok(place)
    }

    /// How many findings name the part if it stood there: those that fail, and cautions.
    fn against(&self, part: &str, place: &SnapAnswer) -> (usize, usize) {
        let never = (usize::MAX, usize::MAX);
        let Ok(plan) = placing(part, place).applied(self.plan(), &self.library) else {
            return never;
        };
        let known = |tag: &str| self.plan().placed_by_tag(tag).is_some();
        let new = plan.placed.iter().find(|placed| !known(&placed.tag));
        let assessment = Assessment::of(&plan, &self.library).ok();
        let Some((new, assessment)) = new.zip(assessment) else {
            return never;
        };
        let count = |severity: Severity| {
            let findings = assessment.findings.iter();
            findings
                .filter(|f| f.severity == severity && f.tags.contains(&new.tag))
                .count()
        };
        (count(Severity::Fails), count(Severity::Caution))
    }
}

fn placing(part: &str, place: &SnapAnswer) -> Edit {
    Edit::Place {
        part: part.to_owned(),
        x_mm: place.x_mm,
        y_mm: place.y_mm,
        z_mm: place.z_mm,
        zone: place.zone.clone(),
        turn: 0,
        tag: None,
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
    let mut zones: Vec<&Zone> = permitted(vehicle, moving).filter(holds).collect();
    // Where the part's file permits nothing, what is there still says how high and on which side.
    let mut rest: Vec<&Zone> = vehicle.zones.iter().filter(holds).collect();
    zones.append(&mut rest);
    // A place in the whole frame says nothing about the height, where any other zone does.
    if zones.iter().any(|zone| zone.id != WHOLE) {
        zones.retain(|zone| zone.id != WHOLE);
    }
    let put = |zone: &&Zone| {
        let own = room.front_end(zone);
        match view {
            "plan" => {
                let level = |z: f64| Point::new(at.x, at.y, z);
                let mut levels = room.levels(zone, at.y).into_iter().map(level);
                let free = levels.find(|at| room.is_free(*at));
                free.unwrap_or_else(|| level(room.rest(zone, at.y)))
            }
            "rear" => Point::new(room.first_free(zone).unwrap_or(own).x, at.y, at.z),
            _ => Point::new(at.x, own.y, at.z),
        }
    };
    let free = zones.iter().map(put).find(|at| room.is_free(*at));
    free.or_else(|| zones.first().map(put)).unwrap_or(at)
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
    sort_by(&mut zones, |a, b| a.0.cmp(&b.0));
    zones.into_iter().map(|(_, zone)| zone)
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
    fn part_that_nobody_carries_goes_where_no_check_has_anything_against_it() {
        let mut session = Session::new().unwrap();
        let spot = session.spot("HV-INLET").unwrap();
        assert_eq!(session.against("HV-INLET", &spot), (0, 0), "{spot:?}");
        // And it is that place which the plan gets.
        let edit = Edit::Place {
            part: "HV-INLET".to_owned(),
            x_mm: spot.x_mm,
            y_mm: spot.y_mm,
            z_mm: spot.z_mm,
            zone: spot.zone,
            turn: 0,
            tag: Some("NEW".to_owned()),
        };
        session.apply(&edit).unwrap();
        let assessment = Assessment::of(session.plan(), session.library()).unwrap();
        let bad = |f: &&crate::shared::Shared<crate::findings::Finding>| {
            f.severity == Severity::Fails && f.tags.iter().any(|tag| tag == "NEW")
        };
        assert_eq!(assessment.findings.iter().find(bad), None);
    }

    /// On the demo, which is full: every part of the catalogue goes where nothing fails, or nowhere.
    #[test]
    fn no_part_is_offered_a_place_at_which_a_check_fails() {
        let session = Session::new().unwrap();
        let mut nowhere = Vec::new();
        for id in session.library().parts.keys() {
            match session.spot(id) {
                Ok(spot) => assert_eq!(session.against(id, &spot).0, 0, "{id}: {spot:?}"),
                Err(why) => nowhere.push((id.as_str(), why)),
            }
        }
        // Two e-axles leave a driveshaft nothing to drive.
        let shaft = |why: &NoSpot| matches!(why, NoSpot::Refused(_));
        assert!(
            nowhere
                .iter()
                .all(|(id, why)| *why == NoSpot::NoRoom || (id.starts_with("DR-") && shaft(why)))
        );
        // A truck with nothing on it has room for what the full one cannot take.
        let mut bare = Session::new().unwrap();
        bare.start("daycab-6x4").unwrap();
        assert!(bare.spot("PK-T120").is_ok());
        assert!(
            nowhere.iter().any(|(id, _)| bare.spot(id).is_ok()),
            "{nowhere:?}"
        );
    }

    /// A charge cable hangs at one side, behind the cab, whatever else is free at the nose.
    #[test]
    fn a_charge_inlet_goes_to_the_side_behind_the_cab() {
        for chassis in ["daycab-6x4", "sleeper-6x4", "regional-6x4", "box-4x2"] {
            let mut session = Session::new().unwrap();
            session.start(chassis).unwrap();
            let vehicle = Vehicle::resolve(session.plan(), session.library()).unwrap();
            let d = &vehicle.chassis.dimensions;
            for part in ["HV-INLET", "HV-INLET-MW"] {
                let spot = session.spot(part).unwrap();
                assert!(spot.x_mm >= d.back_of_cab_x_mm(), "{chassis} {spot:?}");
                assert!(spot.y_mm < -d.frame_width_mm / 2.0, "{chassis} {spot:?}");
                assert!(spot.z_mm < 1_500.0, "{chassis} {spot:?}");
            }
        }
    }

    #[test]
    fn plan_view_leaves_the_height_to_what_is_there() {
        let mut session = Session::new().unwrap();
        let tag = "H2".to_owned();
        session.apply(&crate::plan::Edit::Delete { tag }).unwrap();
        let drop = |x_mm: f64, y_mm: f64| {
            let question = SnapQuestion {
                part: Some("HV-DCDC".to_owned()),
                x_mm,
                y_mm,
                view: "plan".to_owned(),
                centred: true,
                ..SnapQuestion::default()
            };
            session.snap(&question).unwrap()
        };
        let vehicle = Vehicle::resolve(session.plan(), session.library()).unwrap();
        // Over the pack under the hood: on top of it, in that bay.
        let under = vehicle.item("B3").unwrap().bounds;
        let middle = under.centre();
        let found = drop(middle.x, middle.y);
        assert_eq!(found.zone.as_deref(), Some("hood-bay"), "{found:?}");
        assert!(found.z_mm >= under.max.z, "{found:?}");
        // Far behind on the frame, and beside it there.
        let end = vehicle.chassis.dimensions.frame_end_x_mm();
        let top = vehicle.chassis.dimensions.frame_top_laden_mm;
        let behind = drop(end - 300.0, 0.0);
        assert!(behind.z_mm <= top + 50.0, "{behind:?}");
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
        assert_eq!(session.spot("no such part"), Err(NoSpot::NoZone));
    }
}
