//! The path of a turn, followed step by step: straight in, around, straight out.
//!
//! The middle of the front axle follows the arc; the truck's turning centre is drawn after it, the
//! trailer's after the kingpin: two tractrices. Heading ψ of the truck, θ of the trailer, φ of the
//! track, along the way s of the front axle: ψ' = sin(φ − ψ)/c, and θ' = (cos(φ − ψ) sin(ψ − θ) +
//! a ψ' cos(ψ − θ))/L with the kingpin a ahead of the turning centre. Fourth-order Runge-Kutta with
//! fixed steps; the pieces of the track begin and end at a step, so that no step spans a kink.

use super::outline::{Hull, Vertex};
use super::stance::trailer_mm;
use super::turning::{Turn, Turning, at_outer};
use crate::numeric::{cos, hypot, rk4, sin};
use crate::plan::Moving;
use crate::vehicle::Vehicle;

/// Length of one step along the front axle's way, mm.
const STEP_MM: f64 = 50.0;
/// Steps from one pose that is kept to the next, a whole number of [`TRACED`].
const KEPT: u32 = 12;
/// Steps from one traced point to the next.
const TRACED: u32 = 4;

/// Where the truck and its trailer stand, ground axes: those of the truck at the start of the turn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pose {
    /// Way of the front axle since the start of the turn, mm.
    pub way_mm: f64,
    /// Middle of the front axle.
    pub front: (f64, f64),
    /// Turned to the left since the start, radians; negative to the right.
    pub heading_rad: f64,
    /// Kingpin and heading of the trailer.
    pub trailer: Option<((f64, f64), f64)>,
}

/// The way of one corner over the ground.
#[derive(Clone, Debug, PartialEq)]
pub struct Trace {
    /// Whose corner, in words.
    pub name: String,
    /// Tag of the part; empty for the truck and the trailer.
    pub tag: String,
    /// On the trailer.
    pub on_trailer: bool,
    /// Points in order.
    pub points: Vec<(f64, f64)>,
}

/// A turn as it was followed.
#[derive(Clone, Debug, PartialEq)]
pub struct Sweep {
    /// Angle of the turn, degrees.
    pub angle_deg: f64,
    /// To the left.
    pub to_left: bool,
    /// The steady turn that the truck itself would come to.
    pub steady: Turn,
    /// Centre of the front axle's arc.
    pub centre: (f64, f64),
    /// Radius of the front axle's arc, mm.
    pub front_radius_mm: f64,
    /// Poses, evenly spaced, with the first and the last.
    pub poses: Vec<Pose>,
    /// Ways of the corners that matter: outermost, innermost, tails, and every part's own corner.
    pub traces: Vec<Trace>,
    /// Outline of the truck, its own axes.
    pub truck: Hull,
    /// Outline of the trailer, truck axes when straight behind.
    pub trailer: Option<Hull>,
    /// Largest distance of any corner from the centre of the arc while the front axle is on it, mm.
    pub outer_mm: f64,
    /// Where that was, and whose corner.
    pub outer_at: (f64, f64),
    /// Smallest distance of truck or trailer from the centre of the arc, mm; 0 over it.
    pub inner_mm: f64,
    /// Where that was.
    pub inner_at: (f64, f64),
    /// How far the last axles ran inside of the front axle's way at most, mm.
    pub off_tracking_mm: f64,
    /// Largest angle between truck and trailer, degrees.
    pub articulation_deg: f64,
    /// The fifth wheel or the plan permits less articulation than the turn needed.
    pub jackknifes: bool,
    /// How far the trailer's tail swung out beyond its side before the turn, mm.
    pub trailer_tail_mm: f64,
    /// The same for the truck, on this path: less than with the wheel turned while standing.
    pub truck_tail_mm: f64,
}

/// The track of the front axle.
struct Track {
    radius: f64,
    arc: f64,
}

impl Track {
    /// Place and direction after this much way.
    fn at(&self, way: f64) -> ((f64, f64), f64) {
        let turned = (way.min(self.arc) / self.radius).max(0.0);
        let beyond = (way - self.arc).max(0.0) + way.min(0.0);
        let arc = ahead(turned, beyond);
        let (x, y) = (
            -self.radius * sin(turned) + arc.0,
            -self.radius * (1.0 - cos(turned)) + arc.1,
        );
        ((x, y), turned)
    }

