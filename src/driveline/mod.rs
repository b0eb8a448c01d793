//! Driveshafts: their angles and lengths over the suspension's travel, how fast they may turn and what
//! they carry.
//!
//! Method. Joint angles are the angles between neighbouring axes in space: the driving axis, each piece
//! of the shaft, the driven axis. The axle moves straight up and down against the frame and keeps its
//! inclination to it, as it does on parallel rods and, nearly, on symmetrical leaf springs. The drive
//! stays where it is mounted.
//!
//! Assumptions. The drive's output points along the part's own x axis, inclined as the shaft's run says;
//! the part's body is drawn and checked level all the same. Axle inputs are on the truck's centre line.
//! Both yokes of a piece are in line. Tubes are steel, of one diameter over the whole length. Torque is
//! the motor's largest in its lowest gear without losses; an open differential halves it between axles.

mod limits;
mod line;
mod whirl;

pub use limits::{
    JOINT_LEAST_DEG, LENGTH_LEAST_MM, LENGTH_MOST_MM, RIPPLE_MOST, UNEQUAL_MOST_DEG, WINDOW_RPM,
    angle_by_length_deg, angle_by_speed_deg,
};
pub use line::{Joint, Piece, Ride, ShaftState};
pub use whirl::{SAFE_SHARE, critical_rpm, longest_mm};

use crate::numeric;
use crate::part::{Motor, ShaftTube};
use crate::shared::Shared;
use crate::vehicle::{ShaftLine, Vehicle};

/// Everything about the driveshafts of a truck.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Driveline {
    /// Shafts in the order of the plan, those between two axles last.
    pub shafts: Vec<Shaft>,
    /// Parts with an output flange, when no shaft runs from any of them.
    pub undriven: Vec<String>,
}

/// How fast a shaft turns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShaftSpeed {
    /// At the motor's highest speed in top gear, rpm.
    pub most_rpm: f64,
    /// At the truck's highest road speed, where that is known and less, rpm.
    pub road_rpm: Option<f64>,
    /// Road speed at the motor's highest speed in top gear, where the axle's ratio is known.
    pub most_kmh: Option<f64>,
}

impl ShaftSpeed {
    /// The fastest that it turns for long.
    #[must_use]
    pub fn running_rpm(&self) -> f64 {
        self.road_rpm.unwrap_or(self.most_rpm)
    }
}

/// One shaft.
#[derive(Clone, Debug, PartialEq)]
pub struct Shaft {
    /// Mark on the drawing; of a shaft between two axles, their ids.
    pub tag: String,
    /// What drives it.
    pub from: String,
    /// Which axle it drives.
    pub to_axle: String,
    /// It runs from one axle to the next.
    pub between_axles: bool,
    /// Empty, laden, at full jounce and at full rebound.
    pub states: [ShaftState; 4],
    /// Axes at both ends are parallel within a degree; `None` when one is not known.
    pub parallel: Option<bool>,
    /// What it is made of.
    pub tube: ShaftTube,
    /// How fast it turns, or what is missing for it.
    pub speed: Result<ShaftSpeed, String>,
    /// Torque that the motor gives in its lowest gear, or what is missing for it.
    pub torque_nm: Result<f64, String>,
    /// Bending speed of the piece that comes first to it, or what is missing for it.
    pub whirl: Result<Whirl, String>,
    /// Length that the slip has to give and take over the whole travel.
    pub plunge_mm: f64,
}

/// The piece of a shaft that comes first to its bending speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Whirl {
    /// Length between its joints, the longest over the travel.
    pub length_mm: f64,
    /// Speed at which it bends away.
    pub critical_rpm: f64,
    /// Speed up to which it may be used.
    pub safe_rpm: f64,
}

impl Shaft {
    /// In one state.
    #[must_use]
    pub fn state(&self, ride: Ride) -> &ShaftState {
        &self.states[ride as usize]
    }

