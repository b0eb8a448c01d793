//! A driveshaft made to length between a gearbox output and an axle input.

use super::{Item, Vehicle};
use crate::geometry::{Point, Solid};
use crate::part::Part;
use crate::plan::ShaftRun;
use crate::source::Problem;

impl Vehicle {
    /// Generates a shaft; what is missing for it becomes a problem.
    pub(super) fn shaft_item(&self, run: &ShaftRun, part: &Part) -> Result<Item, Box<Problem>> {
        let path = format!("shafts.{}", run.tag);
        let problem = |value: &str, what: &str, hint: &str| {
            Box::new(Problem::new("plan", path.clone(), value, what, hint))
        };
        let Some(tube) = &part.shaft else {
            return Err(problem(
                &run.part,
                "is not a driveshaft",
                "a part with shaft data",
            ));
        };
        let Some(driver) = self.item(&run.from) else {
            return Err(problem(
                &run.from,
                "drives nothing: no such part on the truck",
                "",
            ));
        };
        let Some(port) = &driver.part.output else {
            return Err(problem(
                &run.from,
                "has no output flange",
                "a part with an output",
            ));
        };
        let Some(axle) = self.axle(&run.to_axle) else {
            return Err(problem(&run.to_axle, "is not an axle of this truck", ""));
        };
        let (Some(x), Some(z)) = (axle.input_x_mm, axle.input_z_mm) else {
            return Err(problem(
                &run.to_axle,
                "has no driveshaft input",
                "input_x_mm, input_z_mm",
            ));
        };
        let from = driver.port(port.at_mm);
        let to = Point::new(x, 0.0, z);
        let length = (to - from).length();
        if length < 50.0 {
            return Err(problem(
                &run.from,
                "leaves no room for a shaft",
                "at least 50 mm",
            ));
        }
        let nominal = tube.nominal_length_mm.unwrap_or(length);
        let more = tube.kg_per_m.unwrap_or(0.0) * (length - nominal) / 1_000.0;
        let size = part.bounds().size();
        let radius = size.y.min(size.z) / 2.0;
        let solid = Solid::Cylinder { from, to, radius };
        let bounds = solid.aabb();
        Ok(Item {
            tag: run.tag.clone(),
            part: part.clone(),
            zone: None,
            origin: Point::new(bounds.min.x, f64::midpoint(from.y, to.y), bounds.min.z),
            turn: 0,
            cg: (from + to) * 0.5,
            solids: vec![solid],
            bounds,
            mass_kg: (part.mass_kg + more).max(0.0),
            full_kg: 0.0,
            fill: 1.0,
            clearance: part.clearance,
            unsprung_axle: None,
            joined_to: vec![run.from.clone()],
            joined_axle: Some(run.to_axle.clone()),
        })
    }
}

impl Item {
    /// Truck coordinates of a point given in the part's own axes.
    #[must_use]
    pub fn port(&self, at: [f64; 3]) -> Point {
        // Turning the point about the part's own middle keeps that middle in place; the placed
        // middle is the middle of the placed bounds.
        let about = self.part.bounds().centre();
        let turned = Solid::Hull(vec![Point::new(at[0], at[1], at[2])]).turned(self.turn, about);
        let by = self.bounds.centre() - about;
        match turned {
            Solid::Hull(points) => points.first().copied().unwrap_or(about) + by,
            Solid::Block(_) | Solid::Cylinder { .. } => about + by,
        }
    }
}
