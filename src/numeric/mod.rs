//! Numbers: the only door to transcendental functions, curves between points, two small solvers, and
//! the statics of beams and of rigid frames on supports.
//!
//! Every sine in the program goes through here to `libm`, so that the same plan gives the same
//! bytes natively and in the page: the standard library's own versions differ from machine to
//! machine in the last digit.

mod beam;
mod curve;
mod linear;
mod root;
mod sorting;
mod step;
mod support;
mod transcendental;

pub use beam::{BeamEvent, BeamPiece, beam_pieces, beam_remainder, on_rows};
pub use curve::{Curve, between};
pub use linear::solve;
pub use root::bisect;
pub use sorting::{ascending, sort, sort_by};
pub use step::rk4;
pub use support::{Influence, Support, influence};
pub use transcendental::{acos, asin, atan, atan2, cos, exp, hypot, ln, pow, sin, sqrt, tan};
