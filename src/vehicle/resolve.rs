//! From a plan and a library to a vehicle.

use super::{Item, Vehicle};
use crate::chassis::Chassis;
use crate::law::Regime;
use crate::library::Library;
use crate::numeric::sort_by;
use crate::part::Part;
use crate::plan::{ChassisChoice, Plan};
use crate::shared::Shared;
use crate::source::Problem;

/// How many ids a hint lists before it says how many more there are.
const LISTED: usize = 12;

impl Vehicle {
    /// Resolves a plan. Never fails once the plan names a chassis that exists.
    ///
    /// # Errors
    /// The problem, when there is no chassis to put anything on.
    pub fn resolve(plan: &Plan, library: &Library) -> Result<Self, Box<Problem>> {
        Self::resolve_after(plan, library, None)
    }

    /// The same; what is equal to what it was before becomes the same as it was, so that answers worked
    /// out then can be known to hold.
    ///
    /// # Errors
    /// The problem, when there is no chassis to put anything on.
    pub fn resolve_after(
        plan: &Plan,
        library: &Library,
        before: Option<&Self>,
    ) -> Result<Self, Box<Problem>> {
        let mut vehicle = Self::bare(plan, library)?;
        if let Some(before) = before {
            vehicle.donor.settle(&before.donor);
            vehicle.chassis.settle(&before.chassis);
            vehicle.zones.settle(&before.zones);
        }
        vehicle.put_parts(plan, library, before);
        vehicle.check_strip();
        vehicle.find_law_and_trailer(plan, library);
        match before.filter(|before| vehicle.has_chassis_of(before)) {
            Some(before) => vehicle.bodies = before.bodies.clone(),
            None => vehicle.collect_bodies(),
        }
        vehicle.collect_masses();
        if let Some(before) = before {
            vehicle.settle(before);
        }
        Ok(vehicle)
    }

    /// The changed chassis with its zones and nothing on it: all that an edit of a place needs.
    ///
    /// # Errors
    /// The problem, when there is no chassis to put anything on.
    pub fn bare(plan: &Plan, library: &Library) -> Result<Self, Box<Problem>> {
        let donor = match &plan.chassis {
            ChassisChoice::Inline(chassis) => (**chassis).clone().into(),
            ChassisChoice::Template(id) => library.chassis.get(id).cloned().ok_or_else(|| {
                let hint = listed(library.chassis.keys());
                let what = "is not a chassis of the library";
                Box::new(Problem::new(
                    "plan",
                    "chassis.template",
                    id.clone(),
                    what,
                    hint,
                ))
            })?,
        };
        let mut vehicle = Self::on(plan, donor);
        vehicle.apply_changes(plan);
        vehicle.zones = vehicle.chassis.zones().into();
        Ok(vehicle)
    }

    fn on(plan: &Plan, donor: Shared<Chassis>) -> Self {
        Self {
            name: plan.name.clone(),
            chassis: donor.clone(),
            splice_x_mm: donor.default_splice_x_mm(),
            donor,
            stretch_mm: 0.0,
            zones: Shared::default(),
            stripped: Vec::new(),
            raised: Vec::new(),
            items: Vec::new(),
            shafts: Vec::new(),
            bodies: Shared::default(),
            masses: Vec::new(),
            trailer: None,
            loads: plan.loads.clone(),
            frame: plan.frame.clone(),
            law: None,
            allowance: plan.law.allowance,
            moving: plan.moving.clone(),
            which_allowance: plan.law.which.clone(),
            intermodal: plan.law.intermodal,
            duty: plan.duty.clone(),
            problems: Vec::new(),
        }
    }

    fn problem(&mut self, path: String, value: &str, what: &str, hint: String) {
        self.problems
            .push(Problem::new("plan", path, value, what, hint));
    }