    /// On which piece of the way a place lies, when the front axle is `way` along it and the last
    /// corner of the truck has passed the start after `lag`.
    fn piece(&self, p: (f64, f64), way: f64, lag: f64) -> Piece {
        if p.0 > 0.0 && way < lag {
            return Piece::Before;
        }
        let (tip, heading) = self.at(self.arc);
        let out = ahead(heading, 1.0);
        let v = (p.0 - tip.0, p.1 - tip.1);
        if way > self.arc && v.0 * out.0 + v.1 * out.1 > 0.0 {
            // Left of the way out is inside.
            return Piece::After(v.1 * out.0 - v.0 * out.1);
        }
        Piece::Arc(hypot(p.0, p.1 + self.radius))
    }

    /// How far a place lies inside of the track, mm; negative outside.
    fn inside(&self, p: (f64, f64), way: f64, lag: f64) -> f64 {
        match self.piece(p, way, lag) {
            Piece::Before => -p.1,
            Piece::Arc(radius) => self.radius - radius,
            Piece::After(left) => left,
        }
    }
}

/// A piece of the way, with what is measured on it.
enum Piece {
    /// The straight way in.
    Before,
    /// The arc: distance from its centre, mm.
    Arc(f64),
    /// The straight way out: how far to its left, mm.
    After(f64),
}

/// A step ahead with this heading: the front of the truck looks to −x, a left turn swings it to −y.
fn ahead(heading: f64, by: f64) -> (f64, f64) {
    (-cos(heading) * by, -sin(heading) * by)
}

/// A point of a body whose own origin stands at `at` with this heading.
fn placed(at: (f64, f64), heading: f64, x: f64, y: f64) -> (f64, f64) {
    let (c, s) = (cos(heading), sin(heading));
    (at.0 + c * x - s * y, at.1 + s * x + c * y)
}

impl Pose {
    /// A point given in truck axes, on the ground.
    #[must_use]
    pub fn of_truck(&self, x: f64, y: f64) -> (f64, f64) {
        placed(self.front, self.heading_rad, x, y)
    }

    /// A point of the trailer given in truck axes when straight behind, on the ground.
    #[must_use]
    pub fn of_trailer(&self, kingpin_x: f64, x: f64, y: f64) -> Option<(f64, f64)> {
        let (at, heading) = self.trailer?;
        Some(placed(at, heading, x - kingpin_x, y))
    }

    fn mirrored(mut self) -> Self {
        self.front.1 = -self.front.1;
        self.heading_rad = -self.heading_rad;
        self.trailer = self.trailer.map(|(at, h)| ((at.0, -at.1), -h));
        self
    }
}

/// Follows the turn that the plan states.
///
/// # Errors
/// What is missing.
pub fn follow(vehicle: &Vehicle, known: &super::Manoeuvre) -> Result<Sweep, String> {
    let lock = known.turning.as_ref().map_err(Clone::clone)?;
    sweep(vehicle, lock, super::turning::outer_mm(vehicle))
}

/// Follows a turn within this outer radius, by the plan's angle and to its side.
///
/// # Errors
/// What is missing.
pub fn sweep(vehicle: &Vehicle, lock: &Turning, outer_mm: f64) -> Result<Sweep, String> {
    let angle_deg = vehicle.moving.turn_deg.unwrap_or(Moving::TURN_DEG);
    sweep_by(vehicle, lock, outer_mm, angle_deg)
}

