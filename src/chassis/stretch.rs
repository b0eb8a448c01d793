//! A longer or shorter wheelbase: everything behind the splice moves.

use super::{Axle, AxleKind, Chassis, Group, Kept, Shape};

impl Chassis {
    /// Shortest wheelbase that a plan may ask for.
    pub const WHEELBASE_MIN_MM: f64 = 2_500.0;
    /// Longest wheelbase that a plan may ask for.
    pub const WHEELBASE_MAX_MM: f64 = 9_000.0;

    /// Where the rails are cut unless the plan says otherwise: half way between the back of the cab
    /// and the first tyre behind it (common practice: clear of cab mounts and spring hangers).
    #[must_use]
    pub fn default_splice_x_mm(&self) -> f64 {
        let boc = self.dimensions.back_of_cab_x_mm();
        let tyre = self
            .axles
            .iter()
            .filter(|a| a.x_mm > boc.max(0.0))
            .map(|a| a.x_mm - a.tyres.diameter_mm / 2.0)
            .fold(f64::INFINITY, f64::min);
        if tyre.is_finite() {
            f64::midpoint(boc, tyre.max(boc))
        } else {
            boc
        }
    }

    /// From where to where the rails may be cut: behind the cab, and ahead of the group with the
    /// foremost driven axle. A cut ahead of that leaves the cab's mounts where they are, and one behind
    /// it would change no wheelbase or part the axles of a group.
    #[must_use]
    pub fn splice_range_mm(&self) -> (f64, f64) {
        let driven = |group: &&Group| {
            let on = |a: &&Axle| group.axles.contains(&a.id);
            let mut members = self.axles.iter().filter(on);
            members.any(|a| a.kind == AxleKind::Drive)
        };
        let group = self.groups.iter().find(driven).or(self.groups.last());
        let on = |a: &&Axle| group.is_some_and(|g| g.axles.contains(&a.id));
        let foremost = self.axles.iter().find(on);
        let to = foremost.map_or(self.dimensions.wheelbase_mm, |a| a.x_mm);
        let steered = self
            .axles
            .iter()
            .filter(|a| a.kind == AxleKind::Steer && a.x_mm < to)
            .map(|a| a.x_mm);
        let from = steered.fold(self.dimensions.back_of_cab_x_mm(), f64::max);
        (from, to.max(from))
    }

    /// True when the rails may be cut here.
    #[must_use]
    pub fn may_be_cut_at(&self, x_mm: f64) -> bool {
        let (from, to) = self.splice_range_mm();
        x_mm >= from && x_mm < to
    }

    /// The chassis with its wheelbase changed by `by_mm` (negative shortens) at the splice.
    ///
    /// Geometry only: what the change does to masses is worked out with the loads, because the
    /// scale ticket was read before the change.
    #[must_use]
    pub fn stretched(&self, by_mm: f64, splice_x_mm: f64) -> Self {
        let mut new = self.clone();
        if by_mm == 0.0 {
            return new;
        }
        new.dimensions.wheelbase_mm += by_mm;
        for axle in new.axles.iter_mut().filter(|a| a.x_mm > splice_x_mm) {
            axle.x_mm += by_mm;
            axle.input_x_mm = axle.input_x_mm.map(|x| x + by_mm);
            if let Some(shaft) = &mut axle.inter_axle {
                shaft.from_x_mm += by_mm;
                shaft.to_x_mm += by_mm;
            }
            for shape in &mut axle.envelope {
                move_x(shape, by_mm);
            }
        }
        let shift = |shapes: &mut Vec<Shape>| {
            for shape in shapes {
                if middle_x(shape) > splice_x_mm {
                    move_x(shape, by_mm);
                }
            }
        };
        for obstacle in &mut new.obstacles {
            shift(&mut obstacle.envelope);
        }
        for hardware in &mut new.hardware {
            shift(&mut hardware.envelope);
            if hardware.cg.x_mm > splice_x_mm {
                hardware.cg.x_mm += by_mm;
            }
        }
        if let Some(body) = &mut new.body {
            // A body is rigid and bolted to the frame behind the cab: the cut may lie below it, and it
            // moves as a whole with the rear frame and keeps its length.
            body.front_x_mm += by_mm;
            body.rear_x_mm += by_mm;
        }
        new.reinforcements = self
            .reinforcements
            .iter()
            .flat_map(|r| r.stretched(by_mm, splice_x_mm))
            .collect();
        new
    }

