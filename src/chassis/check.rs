//! Ranges and cross-references of a chassis file.

use super::{Chassis, Share};
use crate::source::{Checker, Problems};

impl Chassis {
    /// Checks every number against what a truck can be, and every name against what it points at.
    ///
    /// # Errors
    /// All problems at once, each with its path inside the file.
    pub fn check(&self, file: &str) -> Result<(), Problems> {
        let mut c = Checker::new(file);
        self.check_under(&mut c);
        c.done()
    }

    pub(crate) fn check_under(&self, c: &mut Checker) {
        if self.format != 1 {
            c.problem("format", self.format, "is not a known chassis format", "1");
        }
        c.id("id", &self.id);
        c.text("name", &self.name, 120);
        c.text("notes", &self.notes, 4_000);
        self.check_dimensions(c);
        self.check_cab(c);
        self.check_support(c);
        self.check_lists(c);
        self.check_ticket(c);
    }

    fn check_dimensions(&self, c: &mut Checker) {
        c.under("dimensions", |c| {
            let d = &self.dimensions;
            let (low, high) = (Self::WHEELBASE_MIN_MM, Self::WHEELBASE_MAX_MM);
            c.range("wheelbase_mm", d.wheelbase_mm, low, high);
            c.range("bumper_to_axle_mm", d.bumper_to_axle_mm, 200.0, 3_000.0);
            c.range_if("bumper_bottom_mm", d.bumper_bottom_mm, 50.0, 2_000.0);
            c.range(
                "bumper_to_back_of_cab_mm",
                d.bumper_to_back_of_cab_mm,
                1_000.0,
                6_000.0,
            );
            c.range("after_frame_mm", d.after_frame_mm, 200.0, 6_000.0);
            c.range("overall_width_mm", d.overall_width_mm, 1_500.0, 3_500.0);
            c.range("frame_width_mm", d.frame_width_mm, 500.0, 1_300.0);
            c.range("frame_top_laden_mm", d.frame_top_laden_mm, 400.0, 1_600.0);
            c.range(
                "frame_top_unladen_mm",
                d.frame_top_unladen_mm,
                400.0,
                1_700.0,
            );
        });
        if let Some(r) = &self.resistance {
            c.under("resistance", |c| {
                c.range("drag_area_m2", r.drag_area_m2, 1.0, 20.0);
                c.range("rolling", r.rolling, 0.001, 0.05);
            });
        }
        c.under("rail", |c| self.rail.check(c));
        c.count("reinforcement", self.reinforcements.len(), 20);
        c.each("reinforcement", &self.reinforcements, |c, r| r.check(c));
        c.under("ratings", |c| {
            c.range_if("gvwr_kg", self.ratings.gvwr_kg, 1_000.0, 100_000.0);
            c.range_if("gcwr_kg", self.ratings.gcwr_kg, 1_000.0, 250_000.0);
            c.range_if("top_speed_kmh", self.ratings.top_speed_kmh, 5.0, 200.0);
        });
    }

    fn check_cab(&self, c: &mut Checker) {
        c.under("cab", |c| {
            let cab = &self.cab;
            c.range("front_x_mm", cab.front_x_mm, -3_000.0, 4_000.0);
            c.range("width_mm", cab.width_mm, 1_000.0, 3_000.0);
            c.range("floor_z_mm", cab.floor_z_mm, 300.0, 2_500.0);
            c.range("roof_z_mm", cab.roof_z_mm, 1_000.0, 4_500.0);
            c.range("hood_top_z_mm", cab.hood_top_z_mm, 500.0, 3_000.0);
            c.range("steps_end_x_mm", cab.steps_end_x_mm, -3_000.0, 5_000.0);
            c.range("motion_clearance_mm", cab.motion_clearance_mm, 0.0, 500.0);
            c.each("opening", &cab.opening, |c, shape| shape.check(c));
        });
        if let Some(fw) = &self.fifth_wheel {
            c.under("fifth_wheel", |c| {
                c.range("ahead_min_mm", fw.ahead_min_mm, -1_000.0, 3_000.0);
                c.range(
                    "ahead_max_mm",
                    fw.ahead_max_mm,
                    fw.ahead_min_mm.max(-1_000.0),
                    3_000.0,
                );
                c.range("ahead_mm", fw.ahead_mm, fw.ahead_min_mm, fw.ahead_max_mm);
                c.range_if("step_mm", fw.step_mm, 5.0, 500.0);
                c.range("top_z_mm", fw.top_z_mm, 500.0, 2_000.0);
                c.range("rating_kg", fw.rating_kg, 1_000.0, 60_000.0);
                c.range("mass_kg", fw.mass_kg, 0.0, 2_000.0);
                c.range("articulation_deg", fw.articulation_deg, 10.0, 120.0);
            });
        }
        if let Some(body) = &self.body {
            c.under("body", |c| {
                c.text("name", &body.name, 120);
                c.range("front_x_mm", body.front_x_mm, -3_000.0, 15_000.0);
                c.range(
                    "rear_x_mm",
                    body.rear_x_mm,
                    body.front_x_mm.max(-3_000.0),
                    25_000.0,
                );
                c.range("width_mm", body.width_mm, 500.0, 4_000.0);
                c.range("floor_z_mm", body.floor_z_mm, 300.0, 3_000.0);
                c.range("top_z_mm", body.top_z_mm, 300.0, 6_000.0);
                c.range("clearance_mm", body.clearance_mm, 0.0, 500.0);
            });
        }
        c.under("driver_seat", |c| self.driver_seat.check(c));
    }

