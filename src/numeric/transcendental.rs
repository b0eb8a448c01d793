//! Trigonometry, exponentials and logarithms with the same digits on every machine. Angles are in
//! radians.
//!
//! Where rounding can push an argument just out of range (`sqrt(-1e-18)`, `acos(1.0000000000000002)`)
//! the argument is taken at the edge of the range. A NaN that is passed in comes back: non-finite
//! numbers are to be stopped where they enter the program.

/// Sine of an angle in radians.
#[must_use]
pub fn sin(angle_rad: f64) -> f64 {
    libm::sin(angle_rad)
}

/// Cosine of an angle in radians.
#[must_use]
pub fn cos(angle_rad: f64) -> f64 {
    libm::cos(angle_rad)
}

/// Tangent of an angle in radians. Very large, never infinite, at a right angle.
#[must_use]
pub fn tan(angle_rad: f64) -> f64 {
    libm::tan(angle_rad)
}

/// Angle in −π/2..=π/2 with this sine; the argument is held to −1..=1.
#[must_use]
pub fn asin(sine: f64) -> f64 {
    libm::asin(sine.clamp(-1.0, 1.0))
}

/// Angle in 0..=π with this cosine; the argument is held to −1..=1.
#[must_use]
pub fn acos(cosine: f64) -> f64 {
    libm::acos(cosine.clamp(-1.0, 1.0))
}

/// Angle in −π/2..=π/2 with this tangent.
#[must_use]
pub fn atan(tangent: f64) -> f64 {
    libm::atan(tangent)
}

/// Angle in −π..=π from the first axis to the point (`x`, `y`); 0 for the origin.
///
/// ```
/// use axlewright_core::numeric::atan2;
/// assert_eq!(atan2(0.0, 1.0), 0.0);
/// assert_eq!(atan2(1.0, 0.0), std::f64::consts::FRAC_PI_2);
/// ```
#[must_use]
pub fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}

/// Length of the hypotenuse, without overflow on the way.
#[must_use]
pub fn hypot(a: f64, b: f64) -> f64 {
    let square = a * a + b * b;
    if (1e-200..1e200).contains(&square) {
        square.sqrt()
    } else {
        libm::hypot(a, b)
    }
}

/// e to the power of the argument.
#[must_use]
pub fn exp(exponent: f64) -> f64 {
    libm::exp(exponent)
}

/// Natural logarithm; an argument that is not positive, which only rounding can produce here, counts
/// as the smallest positive number.
#[must_use]
pub fn ln(value: f64) -> f64 {
    libm::log(value.max(f64::MIN_POSITIVE))
}

/// A positive base to any power.
#[must_use]
pub fn pow(base: f64, exponent: f64) -> f64 {
    libm::pow(base, exponent)
}

/// Square root; a negative argument, which only rounding can produce here, counts as 0.
#[must_use]
pub fn sqrt(value: f64) -> f64 {
    if value < 0.0 { 0.0 } else { value.sqrt() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_just_out_of_range_gives_the_edge() {
        assert_eq!(sqrt(-1e-18), 0.0);
        assert_eq!(acos(1.0 + 1e-15), 0.0);
        assert_eq!(asin(-1.5), -std::f64::consts::FRAC_PI_2);
    }
}
