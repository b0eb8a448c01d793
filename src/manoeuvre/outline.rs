//! The truck and the trailer from above: the convex hull of all that is on them.

use crate::geometry::{Aabb, Point, Solid};
use crate::numeric::sort_by;
use crate::vehicle::{Coupled, Item, Vehicle};

/// A corner of an outline, truck axes.
#[derive(Clone, Debug, PartialEq)]
pub struct Vertex {
    /// Behind the front axle.
    pub x: f64,
    /// Right of the middle.
    pub y: f64,
    /// Height at which it was found, for pointers.
    pub z: f64,
    /// Tag of the part it belongs to; empty for the truck itself.
    pub tag: String,
    /// What it is, in words.
    pub name: String,
}

/// An outline from above: corners in order around it.
#[derive(Clone, Debug, PartialEq)]
pub struct Hull(pub Vec<Vertex>);

/// A corner before it is known to matter: place, height, and whose it is.
type Raw = (f64, f64, f64, Whose);

/// Index of a body or an item; the truck's own come first among equals, so that a part flush with
/// the truck does not count as sticking out.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Whose {
    Front,
    Body(usize),
    Item(usize),
}

/// The hull of points, counter-clockwise in x and y (Andrew's monotone chain).
fn around(mut points: Vec<Raw>) -> Vec<Raw> {
    points.retain(|p| p.0.abs() < 1e6 && p.1.abs() < 1e6);
    leave_out_inner(&mut points);
    sort_by(&mut points, |a, b| {
        let place = a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1));
        place.then(a.3.cmp(&b.3))
    });
    points.dedup_by(|a, b| a.0 == b.0 && a.1 == b.1);
    let left =
        |o: &Raw, a: &Raw, b: &Raw| (a.0 - o.0) * (b.1 - o.1) - (a.1 - o.1) * (b.0 - o.0) > 0.0;
    let mut chain: Vec<Raw> = Vec::new();
    for pass in 0..2 {
        let start = chain.len();
        for p in &points {
            while chain.len() >= start + 2
                && !left(&chain[chain.len() - 2], &chain[chain.len() - 1], p)
            {
                chain.pop();
            }
            chain.push(*p);
        }
        chain.pop();
        if pass == 0 {
            points.reverse();
        }
    }
    chain
}

/// Leaves out what lies within the four points that are farthest along the diagonals: on a truck that
/// is most of it, and none of it can be a corner (the heuristic of Akl and Toussaint, 1978).
fn leave_out_inner(points: &mut Vec<Raw>) {
    let farthest = |sx: f64, sy: f64| {
        let along = |p: &Raw| sx * p.0 + sy * p.1;
        let most = |a: Raw, b: &Raw| if along(b) > along(&a) { *b } else { a };
        points.first().map(|first| points.iter().fold(*first, most))
    };
    let four = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(x, y)| farthest(x, y));
    let [Some(a), Some(b), Some(c), Some(d)] = four else {
        return;
    };
    let left =
        |o: &Raw, a: &Raw, p: &Raw| (a.0 - o.0) * (p.1 - o.1) - (a.1 - o.1) * (p.0 - o.0) > 1.0;
    points.retain(|p| !(left(&a, &b, p) && left(&b, &c, p) && left(&c, &d, p) && left(&d, &a, p)));
}

impl Hull {
    /// The truck with everything hard on it.
    #[must_use]
    pub fn of_truck(vehicle: &Vehicle) -> Self {
        let d = &vehicle.chassis.dimensions;
        let half = d.overall_width_mm / 2.0;
        let mut points = Vec::with_capacity(400);
        let mut add = |b: &Aabb, whose: Whose| {
            if b.has_place() {
                let z = f64::midpoint(b.min.z, b.max.z);
                for x in [b.min.x, b.max.x] {
                    points.push((x, b.min.y, z, whose));
                    points.push((x, b.max.y, z, whose));
                }
            }
        };
        // As wide as the truck from the bumper to the back of the cab.
        let front = Aabb::new(
            Point::new(d.bumper_x_mm(), -half, d.frame_top_laden_mm / 2.0),
            Point::new(d.back_of_cab_x_mm().max(0.0), half, d.frame_top_laden_mm),
        );
        add(&front, Whose::Front);
        for (i, body) in vehicle.bodies.iter().enumerate() {
            add(&body.bounds(), Whose::Body(i));
        }
        for (i, item) in vehicle.items.iter().enumerate() {
            for solid in item.solids.iter().filter(|_| !item.part.soft) {
                add(&solid.aabb(), Whose::Item(i));
            }
        }
        let named = around(points).into_iter().map(|(x, y, z, whose)| {
            let (tag, name) = match whose {
                Whose::Front => ("", "front bumper"),
                Whose::Body(i) => ("", vehicle.bodies[i].name.as_str()),
                Whose::Item(i) => (vehicle.items[i].tag.as_str(), vehicle.items[i].tag.as_str()),
            };
            let (tag, name) = (tag.to_owned(), name.to_owned());
            Vertex { x, y, z, tag, name }
        });
        Self(named.collect())
    }