    /// The longest piece at design height.
    #[must_use]
    pub fn longest_piece(&self) -> Option<&Piece> {
        let longer = |a: &&Piece, b: &&Piece| a.length_mm.total_cmp(&b.length_mm);
        self.state(Ride::Laden).pieces.iter().max_by(longer)
    }

    /// The joint that bends most in any of these states, with the state and its number from the drive.
    #[must_use]
    pub fn worst_joint(&self, rides: &[Ride]) -> Option<(Ride, usize, &Joint)> {
        let mut worst: Option<(Ride, usize, &Joint)> = None;
        for &ride in rides {
            for (index, joint) in self.state(ride).joints.iter().enumerate() {
                if worst.is_none_or(|(_, _, most)| joint.angle_deg > most.angle_deg) {
                    worst = Some((ride, index, joint));
                }
            }
        }
        worst
    }

    /// How many equal pieces a shaft of this tube needs so that each may turn as fast as the motor can
    /// drive it and is no longer than is usual.
    #[must_use]
    pub fn pieces_needed(&self) -> Option<u32> {
        let tube = (self.tube.tube_od_mm?, self.tube.tube_id_mm?);
        let speed = self.speed.as_ref().ok()?;
        let most = longest_mm(tube.0, tube.1, speed.most_rpm).min(LENGTH_MOST_MM);
        let length: f64 = self
            .state(Ride::Laden)
            .pieces
            .iter()
            .map(|p| p.length_mm)
            .sum();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a truck's length over a shaft's: between one and a few hundred"
        )]
        let count = (length / most.max(1.0)).ceil().clamp(1.0, 1_000.0) as u32;
        Some(count)
    }
}

/// Works out every driveshaft.
#[must_use]
pub fn driveline(vehicle: &Vehicle) -> Driveline {
    let shafts: Vec<Shaft> = vehicle.shafts.iter().map(|l| shaft(vehicle, l)).collect();
    let undriven = if vehicle.shafts.iter().any(|line| line.from_axle.is_none()) {
        Vec::new()
    } else {
        let outputs = vehicle.items.iter().filter(|i| i.part.output.is_some());
        outputs.map(|i| i.tag.clone()).collect()
    };
    Driveline { shafts, undriven }
}

/// The same; where lines, chassis and parts are those of before, it is what is known from there.
#[must_use]
pub fn driveline_after(
    vehicle: &Vehicle,
    before: Option<(&Vehicle, &Shared<Driveline>)>,
) -> Shared<Driveline> {
    let alike = |(old, _): &(&Vehicle, _)| {
        let pairs = || vehicle.items.iter().zip(&old.items);
        vehicle.chassis.is(&old.chassis)
            && vehicle.shafts == old.shafts
            && vehicle.items.len() == old.items.len()
            && pairs().all(|(a, b)| a.is(b) || (a.part.is(&b.part) && a.tag == b.tag))
    };
    match before.filter(alike) {
        Some((_, known)) => known.clone(),
        None => driveline(vehicle).into(),
    }
}

fn shaft(vehicle: &Vehicle, line: &ShaftLine) -> Shaft {
    let states = Ride::ALL.map(|ride| line::state(vehicle, line, ride));
    let last = |s: &ShaftState| s.pieces.last().map_or(0.0, |p| p.length_mm);
    let lengths = states.each_ref().map(last);
    let most = lengths.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let least = lengths.iter().copied().fold(f64::INFINITY, f64::min);
    Shaft {
        tag: line.tag.clone(),
        from: line.from.clone(),
        to_axle: line.to_axle.clone(),
        between_axles: line.from_axle.is_some(),
        parallel: line
            .axle_axis
            .map(|axis| line::angle_deg(line.drive_axis, axis) <= UNEQUAL_MOST_DEG),
        tube: line.tube.clone(),
        speed: speed(vehicle, line),
        torque_nm: torque_nm(vehicle, line),
        whirl: whirl(line, &states),
        plunge_mm: (most - least).max(0.0),
        states,
    }
}

