//! What a drawing shows besides the vehicle: loads, centre of gravity, findings, as plain data.

use crate::geometry::Point;
use crate::manoeuvre::Sweep;
use crate::numeric::BeamPiece;
use std::collections::BTreeMap;

pub use crate::findings::Severity;

/// Load of one axle group, worded for the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct AxleMark {
    /// Axle or group id.
    pub id: String,
    /// Name for people, such as "drive tandem".
    pub name: String,
    /// Where it acts.
    pub x_mm: f64,
    /// The load with its unit.
    pub load: String,
    /// The margin with its unit and sign, and what limits it.
    pub margin: String,
    /// How bad.
    pub severity: Severity,
}

/// A finding that points at a place.
#[derive(Clone, Debug, PartialEq)]
pub struct Pointer {
    /// Index of the finding.
    pub finding: usize,
    /// How bad.
    pub severity: Severity,
    /// What to write beside it, such as "too close by 14 mm".
    pub text: String,
    /// Closest point on one side.
    pub from: Point,
    /// Closest point on the other side.
    pub to: Point,
}

/// An angle of approach, breakover or departure, worded for the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct AngleMark {
    /// Its name and figure.
    pub text: String,
    /// What touches first.
    pub at: Point,
    /// Where the line touches the tyre.
    pub tyre: Point,
    /// Where the other line touches the other tyre, for breakover.
    pub other: Option<Point>,
}

/// Shear and bending of one rail, worded for the drawing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FrameMark {
    /// What is drawn: which rail, in which case, times what; or why nothing is.
    pub heading: String,
    /// What the lower strip shows.
    pub shear_heading: String,
    /// The rail, front to rear, standing; empty when nothing could be worked out.
    pub pieces: Vec<BeamPiece>,
    /// The other rail.
    pub other: Vec<BeamPiece>,
    /// What every value is drawn times.
    pub times: f64,
    /// Allowed moment, times the same: from, to, N·mm.
    pub allowed: Vec<(f64, f64, f64)>,
    /// The allowance in words.
    pub allowed_words: String,
    /// Place and value of the largest moment.
    pub peak: (f64, String),
    /// Place and value of the largest shear.
    pub shear_peak: (f64, String),
    /// Joints of a spliced rail.
    pub joints: Vec<f64>,
}

/// What the drawing shows besides the vehicle.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Marks {
    /// Loads under the axles.
    pub axle_loads: Vec<AxleMark>,
    /// Centre of gravity.
    pub cg: Option<Point>,
    /// Findings that point at a place.
    pub pointers: Vec<Pointer>,
    /// Angles of approach, breakover and departure.
    pub angles: Vec<AngleMark>,
    /// The turn that was followed, or what is missing for it; `None` when nobody asked.
    pub turn: Option<Result<Box<Sweep>, String>>,
    /// Worst severity of any finding about a part, by tag, whether it points or not; what holds is
    /// left out.
    pub parts: BTreeMap<String, Severity>,
    /// Shear and bending of a rail, for the side view.
    pub frame: Option<FrameMark>,
}