    /// True when this outline, for a turn, stays what it is with an item in place of another: the one has
    /// no corner of it, the other lies well within.
    pub(super) fn holds_without(&self, then: &Item, now: &Item, to_left: bool) -> bool {
        let within = |x: f64, y: f64| {
            let y = if to_left { y } else { -y };
            let next = self.0.iter().cycle().skip(1);
            self.0.iter().zip(next).all(|(a, b)| {
                let (ex, ey) = (b.x - a.x, b.y - a.y);
                // Farther inside than a millimetre.
                ex * (y - a.y) - ey * (x - a.x) > ex.abs() + ey.abs()
            })
        };
        let inside = |b: Aabb| {
            let across = |x: f64| within(x, b.min.y) && within(x, b.max.y);
            across(b.min.x) && across(b.max.x)
        };
        !self.0.iter().any(|v| v.tag == then.tag)
            && (now.part.soft || now.solids.iter().all(|s| inside(s.aabb())))
    }

    /// The trailer straight behind the truck.
    #[must_use]
    pub fn of_trailer(coupled: &Coupled) -> Self {
        let b = Solid::Block(coupled.box_ahead()).aabb();
        let corner = |x: f64, y: f64| Vertex {
            x,
            y,
            z: coupled.trailer.nose_z_mm,
            tag: String::new(),
            name: "trailer".to_owned(),
        };
        Self(vec![
            corner(b.min.x, b.min.y),
            corner(b.max.x, b.min.y),
            corner(b.max.x, b.max.y),
            corner(b.min.x, b.max.y),
        ])
    }

    /// The same, left and right exchanged when asked for: turns are reckoned to the left.
    #[must_use]
    pub fn for_turn(mut self, to_left: bool) -> Self {
        if !to_left {
            for v in &mut self.0 {
                v.y = -v.y;
            }
            self.0.reverse();
        }
        self
    }

    /// Distance of the nearest point of the outline from a place, 0 inside, and the corner nearest
    /// to that point.
    #[must_use]
    pub fn nearest(&self, x: f64, y: f64) -> Option<(f64, &Vertex)> {
        let mut best: Option<(f64, &Vertex)> = None;
        let mut inside = true;
        for (i, a) in self.0.iter().enumerate() {
            let b = &self.0[(i + 1) % self.0.len()];
            let (ex, ey) = (b.x - a.x, b.y - a.y);
            let (px, py) = (x - a.x, y - a.y);
            inside &= ex * py - ey * px >= 0.0;
            let along = ((px * ex + py * ey) / (ex * ex + ey * ey).max(1e-9)).clamp(0.0, 1.0);
            let far = crate::numeric::hypot(px - along * ex, py - along * ey);
            if best.is_none_or(|(least, _)| far < least) {
                best = Some((far, if along < 0.5 { a } else { b }));
            }
        }
        best.map(|(far, v)| (if inside { 0.0 } else { far }, v))
    }

    /// The corner farthest from a place, and how far it is.
    #[must_use]
    pub fn farthest(&self, x: f64, y: f64) -> Option<(f64, &Vertex)> {
        let far = |v: &Vertex| crate::numeric::hypot(v.x - x, v.y - y);
        let all = self.0.iter().map(|v| (far(v), v));
        all.reduce(|a, b| if b.0 > a.0 { b } else { a })
    }
}