    fn check_support(&self, c: &mut Checker) {
        c.count("axle", self.axles.len(), 8);
        if self.axles.len() < 2 {
            c.problem("axle", self.axles.len(), "is too few axles", "2 to 8");
        }
        c.each("axle", &self.axles, |c, axle| axle.check(c));
        c.unique("axle", self.axles.iter().map(|a| a.id.as_str()));
        if self
            .axles
            .windows(2)
            .any(|pair| pair[0].x_mm >= pair[1].x_mm)
        {
            c.problem(
                "axle",
                "",
                "axles are not in order from front to rear",
                "increasing x_mm",
            );
        }
        if self.axles.first().is_some_and(|a| a.x_mm != 0.0) {
            c.problem("axle[0].x_mm", self.axles[0].x_mm, "is not the origin", "0");
        }
        c.each("group", &self.groups, |c, group| {
            c.id("id", &group.id);
            c.text("name", &group.name, 60);
            c.range_if("gawr_kg", group.gawr_kg, 100.0, 80_000.0);
            super::axle::check_mounts(c, &group.mounts_mm);
            if let Share::Split(parts) = &group.share {
                let sum: f64 = parts.iter().sum();
                let fits = parts.len() == group.axles.len()
                    && parts.iter().all(|p| p.is_finite() && *p >= 0.0)
                    && (sum - 1.0).abs() < 1e-6;
                if !fits {
                    let what = "is not one fraction for each axle, adding to 1";
                    c.problem(
                        "share.split",
                        format!("{parts:?}"),
                        what,
                        "such as [0.6, 0.4]",
                    );
                }
            }
            if let Share::FixedKg(kg) = group.share {
                c.range("share.fixed-kg", kg, 0.0, 40_000.0);
            }
            if group.axles.is_empty() {
                c.problem("axles", "", "names no axle", "at least one");
            }
            for id in &group.axles {
                if !self.axles.iter().any(|a| &a.id == id) {
                    c.problem(
                        "axles",
                        id,
                        "is not an axle of this chassis",
                        self.axle_ids(),
                    );
                }
            }
        });
        for axle in &self.axles {
            let times = self
                .groups
                .iter()
                .flat_map(|g| &g.axles)
                .filter(|id| **id == axle.id)
                .count();
            if times != 1 {
                c.problem(
                    "group",
                    &axle.id,
                    "stands in no group or in several",
                    "exactly one",
                );
            }
        }
        if self.groups.len() < 2 {
            c.problem(
                "group",
                self.groups.len(),
                "is too few groups to stand on",
                "2 or more",
            );
        }
    }

