//! Axles and their springs, as far as one sees them.

use super::super::View;
use super::super::plane::{Path, Rect, at};
use super::super::scene::{Group, Role};
use super::{side_rect, xz};
use crate::chassis::{Axle, AxleKind, SuspensionKind};
use crate::vehicle::Vehicle;

/// All axles with their springs.
pub fn axles(vehicle: &Vehicle, view: View) -> Group {
    let mut group = Group::layer("axles");
    let rail_bottom = vehicle.chassis.dimensions.frame_top_laden_mm - vehicle.chassis.rail.depth_mm;
    for axle in &vehicle.chassis.axles {
        // Behind the truck only the last axle is seen.
        if view == View::Rear
            && vehicle
                .chassis
                .axles
                .last()
                .is_some_and(|a| a.id != axle.id)
        {
            continue;
        }
        let lift = if vehicle.is_raised(&axle.id) {
            axle.suspension.jounce_mm
        } else {
            0.0
        };
        let z = axle.tyres.loaded_radius_mm + lift;
        let replaced = vehicle.items.iter().any(|item| {
            item.unsprung_axle.as_deref() == Some(axle.id.as_str()) && item.part.axle.is_some()
        });
        match view {
            View::Side => side(&mut group, axle, z, rail_bottom),
            View::Plan | View::Turn => across(&mut group, axle, replaced, |x0, x1, y0, y1| {
                Rect::new(at(axle.x_mm + x0, -y0), at(axle.x_mm + x1, -y1))
            }),
            View::Rear => across(&mut group, axle, replaced, |z0, z1, y0, y1| {
                Rect::new(at(y0, -(z + z0)), at(y1, -(z + z1)))
            }),
        }
    }
    group
}

fn side(group: &mut Group, axle: &Axle, z: f64, rail: f64) {
    let x = axle.x_mm;
    match axle.suspension.kind {
        SuspensionKind::Leaf => {
            let (half, seat) = (580.0, z + 70.0);
            let eye = (rail - 60.0).max(seat + 40.0);
            group.draw(Role::Spring, |p| {
                for (i, share) in [1.0, 0.8, 0.55].into_iter().enumerate() {
                    #[expect(clippy::cast_precision_loss, reason = "three leaves")]
                    let low = i as f64 * 26.0;
                    let rise = (eye - seat) * share * share;
                    let end = half * share;
                    p.from(xz(x - end, seat - low + rise));
                    p.bend(xz(x, seat - low - rise), xz(x + end, seat - low + rise));
                }
            });
            group.draw(Role::Axle, |p| {
                p.rect(&side_rect(
                    x - half - 30.0,
                    x - half + 30.0,
                    eye - 30.0,
                    rail,
                ));
                p.rect(&side_rect(
                    x + half - 30.0,
                    x + half + 30.0,
                    eye - 30.0,
                    rail,
                ));
            });
        }
        SuspensionKind::Air => {
            group.draw(Role::Axle, |p| {
                p.polygon(&[
                    xz(x - 520.0, rail + 20.0),
                    xz(x - 430.0, rail + 20.0),
                    xz(x - 440.0, rail - 190.0),
                    xz(x - 505.0, rail - 190.0),
                ]);
                p.polygon(&[
                    xz(x - 500.0, rail - 150.0),
                    xz(x - 60.0, z - 75.0),
                    xz(x + 420.0, z - 95.0),
                    xz(x + 420.0, z - 150.0),
                    xz(x - 60.0, z - 150.0),
                    xz(x - 500.0, rail - 190.0),
                ]);
            });
            let (low, high) = (z - 95.0, rail.max(z));
            group.draw(Role::Spring, |p| {
                let step = (high - low) / 3.0;
                for i in 0..3 {
                    let bottom = low + step * f64::from(i);
                    p.rounded(
                        &side_rect(x + 250.0, x + 470.0, bottom, bottom + step),
                        step * 0.5,
                    );
                }
            });
        }
        SuspensionKind::Beam => {
            group.draw(Role::Axle, |p| {
                p.polygon(&[
                    xz(x - 420.0, z + 40.0),
                    xz(x, z + 110.0),
                    xz(x + 420.0, z + 40.0),
                    xz(x + 420.0, z - 30.0),
                    xz(x, z - 10.0),
                    xz(x - 420.0, z - 30.0),
                ]);
            });
            group.draw(Role::Spring, |p| {
                p.rect(&side_rect(
                    x - 90.0,
                    x + 90.0,
                    z + 110.0,
                    rail.max(z + 111.0),
                ));
            });
        }
    }
}

/// The beam between the wheels, with the housing of a driven axle unless a part stands there.
fn across(
    group: &mut Group,
    axle: &Axle,
    replaced: bool,
    place: impl Fn(f64, f64, f64, f64) -> Rect,
) {
    let reach = axle.inner_half_width_mm() + axle.tyre_band_mm() * 0.4;
    let beam = if axle.kind == AxleKind::Drive {
        75.0
    } else {
        55.0
    };
    group.draw(Role::Axle, |p| {
        p.rect(&place(-beam, beam, -reach, reach));
    });
    let drum = |p: &mut Path, sign: f64| {
        let inner = axle.inner_half_width_mm();
        p.rounded(
            &place(-205.0, 205.0, sign * (inner - 40.0), sign * (inner + 60.0)),
            40.0,
        );
    };
    group.draw(Role::Axle, |p| {
        drum(p, -1.0);
        drum(p, 1.0);
        if axle.kind == AxleKind::Drive && !replaced {
            let bowl = place(-210.0, 210.0, -210.0, 210.0);
            p.circle(bowl.centre(), 210.0);
            p.rounded(&place(-290.0, -150.0, -90.0, 90.0), 40.0);
        }
    });
}
