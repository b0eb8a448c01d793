//! Numbers: the only door to transcendental functions, and curves between points, two small solvers.
//!
//! Every sine in the program goes through here to `libm`, so that the same plan gives the same
//! bytes natively and in the page: the standard library's own versions differ from machine to
//! machine in the last digit.

mod curve;
mod linear;
mod root;
mod transcendental;

pub use curve::Curve;
pub use linear::solve;
pub use root::bisect;
pub use transcendental::{acos, asin, atan, atan2, cos, exp, hypot, ln, pow, sin, sqrt, tan};