/// Follows a turn by this angle, degrees.
pub(super) fn sweep_by(
    vehicle: &Vehicle,
    lock: &Turning,
    outer_mm: f64,
    angle_deg: f64,
) -> Result<Sweep, String> {
    let to_left = vehicle.moving.turn_left;
    let turn = at_outer(vehicle, lock, outer_mm)?;
    let truck = &lock.hull;
    let trailer = vehicle.trailer.as_deref();
    let trailer_hull = trailer.map(Hull::of_trailer);
    let c = lock.stance.centre_x_mm;
    let kingpin_x = trailer.map_or(c, |t| t.kingpin.x);
    let long = trailer.map(|coupled| {
        let t = &coupled.trailer;
        trailer_mm(t.kingpin_to_axles_mm, t.axle_spacing_mm, t.axle_count)
    });
    let permitted = trailer.map_or(180.0, |t| t.articulation_deg);
    let radius = turn.steady.front_mm;
    let track = Track {
        radius,
        arc: angle_deg.to_radians() * radius,
    };
    let last = trailer_hull.as_ref().unwrap_or(truck);
    let lag = last.0.iter().map(|v| v.x).fold(c, f64::max) * 1.1;
    // After a full circle there is no way out; else on until the last axles run nearly straight.
    let out = if angle_deg < 359.9 {
        c + long.unwrap_or(0.0)
    } else {
        0.0
    };

    let rate = |way: f64, [psi, theta]: [f64; 2]| {
        let steer = track.at(way).1 - psi;
        let turned = sin(steer) / c;
        let bend = psi - theta;
        let drawn = long.map_or(0.0, |long| {
            (cos(steer) * sin(bend) + (c - kingpin_x) * turned * cos(bend)) / long
        });
        [turned, drawn]
    };
    let pose = |way: f64, [psi, theta]: [f64; 2]| {
        let front = track.at(way).0;
        Pose {
            way_mm: way,
            front,
            heading_rad: psi,
            trailer: long.map(|_| (placed(front, psi, kingpin_x, 0.0), theta)),
        }
    };
    let mut all = Sweep {
        angle_deg,
        to_left,
        centre: (0.0, -radius),
        front_radius_mm: radius,
        poses: Vec::new(),
        traces: traced(&turn, truck, trailer_hull.as_ref(), kingpin_x, long),
        truck: truck.clone(),
        trailer: trailer_hull.clone(),
        outer_mm: 0.0,
        outer_at: (0.0, 0.0),
        inner_mm: f64::INFINITY,
        inner_at: (0.0, 0.0),
        off_tracking_mm: 0.0,
        articulation_deg: 0.0,
        jackknifes: false,
        trailer_tail_mm: 0.0,
        truck_tail_mm: 0.0,
        steady: turn,
    };
    let corners: Vec<(f64, f64)> = all.traces.iter().map(|t| t.points[0]).collect();
    for trace in &mut all.traces {
        trace.points.clear();
    }
    let mut state = [0.0, 0.0];
    let mut way = 0.0;
    let mut count = 0_u32;
    for (piece, end) in [(track.arc, track.arc), (out, track.arc + out)] {
        let steps = (piece / STEP_MM).ceil();
        let start = end - piece;
        let mut i = 0.0;
        while i < steps && !all.jackknifes {
            if count.is_multiple_of(TRACED) {
                all.keep(&pose(way, state), &corners, kingpin_x, count);
            }
            state = rk4(rate, way, state, piece / steps);
            i += 1.0;
            way = start + piece * i / steps;
            count += 1;
            all.look(&pose(way, state), &track, (way, lag), (c, kingpin_x, long));
            all.jackknifes = all.articulation_deg > permitted + 1e-6;
        }
    }
    all.keep(&pose(way, state), &corners, kingpin_x, 0);
    if !to_left {
        all.mirror();
    }
    Ok(all)
}

/// The corners whose ways are kept; each with its own place as the only point for now.
fn traced(
    turn: &Turn,
    truck: &Hull,
    trailer: Option<&Hull>,
    kingpin_x: f64,
    long: Option<f64>,
) -> Vec<Trace> {
    let mut traces: Vec<Trace> = Vec::new();
    let mut add = |x: f64, y: f64, name: &str, tag: &str, on_trailer: bool| {
        if traces
            .iter()
            .all(|t| t.points[0] != (x, y) || t.on_trailer != on_trailer)
        {
            traces.push(Trace {
                name: name.to_owned(),
                tag: tag.to_owned(),
                on_trailer,
                points: vec![(x, y)],
            });
        }
    };
    let mut corner = |v: &Vertex| add(v.x, v.y, &v.name, &v.tag, false);
    corner(&turn.outer_by);
    turn.tail_by.iter().for_each(&mut corner);
    truck
        .0
        .iter()
        .filter(|v| !v.tag.is_empty())
        .for_each(corner);
    if let (Some(hull), Some(long)) = (trailer, long) {
        let half = hull.0.iter().map(|v| v.y).fold(0.0, f64::max);
        let rear = hull.0.iter().map(|v| v.x).fold(0.0, f64::max);
        add(
            kingpin_x + long,
            -half,
            "trailer, inside at its axles",
            "",
            true,
        );
        add(rear, half, "trailer, tail", "", true);
    }
    traces
}

