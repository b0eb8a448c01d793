//! Ranges of a plan.

use super::{ChassisChoice, PayloadPlace, Place, Placed, Plan};
use crate::chassis::{Chassis, Spot};
use crate::shared::Shared;
use crate::source::{Checker, Problems};

impl Plan {
    /// Checks every number a person may have entered. What a name points at is checked when the plan
    /// is resolved, because a half-finished plan is the normal case.
    ///
    /// # Errors
    /// All problems at once.
    pub fn check(&self, file: &str) -> Result<(), Problems> {
        self.check_after(file, None)
    }

    /// The same for a plan that was made from a good one: parts that stand as they stood there are good.
    pub(super) fn check_after(&self, file: &str, good: Option<&Self>) -> Result<(), Problems> {
        let mut c = Checker::new(file);
        c.text("name", &self.name, 200);
        c.text("notes", &self.notes, 20_000);
        match &self.chassis {
            ChassisChoice::Template(id) => c.id("chassis.template", id),
            ChassisChoice::Inline(chassis) => {
                c.under("chassis.inline", |c| chassis.check_under(c));
            }
        }
        c.under("changes", |c| {
            let ch = &self.changes;
            let (low, high) = (Chassis::WHEELBASE_MIN_MM, Chassis::WHEELBASE_MAX_MM);
            c.range_if("wheelbase_mm", ch.wheelbase_mm, low, high);
            c.range_if("splice_x_mm", ch.splice_x_mm, -2_000.0, 15_000.0);
            c.range_if(
                "fifth_wheel_ahead_mm",
                ch.fifth_wheel_ahead_mm,
                -1_000.0,
                3_000.0,
            );
            c.count("stripped", ch.stripped.len(), 500);
            c.unique("stripped", ch.stripped.iter().map(String::as_str));
            c.count("raised", ch.raised.len(), 8);
            c.unique("raised", ch.raised.iter().map(String::as_str));
        });
        c.count("parts", self.parts.len(), 500);
        c.each("parts", &self.parts, |c, part| part.check_under(c));
        c.unique("parts", self.parts.iter().map(|p| p.id.as_str()));
        c.count("placed", self.placed.len(), Self::MOST_PARTS);
        let stands = |index: usize, placed: &Shared<Placed>| {
            let then = good.and_then(|good| good.placed.get(index));
            then.is_some_and(|then| placed.is(then))
        };
        let few = self.placed.len() <= Self::MOST_PARTS;
        let checked = if few { &*self.placed } else { &[] };
        for (index, placed) in checked.iter().enumerate() {
            if stands(index, placed) {
                continue;
            }
            c.under(format!("placed[{index}]"), |c| {
                c.id("tag", &placed.tag);
                c.id("part", &placed.part);
                if placed.turn > 3 {
                    c.problem(
                        "turn",
                        placed.turn,
                        "is not a number of quarter turns",
                        "0 to 3",
                    );
                }
                c.range_if("fill", placed.fill, 0.0, 1.0);
                placed.place.check(c);
            });
        }
        let tags = self.placed.iter().map(|p| p.tag.as_str());
        c.unique(
            "placed",
            tags.chain(self.shafts.iter().map(|s| s.tag.as_str())),
        );
        c.count("shafts", self.shafts.len(), 20);
        c.each("shafts", &self.shafts, |c, shaft| {
            c.id("tag", &shaft.tag);
            c.id("part", &shaft.part);
            c.range_if("drive_down_deg", shaft.drive_down_deg, -20.0, 20.0);
            c.count("bearings", shaft.bearings.len(), 3);
            c.each("bearings", &shaft.bearings, |c, spot| spot.check(c));
        });
        self.check_loads(&mut c);
        c.under("moving", |c| self.moving.check(c));
        if let Some(own) = &self.law.own {
            c.under("law.own", |c| own.check_under(c));
        }
        c.under("frame", |c| self.frame.check(c));
        c.under("duty", |c| {
            let d = &self.duty;
            if let Some(route) = &d.route {
                c.id("route", route);
            }
            c.range_if("trips_a_day", d.trips_a_day.map(f64::from), 1.0, 50.0);
            c.range_if("days_a_year", d.days_a_year, 1.0, 366.0);
            c.range_if("temperature_c", d.temperature_c, -30.0, 50.0);
            c.range_if("headwind_mps", d.headwind_mps, -20.0, 20.0);
            c.range_if("drag_area_m2", d.drag_area_m2, 1.0, 20.0);
            c.range_if("rolling", d.rolling, 0.001, 0.05);
            c.range_if("reserve", d.reserve, 0.0, 0.9);
            c.range_if("health", d.health, 0.5, 1.0);
            c.range_if("hold_soc", d.hold_soc, 0.05, 0.98);
            c.range_if("start_soc", d.start_soc, 0.02, 0.95);
            let start = d.start_soc.unwrap_or(0.02).clamp(0.02, 0.95);
            c.range_if("stop_soc", d.stop_soc, start + 0.03, 0.98);
            if let Some(gas) = &d.gas {
                c.under("gas", |c| {
                    c.range("ethane", gas.ethane, 0.0, 0.3);
                    c.range("propane", gas.propane, 0.0, 0.1);
                    c.range("nitrogen", gas.nitrogen, 0.0, 0.2);
                    c.range("carbon_dioxide", gas.carbon_dioxide, 0.0, 0.1);
                });
            }
            if let Some(bay) = &d.bay {
                c.under("bay", |c| {
                    c.range("along_mm", bay.along_mm, -10_000.0, 20_000.0);
                    c.range("off_mm", bay.off_mm, 0.0, 10_000.0);
                    c.range("height_mm", bay.height_mm, 0.0, 5_000.0);
                    c.range("reach_mm", bay.reach_mm, 100.0, 30_000.0);
                });
            }
            c.range_if("plug_hours", d.plug_hours, 0.0, 24.0);
        });
        c.done()
    }

