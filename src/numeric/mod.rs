//! Numbers: the only door to transcendental functions, and two small solvers.
//!
//! Every sine in the program goes through here to `libm`, so that the same plan gives the same
//! bytes natively and in the page: the standard library's own versions differ from machine to
//! machine in the last digit.

mod linear;
mod root;
mod step;
mod transcendental;

pub use linear::solve;
pub use root::bisect;
pub use step::rk4;
pub use transcendental::{acos, asin, atan, atan2, cos, hypot, sin, sqrt, tan};
