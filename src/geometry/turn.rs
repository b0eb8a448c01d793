//! Turning and mirroring bodies.

use super::{Aabb, Point, Solid};
use crate::numeric::{cos, sin};

impl Solid {
    /// Mirrored in the chassis centre plane: left becomes right.
    #[must_use]
    pub fn mirrored_y(&self) -> Self {
        self.mapped(|p| Point::new(p.x, -p.y, p.z))
    }

    /// Turned by quarter turns about the upright axis through `about`, positive from rear (x)
    /// towards right (y). Coordinates are swapped and negated, nothing else: whole millimetres stay
    /// whole, a box stays a box. Four quarter turns are none.
    #[must_use]
    pub fn turned(&self, quarter_turns: u8, about: Point) -> Self {
        self.mapped(|p| {
            let (x, y) = (p.x - about.x, p.y - about.y);
            match quarter_turns % 4 {
                0 => p,
                1 => Point::new(about.x - y, about.y + x, p.z),
                2 => Point::new(about.x - x, about.y - y, p.z),
                _ => Point::new(about.x + y, about.y - x, p.z),
            }
        })
    }

    /// Every defining point mapped by a motion that keeps boxes along the axes.
    fn mapped(&self, motion: impl Fn(Point) -> Point) -> Self {
        match self {
            Self::Block(block) => Self::Block(Aabb::new(motion(block.min), motion(block.max))),
            Self::Cylinder { from, to, radius } => Self::Cylinder {
                from: motion(*from),
                to: motion(*to),
                radius: *radius,
            },
            Self::Hull(points) => Self::Hull(points.iter().map(|p| motion(*p)).collect()),
        }
    }
}

/// The solid turned about the upright axis through `about` by an angle in radians, positive from
/// rear (x) towards right (y). A box becomes the hull of its turned corners, unless the angle is
/// exactly 0. An angle that is not finite gives a body without a place.
#[must_use]
pub fn yawed(solid: &Solid, about: Point, angle_rad: f64) -> Solid {
    if angle_rad == 0.0 {
        return solid.clone();
    }
    let (c, s) = (cos(angle_rad), sin(angle_rad));
    let motion = |p: Point| {
        let (x, y) = (p.x - about.x, p.y - about.y);
        Point::new(about.x + c * x - s * y, about.y + s * x + c * y, p.z)
    };
    match solid {
        Solid::Block(block) => Solid::Hull(block.corners().map(motion).to_vec()),
        other => other.mapped(motion),
    }
}
