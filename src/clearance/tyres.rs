//! Parts against tyres: at rest, and over the whole travel at any steering angle.

use super::known::{Chapter, Parts, Which};
use super::required::{Asked, direction, is_even, most_on_sides, or_own};
use super::worst::{Demand, Found, is_listed, worse, worst};
use super::{Clearances, LISTED_BEYOND_MM, State, Thing, far, gap};
use crate::chassis::Axle;
use crate::geometry::{Aabb, Point, Solid, separation_steered, separation_within};
use crate::numeric::hypot;
use crate::vehicle::{Body, BodyKind, Vehicle};

/// Distance to a tyre at rest, common practice.
const AT_REST_MM: f64 = 75.0;
/// Distance to a tyre over travel and lock, common practice.
pub(super) const MOVING_MM: f64 = 25.0;

/// Tyres of one side of an axle and how they move.
pub(super) struct Wheel<'a> {
    pub body: &'a Body,
    pub axle: &'a Axle,
    /// Solid at design height, whether the axle is raised or not.
    down: Solid,
    /// Box that holds it at rest and however it moves.
    pub space: Aabb,
}

/// The tyres among the bodies.
pub(super) fn wheels<'a>(vehicle: &'a Vehicle, bodies: &'a [Body]) -> Vec<Wheel<'a>> {
    let of = |body: &'a Body| {
        let BodyKind::Tyre(axle) = &body.kind else {
            return None;
        };
        let axle = vehicle.axle(axle)?;
        let lifted = Point::new(0.0, 0.0, -vehicle.lifted_mm(axle));
        let down = body.solids.first()?.translated(lifted);
        let rest = down.aabb();
        let half = rest.size() * 0.5;
        // Steered, it stays within the circle of its corner.
        let beside = if axle.steer_angle_deg > 0.0 {
            let corner = hypot(half.x, half.y);
            Point::new(corner - half.x, corner - half.y, 0.0)
        } else {
            Point::default()
        };
        let s = &axle.suspension;
        let space = Aabb {
            min: rest.min - beside - Point::new(0.0, 0.0, s.rebound_mm),
            max: rest.max + beside + Point::new(0.0, 0.0, s.jounce_mm),
        };
        Some(Wheel {
            body,
            axle,
            down,
            space: space.union(&body.bounds()),
        })
    };
    bodies.iter().filter_map(of).collect()
}

impl Wheel<'_> {
    /// Worst room between solids and the tyre over its travel and lock. `rides` is the axle that the
    /// solids ride on themselves: one of the two may be up while the other is down.
    pub fn moving<'a>(
        &self,
        solids: &[Solid],
        rides: Option<&Axle>,
        most_mm: f64,
        demand: Demand<'_, 'a>,
    ) -> Option<Found<'a>> {
        let reach = most_mm + LISTED_BEYOND_MM;
        let s = &self.axle.suspension;
        let own = rides.map_or((0.0, 0.0), |a| {
            (a.suspension.rebound_mm, a.suspension.jounce_mm)
        });
        let lock = self.axle.steer_angle_deg.to_radians();
        let mut found = None;
        for solid in solids {
            // The tyre moving up is the same as the part moving down, which stays a plain box.
            let (down, up) = (s.jounce_mm + own.0, s.rebound_mm + own.1);
            let mut bounds = solid.aabb();
            bounds.min.z -= down;
            bounds.max.z += up;
            if self.down.has_place() && bounds.gap(&self.steered()) > reach {
                continue;
            }
            let moving = solid.swept_z(down, up);
            let measured = if lock > 0.0 {
                separation_steered(&moving, &self.down, lock, reach)
            } else {
                separation_within(&[moving], std::slice::from_ref(&self.down), reach)
            };
            let Some(mut measured) = measured else {
                continue;
            };
            let asked = demand(direction(&bounds, &self.down.aabb(), &measured));
            // Seen from the truck: the part where it stands, the tyre where it comes to.
            let at_rest = solid.aabb();
            let z = measured.on_first.z.max(at_rest.min.z).min(at_rest.max.z);
            measured.on_second.z += z - measured.on_first.z;
            measured.on_first.z = z;
            found = worse(found, (measured, asked));
        }
        found.filter(is_listed)
    }

    /// Box around the tyre at design height at any steering angle.
    fn steered(&self) -> Aabb {
        let rest = self.down.aabb();
        Aabb {
            min: Point::new(self.space.min.x, self.space.min.y, rest.min.z),
            max: Point::new(self.space.max.x, self.space.max.y, rest.max.z),
        }
    }
}

/// Parts against tyres, at rest and moving.
pub(super) fn tyres(
    vehicle: &Vehicle,
    wheels: &[Wheel<'_>],
    parts: &Parts<'_>,
    gaps: &mut Clearances,
) {
    // What rides on an axle comes nearer than it stands.
    let travels = vehicle.chassis.axles.iter().map(|a| &a.suspension);
    let travel = travels
        .map(|s| s.jounce_mm.max(s.rebound_mm))
        .fold(0.0, f64::max);
    for (i, item) in parts.facing(false) {
        let even = is_even(item);
        let own = most_on_sides(item);
        let rides = item
            .unsprung_axle
            .as_deref()
            .and_then(|id| vehicle.axle(id));
        let own_travel = if rides.is_some() { travel } else { 0.0 };
        for (j, wheel) in wheels.iter().enumerate() {
            let on = Some(wheel.axle.id.as_str());
            let most = own.max(AT_REST_MM);
            if item.unsprung_axle.as_deref() == on
                || item.joined_axle.as_deref() == on
                || far(&item.bounds, &wheel.space, most + own_travel)
            {
                continue;
            }
            let mut add = |state, (s, asked): Found<'_>| {
                let (first, second) = (
                    Thing::Part(item.tag.clone()),
                    Thing::Body(wheel.body.id.clone()),
                );
                gaps.put(
                    (Chapter::Tyres, Which::Part(i), Which::Rest(j)),
                    Some(gap(state, first, second, s, asked)),
                );
            };
            let asked = Asked::new(AT_REST_MM, "tyre at rest");
            let demand = |towards| or_own(asked, item, towards);
            if let Some(found) = worst(&item.solids, &wheel.body.solids, most, even, &demand) {
                add(State::TyreAtRest, found);
            }
            let asked = Asked::new(MOVING_MM, "tyre over its travel and lock");
            let demand = |towards| or_own(asked, item, towards);
            if let Some(found) = wheel.moving(&item.solids, rides, own.max(MOVING_MM), &demand) {
                add(State::TyreMoving, found);
            }
        }
    }
}
