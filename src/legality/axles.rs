//! The axles that stand on the road, front to rear, with what a law asks of them.

use crate::chassis::{AxleKind, SuspensionKind};
use crate::law::Of;
use crate::numeric::sort_by;
use crate::vehicle::Vehicle;

/// An axle that stands on the road.
#[derive(Clone, Debug, PartialEq)]
pub struct RoadAxle {
    /// Id of the truck's axle; `trailer-1` and so on behind it.
    pub id: String,
    /// Its number, counted from the front through truck and trailer, raised axles too.
    pub number: u32,
    /// Behind the front axle.
    pub x_mm: f64,
    /// Axle group of the truck; `None` on the trailer.
    pub group: Option<String>,
    /// It is one of the trailer's.
    pub on_trailer: bool,
    /// It is driven: by the donor's axle that stays, or by an e-axle.
    pub driven: bool,
    /// It is steered.
    pub steered: bool,
    /// Twin tyres and air suspension; on the trailer nobody asks.
    pub road_friendly: bool,
    /// Section width of all its tyres together, where known.
    pub tyres_mm: Option<f64>,
}

/// The axles that stand on the road, front to rear, truck and trailer together.
#[must_use]
pub fn road_axles(vehicle: &Vehicle) -> Vec<RoadAxle> {
    let chassis = &vehicle.chassis;
    let mut axles: Vec<RoadAxle> = chassis
        .axles
        .iter()
        .map(|axle| {
            let group = chassis.groups.iter().find(|g| g.axles.contains(&axle.id));
            let tyres = if axle.tyres.dual { 4.0 } else { 2.0 };
            RoadAxle {
                id: axle.id.clone(),
                number: 0,
                x_mm: axle.x_mm,
                group: group.map(|g| g.id.clone()),
                on_trailer: false,
                driven: is_driven(vehicle, &axle.id, axle.kind),
                steered: axle.kind == AxleKind::Steer,
                road_friendly: axle.tyres.dual && axle.suspension.kind == SuspensionKind::Air,
                tyres_mm: Some(tyres * axle.tyres.width_mm),
            }
        })
        .collect();
    if let Some(coupled) = &vehicle.trailer {
        let trailer = &coupled.trailer;
        let middle = coupled.kingpin.x + trailer.kingpin_to_axles_mm;
        let half = f64::from(trailer.axle_count.saturating_sub(1)) / 2.0;
        let tyres = trailer.tyre_width_mm.zip(trailer.tyres_per_axle);
        for i in 0..trailer.axle_count {
            axles.push(RoadAxle {
                id: format!("trailer-{}", i + 1),
                number: 0,
                x_mm: middle + (f64::from(i) - half) * trailer.axle_spacing_mm,
                group: None,
                on_trailer: true,
                driven: false,
                steered: false,
                road_friendly: false,
                tyres_mm: tyres.map(|(mm, count)| mm * f64::from(count)),
            });
        }
    }
    sort_by(&mut axles, |a, b| a.x_mm.total_cmp(&b.x_mm));
    for (axle, number) in axles.iter_mut().zip(1..) {
        axle.number = number;
    }
    axles.retain(|axle| axle.on_trailer || !vehicle.is_raised(&axle.id));
    axles
}

/// Driven by an e-axle that stands there, or by the donor's driven axle unless that came off.
fn is_driven(vehicle: &Vehicle, axle: &str, kind: AxleKind) -> bool {
    let here = |id: &Option<String>| id.as_deref() == Some(axle);
    let e_axle =
        |item: &crate::vehicle::Item| item.part.axle.is_some() && here(&item.unsprung_axle);
    let donors = vehicle.donor.hardware.iter();
    let mut donors = donors.filter(|h| h.drive_axle && here(&h.unsprung_axle));
    let off = donors.any(|h| vehicle.stripped.contains(&h.id));
    vehicle.each_item().any(e_axle) || (kind == AxleKind::Drive && !off)
}

impl RoadAxle {
    /// What it belongs to: `None` for a set of axles of truck and trailer together.
    #[must_use]
    pub fn of(members: &[Self]) -> Option<Of> {
        match (
            members.iter().any(|a| a.on_trailer),
            members.iter().any(|a| !a.on_trailer),
        ) {
            (true, false) => Some(Of::Trailer),
            (false, true) => Some(Of::MotorVehicle),
            _ => None,
        }
    }
}
