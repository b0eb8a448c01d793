//! On which axles the truck turns: where the turning centre lies, and how much it must be steered.
//!
//! At crawling speed the side forces of all axles balance, and so do their moments. With side slip
//! (steer tangent less (c − x) κ) and a stiffness for each axle that goes by its number of tyres,
//! both balances are linear in the curvature κ and in cκ, where c is the place of the turning
//! centre along the truck. For two axles c is the rear axle, whatever the stiffnesses. For one steered
//! axle and a tandem of spread 2Δ at the distance l, c = l + Δ²/l, and the equivalent wheelbase is
//! l + (1 + Cr/Cf) Δ²/l.

use crate::chassis::{Axle, AxleKind};
use crate::numeric::{solve, tan};
use crate::vehicle::Vehicle;

/// How the truck stands in a turn.
#[derive(Clone, Debug, PartialEq)]
pub struct Stance {
    /// Turning centre behind the front axle, mm.
    pub centre_x_mm: f64,
    /// Wheelbase of a two-axle truck that needs as much steering, mm.
    pub equivalent_mm: f64,
}

/// Axles on the road, front to rear.
pub(super) fn on_road(vehicle: &Vehicle) -> impl Iterator<Item = &Axle> {
    let axles = vehicle.chassis.axles.iter();
    axles.filter(|axle| !vehicle.is_raised(&axle.id))
}

fn steers(axle: &Axle) -> bool {
    axle.kind == AxleKind::Steer
}

/// Works out the stance.
///
/// # Errors
/// What is missing.
pub fn stance(vehicle: &Vehicle) -> Result<Stance, String> {
    let axles: Vec<&Axle> = on_road(vehicle).collect();
    let first = axles
        .first()
        .filter(|axle| steers(axle))
        .ok_or("the front axle does not steer")?;
    if let Some(axle) = axles.iter().find(|a| steers(a) && a.steer_angle_deg <= 0.0) {
        return Err(format!(
            "the largest steering angle of {} is not stated",
            axle.id
        ));
    }
    let lock = |axle: &Axle| tan(axle.steer_angle_deg.to_radians());
    let mut sums = [0.0; 5];
    for axle in &axles {
        // Every tyre of the same stiffness: the axle's goes by their number.
        let stiff = if axle.tyres.dual { 4.0 } else { 2.0 };
        // Axles that steer share in proportion to their locks.
        let turned = if steers(axle) {
            lock(axle) / lock(first)
        } else {
            0.0
        };
        let x = axle.x_mm;
        let terms = [
            stiff,
            stiff * x,
            stiff * x * x,
            stiff * turned,
            stiff * x * turned,
        ];
        for (sum, term) in sums.iter_mut().zip(terms) {
            *sum += term;
        }
    }
    let [c, cx, cxx, ct, cxt] = sums;
    let found = solve(vec![vec![c, -cx], vec![cx, -cxx]], vec![ct, cxt]);
    let found = found.filter(|f| f[1] > 1e-9 && f[0] > 0.0);
    let [turn, curve] = *found.as_deref().unwrap_or_default() else {
        return Err("its axles do not make it turn".to_owned());
    };
    Ok(Stance {
        centre_x_mm: turn / curve,
        equivalent_mm: 1.0 / curve,
    })
}

/// Where a trailer's axles make it turn, behind the kingpin, mm: the same balance for axles that do
/// not steer, the kingpin giving what is left over.
#[must_use]
pub fn trailer_mm(to_axles_mm: f64, spacing_mm: f64, count: u32) -> f64 {
    let n = f64::from(count.max(1));
    // Mean square distance of n equally spaced axles from their middle.
    let spread = spacing_mm * spacing_mm * (n * n - 1.0) / 12.0;
    to_axles_mm + spread / to_axles_mm.max(1.0)
}
