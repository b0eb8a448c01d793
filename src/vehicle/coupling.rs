//! The trailer behind a tractor, in truck axes.

use super::Vehicle;
use crate::chassis::Trailer;
use crate::geometry::{Aabb, Point, Solid, arc_hull};
use crate::numeric;
use crate::shared::Shared;
use std::f64::consts::{FRAC_PI_2, PI};

/// A trailer on the fifth wheel.
#[derive(Clone, Debug, PartialEq)]
pub struct Coupled {
    /// The trailer.
    pub trailer: Shared<Trailer>,
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
        if let Some((tare_on_kingpin, load_cg)) = self.slid_to(kingpin_to_axles_mm) {
            slid.trailer.kingpin_to_axles_mm = kingpin_to_axles_mm;
            slid.trailer.tare_on_kingpin = tare_on_kingpin;
            slid.load_cg = load_cg;
        }
        slid
    }

    /// Share of the tare on the kingpin and place of the load with the axles slid to this distance; `None`
    /// where that changes nothing.
    pub(crate) fn slid_to(&self, kingpin_to_axles_mm: f64) -> Option<(f64, f64)> {
        let old = &self.trailer;
        let by = kingpin_to_axles_mm - old.kingpin_to_axles_mm;
        if by == 0.0 || kingpin_to_axles_mm <= 0.0 {
            return None;
        }
        let moves = old.slider.as_ref().map_or(0.0, |s| s.moves_kg);
        let (tare, reach) = (old.tare_kg, old.kingpin_to_axles_mm);
        let moment = tare * (1.0 - old.tare_on_kingpin) * reach + moves * by;
        Some((
            1.0 - moment / kingpin_to_axles_mm / tare,
            self.load_cg * reach / kingpin_to_axles_mm,
        ))
    }

    /// Radius of the circle on which the nose's corners swing about the kingpin, mm.
    #[must_use]
    pub fn swing_radius_mm(&self) -> f64 {
        numeric::hypot(self.trailer.nose_ahead_mm, self.trailer.width_mm / 2.0)
    }

    /// Space that the nose sweeps ahead of the kingpin when the trailer turns by up to the
    /// articulation either way.
    ///
    /// When the corners pass the centre line this is the upright cylinder about the kingpin;
    /// otherwise the hull of the corners' arcs and the straight-ahead nose. Both hold the real
    /// envelope; the hull of a small articulation is a little larger than it (its front is straight
    /// where the nose's front face leaves a hollow).
    #[must_use]
    pub fn nose_sweep(&self) -> Vec<Solid> {
        let t = &self.trailer;
        let radius = self.swing_radius_mm();
        let corner = numeric::atan2(t.width_mm / 2.0, t.nose_ahead_mm);
        let swing = self.articulation_deg.to_radians();
        if swing >= corner {
            let (low, high) = self.heights();
            let at = |z: f64| Point::new(self.kingpin.x, self.kingpin.y, z);
            return vec![Solid::Cylinder {
                from: at(low),
                to: at(high),
                radius,
            }];
        }
        // Forward is −x, so straight ahead is at π. Each corner keeps to its own side: the middle is
        // left to the straight front between them.
        let mut points = self.arc(radius, PI - corner, (-swing, swing), 48);
        points.extend(self.arc(radius, PI + corner, (-swing, swing), 48));
        points.extend(self.sides(-swing, swing));
        vec![Solid::Hull(points)]
    }

    /// Space that the box behind the kingpin sweeps when the trailer turns by up to the articulation
    /// either way.
    ///
    /// At a right angle either way that is everything from half a width ahead of the kingpin
    /// rearward: the side of the turned trailer. Otherwise the hull of its sides' and rear corners'
    /// arcs; beyond a right angle one hull for each way. Never smaller than the real thing; larger
    /// only by the polygons about the arcs (under 1 %) and, where the trailer's rear corners swing,
    /// behind the tractor.
    #[must_use]
    pub fn box_sweep(&self) -> Vec<Solid> {
        let t = &self.trailer;
        let half = t.width_mm / 2.0;
        let far = numeric::hypot(t.rear_mm, half);
        if (self.articulation_deg - 90.0).abs() < 1e-9 {
            let (low, high) = self.heights();
            let at = |x: f64, y: f64, z: f64| self.kingpin + Point::new(x, y, z - self.kingpin.z);
            return vec![Solid::Block(Aabb::new(
                at(-half, -far, low),
                at(far, far, high),
            ))];
        }
        let swing = self.articulation_deg.to_radians();
        let corner = numeric::atan2(half, t.rear_mm);
        let hull = |from: f64, to: f64| {
            let mut points = self.sides(from, to);
            points.extend(self.arc(far, corner, (from, to), 8));
            points.extend(self.arc(far, -corner, (from, to), 8));
            Solid::Hull(points)
        };
        if swing <= FRAC_PI_2 {
            vec![hull(-swing, swing)]
        } else {
            vec![hull(-swing, 0.0), hull(0.0, swing)]
        }
    }

    /// Both sides of the box beside the kingpin, as they turn.
    fn sides(&self, from: f64, to: f64) -> Vec<Point> {
        let half = self.trailer.width_mm / 2.0;
        let mut points = self.arc(half, FRAC_PI_2, (from, to), 12);
        points.extend(self.arc(half, -FRAC_PI_2, (from, to), 12));
        points
    }

    /// Polygon about the arc of a point of the trailer at this distance and angle from the kingpin,
    /// from the floor to the roof.
    fn arc(&self, radius: f64, at: f64, turn: (f64, f64), steps: u32) -> Vec<Point> {
        let (low, high) = self.heights();
        match arc_hull(
            self.kingpin,
            radius,
            at + turn.0,
            at + turn.1,
            low,
            high,
            steps,
        ) {
            Solid::Hull(points) => points,
            Solid::Block(_) | Solid::Cylinder { .. } => Vec::new(),
        }
    }

    /// Underside of the nose and roof.
    fn heights(&self) -> (f64, f64) {
        let t = &self.trailer;
        (t.nose_z_mm, t.top_z_mm.max(t.nose_z_mm))
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
        trailer: &Shared<Trailer>,
        payload_kg: f64,
        load_cg: Option<f64>,
    ) -> Option<Shared<Coupled>> {
        let kingpin = self.kingpin()?;
        let articulation_deg = self.chassis.fifth_wheel.as_ref()?.articulation_deg;
        let coupled = Coupled {
            trailer: trailer.clone(),
            kingpin,
            payload_kg,
            load_cg: load_cg.unwrap_or(trailer.load_cg),
            articulation_deg,
        };
        Some(coupled.into())
    }
}