/// Motor data of what drives a line, going back through the axle ahead.
fn motor<'a>(vehicle: &'a Vehicle, line: &ShaftLine) -> Result<&'a Motor, String> {
    let driving = match &line.from_axle {
        None => Some(line.from.as_str()),
        Some(axle) => {
            let ahead = vehicle.shafts.iter().find(|l| &l.to_axle == axle);
            ahead.map(|l| l.from.as_str())
        }
    };
    let driving = driving.ok_or_else(|| format!("no driveshaft runs to {}", line.from))?;
    let motor = vehicle.item(driving).and_then(|i| i.part.motor.as_ref());
    motor.ok_or_else(|| format!("{driving} has no motor data"))
}

fn speed(vehicle: &Vehicle, line: &ShaftLine) -> Result<ShaftSpeed, String> {
    let motor = motor(vehicle, line)?;
    let max_rpm = motor
        .max_rpm
        .ok_or("the highest speed of the motor is not in its file")?;
    let most_rpm = max_rpm / motor.gears().1;
    let axle = vehicle.axle(&line.to_axle);
    // Millimetres of road for each turn of the shaft.
    let driven = axle.and_then(|a| Some((a, a.ratio.or_else(|| ratio_ahead(vehicle, line))?)));
    let per_turn =
        driven.map(|(a, ratio)| 2.0 * std::f64::consts::PI * a.tyres.loaded_radius_mm / ratio);
    let kmh_per_rpm = per_turn.map(|mm| mm * 60.0 / 1e6);
    let top_kmh = vehicle.chassis.ratings.top_speed_kmh;
    Ok(ShaftSpeed {
        most_rpm,
        most_kmh: kmh_per_rpm.map(|k| k * most_rpm),
        road_rpm: top_kmh
            .zip(kmh_per_rpm)
            .map(|(kmh, k)| (kmh / k).min(most_rpm)),
    })
}

/// Both driven axles of a tandem have the same final drive; files state it once.
fn ratio_ahead(vehicle: &Vehicle, line: &ShaftLine) -> Option<f64> {
    vehicle.axle(line.from_axle.as_ref()?)?.ratio
}

fn torque_nm(vehicle: &Vehicle, line: &ShaftLine) -> Result<f64, String> {
    let motor = motor(vehicle, line)?;
    let peak = motor
        .peak_nm
        .ok_or("the largest torque of the motor is not in its file")?;
    let share = if line.from_axle.is_some() { 0.5 } else { 1.0 };
    Ok(peak * motor.gears().0 * share)
}

fn whirl(line: &ShaftLine, states: &[ShaftState]) -> Result<Whirl, String> {
    let (Some(outer), Some(inner)) = (line.tube.tube_od_mm, line.tube.tube_id_mm) else {
        return Err("the diameters of the tube are not in its file".to_owned());
    };
    let pieces = states.iter().flat_map(|s| &s.pieces);
    let length_mm = pieces.map(|p| p.length_mm).fold(0.0, f64::max);
    let critical_rpm = critical_rpm(outer, inner, length_mm);
    Ok(Whirl {
        length_mm,
        critical_rpm,
        safe_rpm: SAFE_SHARE * critical_rpm,
    })
}

/// Peak angular acceleration that the axle sees when joints do not cancel each other, rad/s²: the speed
/// squared times the square of the angle that is left, in radians.
#[must_use]
pub fn ripple(rpm: f64, left_deg: f64) -> f64 {
    let turning = rpm * std::f64::consts::PI / 30.0;
    (turning * left_deg.to_radians()).powi(2)
}

/// The angle that the second joint may have at most beside the first before their difference gives
/// this acceleration, degrees.
#[must_use]
pub fn second_joint_deg(rpm: f64, first_deg: f64, most: f64) -> f64 {
    let turning = rpm * std::f64::consts::PI / 30.0;
    let left = most / turning.powi(2);
    numeric::sqrt(first_deg.to_radians().powi(2) + left).to_degrees()
}
