//! How far a joint may bend, how long a piece may be, how much the ends may differ.

use crate::quantity::MM_PER_IN;

/// Largest usual difference between the angles of the two end joints, degrees (truck driveline
/// handbooks, from memory).
pub const UNEQUAL_MOST_DEG: f64 = 1.0;
/// Least angle of a joint, degrees, so that its needles roll (a joint maker's operating-angle page,
/// read).
pub const JOINT_LEAST_DEG: f64 = 0.5;
/// Largest angular acceleration from joints that do not cancel, rad/s² (pairs of angles in a joint
/// maker's table, read; they follow from this figure).
pub const RIPPLE_MOST: f64 = 400.0;
/// Highest usual shaft speed, rpm (an engine maker's installation guide, read).
pub const WINDOW_RPM: f64 = 3_000.0;
/// Shortest usual piece, 18 in (the same guide).
pub const LENGTH_LEAST_MM: f64 = 18.0 * MM_PER_IN;
/// Longest usual piece, 57 in (the same guide).
pub const LENGTH_MOST_MM: f64 = 57.0 * MM_PER_IN;

/// Largest operating angle of one joint by speed: rpm and degrees. A joint maker's table; 3,500 rpm and
/// faster read, the rest from memory and in keeping with 1,000 rad/s².
const BY_SPEED: [(f64, f64); 8] = [
    (1_500.0, 11.5),
    (2_000.0, 8.7),
    (2_500.0, 7.0),
    (3_000.0, 5.8),
    (3_500.0, 5.0),
    (4_000.0, 4.2),
    (4_500.0, 3.7),
    (5_000.0, 3.2),
];

/// Largest operating angle of one joint at this speed, degrees; `None` above 5,000 rpm, where the table
/// ends. Below 1,500 rpm its first row holds. Between two rows the product of speed and angle is taken
/// on the straight line between theirs, which stays below the straight line between the angles.
#[must_use]
pub fn angle_by_speed_deg(rpm: f64) -> Option<f64> {
    let (first, last) = (BY_SPEED[0], BY_SPEED[BY_SPEED.len() - 1]);
    if rpm <= first.0 {
        return Some(first.1);
    }
    if rpm > last.0 || rpm.is_nan() {
        return None;
    }
    let (low, high) = BY_SPEED
        .windows(2)
        .map(|rows| (rows[0], rows[1]))
        .find(|(_, high)| rpm <= high.0)?;
    let along = (rpm - low.0) / (high.0 - low.0);
    let product = low.0 * low.1 + along * (high.0 * high.1 - low.0 * low.1);
    Some(product / rpm)
}

/// Largest operating angle by the length of the shaft, degrees: a fifth of its inches when the axes at
/// both ends are parallel, a tenth when they meet (a driveline service article's rule of thumb, read).
#[must_use]
pub fn angle_by_length_deg(length_mm: f64, parallel: bool) -> f64 {
    length_mm / MM_PER_IN / if parallel { 5.0 } else { 10.0 }
}