    fn check_lists(&self, c: &mut Checker) {
        c.each("zone", &self.zone_limits, |c, limit| {
            c.id("id", &limit.id);
            c.range("mass_kg", limit.mass_kg, 0.0, 50_000.0);
        });
        c.count("obstacle", self.obstacles.len(), 200);
        c.each("obstacle", &self.obstacles, |c, obstacle| {
            c.id("id", &obstacle.id);
            c.text("name", &obstacle.name, 120);
            c.range("clearance_mm", obstacle.clearance_mm, 0.0, 1_000.0);
            c.count("envelope", obstacle.envelope.len(), 20);
            c.each("envelope", &obstacle.envelope, |c, shape| shape.check(c));
        });
        c.unique("obstacle", self.obstacles.iter().map(|o| o.id.as_str()));
        c.count("hardware", self.hardware.len(), 200);
        c.each("hardware", &self.hardware, |c, item| {
            c.id("id", &item.id);
            c.text("name", &item.name, 120);
            c.range("mass_kg", item.mass_kg, 0.0, 10_000.0);
            c.range("mass_sigma_kg", item.mass_sigma_kg, 0.0, 5_000.0);
            c.under("cg", |c| item.cg.check(c));
            c.each("envelope", &item.envelope, |c, shape| shape.check(c));
            if let Some(axle) = &item.unsprung_axle
                && !self.axles.iter().any(|a| &a.id == axle)
            {
                c.problem(
                    "unsprung_axle",
                    axle,
                    "is not an axle of this chassis",
                    self.axle_ids(),
                );
            }
        });
        c.unique("hardware", self.hardware.iter().map(|h| h.id.as_str()));
        c.count("kept", self.kept.len(), 200);
        c.each("kept", &self.kept, |c, item| {
            c.text("name", &item.name, 120);
            c.range("mass_kg", item.mass_kg, 0.0, 20_000.0);
            c.under("cg", |c| item.cg.check(c));
            if let Some([from, to]) = item.spread_mm {
                c.range("spread_mm[0]", from, -10_000.0, 30_000.0);
                c.range("spread_mm[1]", to, from.max(-10_000.0), 30_000.0);
            }
        });
    }

    /// Least that the axles of a donor weigh together, kilogram.
    const LEAST_KG: f64 = 500.0;

    fn check_ticket(&self, c: &mut Checker) {
        let Some(ticket) = &self.ticket else { return };
        c.under("ticket", |c| {
            c.text("aboard", &ticket.aboard, 400);
            c.range("resolution_kg", ticket.resolution_kg, 0.0, 1_000.0);
            c.range_if("cg_z_mm", ticket.cg_z_mm, 100.0, 4_000.0);
            if let Some(lift) = &ticket.lift {
                c.under("lift", |c| {
                    c.range("level_kg", lift.level_kg, 1.0, 60_000.0);
                    c.range("raised_kg", lift.raised_kg, 1.0, lift.level_kg.max(1.0));
                    c.range("wheelbase_mm", lift.wheelbase_mm, 500.0, 20_000.0);
                    let most = lift.wheelbase_mm.min(3_000.0);
                    c.range("raised_mm", lift.raised_mm, 50.0, most.max(50.0));
                    c.range("loaded_radius_mm", lift.loaded_radius_mm, 150.0, 1_000.0);
                });
                let height = lift.cg_z_mm(ticket.mass_kg());
                if let Some(mm) = height.filter(|mm| !(100.0..=4_000.0).contains(mm)) {
                    let what = "gives a height of the centre of gravity that no truck has";
                    c.problem("lift", format!("{mm:.0} mm"), what, "100 to 4,000 mm");
                }
            }
            let total = ticket.mass_kg();
            if !ticket.axle.is_empty() && total < Self::LEAST_KG {
                let what = "is what all axles weighed together: too little for a truck";
                let least = format!("at least {} kg", Self::LEAST_KG);
                c.problem("axle", format!("{total} kg"), what, least);
            }
            c.each("axle", &ticket.axle, |c, load| {
                c.range("load_kg", load.load_kg, 0.0, 60_000.0);
                c.range_if("left_kg", load.left_kg, 0.0, 60_000.0);
                c.range_if("right_kg", load.right_kg, 0.0, 60_000.0);
                if !self.groups.iter().any(|g| g.id == load.group) {
                    c.problem("group", &load.group, "is not a group of this chassis", "");
                }
                if let (Some(l), Some(r)) = (load.left_kg, load.right_kg)
                    && (l + r - load.load_kg).abs() > 2.0 * ticket.resolution_kg.max(1.0)
                {
                    let what = "is not the sum of its left and right wheel ends";
                    c.problem("load_kg", load.load_kg, what, format!("{}", l + r));
                }
            });
            for group in &self.groups {
                if ticket
                    .axle
                    .iter()
                    .filter(|load| load.group == group.id)
                    .count()
                    != 1
                {
                    c.problem(
                        "axle",
                        &group.id,
                        "is weighed not at all or twice",
                        "one entry",
                    );
                }
            }
        });
    }

    fn axle_ids(&self) -> String {
        self.axles
            .iter()
            .map(|a| a.id.as_str())
            .collect::<Vec<_>>()
            .join(", ")
    }
}