    /// Mass of what moves when the frame is cut at the splice, as (mass in kg, centre x in mm).
    ///
    /// From the list of kept items where the file has one (an item with a length counts by the share
    /// behind the cut, a body as a whole); otherwise the unsprung masses behind the cut and the rails by their section.
    #[must_use]
    pub fn mass_behind(&self, splice_x_mm: f64) -> (f64, f64) {
        let mut mass = 0.0;
        let mut moment = 0.0;
        let mut add = |m: f64, x: f64| {
            mass += m;
            moment += m * x;
        };
        if self.kept.is_empty() {
            for axle in self.axles.iter().filter(|a| a.x_mm > splice_x_mm) {
                let off: f64 = self
                    .hardware
                    .iter()
                    .filter(|h| h.unsprung_axle.as_deref() == Some(axle.id.as_str()))
                    .map(|h| h.mass_kg)
                    .sum();
                add((axle.unsprung_kg - off).max(0.0), axle.x_mm);
            }
            let end = self.dimensions.frame_end_x_mm();
            if end > splice_x_mm {
                let rails = self.rail.both_kg_per_m() * (end - splice_x_mm) / 1_000.0;
                add(rails, f64::midpoint(end, splice_x_mm));
            }
        }
        for item in &self.kept {
            match item.spread_mm {
                Some([from, to]) if to > from && self.is_of_body(item) => {
                    add(item.mass_kg, f64::midpoint(from, to));
                }
                Some([from, to]) if to > from => {
                    let cut = splice_x_mm.clamp(from, to);
                    add(
                        item.mass_kg * (to - cut) / (to - from),
                        f64::midpoint(cut, to),
                    );
                }
                _ if item.cg.x_mm > splice_x_mm => add(item.mass_kg, item.cg.x_mm),
                _ => {}
            }
        }
        (
            mass,
            if mass > 0.0 {
                moment / mass
            } else {
                splice_x_mm
            },
        )
    }
}

impl Chassis {
    /// True when this kept item is the body or lies in it: above its floor and between its ends.
    fn is_of_body(&self, item: &Kept) -> bool {
        self.body.as_ref().is_some_and(|body| {
            let [from, to] = item.spread_mm.unwrap_or([item.cg.x_mm; 2]);
            from >= body.front_x_mm - 1.0
                && to <= body.rear_x_mm + 1.0
                && item.cg.z_mm >= body.floor_z_mm
        })
    }
}

fn middle_x(shape: &Shape) -> f64 {
    let (Shape::Box { from_mm, to_mm } | Shape::Cylinder { from_mm, to_mm, .. }) = shape;
    f64::midpoint(from_mm[0], to_mm[0])
}

fn move_x(shape: &mut Shape, by: f64) {
    let (Shape::Box { from_mm, to_mm } | Shape::Cylinder { from_mm, to_mm, .. }) = shape;
    from_mm[0] += by;
    to_mm[0] += by;
}

impl Chassis {
    /// Moves the obstacle that stands for the fifth wheel along with its slider.
    pub fn slide_fifth_wheel_body(&mut self, by_mm: f64) {
        for obstacle in &mut self.obstacles {
            if obstacle.kind == super::ObstacleKind::FifthWheel {
                for shape in &mut obstacle.envelope {
                    move_x(shape, by_mm);
                }
            }
        }
    }
}
