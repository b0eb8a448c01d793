//! Everything with a shape that is not a placed part: rails, tyres, cab, obstacles, kept hardware.

use super::Vehicle;
use crate::chassis::{Axle, AxleKind, Chassis, ObstacleKind, Shape};
use crate::geometry::{Aabb, Point, Solid};

/// What a body is, for checks and for the drawing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BodyKind {
    /// Web or flange of a rail.
    Rail,
    /// A fixed obstacle of the chassis.
    Obstacle(ObstacleKind),
    /// Tyres of one side of an axle, at rest; the axle's id.
    Tyre(String),
    /// An axle of the donor that stays, without its tyres.
    Axle,
    /// Cab shell.
    Cab,
    /// Body of a rigid truck.
    Body,
    /// Donor hardware that stays.
    Hardware,
}

/// A fixed thing with a shape.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// Identifier, unique in the vehicle.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// What it is.
    pub kind: BodyKind,
    /// Its solids.
    pub solids: Vec<Solid>,
    /// Clearance that parts must keep.
    pub clearance_mm: f64,
    /// Moves with this axle.
    pub axle: Option<String>,
}

/// Static distance to a tyre, common practice.
const TYRE_STATIC_MM: f64 = 75.0;
/// Distance to the cab shell, common practice.
const CAB_MM: f64 = 25.0;

impl Vehicle {
    /// Collects the bodies of the resolved chassis.
    pub(super) fn collect_bodies(&mut self) {
        self.bodies = self.bodies_of(&self.chassis).into();
    }

    /// The same bodies in the same order where the donor has them: before any change of wheelbase or
    /// fifth wheel.
    #[must_use]
    pub fn donor_bodies(&self) -> Vec<Body> {
        self.bodies_of(&self.donor)
    }

    /// True when the plan has moved parts of the chassis against each other.
    #[must_use]
    pub fn has_moved(&self) -> bool {
        let ahead = |c: &Chassis| c.fifth_wheel.as_ref().map(|fw| fw.ahead_mm);
        self.stretch_mm != 0.0 || ahead(&self.chassis) != ahead(&self.donor)
    }

    /// How far above design height an axle is held: its travel to the stop when it is raised.
    #[must_use]
    pub fn lifted_mm(&self, axle: &Axle) -> f64 {
        if self.is_raised(&axle.id) {
            axle.suspension.jounce_mm
        } else {
            0.0
        }
    }

    fn bodies_of(&self, chassis: &Chassis) -> Vec<Body> {
        let mut bodies = rails(chassis);
        for obstacle in &chassis.obstacles {
            bodies.push(Body {
                id: obstacle.id.clone(),
                name: obstacle.name.clone(),
                kind: BodyKind::Obstacle(obstacle.kind),
                solids: obstacle.envelope.iter().map(Shape::solid).collect(),
                clearance_mm: obstacle.clearance_mm,
                axle: None,
            });
        }
        bodies.extend(self.tyres(chassis));
        bodies.extend(self.beams(chassis));
        bodies.push(cab_shell(chassis));
        if let Some(body) = &chassis.body {
            let half = body.width_mm / 2.0;
            bodies.push(Body {
                id: "body".to_owned(),
                name: body.name.clone(),
                kind: BodyKind::Body,
                solids: vec![Solid::Block(Aabb {
                    min: Point::new(body.front_x_mm, -half, body.floor_z_mm),
                    max: Point::new(body.rear_x_mm, half, body.top_z_mm),
                })],
                clearance_mm: body.clearance_mm,
                axle: None,
            });
        }
        for item in &chassis.hardware {
            if self.stripped.contains(&item.id) || item.envelope.is_empty() {
                continue;
            }
            bodies.push(Body {
                id: item.id.clone(),
                name: item.name.clone(),
                kind: BodyKind::Hardware,
                solids: item.envelope.iter().map(Shape::solid).collect(),
                clearance_mm: 0.0,
                axle: item.unsprung_axle.clone(),
            });
        }
        bodies
    }

