//! The room a body takes while it moves.

use super::cylinder::Round;
use super::{Aabb, Point, Solid};
use crate::numeric::{cos, sin};
use std::f64::consts::{FRAC_PI_4, PI, TAU};

/// Sides of the polygon drawn about a rim when a hull must hold a cylinder.
///
/// The polygon touches the rim from outside, so the hull is never smaller than the real thing; its
/// corners lie 1/cos(π/48) − 1 = 0.215 % of the radius outside (1.1 mm for a 1 m wheel).
pub const ROUND_SIDES: u32 = 48;

impl Solid {
    /// The room taken while the body travels `down` and `up` by so many mm (each 0 or more; a
    /// negative or non-finite travel counts as 0).
    ///
    /// A box and an upright cylinder grow exactly. Any other cylinder becomes a hull whose rims are
    /// polygons of [`ROUND_SIDES`] sides, larger than the rim by at most 0.215 % of the radius, and
    /// never smaller. A cylinder without length (a ball) is held by the box around it.
    #[must_use]
    pub fn swept_z(&self, down: f64, up: f64) -> Self {
        let travel = |mm: f64| if mm > 0.0 && mm.is_finite() { mm } else { 0.0 };
        let (down, up) = (travel(down), travel(up));
        let (lower, upper) = (Point::new(0.0, 0.0, -down), Point::new(0.0, 0.0, up));
        if down == 0.0 && up == 0.0 {
            return self.clone();
        }
        let both = |points: &[Point]| {
            let low = points.iter().map(|p| *p + lower);
            Self::Hull(low.chain(points.iter().map(|p| *p + upper)).collect())
        };
        match self {
            Self::Block(_) => {
                let bounds = self.aabb();
                Self::Block(Aabb {
                    min: bounds.min + lower,
                    max: bounds.max + upper,
                })
            }
            Self::Cylinder { from, to, radius } => {
                let round = Round::new(*from, *to, *radius);
                let upright = (*to - *from).x == 0.0 && (*to - *from).y == 0.0;
                match round.axis {
                    Some(_) if upright => Self::Cylinder {
                        from: from.lower(*to) + lower,
                        to: from.upper(*to) + upper,
                        radius: *radius,
                    },
                    Some(axis) => both(&rims(&round, axis)),
                    None => Self::Block(round.aabb()).swept_z(down, up),
                }
            }
            Self::Hull(points) => both(points),
        }
    }
}

/// Corners of the polygons about both rims.
fn rims(round: &Round, axis: Point) -> Vec<Point> {
    let thinnest = if axis.z.abs() < 0.9 {
        Point::new(0.0, 0.0, 1.0)
    } else {
        Point::new(1.0, 0.0, 0.0)
    };
    let first = axis.cross(thinnest).direction().unwrap_or(thinnest);
    let second = axis.cross(first);
    let step = TAU / f64::from(ROUND_SIDES);
    let corner = round.radius / cos(step / 2.0);
    (0..ROUND_SIDES)
        .map(|i| {
            // A side, not a corner, faces up, down and sideways: the height stays exact.
            let angle = (f64::from(i) + 0.5) * step;
            first * (corner * cos(angle)) + second * (corner * sin(angle))
        })
        .flat_map(|out| [round.from + out, round.to + out])
        .collect()
}

/// Upright prism over a sector: the room an arm of length `radius` (mm) takes when it turns about
/// the upright axis through `centre` from one angle to the other, between two heights.
///
/// Angles in radians from the rear (x) towards the right (y), in either order. The arc is replaced
/// by a polygon of `steps` sides drawn about it, never inside: its corners lie
/// 1/cos(span / 2 `steps`) − 1 of the radius outside (0.09 % for a quarter turn in 18 steps). Sides
/// spanning more than 45° are split further, whatever `steps` says. Being convex, a span beyond
/// half a turn is filled up to the hull; a whole turn or an angle that is not finite gives the whole
/// circle. A negative radius counts as 0.
#[must_use]
pub fn arc_hull(
    centre: Point,
    radius: f64,
    from_angle: f64,
    to_angle: f64,
    z_min: f64,
    z_max: f64,
    steps: u32,
) -> Solid {
    let finite = from_angle.is_finite() && to_angle.is_finite();
    let (start, end) = if finite && (to_angle - from_angle).abs() < TAU {
        (from_angle.min(to_angle), from_angle.max(to_angle))
    } else {
        (-PI, PI)
    };
    let fewest = ((end - start) / FRAC_PI_4).ceil().max(1.0);
    let sides = (fewest as u32).max(steps.min(3600));
    let step = (end - start) / f64::from(sides);
    let radius = radius.max(0.0);
    let at =
        |angle: f64, reach: f64| (centre.x + reach * cos(angle), centre.y + reach * sin(angle));
    let mut outline = vec![(centre.x, centre.y), at(start, radius), at(end, radius)];
    let corner = radius / cos(step / 2.0);
    outline.extend((0..sides).map(|i| at(start + (f64::from(i) + 0.5) * step, corner)));
    let prism = outline
        .iter()
        .flat_map(|&(x, y)| [Point::new(x, y, z_min), Point::new(x, y, z_max)]);
    Solid::Hull(prism.collect())
}