    fn check_loads(&self, c: &mut Checker) {
        c.under("loads", |c| {
            let loads = &self.loads;
            c.range_if("driver_kg", loads.driver_kg, 0.0, 1_000.0);
            c.range_if("target_payload_kg", loads.target_payload_kg, 0.0, 100_000.0);
            if let Some(payload) = &loads.payload {
                c.under("payload", |c| {
                    c.range("mass_kg", payload.mass_kg, 0.0, 100_000.0);
                    match &payload.at {
                        PayloadPlace::Cg(spot) => c.under("at.cg", |c| spot.check(c)),
                        PayloadPlace::Level {
                            front_x_mm,
                            rear_x_mm,
                            z_mm,
                        } => {
                            let far = Spot::FAR_MM;
                            c.range("at.level.front_x_mm", *front_x_mm, -far, far);
                            c.range("at.level.rear_x_mm", *rear_x_mm, front_x_mm.max(-far), far);
                            c.range("at.level.z_mm", *z_mm, 0.0, 6_000.0);
                        }
                    }
                });
            }
            if let Some(trailer) = &loads.trailer {
                c.under("trailer", |c| {
                    c.id("id", &trailer.id);
                    c.range("payload_kg", trailer.payload_kg, 0.0, 100_000.0);
                    c.range_if("load_cg", trailer.load_cg, 0.0, 1.0);
                    let axles = trailer.kingpin_to_axles_mm;
                    c.range_if("kingpin_to_axles_mm", axles, 1_000.0, 20_000.0);
                });
            }
        });
    }
}

impl Place {
    /// Coordinates must be finite and not absurd.
    pub(super) fn check(&self, c: &mut Checker) {
        let far = Spot::FAR_MM;
        match self {
            Self::Zone {
                id,
                from_front_mm,
                y_mm,
                z_mm,
            } => {
                c.id("place.zone.id", id);
                c.range("place.zone.from_front_mm", *from_front_mm, -far, far);
                c.range("place.zone.y_mm", *y_mm, -far, far);
                c.range("place.zone.z_mm", *z_mm, -far, far);
            }
            Self::Free { x_mm, y_mm, z_mm } => {
                c.range("place.free.x_mm", *x_mm, -far, far);
                c.range("place.free.y_mm", *y_mm, -far, far);
                c.range("place.free.z_mm", *z_mm, -far, far);
            }
        }
    }
}