    /// The axles themselves at rest, as far as the chassis file gives their shapes.
    fn beams(&self, chassis: &Chassis) -> Vec<Body> {
        let with_shape = chassis.axles.iter().filter(|a| !a.envelope.is_empty());
        with_shape
            .map(|axle| {
                let lift = Point::new(0.0, 0.0, self.lifted_mm(axle));
                let what = if axle.kind == AxleKind::Drive {
                    "Housing"
                } else {
                    "Beam"
                };
                let solids = axle.envelope.iter().map(Shape::solid);
                Body {
                    id: format!("beam-{}", axle.id),
                    name: format!("{what} of {}", axle.words()),
                    kind: BodyKind::Axle,
                    solids: solids.map(|s| s.translated(lift)).collect(),
                    clearance_mm: 0.0,
                    axle: Some(axle.id.clone()),
                }
            })
            .collect()
    }

    /// Tyres at rest, one body for each side of each axle.
    fn tyres(&self, chassis: &Chassis) -> Vec<Body> {
        let mut bodies = Vec::new();
        for axle in &chassis.axles {
            for (side, sign) in [("left", -1.0), ("right", 1.0)] {
                let (inner, outer) = (axle.inner_half_width_mm(), axle.outer_half_width_mm());
                let z = axle.tyres.loaded_radius_mm + self.lifted_mm(axle);
                let at = |y: f64| Point::new(axle.x_mm, sign * y, z);
                bodies.push(Body {
                    id: format!("tyre-{}-{side}", axle.id),
                    name: format!("{side} tyre of {}", axle.id.replace('-', " ")),
                    kind: BodyKind::Tyre(axle.id.clone()),
                    solids: vec![Solid::Cylinder {
                        from: at(inner),
                        to: at(outer),
                        radius: axle.tyres.diameter_mm / 2.0,
                    }],
                    clearance_mm: TYRE_STATIC_MM,
                    axle: Some(axle.id.clone()),
                });
            }
        }
        bodies
    }
}

/// Web and flanges of both rails.
fn rails(chassis: &Chassis) -> Vec<Body> {
    let d = &chassis.dimensions;
    let r = &chassis.rail;
    let (front, end) = (r.front_x_mm, d.frame_end_x_mm());
    let (top, bottom) = (d.frame_top_laden_mm, d.frame_top_laden_mm - r.depth_mm);
    let outer = d.frame_width_mm / 2.0;
    let block = |y0: f64, y1: f64, z0: f64, z1: f64| {
        Solid::Block(Aabb {
            min: Point::new(front, y0.min(y1), z0),
            max: Point::new(end, y0.max(y1), z1),
        })
    };
    [("left", -1.0), ("right", 1.0)]
        .into_iter()
        .map(|(side, sign)| {
            let web = sign * (outer - r.wall_mm);
            let lip = sign * (outer - r.flange_mm);
            Body {
                id: format!("rail-{side}"),
                name: format!("{side} frame rail"),
                kind: BodyKind::Rail,
                solids: vec![
                    block(web, sign * outer, bottom, top),
                    block(lip, sign * outer, top - r.wall_mm, top),
                    block(lip, sign * outer, bottom, bottom + r.wall_mm),
                ],
                clearance_mm: 0.0,
                axle: None,
            }
        })
        .collect()
}

fn cab_shell(chassis: &Chassis) -> Body {
    let cab = &chassis.cab;
    let half = cab.width_mm / 2.0;
    let boc = chassis.dimensions.back_of_cab_x_mm();
    Body {
        id: "cab".to_owned(),
        name: "cab shell".to_owned(),
        kind: BodyKind::Cab,
        solids: vec![Solid::Block(Aabb {
            min: Point::new(cab.front_x_mm.min(boc), -half, cab.floor_z_mm),
            max: Point::new(boc, half, cab.roof_z_mm.max(cab.floor_z_mm)),
        })],
        clearance_mm: CAB_MM,
        axle: None,
    }
}

impl Body {
    /// Box around the solids.
    #[must_use]
    pub fn bounds(&self) -> Aabb {
        self.solids
            .iter()
            .map(Solid::aabb)
            .reduce(|a, b| a.union(&b))
            .unwrap_or_default()
    }
}
