//! Shapes and spots as a person writes them in a file.

use crate::geometry::{Aabb, Point, Solid};
use crate::source::Checker;
use serde::{Deserialize, Serialize};

/// A place: x rearward, y right, z up, in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Spot {
    /// Rearward.
    pub x_mm: f64,
    /// To the right.
    pub y_mm: f64,
    /// Up.
    pub z_mm: f64,
}

impl Spot {
    /// Farthest coordinate that is accepted, either way.
    pub const FAR_MM: f64 = 40_000.0;

    /// Makes a spot.
    #[must_use]
    pub const fn new(x_mm: f64, y_mm: f64, z_mm: f64) -> Self {
        Self { x_mm, y_mm, z_mm }
    }

    /// As a point of the geometry.
    #[must_use]
    pub const fn point(self) -> Point {
        Point::new(self.x_mm, self.y_mm, self.z_mm)
    }

    /// Coordinates must be finite and not absurd.
    pub fn check(&self, c: &mut Checker) {
        c.range("x_mm", self.x_mm, -Self::FAR_MM, Self::FAR_MM);
        c.range("y_mm", self.y_mm, -Self::FAR_MM, Self::FAR_MM);
        c.range("z_mm", self.z_mm, -Self::FAR_MM, Self::FAR_MM);
    }
}

impl From<Point> for Spot {
    fn from(p: Point) -> Self {
        Self::new(p.x, p.y, p.z)
    }
}

/// One solid of an envelope. On a chassis the coordinates are the truck's; on a part, x counts from
/// the part's front face, y from its middle, z from its underside.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Shape {
    /// A box between two opposite corners, `[x, y, z]` each.
    Box {
        /// Corner with the smaller coordinates.
        from_mm: [f64; 3],
        /// Corner with the larger coordinates.
        to_mm: [f64; 3],
    },
    /// A cylinder between the centres of its two ends, lying along any direction.
    Cylinder {
        /// Centre of one end.
        from_mm: [f64; 3],
        /// Centre of the other end.
        to_mm: [f64; 3],
        /// Diameter.
        diameter_mm: f64,
    },
}

const fn point(c: [f64; 3]) -> Point {
    Point::new(c[0], c[1], c[2])
}

impl Shape {
    /// As a solid of the geometry.
    #[must_use]
    pub fn solid(&self) -> Solid {
        match self {
            Self::Box { from_mm, to_mm } => Solid::Block(Aabb {
                min: point(*from_mm),
                max: point(*to_mm),
            }),
            Self::Cylinder {
                from_mm,
                to_mm,
                diameter_mm,
            } => Solid::Cylinder {
                from: point(*from_mm),
                to: point(*to_mm),
                radius: diameter_mm / 2.0,
            },
        }
    }

    /// Coordinates must be finite, corners in order, and a cylinder must have length.
    pub fn check(&self, c: &mut Checker) {
        let (from, to) = match self {
            Self::Box { from_mm, to_mm } | Self::Cylinder { from_mm, to_mm, .. } => {
                (from_mm, to_mm)
            }
        };
        for (name, corner) in [("from_mm", from), ("to_mm", to)] {
            for value in corner {
                c.range(name, *value, -Spot::FAR_MM, Spot::FAR_MM);
            }
        }
        match self {
            Self::Box { .. } => {
                if from.iter().zip(to).any(|(a, b)| a > b) {
                    let shown = format!("{from:?} to {to:?}");
                    c.problem(
                        "from_mm",
                        shown,
                        "is not the lower corner",
                        "from_mm <= to_mm",
                    );
                }
            }
            Self::Cylinder { diameter_mm, .. } => {
                c.range("diameter_mm", *diameter_mm, 1.0, 3_000.0);
                if from == to {
                    c.problem(
                        "to_mm",
                        format!("{to:?}"),
                        "is the same point as from_mm",
                        "a length",
                    );
                }
            }
        }
    }
}