    fn apply_changes(&mut self, plan: &Plan) {
        let changes = &plan.changes;
        match changes.splice_x_mm {
            Some(x) if self.donor.may_be_cut_at(x) => self.splice_x_mm = x,
            Some(x) => {
                let (from, to) = self.donor.splice_range_mm();
                let what = "is no place to cut the rails for another wheelbase";
                let hint =
                    format!("from {from:.0} (back of the cab) to below {to:.0} (driven axles)");
                self.problem("changes.splice_x_mm".to_owned(), &x.to_string(), what, hint);
            }
            None => {}
        }
        if let Some(wheelbase) = changes.wheelbase_mm {
            self.stretch_mm = wheelbase - self.donor.dimensions.wheelbase_mm;
            self.chassis = self
                .donor
                .stretched(self.stretch_mm, self.splice_x_mm)
                .into();
        }
        if let Some(ahead) = changes.fifth_wheel_ahead_mm {
            match &mut self.chassis.fifth_wheel {
                Some(fw) => {
                    let by = fw.ahead_mm - ahead;
                    fw.ahead_mm = ahead;
                    self.chassis.slide_fifth_wheel_body(by);
                }
                None => self.problem(
                    "changes.fifth_wheel_ahead_mm".to_owned(),
                    &ahead.to_string(),
                    "this chassis has no fifth wheel",
                    String::new(),
                ),
            }
        }
        for (index, id) in changes.stripped.iter().enumerate() {
            if self.donor.hardware.iter().any(|h| &h.id == id) {
                self.stripped.push(id.clone());
            } else {
                let hint = listed(self.donor.hardware.iter().map(|h| &h.id));
                let what = "is not hardware of this chassis";
                self.problem(format!("changes.stripped[{index}]"), id, what, hint);
            }
        }
        for (index, id) in changes.raised.iter().enumerate() {
            let lifts = self
                .donor
                .axles
                .iter()
                .any(|a| &a.id == id && a.kind == crate::chassis::AxleKind::Lift);
            if lifts {
                self.raised.push(id.clone());
            } else {
                let what = "is not a lift axle of this chassis";
                self.problem(format!("changes.raised[{index}]"), id, what, String::new());
            }
        }
    }

    fn put_parts(&mut self, plan: &Plan, library: &Library, before: Option<&Self>) {
        let before = before.filter(|b| self.chassis.is(&b.chassis) && self.zones.is(&b.zones));
        for (index, placed) in plan.placed.iter().enumerate() {
            let Some(part) = find_part(plan, library, &placed.part) else {
                let what = "is not a part of the library or the plan";
                let hint = format!("{} parts are known", library.parts.len() + plan.parts.len());
                self.problem(format!("placed[{index}].part"), &placed.part, what, hint);
                continue;
            };
            if let crate::plan::Place::Zone { id, .. } = &placed.place
                && self.zone(id).is_none()
            {
                let hint = listed(self.zones.iter().map(|z| &z.id));
                let what = "is not a zone of this chassis";
                self.problem(format!("placed[{index}].place.zone.id"), id, what, hint);
            }
            let then = before.and_then(|b| b.items.get(self.items.len()));
            let then = then.filter(|item| {
                let stands = item.placed.as_ref().is_some_and(|then| then.is(placed));
                stands && item.part.is(&part)
            });
            let put = || Item::put(self, placed, &part).into();
            let item = then.cloned().unwrap_or_else(put);
            self.items.push(item);
        }
        for (index, run) in plan.shafts.iter().enumerate() {
            let Some(part) = find_part(plan, library, &run.part) else {
                let what = "is not a part of the library or the plan";
                self.problem(
                    format!("shafts[{index}].part"),
                    &run.part,
                    what,
                    String::new(),
                );
                continue;
            };
            self.run_shaft(run, &part);
        }
        self.find_inter_axle_shafts();
    }

    /// Names of what comes off, heaviest first.
    pub(crate) fn strip_words(&self) -> String {
        let mut off: Vec<_> = self.donor.hardware.iter().collect();
        off.retain(|h| self.stripped.contains(&h.id));
        sort_by(&mut off, |a, b| b.mass_kg.total_cmp(&a.mass_kg));
        listed(off.iter().map(|h| &h.name))
    }

