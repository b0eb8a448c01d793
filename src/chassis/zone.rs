//! Frame-rail zones: the volumes in which parts are planned, derived from the dimensions.
//!
//! Because they are derived, a longer wheelbase enlarges the zones between the cab and the driven
//! axle by itself. The bounds are planning bounds (common practice); whether a part really fits is
//! decided by the clearance checks, not by its zone.

use super::{AxleKind, Chassis};
use crate::geometry::{Aabb, Point};
use serde::{Deserialize, Serialize};

/// Mass limit of one zone, as written in the chassis file.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct ZoneLimit {
    /// Which zone.
    pub id: String,
    /// Most mass that the zone may carry.
    pub mass_kg: f64,
}

/// A volume on the chassis in which parts may be placed.
#[derive(Clone, Debug, PartialEq)]
pub struct Zone {
    /// Identifier: `saddle-left`, `between-rails`, `axle-2`, …
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Its volume.
    pub volume: Aabb,
    /// Most mass that it may carry; `None` when the chassis names no limit.
    pub mass_limit_kg: Option<f64>,
}

/// Height that legal vehicles keep nearly everywhere, taken as the top of the open zones.
const TOP_MM: f64 = 4_100.0;
/// Lowest level of the zones beside and between the rails.
const LOW_MM: f64 = 250.0;
/// How far a side-mounted part may stand above the top of the frame.
const DECK_MM: f64 = 60.0;
/// Static distance kept from a tyre by the zone's end.
const TYRE_MM: f64 = 75.0;
/// Share of a tyre's radius at which a zone that starts or ends beside the tyre is cut.
const TYRE_SHARE: f64 = 0.9;

impl Chassis {
    /// All zones of this chassis, from front to rear.
    #[must_use]
    pub fn zones(&self) -> Vec<Zone> {
        let d = &self.dimensions;
        let half = d.overall_width_mm / 2.0;
        let rail_out = d.frame_width_mm / 2.0;
        let rail_in = rail_out - self.rail.wall_mm;
        let top = d.frame_top_laden_mm;
        let boc = d.back_of_cab_x_mm();
        let end = d.frame_end_x_mm();
        let bumper = d.bumper_x_mm();
        let front_tyre = self
            .axles
            .first()
            .map_or(500.0, |a| a.tyres.loaded_radius_mm);
        let (first_tyre, last_tyre) = self.rear_tyres(boc, end);
        let hood = self.cab.hood_top_z_mm.max(top + 1.0);
        let floor = self.cab.floor_z_mm;
        let beside = TYRE_SHARE * front_tyre;
        let deck_end = match (&self.fifth_wheel, &self.body) {
            (Some(fw), _) => d.wheelbase_mm - fw.ahead_mm,
            (None, Some(body)) => body.front_x_mm,
            (None, None) => end,
        };
        let deck_top = self.body.as_ref().map_or(TOP_MM, |b| b.floor_z_mm);

        let mut zones = Vec::new();
        let mut add = |id: &str, name: &str, x: (f64, f64), y: (f64, f64), z: (f64, f64)| {
            let order = |(a, b): (f64, f64)| (a, b.max(a));
            let (x, y, z) = (order(x), order(y), order(z));
            zones.push(Zone {
                id: id.to_owned(),
                name: name.to_owned(),
                volume: Aabb {
                    min: Point::new(x.0, y.0, z.0),
                    max: Point::new(x.1, y.1, z.1),
                },
                mass_limit_kg: self
                    .zone_limits
                    .iter()
                    .find(|limit| limit.id == id)
                    .map(|limit| limit.mass_kg),
            });
        };
        let wide = (-half, half);
        add("front", "front", (bumper, -beside), wide, (LOW_MM, hood));
        add(
            "hood-bay",
            "hood bay",
            (-beside, self.cab.front_x_mm),
            (-600.0, 600.0),
            (LOW_MM, hood),
        );
        add(
            "under-cab",
            "under cab",
            (beside, boc),
            wide,
            (LOW_MM, floor),
        );
        let saddle_x = (self.cab.steps_end_x_mm.min(boc), first_tyre - TYRE_MM);
        let saddle_z = (LOW_MM, top + DECK_MM);
        add(
            "saddle-left",
            "saddle left",
            saddle_x,
            (-half, -rail_out),
            saddle_z,
        );
        add(
            "saddle-right",
            "saddle right",
            saddle_x,
            (rail_out, half),
            saddle_z,
        );
        add(
            "between-rails",
            "between rails",
            (beside, end),
            (-rail_in, rail_in),
            (LOW_MM, top),
        );
        add(
            "behind-cab",
            "behind cab",
            (boc, deck_end),
            wide,
            (top, TOP_MM),
        );
        add("frame-top", "frame top", (boc, end), wide, (top, deck_top));
        add(
            "overhang",
            "overhang",
            (last_tyre + TYRE_MM, end),
            wide,
            (LOW_MM, top),
        );
        for axle in self.axles.iter().filter(|a| a.kind != AxleKind::Steer) {
            let reach = 700.0;
            let x = (axle.x_mm - reach, axle.x_mm + reach);
            add(&axle.id, &axle.id.replace('-', " "), x, wide, (0.0, top));
        }
        add(
            "frame",
            "along the frame",
            (bumper, end),
            wide,
            (0.0, TOP_MM),
        );
        zones
    }

    /// Front of the first and rear of the last tyre behind the cab.
    fn rear_tyres(&self, boc: f64, end: f64) -> (f64, f64) {
        let behind = || {
            self.axles
                .iter()
                .filter(move |a| a.x_mm > boc.max(0.0) && a.kind != AxleKind::Steer)
        };
        let first = behind()
            .map(|a| a.x_mm - a.tyres.loaded_radius_mm.max(a.tyres.diameter_mm / 2.0))
            .fold(f64::INFINITY, f64::min);
        let last = behind()
            .map(|a| a.x_mm + a.tyres.loaded_radius_mm.max(a.tyres.diameter_mm / 2.0))
            .fold(f64::NEG_INFINITY, f64::max);
        (
            if first.is_finite() { first } else { end },
            if last.is_finite() { last } else { end },
        )
    }
}
