//! The trailer behind a tractor, in truck axes.

use super::Vehicle;
use crate::chassis::Trailer;
use crate::geometry::{Aabb, Point, Solid, arc_hull};
use crate::numeric;

/// A trailer on the fifth wheel.
#[derive(Clone, Debug)]
pub struct Coupled {
    /// The trailer.
    pub trailer: Trailer,
    /// Kingpin, truck axes.
    pub kingpin: Point,
    /// Load on the trailer.
    pub payload_kg: f64,
    /// Where the load lies: 0 over the kingpin, 1 over the axles.
    pub load_cg: f64,
    /// Largest angle between tractor and trailer, degrees.
    pub articulation_deg: f64,
}

impl Coupled {
    /// Kingpin load of the empty trailer.
    #[must_use]
    pub fn tare_on_kingpin_kg(&self) -> f64 {
        self.trailer.tare_kg * self.trailer.tare_on_kingpin
    }

    /// Share of the load that rests on the kingpin.
    #[must_use]
    pub fn load_share_on_kingpin(&self) -> f64 {
        1.0 - self.load_cg
    }

    /// The same trailer with its axles slid to this distance from the kingpin; load and body stay, what
    /// slides takes its mass along.
    #[must_use]
    pub fn with_axles_at(&self, kingpin_to_axles_mm: f64) -> Self {
        let mut slid = self.clone();
        let old = &self.trailer;
        let by = kingpin_to_axles_mm - old.kingpin_to_axles_mm;
        if by == 0.0 || kingpin_to_axles_mm <= 0.0 {
            return slid;
        }
        let moves = old.slider.as_ref().map_or(0.0, |s| s.moves_kg);
        let (tare, reach) = (old.tare_kg, old.kingpin_to_axles_mm);
        let moment = tare * (1.0 - old.tare_on_kingpin) * reach + moves * by;
        slid.trailer.kingpin_to_axles_mm = kingpin_to_axles_mm;
        slid.trailer.tare_on_kingpin = 1.0 - moment / kingpin_to_axles_mm / tare;
        slid.load_cg = self.load_cg * reach / kingpin_to_axles_mm;
        slid
    }

    /// Radius of the circle on which the nose's corners swing about the kingpin, mm.
    #[must_use]
    pub fn swing_radius_mm(&self) -> f64 {
        numeric::hypot(self.trailer.nose_ahead_mm, self.trailer.width_mm / 2.0)
    }

    /// Space that the nose sweeps when the trailer turns by up to the articulation either way.
    ///
    /// When the corners pass the centre line this is the upright cylinder about the kingpin;
    /// otherwise the hull of the corners' arcs and the straight-ahead nose. Both hold the real
    /// envelope; the hull of a small articulation is a little larger than it (its front is straight
    /// where the nose's front face leaves a hollow).
    #[must_use]
    pub fn swing_solid(&self) -> Solid {
        let t = &self.trailer;
        let radius = self.swing_radius_mm();
        let corner = numeric::atan2(t.width_mm / 2.0, t.nose_ahead_mm);
        let swing = self.articulation_deg.to_radians();
        let (x, y) = (self.kingpin.x, self.kingpin.y);
        if swing >= corner {
            return Solid::Cylinder {
                from: Point::new(x, y, t.nose_z_mm),
                to: Point::new(x, y, t.top_z_mm.max(t.nose_z_mm)),
                radius,
            };
        }
        // Forward is −x, so straight ahead is at π. Each corner keeps to its own side: the middle is
        // left to the straight front between them.
        let pi = std::f64::consts::PI;
        let centre = Point::new(x, y, 0.0);
        let arc = |from: f64, to: f64| match arc_hull(
            centre,
            radius,
            from,
            to,
            t.nose_z_mm,
            t.top_z_mm,
            48,
        ) {
            Solid::Hull(points) => points,
            Solid::Block(_) | Solid::Cylinder { .. } => Vec::new(),
        };
        let mut points = arc(pi - corner - swing, pi - corner + swing);
        points.extend(arc(pi + corner - swing, pi + corner + swing));
        Solid::Hull(points)
    }

    /// Box of the trailer straight ahead, from its nose to its rear.
    #[must_use]
    pub fn box_ahead(&self) -> Aabb {
        let t = &self.trailer;
        let half = t.width_mm / 2.0;
        Aabb {
            min: Point::new(self.kingpin.x - t.nose_ahead_mm, -half, t.nose_z_mm),
            max: Point::new(self.kingpin.x + t.rear_mm, half, t.top_z_mm),
        }
    }
}

impl Vehicle {
    /// Couples a trailer to this tractor; `None` without a fifth wheel.
    pub(super) fn couple(
        &self,
        trailer: &Trailer,
        payload_kg: f64,
        load_cg: Option<f64>,
    ) -> Option<Coupled> {
        let kingpin = self.kingpin()?;
        let articulation_deg = self.chassis.fifth_wheel.as_ref()?.articulation_deg;
        Some(Coupled {
            trailer: trailer.clone(),
            kingpin,
            payload_kg,
            load_cg: load_cg.unwrap_or(trailer.load_cg),
            articulation_deg,
        })
    }
}