    /// A strip-out that takes more than the truck has is a problem that names the items.
    fn check_strip(&mut self) {
        let Some(ticket) = &self.donor.ticket else {
            return;
        };
        let total: f64 = ticket.axle.iter().map(|load| load.load_kg).sum();
        let off = self.donor.hardware.iter();
        let off = off.filter(|h| self.stripped.contains(&h.id));
        let mass: f64 = off.map(|h| h.mass_kg).sum();
        if mass >= total {
            let value = format!("{mass:.0} kg");
            let what =
                "the stripped hardware weighs as much as the whole truck at the scale, or more";
            let hint = format!("truck {total:.0} kg; items: {}", self.strip_words());
            self.problems
                .push(Problem::new("plan", "changes.stripped", value, what, hint));
        }
    }

    fn find_law_and_trailer(&mut self, plan: &Plan, library: &Library) {
        if let Some(id) = &plan.law.regime {
            let own = plan.law.own.as_deref().filter(|_| id == Regime::OWN);
            let own = own.map(|law| law.clone().into());
            match own.or_else(|| library.laws.get(id).cloned()) {
                Some(law) => self.law = Some(law),
                None => {
                    let hint = listed(library.laws.keys());
                    let what = "is not a road law of the library";
                    self.problem("law.regime".to_owned(), id, what, hint);
                }
            }
        }
        let Some(load) = &plan.loads.trailer else {
            return;
        };
        match library.trailers.get(&load.id) {
            None => {
                let hint = listed(library.trailers.keys());
                let what = "is not a trailer of the library";
                self.problem("loads.trailer.id".to_owned(), &load.id, what, hint);
            }
            Some(trailer) => {
                self.trailer = self.couple(trailer, load.payload_kg, load.load_cg);
                if let Some(mm) = load.kingpin_to_axles_mm {
                    self.slide_trailer(mm);
                }
                if self.trailer.is_none() {
                    let what = "this chassis has no fifth wheel to pull it";
                    self.problem("loads.trailer.id".to_owned(), &load.id, what, String::new());
                }
            }
        }
    }
}

impl Vehicle {
    /// Slides the trailer's axles; a place outside its holes is a problem.
    fn slide_trailer(&mut self, mm: f64) {
        let Some(coupled) = &self.trailer else {
            return;
        };
        let holes = coupled.trailer.slider.as_ref();
        if holes.is_some_and(|s| s.holes_mm().any(|hole| (hole - mm).abs() < 1.0)) {
            self.trailer = Some(coupled.with_axles_at(mm).into());
        } else {
            let hint = holes.map_or_else(
                || "its axles do not slide".to_owned(),
                |s| format!("{} to {} mm in steps of {}", s.from_mm, s.to_mm, s.step_mm),
            );
            let path = "loads.trailer.kingpin_to_axles_mm".to_owned();
            self.problem(path, &mm.to_string(), "is no hole of this trailer", hint);
        }
    }
}

/// A part of the plan's own, else of the library.
#[must_use]
pub(crate) fn find_part(plan: &Plan, library: &Library, id: &str) -> Option<Shared<Part>> {
    let own = plan.parts.iter().find(|p| p.id == id);
    own.map(|part| part.clone().into())
        .or_else(|| library.parts.get(id).cloned())
}

/// A few ids for a hint.
pub(crate) fn listed<'a>(ids: impl Iterator<Item = &'a String>) -> String {
    let all: Vec<&str> = ids.map(String::as_str).collect();
    if all.is_empty() {
        return "there is none".to_owned();
    }
    let shown = all
        .iter()
        .take(LISTED)
        .copied()
        .collect::<Vec<_>>()
        .join(", ");
    if all.len() > LISTED {
        format!("{shown} and {} more", all.len() - LISTED)
    } else {
        shown
    }
}
