//! Where the joints of a shaft are over the suspension's travel, and how far they bend.

use crate::geometry::Point;
use crate::numeric;
use crate::vehicle::{ShaftLine, Vehicle};
use serde::Serialize;

/// How the truck stands on its springs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Ride {
    /// Empty: the frame stands higher above the axle.
    Empty,
    /// Laden, at design height.
    Laden,
    /// The axle is as far up as it goes; between two axles, the one ahead is up and the other down.
    Jounce,
    /// The axle is as far down as it goes; between two axles, the one ahead is down and the other up.
    Rebound,
}

impl Ride {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Empty, Self::Laden, Self::Jounce, Self::Rebound];
    /// Heights at which the truck drives for long.
    pub const RUNNING: [Self; 2] = [Self::Empty, Self::Laden];

    /// Words for people.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Empty => "empty",
            Self::Laden => "laden",
            Self::Jounce => "full jounce",
            Self::Rebound => "full rebound",
        }
    }
}

/// One piece of a shaft, joint to joint.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Piece {
    /// Joint nearer to the drive.
    pub from: Point,
    /// The other joint.
    pub to: Point,
    /// Between both.
    pub length_mm: f64,
    /// How far it falls, seen from the side, degrees.
    pub side_deg: f64,
    /// How far it runs to the right, seen from above, degrees.
    pub plan_deg: f64,
}

/// One joint.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Joint {
    /// Its centre.
    pub at: Point,
    /// How far it bends seen from the side: positive when what comes after it falls more.
    pub side_deg: f64,
    /// How far it bends seen from above: positive to the right.
    pub plan_deg: f64,
    /// Angle between the two axes in space.
    pub angle_deg: f64,
}

/// A shaft in one state.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ShaftState {
    /// Which.
    pub ride: Ride,
    /// How far the driven end stands above its place at design height.
    pub axle_up_mm: f64,
    /// Pieces, from the drive to the axle.
    pub pieces: Vec<Piece>,
    /// Joints, from the drive to the axle; the last is left out when the inclination of the axle's
    /// input is not known.
    pub joints: Vec<Joint>,
    /// The angle of the single joint that would shake the axle as much as all of these together;
    /// 0 when they cancel. Needs every joint.
    pub left_deg: Option<f64>,
}

impl ShaftState {
    /// Difference of the angles of the first and the last joint of a shaft in one piece.
    #[must_use]
    pub fn unequal_deg(&self) -> Option<f64> {
        match self.joints.as_slice() {
            [first, last] if self.pieces.len() == 1 => {
                Some((first.angle_deg - last.angle_deg).abs())
            }
            _ => None,
        }
    }
}

/// How far up the two ends move in a state, mm.
fn moved(vehicle: &Vehicle, line: &ShaftLine, ride: Ride) -> (f64, f64) {
    let travel = |axle: &str| {
        let found = vehicle.axle(axle).map(|a| &a.suspension);
        found.map_or((0.0, 0.0), |s| (s.jounce_mm, -s.rebound_mm))
    };
    let (up, down) = travel(&line.to_axle);
    let Some(ahead) = &line.from_axle else {
        let d = &vehicle.chassis.dimensions;
        let end = match ride {
            Ride::Empty => d.frame_top_laden_mm - d.frame_top_unladen_mm,
            Ride::Laden => 0.0,
            Ride::Jounce => up,
            Ride::Rebound => down,
        };
        return (0.0, end);
    };
    let (ahead_up, ahead_down) = travel(ahead);
    match ride {
        Ride::Empty | Ride::Laden => (0.0, 0.0),
        Ride::Jounce => (ahead_up, down),
        Ride::Rebound => (ahead_down, up),
    }
}

/// Angle between two directions, degrees.
pub(super) fn angle_deg(one: Point, other: Point) -> f64 {
    numeric::atan2(one.cross(other).length(), one.dot(other)).to_degrees()
}

/// How far a direction falls, seen from the side, degrees.
fn side_deg(d: Point) -> f64 {
    numeric::atan2(-d.z, d.x.abs()).to_degrees()
}

/// How far a direction runs to the right, seen from above, degrees.
fn plan_deg(d: Point) -> f64 {
    numeric::atan2(d.y, d.x.abs()).to_degrees()
}

/// A line in one state.
pub(super) fn state(vehicle: &Vehicle, line: &ShaftLine, ride: Ride) -> ShaftState {
    let (first_up, last_up) = moved(vehicle, line, ride);
    let mut at = line.joints.clone();
    if let Some(first) = at.first_mut() {
        first.z += first_up;
    }
    if let Some(last) = at.last_mut() {
        last.z += last_up;
    }
    let mut axes = vec![line.drive_axis];
    let mut pieces = Vec::with_capacity(at.len());
    for ends in at.windows(2) {
        let along = ends[1] - ends[0];
        let axis = along.direction().unwrap_or(line.drive_axis);
        pieces.push(Piece {
            from: ends[0],
            to: ends[1],
            length_mm: along.length(),
            side_deg: side_deg(axis),
            plan_deg: plan_deg(axis),
        });
        axes.push(axis);
    }
    axes.extend(line.axle_axis);
    let joints: Vec<Joint> = axes
        .windows(2)
        .zip(&at)
        .map(|(axis, at)| Joint {
            at: *at,
            side_deg: side_deg(axis[1]) - side_deg(axis[0]),
            plan_deg: plan_deg(axis[1]) - plan_deg(axis[0]),
            angle_deg: angle_deg(axis[0], axis[1]),
        })
        .collect();
    ShaftState {
        ride,
        axle_up_mm: last_up,
        left_deg: line.axle_axis.map(|_| left_deg(&axes)),
        pieces,
        joints,
    }
}

/// What is left of all joints together. A joint that bends by β in a plane at φ about the shaft makes
/// the speed waver by β²/2 · cos 2(turn − φ); the joint at the other end of a piece whose yokes are in
/// line does so with the opposite sign. Good to a few percent up to 15°.
fn left_deg(axes: &[Point]) -> f64 {
    let (mut real, mut imaginary, mut sign) = (0.0, 0.0, 1.0);
    for pair in axes.windows(2) {
        let bend = pair[1] - pair[0];
        let across = bend.y.powi(2) + bend.z.powi(2);
        if across > 1e-24 {
            let weight = sign * angle_deg(pair[0], pair[1]).powi(2) / across;
            real += weight * (bend.y.powi(2) - bend.z.powi(2));
            imaginary += weight * 2.0 * bend.y * bend.z;
        }
        sign = -sign;
    }
    numeric::sqrt(numeric::hypot(real, imaginary))
}
