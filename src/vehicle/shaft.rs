//! Driveshafts: made to length between a gearbox output and an axle input, in one piece or over centre
//! bearings; and the shaft that a donor tandem has between its two driven axles.

use super::{Item, Vehicle};
use crate::geometry::{Aabb, Point, Solid};
use crate::numeric;
use crate::part::{Part, ShaftTube};
use crate::plan::ShaftRun;
use crate::shared::Shared;
use crate::source::Problem;

/// Shortest piece of a shaft that is made.
const SHORTEST_MM: f64 = 50.0;

/// A driveshaft's line at design height: where its joints are and what they join.
#[derive(Clone, Debug, PartialEq)]
pub struct ShaftLine {
    /// Mark on the drawing; of the shaft between two axles, their ids.
    pub tag: String,
    /// Tag of the part that drives it, or id of the axle.
    pub from: String,
    /// It begins at this axle and not at something on the frame.
    pub from_axle: Option<String>,
    /// Axle that it drives.
    pub to_axle: String,
    /// Centres of its joints, from the drive to the axle: one more than it has pieces.
    pub joints: Vec<Point>,
    /// Direction of the driving axis towards the shaft, of length 1.
    pub drive_axis: Point,
    /// Direction of the axis that it drives, away from the shaft, of length 1; `None` when the
    /// chassis does not say how its input is inclined.
    pub axle_axis: Option<Point>,
    /// What the shaft is made of.
    pub tube: ShaftTube,
}

/// A direction of length 1 that points rearward and falls by so many degrees.
fn falling(down_deg: f64) -> Point {
    let angle = down_deg.to_radians();
    Point::new(numeric::cos(angle), 0.0, -numeric::sin(angle))
}

impl Vehicle {
    /// Makes a shaft's line and the body that it has; what is missing for it becomes a problem.
    pub(super) fn run_shaft(&mut self, run: &ShaftRun, part: &Shared<Part>) {
        match self.shaft(run, part) {
            Ok((line, item)) => {
                self.shafts.push(line);
                self.items.push(item.into());
            }
            Err(problem) => self.problems.push(*problem),
        }
    }

    fn shaft(
        &self,
        run: &ShaftRun,
        part: &Shared<Part>,
    ) -> Result<(ShaftLine, Item), Box<Problem>> {
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
        let mut joints = vec![driver.port(port.at_mm)];
        joints.extend(run.bearings.iter().map(|spot| spot.point()));
        joints.push(Point::new(x, 0.0, z));
        let long_enough = |ends: &[Point]| (ends[1] - ends[0]).length() >= SHORTEST_MM;
        if !joints.windows(2).all(long_enough) {
            return Err(problem(
                &run.from,
                "leaves no room for a shaft",
                "at least 50 mm",
            ));
        }
        let line = ShaftLine {
            tag: run.tag.clone(),
            from: run.from.clone(),
            from_axle: None,
            to_axle: run.to_axle.clone(),
            drive_axis: turned(falling(run.drive_down_deg.unwrap_or(0.0)), driver.turn),
            axle_axis: axle.input_down_deg.map(falling),
            tube: tube.clone(),
            joints,
        };
        let item = line.item(part);
        Ok((line, item))
    }

    /// The shafts between the driven axles of the donor, where both axles stay.
    pub(super) fn find_inter_axle_shafts(&mut self) {
        for axle in &self.chassis.axles {
            let Some(shaft) = &axle.inter_axle else {
                continue;
            };
            if !(self.keeps_drive(&axle.id) && self.keeps_drive(&shaft.from_axle)) {
                continue;
            }
            self.shafts.push(ShaftLine {
                tag: format!("{}/{}", shaft.from_axle, axle.id),
                from: shaft.from_axle.clone(),
                from_axle: Some(shaft.from_axle.clone()),
                to_axle: axle.id.clone(),
                joints: vec![
                    Point::new(shaft.from_x_mm, 0.0, shaft.from_z_mm),
                    Point::new(shaft.to_x_mm, 0.0, shaft.to_z_mm),
                ],
                drive_axis: falling(shaft.from_down_deg),
                axle_axis: Some(falling(shaft.to_down_deg)),
                tube: shaft.shaft.clone(),
            });
        }
    }

    /// The donor's drive axle at this place is still there.
    #[must_use]
    pub fn keeps_drive(&self, axle: &str) -> bool {
        let off = self.donor.hardware.iter().any(|h| {
            h.drive_axle
                && h.unsprung_axle.as_deref() == Some(axle)
                && self.stripped.contains(&h.id)
        });
        let replaced = self
            .items
            .iter()
            .any(|i| i.unsprung_axle.as_deref() == Some(axle));
        !off && !replaced
    }
}

/// A direction after so many quarter turns to the left, seen from above: rear becomes right.
fn turned(direction: Point, turns: u8) -> Point {
    (0..turns % 4).fold(direction, |d, _| Point::new(-d.y, d.x, d.z))
}

impl ShaftLine {
    /// Length of all pieces together.
    #[must_use]
    pub fn length_mm(&self) -> f64 {
        let piece = |ends: &[Point]| (ends[1] - ends[0]).length();
        self.joints.windows(2).map(piece).sum()
    }

    /// The body that the shaft has, of the part's thickness.
    fn item(&self, part: &Shared<Part>) -> Item {
        let length = self.length_mm();
        let nominal = self.tube.nominal_length_mm.unwrap_or(length);
        let more = self.tube.kg_per_m.unwrap_or(0.0) * (length - nominal) / 1_000.0;
        let size = part.bounds().size();
        let radius = size.y.min(size.z) / 2.0;
        let mut solids = Vec::new();
        let mut bounds: Option<Aabb> = None;
        let mut cg = Point::default();
        for ends in self.joints.windows(2) {
            let (from, to) = (ends[0], ends[1]);
            let solid = Solid::Cylinder { from, to, radius };
            bounds = Some(bounds.map_or(solid.aabb(), |b| b.union(&solid.aabb())));
            let share = if self.joints.len() > 2 {
                (to - from).length() / length
            } else {
                1.0
            };
            cg = cg + (from + to) * (0.5 * share);
            solids.push(solid);
        }
        let bounds = bounds.unwrap_or_default();
        Item {
            placed: None,
            tag: self.tag.clone(),
            part: part.clone(),
            zone: None,
            origin: Point::new(bounds.min.x, bounds.centre().y, bounds.min.z),
            turn: 0,
            cg,
            solids,
            bounds,
            mass_kg: (part.mass_kg + more).max(0.0),
            full_kg: 0.0,
            fill: 1.0,
            clearance: part.clearance,
            unsprung_axle: None,
            joined_to: vec![self.from.clone()],
            joined_axle: Some(self.to_axle.clone()),
        }
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
