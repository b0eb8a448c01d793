//! Is a part told "no room found" that would have had a place? A far finer search than the page can
//! afford: every zone that the part's file permits, every 50 mm along, across and up, both ways round,
//! each held against every check. Over the frame a place counts only where the part stands on something:
//! nobody hangs a box in the air behind a cab. Takes minutes:
//! `cargo test --release --test clearance every_place -- --ignored --nocapture`

use axlewright_core::assessment::Assessment;
use axlewright_core::findings::Severity;
use axlewright_core::geometry::{Aabb, Point, Solid};
use axlewright_core::library::Library;
use axlewright_core::plan::{Edit, Plan};
use axlewright_core::vehicle::{Item, Vehicle};
use axlewright_core::web::Session;

const STEP_MM: f64 = 50.0;
/// How far below a part that stands on something that may be, mm.
const UNDER_MM: f64 = 110.0;
/// What a plain box must have to be in the way for certain, mm.
const DEEP_MM: f64 = 1.0;

/// Parts that have a place by this search and none by the program's, each with the reason why the
/// program does not go there.
const KNOWN: [(&str, &str); 0] = [];

struct Search<'a> {
    plan: &'a Plan,
    library: &'a Library,
    vehicle: &'a Vehicle,
    part: &'a str,
    tried: usize,
}

/// From end to end in steps, both ends too.
fn steps(from: f64, to: f64) -> Vec<f64> {
    let mut out = Vec::new();
    let mut at = from;
    while at < to {
        out.push(at);
        at += STEP_MM;
    }
    if to >= from {
        out.push(to);
    }
    out
}

fn blocks(solids: &[Solid]) -> impl Iterator<Item = &Aabb> {
    solids.iter().filter_map(|solid| match solid {
        Solid::Block(block) => Some(block),
        _ => None,
    })
}

impl Search<'_> {
    fn edit(&self, at: Point, zone: &str, turn: u8) -> Edit {
        Edit::Place {
            part: self.part.to_owned(),
            x_mm: at.x,
            y_mm: at.y,
            z_mm: at.z,
            zone: Some(zone.to_owned()),
            turn,
            tag: Some("NEW".to_owned()),
        }
    }

    /// Boxes of the part that lie in boxes of the truck: no need to ask every check.
    fn in_the_way(&self, item: &Item, by: Point) -> bool {
        let deep = |a: &Aabb, b: &Aabb| {
            let (low, high) = (a.min + by, a.max + by);
            low.x < b.max.x - DEEP_MM
                && b.min.x < high.x - DEEP_MM
                && low.y < b.max.y - DEEP_MM
                && b.min.y < high.y - DEEP_MM
                && low.z < b.max.z - DEEP_MM
                && b.min.z < high.z - DEEP_MM
        };
        let others = self.vehicle.items.iter().filter(|i| !i.part.soft);
        let others = others.map(|i| &i.solids);
        let bodies = self.vehicle.bodies.iter().map(|b| &b.solids);
        let mut all = others.chain(bodies).flat_map(|solids| blocks(solids));
        all.any(|there| blocks(&item.solids).any(|own| deep(own, there)))
    }

    /// Over the frame: the rails or something else lies close below some of it.
    fn stands(&self, item: &Item, by: Point) -> bool {
        let (low, high) = (item.bounds.min + by, item.bounds.max + by);
        let d = &self.vehicle.chassis.dimensions;
        let on = |top: f64| (top - 1.0..=top + UNDER_MM).contains(&low.z);
        let half = d.frame_width_mm / 2.0;
        let over_rails = low.y < half && high.y > -half;
        let under = |b: &Aabb| {
            low.x < b.max.x
                && b.min.x < high.x
                && low.y < b.max.y
                && b.min.y < high.y
                && on(b.max.z)
        };
        let mut others = self.vehicle.items.iter().filter(|i| !i.part.soft);
        low.z < d.frame_top_laden_mm - 1.0
            || (over_rails && on(d.frame_top_laden_mm))
            || others.any(|i| under(&i.bounds))
    }

    fn fails(&mut self, at: Point, zone: &str, turn: u8) -> bool {
        self.tried += 1;
        let plan = self.edit(at, zone, turn).applied(self.plan, self.library);
        let Ok(plan) = plan else { return true };
        let assessment = Assessment::of(&plan, self.library).unwrap();
        assessment
            .findings
            .iter()
            .any(|f| f.severity == Severity::Fails && f.tags.iter().any(|t| t == "NEW"))
    }

    /// The first place at which nothing fails.
    fn place(&mut self) -> Option<(String, Point, u8)> {
        let part = &self.library.parts[self.part];
        let permitted = |id: &str| {
            let named = |one: &String| one == id || (one == "axle" && id.starts_with("axle-"));
            part.zones.is_empty() || part.zones.iter().any(named)
        };
        let vehicle = self.vehicle;
        // The whole frame says nothing of where a part may hang: on top of a pack, beside the grille.
        let closer = |id: &str| id != "frame" && permitted(id);
        for zone in vehicle.zones.iter().filter(|z| closer(&z.id)) {
            for turn in [0, 1] {
                let first = self.edit(zone.volume.min, &zone.id, turn);
                let Ok(plan) = first.applied(self.plan, self.library) else {
                    continue;
                };
                let there = Vehicle::resolve(&plan, self.library).unwrap();
                let item = there.item("NEW").unwrap();
                let (size, v) = (item.bounds.size(), &zone.volume);
                let middle =
                    Point::new(item.bounds.min.x, item.bounds.centre().y, item.bounds.min.z);
                // Higher than two metres above the frame nothing else is in the way.
                for z in steps(v.min.z, (v.max.z - size.z).min(v.min.z + 2_500.0)) {
                    for y in steps(v.min.y + size.y / 2.0, v.max.y - size.y / 2.0) {
                        for x in steps(v.min.x, v.max.x - size.x) {
                            let at = Point::new(x, y, z);
                            if self.stands(item, at - middle)
                                && !self.in_the_way(item, at - middle)
                                && !self.fails(at, &zone.id, turn)
                            {
                                return Some((zone.id.clone(), at, turn));
                            }
                        }
                    }
                }
            }
        }
        None
    }
}

#[test]
#[ignore = "takes minutes; run it after a change of the search for a place"]
fn every_place_is_tried_for_parts_that_have_none() {
    let session = Session::new().unwrap();
    let vehicle = Vehicle::resolve(session.plan(), session.library()).unwrap();
    let mut missed = Vec::new();
    let mut without = 0;
    for id in session.library().parts.keys() {
        if session.library().parts[id].shaft.is_some() || session.spot(id).is_ok() {
            continue;
        }
        let mut search = Search {
            plan: session.plan(),
            library: session.library(),
            vehicle: &vehicle,
            part: id,
            tried: 0,
        };
        let found = search.place();
        eprintln!("{id}: {found:?} after {} places", search.tried);
        without += 1;
        if let Some((zone, at, turn)) = found
            && !KNOWN.iter().any(|(known, _)| known == id)
        {
            missed.push(format!("{id} in {zone} at {at:?}, turned {turn}"));
        }
    }
    eprintln!("{without} parts have no place by the program's own search");
    assert!(missed.is_empty(), "{}", missed.join("\n"));
}
