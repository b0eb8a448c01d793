//! A point, or the vector between two.

use serde::{Deserialize, Serialize};
use std::ops::{Add, Mul, Neg, Sub};

/// A place or a displacement in mm: x rearward, y right, z up.
#[derive(Clone, Copy, Debug, PartialEq, Default, Serialize, Deserialize)]
pub struct Point {
    /// Rearward from the front axle centre, mm.
    pub x: f64,
    /// To the right of the chassis centre line, mm.
    pub y: f64,
    /// Up from the ground, mm.
    pub z: f64,
}

impl Point {
    /// The point with these coordinates, mm.
    #[must_use]
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// Scalar product, mm².
    #[must_use]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// Vector product, mm².
    #[must_use]
    pub fn cross(self, other: Self) -> Self {
        Self::new(
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        )
    }

    /// Distance from the origin, mm; exact for a vector along an axis.
    #[must_use]
    pub fn length(self) -> f64 {
        let (x, y, z) = (self.x.abs(), self.y.abs(), self.z.abs());
        if y + z == 0.0 {
            x
        } else if x + z == 0.0 {
            y
        } else if x + y == 0.0 {
            z
        } else {
            self.dot(self).sqrt()
        }
    }

    /// The vector of length 1 in this direction; `None` for one too short to have a direction
    /// (below 1e-12 mm) or not finite.
    #[must_use]
    pub fn direction(self) -> Option<Self> {
        let length = self.length();
        (length > 1e-12 && length.is_finite()).then(|| self * (1.0 / length))
    }

    /// Whether all three coordinates are finite and within a thousand kilometres.
    #[must_use]
    pub fn has_place(self) -> bool {
        let near = |value: f64| value.abs() <= super::FARTHEST_MM;
        near(self.x) && near(self.y) && near(self.z)
    }

    /// The smaller of each coordinate; NaN if either is NaN, so that it is noticed later.
    #[must_use]
    pub fn lower(self, other: Self) -> Self {
        Self::new(
            lesser(self.x, other.x),
            lesser(self.y, other.y),
            lesser(self.z, other.z),
        )
    }

    /// The larger of each coordinate; NaN if either is NaN.
    #[must_use]
    pub fn upper(self, other: Self) -> Self {
        Self::new(
            -lesser(-self.x, -other.x),
            -lesser(-self.y, -other.y),
            -lesser(-self.z, -other.z),
        )
    }
}

fn lesser(a: f64, b: f64) -> f64 {
    if a < b || a.is_nan() { a } else { b }
}

impl Add for Point {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y, self.z + other.z)
    }
}

impl Sub for Point {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y, self.z - other.z)
    }
}

impl Mul<f64> for Point {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self::new(self.x * factor, self.y * factor, self.z * factor)
    }
}

impl Neg for Point {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y, -self.z)
    }
}