impl Sweep {
    /// Largest swept width: between the outermost and the innermost point, mm.
    #[must_use]
    pub fn width_mm(&self) -> f64 {
        self.outer_mm - self.inner_mm
    }

    /// Keeps a pose for drawing, now and then, and the corners' places.
    fn keep(&mut self, pose: &Pose, corners: &[(f64, f64)], kingpin_x: f64, count: u32) {
        if count.is_multiple_of(KEPT) {
            self.poses.push(*pose);
        }
        for (trace, (x, y)) in self.traces.iter_mut().zip(corners) {
            let at = if trace.on_trailer {
                pose.of_trailer(kingpin_x, *x, *y)
            } else {
                Some(pose.of_truck(*x, *y))
            };
            trace.points.extend(at);
        }
    }

    /// Looks how far everything reaches in a pose.
    fn look(
        &mut self,
        pose: &Pose,
        track: &Track,
        (way, lag): (f64, f64),
        (c, kingpin_x, long): (f64, f64, Option<f64>),
    ) {
        let side = |hull: &Hull| hull.0.iter().map(|v| v.y).fold(0.0, f64::max);
        let mut outermost = (self.outer_mm, self.outer_at);
        let mut tails = [self.truck_tail_mm, self.trailer_tail_mm];
        let mut see = |at: (f64, f64), own_side: f64, tail: usize, behind: bool| {
            if let Piece::Arc(radius) = track.piece(at, way, lag)
                && radius > outermost.0
                && way <= track.arc
            {
                outermost = (radius, at);
            }
            // Beyond the line along which its side stood before the turn.
            if behind && at.0 > -track.radius {
                tails[tail] = tails[tail].max(at.1 - own_side);
            }
        };
        for v in &self.truck.0 {
            see(pose.of_truck(v.x, v.y), side(&self.truck), 0, v.x > c);
        }
        let inner = |hull: &Hull, at: (f64, f64), heading: f64, own_x: f64| {
            // The centre as the body sees it.
            let (dx, dy) = (self.centre.0 - at.0, self.centre.1 - at.1);
            let (x, y) = placed((0.0, 0.0), -heading, dx, dy);
            hull.nearest(x + own_x, y).map(|(far, _)| far)
        };
        let mut innermost = inner(&self.truck, pose.front, pose.heading_rad, 0.0);
        let mut last = pose.of_truck(c, 0.0);
        if let (Some(hull), Some((at, heading)), Some(long)) = (&self.trailer, pose.trailer, long) {
            for v in &hull.0 {
                if let Some(p) = pose.of_trailer(kingpin_x, v.x, v.y) {
                    see(p, side(hull), 1, v.x > kingpin_x + long);
                }
            }
            let near = inner(hull, at, heading, kingpin_x);
            innermost = innermost.zip(near).map(|(a, b)| a.min(b));
            last = placed(at, heading, long, 0.0);
            let bend = (pose.heading_rad - heading).to_degrees();
            self.articulation_deg = self.articulation_deg.max(bend.abs());
        }
        (self.outer_mm, self.outer_at) = outermost;
        [self.truck_tail_mm, self.trailer_tail_mm] = tails;
        if let Some(mm) = innermost.filter(|mm| *mm < self.inner_mm) {
            self.inner_mm = mm;
            self.inner_at = last;
        }
        self.off_tracking_mm = self.off_tracking_mm.max(track.inside(last, way, lag));
    }

    /// The same turn to the right.
    fn mirror(&mut self) {
        let flip = |p: &mut (f64, f64)| p.1 = -p.1;
        for at in [&mut self.centre, &mut self.outer_at, &mut self.inner_at] {
            flip(at);
        }
        self.poses = self.poses.iter().map(|p| p.mirrored()).collect();
        for trace in &mut self.traces {
            trace.points.iter_mut().for_each(flip);
        }
        self.truck = self.truck.clone().for_turn(false);
    }
}
