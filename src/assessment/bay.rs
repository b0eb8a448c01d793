//! Does the cable of a charging post come to the inlet?
//!
//! The truck stands as it is charged. The cable runs straight where nothing is between, else around the
//! front of the truck; it hangs and bends, which costs a share of its length.

use crate::numeric::hypot;
use crate::plan::{Bay, BaySide};
use crate::vehicle::{Item, Vehicle};

/// Cable that is lost to hanging and bending, as a share of the straight way (common practice).
pub const SLACK: f64 = 0.15;
/// An inlet nearer to the middle than this is reached from both sides, mm (common practice).
const MIDDLE_MM: f64 = 200.0;

/// A cable from the post to an inlet.
#[derive(Clone, Debug, PartialEq)]
pub struct Cable {
    /// Mark of the inlet.
    pub tag: String,
    /// Cable that is needed, slack and all, mm.
    pub needed_mm: f64,
    /// Cable that reaches from the post, mm.
    pub reach_mm: f64,
    /// It has to go around the front of the truck.
    pub around: bool,
    /// Height of the inlet's middle, mm.
    pub height_mm: f64,
}

/// Cables to every charge inlet; the shortest first.
///
/// # Errors
/// What is missing, in words.
pub fn cables(vehicle: &Vehicle) -> Result<Vec<Cable>, String> {
    let bay =
        vehicle.duty.bay.as_ref().ok_or(
            "the plan states no charging bay (side, place, height and reach of the cable)",
        )?;
    let mut all: Vec<Cable> = vehicle
        .items
        .iter()
        .filter(|i| i.part.inlet.is_some())
        .map(|item| cable(vehicle, bay, item))
        .collect();
    if all.is_empty() {
        return Err("the truck has no charge inlet".to_owned());
    }
    all.sort_by(|a, b| a.needed_mm.total_cmp(&b.needed_mm));
    Ok(all)
}

fn cable(vehicle: &Vehicle, bay: &Bay, item: &Item) -> Cable {
    let dimensions = &vehicle.chassis.dimensions;
    let (front, half) = (
        -dimensions.bumper_to_axle_mm,
        0.5 * dimensions.overall_width_mm,
    );
    let middle = item.bounds.centre();
    let side = |y: f64| if y < 0.0 { -1.0 } else { 1.0 };
    let reach = 0.5 * item.bounds.size().y;
    // The face that looks outward.
    let inlet = (middle.x, middle.y + side(middle.y) * reach);
    let central = middle.y.abs() < MIDDLE_MM;
    let post = match bay.side {
        BaySide::Left => (bay.along_mm, -(half + bay.off_mm)),
        BaySide::Right => (bay.along_mm, half + bay.off_mm),
        BaySide::Front => (front - bay.off_mm, bay.along_mm),
    };
    let flat = |a: (f64, f64), b: (f64, f64)| hypot(a.0 - b.0, a.1 - b.1);
    let corner = |of: f64| (front, of * half);
    let (near, far) = (side(post.1), side(inlet.1));
    let (way, around) = match bay.side {
        BaySide::Front if central && middle.x < 0.0 => (flat(post, inlet), false),
        BaySide::Front => (flat(post, corner(far)) + flat(corner(far), inlet), true),
        _ if central || (near - far).abs() < 1.0 => (flat(post, inlet), false),
        _ => {
            let across = flat(corner(near), corner(far));
            let way = flat(post, corner(near)) + across + flat(corner(far), inlet);
            (way, true)
        }
    };
    Cable {
        tag: item.tag.clone(),
        needed_mm: hypot(way, middle.z - bay.height_mm) * (1.0 + SLACK),
        reach_mm: bay.reach_mm,
        around,
        height_mm: middle.z,
    }
}
