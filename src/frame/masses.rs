//! What rides on the springs, as the rails feel it: where, how much, in which cases, on which side.

use super::{Section, Standing};
use crate::chassis::Kept;
use crate::numeric::{on_rows, sort_by};
use crate::plan::PayloadPlace;
use crate::vehicle::{Aboard, Case, Item, Vehicle};

/// What a mass belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Of {
    /// A part, by its index.
    Item(usize),
    /// Something kept, by its index.
    Kept(usize),
    /// Donor hardware that stays, by its index.
    Hardware(usize),
    Driver,
    Payload,
    Kingpin,
    /// The fifth wheel that was slid: taken away and put back.
    Slide,
    /// The piece of rail that a stretch puts in.
    NewRail,
    /// What the lists leave out.
    Unlisted,
    /// The axles' own weight, which the axles of a group share.
    Axles,
    /// What springs push whatever lies on them: a set air pressure, the weighed state.
    Set,
}

/// When a mass is aboard.
#[derive(Clone, Copy, Debug)]
enum When {
    Always,
    /// Contents, with the planned share.
    Contents(f64),
    Driver,
    Payload,
    Kingpin,
}

/// A mass, at a point or spread evenly.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mass {
    pub(super) of: Of,
    when: When,
    kg: f64,
    pub(super) from_mm: f64,
    pub(super) to_mm: f64,
    /// Share on the right rail, 0 to 1.
    right: f64,
    /// Moment beside the mass's own, kg·mm: a couple.
    pub(super) couple_kg_mm: f64,
}

impl Mass {
    /// Mass, kg, and couple, kg·mm, on one rail in a case.
    pub(super) fn on(&self, side: usize, stand: &Standing) -> (f64, f64) {
        let (times, share) = (self.times(stand), self.share(side));
        (times * self.kg * share, times * self.couple_kg_mm * share)
    }

    const fn share(&self, side: usize) -> f64 {
        if side == 1 {
            self.right
        } else {
            1.0 - self.right
        }
    }

    fn times(&self, stand: &Standing) -> f64 {
        let aboard = |yes: bool| if yes { 1.0 } else { 0.0 };
        match self.when {
            When::Always => 1.0,
            When::Contents(_) if stand.case == Case::HalfTanks => 0.5,
            When::Contents(fill) => fill,
            When::Driver => aboard(stand.case >= Case::HalfTanks),
            When::Payload => aboard(matches!(stand.case, Case::Laden | Case::Coupled)),
            When::Kingpin => stand.kingpin_kg,
        }
    }

    pub(super) const fn middle_mm(&self) -> f64 {
        f64::midpoint(self.from_mm, self.to_mm)
    }

    /// Length over which it lies; `None` at a point.
    pub(super) fn length_mm(&self) -> Option<f64> {
        (self.to_mm - self.from_mm > 1e-6).then_some(self.to_mm - self.from_mm)
    }
}

/// Where a mass begins or ends, or where the section of the rail changes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Station {
    pub(super) x_mm: f64,
    /// Index of the mass; `None` where only the section changes.
    pub(super) mass: Option<u32>,
    pub(super) ends: bool,
}

/// All masses, and their places in order.
pub(super) struct Masses {
    pub(super) list: Vec<Mass>,
    pub(super) stations: Vec<Station>,
    pub(super) unlisted: (f64, f64),
    /// Unsprung mass on each axle, kg, and its moment about the front axle, kg·mm.
    pub(super) unsprung: Vec<(f64, f64)>,
}

impl Masses {
    /// Collects what can be aboard the finished truck.
    pub(super) fn of(vehicle: &Vehicle, sections: &[Section]) -> Self {
        let mut all = Collect::new(vehicle);
        all.donor();
        let unlisted = all.unlisted();
        all.items();
        all.loads();
        let mut stations = Vec::with_capacity(all.list.len() + 2 * sections.len() + 32);
        for (mass, index) in all.list.iter().zip(0..) {
            let station = |x_mm: f64, ends: bool| Station {
                x_mm,
                mass: Some(index),
                ends,
            };
            stations.push(station(mass.from_mm, false));
            if mass.length_mm().is_some() {
                stations.push(station(mass.to_mm, true));
            }
        }
        for x_mm in sections.iter().flat_map(|s| [s.from_mm, s.to_mm]) {
            stations.push(Station {
                x_mm,
                mass: None,
                ends: false,
            });
        }
        sort_by(&mut stations, |a, b| a.x_mm.total_cmp(&b.x_mm));
        Self {
            list: all.list,
            stations,
            unlisted,
            unsprung: (0..vehicle.chassis.axles.len())
                .map(|axle| unsprung(vehicle, axle))
                .collect(),
        }
    }
}

struct Collect<'a> {
    vehicle: &'a Vehicle,
    list: Vec<Mass>,
}

impl<'a> Collect<'a> {
    fn new(vehicle: &'a Vehicle) -> Self {
        Self {
            vehicle,
            list: Vec::with_capacity(4 * vehicle.items.len() + 40),
        }
    }

    /// Share on the right rail of what sits this far to the right: by lever between the webs, and
    /// wholly on the nearer rail beside them.
    fn right(&self, y_mm: f64) -> f64 {
        let chassis = &self.vehicle.chassis;
        let apart = chassis.dimensions.frame_width_mm - chassis.rail.wall_mm;
        (0.5 + y_mm / apart).clamp(0.0, 1.0)
    }

    fn spread(&mut self, of: Of, when: When, kg: f64, (from_mm, to_mm): (f64, f64), y_mm: f64) {
        let right = self.right(y_mm);
        self.list.push(Mass {
            of,
            when,
            kg,
            from_mm,
            to_mm,
            right,
            couple_kg_mm: 0.0,
        });
    }

    fn point(&mut self, of: Of, when: When, kg: f64, x_mm: f64, y_mm: f64) {
        self.spread(of, when, kg, (x_mm, x_mm), y_mm);
    }

    /// Kept items and hardware at their places, moved by the stretch as the frame was.
    fn donor(&mut self) {
        let vehicle = self.vehicle;
        let (by, cut) = (vehicle.stretch_mm, vehicle.splice_x_mm);
        let moved = |x: f64| if by != 0.0 && x > cut { x + by } else { x };
        for (index, kept) in vehicle.donor.kept.iter().enumerate() {
            if kept.unsprung {
                continue;
            }
            self.kept(Of::Kept(index), kept, moved, (by, cut));
        }
        for (index, item) in vehicle.donor.hardware.iter().enumerate() {
            if item.unsprung_axle.is_none() && !vehicle.stripped.contains(&item.id) {
                let of = Of::Hardware(index);
                self.point(
                    of,
                    When::Always,
                    item.mass_kg,
                    moved(item.cg.x_mm),
                    item.cg.y_mm,
                );
            }
        }
        if by != 0.0 {
            // A rail that was shortened has lost the piece instead.
            let kg = vehicle.donor.rail.both_kg_per_m() * by / 1_000.0;
            let ends = (cut.min(cut + by), cut.max(cut + by));
            self.spread(Of::NewRail, When::Always, kg, ends, 0.0);
        }
        if let (Some(old), Some(new)) = (&vehicle.donor.fifth_wheel, &vehicle.chassis.fifth_wheel)
            && old.ahead_mm != new.ahead_mm
        {
            let wheelbase = vehicle.chassis.dimensions.wheelbase_mm;
            self.point(
                Of::Slide,
                When::Always,
                -old.mass_kg,
                wheelbase - old.ahead_mm,
                0.0,
            );
            self.point(
                Of::Slide,
                When::Always,
                old.mass_kg,
                wheelbase - new.ahead_mm,
                0.0,
            );
        }
    }

    fn kept(&mut self, of: Of, kept: &Kept, moved: impl Fn(f64) -> f64, (by, cut): (f64, f64)) {
        let y = kept.cg.y_mm;
        let Some([from, to]) = kept.spread_mm.filter(|[from, to]| to > from) else {
            return self.point(of, When::Always, kept.mass_kg, moved(kept.cg.x_mm), y);
        };
        if by == 0.0 || cut <= from || cut >= to {
            let ends = (moved(from + 1e-9), moved(to));
            return self.spread(of, When::Always, kept.mass_kg, ends, y);
        }
        // Cut through: each half keeps its own mass.
        let ahead = kept.mass_kg * (cut - from) / (to - from);
        self.spread(of, When::Always, ahead, (from, cut), y);
        self.spread(
            of,
            When::Always,
            kept.mass_kg - ahead,
            (cut + by, to + by),
            y,
        );
    }

    /// Evenly over each half of the rails, so that mass and moment become those of the scale ticket.
    fn unlisted(&mut self) -> (f64, f64) {
        let vehicle = self.vehicle;
        let (mut kg, mut moment) = (0.0, 0.0);
        let mut add = |m: f64, x: f64| {
            kg += m;
            moment += m * x;
        };
        for mass in &vehicle.masses {
            if matches!(
                mass.aboard,
                Aboard::Weighed | Aboard::Stripped | Aboard::Changed
            ) {
                add(mass.mass_kg, mass.at.x);
            }
        }
        for (index, axle) in vehicle.chassis.axles.iter().enumerate() {
            add(-donor_unsprung_kg(vehicle, index), axle.x_mm);
        }
        for mass in &self.list {
            add(-mass.kg, mass.middle_mm());
        }
        let front = vehicle.chassis.rail.front_x_mm;
        let end = vehicle.chassis.dimensions.frame_end_x_mm();
        let (length, middle) = (end - front, f64::midpoint(front, end));
        let rear = 2.0 * (moment - kg * front) / length - kg / 2.0;
        self.spread(Of::Unlisted, When::Always, kg - rear, (front, middle), 0.0);
        self.spread(Of::Unlisted, When::Always, rear, (middle, end), 0.0);
        (kg, moment)
    }

    fn items(&mut self) {
        let mut rows = Vec::new();
        for (index, item) in self.vehicle.items.iter().enumerate() {
            rows.clear();
            add_rows(item, &mut rows);
            let of = Of::Item(index);
            if item.unsprung_axle.is_none() {
                let place = (item.cg.x, item.cg.y);
                self.on(of, When::Always, item.mass_kg, place, &rows);
            }
            if item.full_kg > 0.0 {
                let middle = item.bounds.centre();
                let when = When::Contents(item.fill);
                self.on(of, when, item.full_kg, (middle.x, middle.y), &rows);
            }
        }
    }

    /// Hangs a mass on rows of brackets.
    fn on(&mut self, of: Of, when: When, kg: f64, (x, y): (f64, f64), rows: &[f64]) {
        let right = self.right(y);
        let first = self.list.len();
        let list = &mut self.list;
        let left_over = on_rows(kg, kg * x, rows, |row, kg| {
            list.push(Mass {
                of,
                when,
                kg,
                from_mm: row,
                to_mm: row,
                right,
                couple_kg_mm: 0.0,
            });
        });
        if let Some(mass) = self.list.get_mut(first) {
            mass.couple_kg_mm = left_over;
        }
    }

    fn loads(&mut self) {
        let vehicle = self.vehicle;
        if let Some(kg) = vehicle.loads.driver_kg {
            let seat = &vehicle.chassis.driver_seat;
            self.point(Of::Driver, When::Driver, kg, seat.x_mm, seat.y_mm);
        }
        if let Some(payload) = &vehicle.loads.payload {
            let (ends, y) = match &payload.at {
                PayloadPlace::Cg(spot) => ((spot.x_mm, spot.x_mm), spot.y_mm),
                PayloadPlace::Level {
                    front_x_mm,
                    rear_x_mm,
                    ..
                } => ((*front_x_mm, *rear_x_mm), 0.0),
            };
            self.spread(Of::Payload, When::Payload, payload.mass_kg, ends, y);
        }
        if let Some(pin) = vehicle.trailer.as_ref().map(|t| t.kingpin) {
            self.point(Of::Kingpin, When::Kingpin, 1.0, pin.x, pin.y);
        }
    }
}

/// Unsprung mass of the donor's own that is left on an axle, kg.
fn donor_unsprung_kg(vehicle: &Vehicle, axle: usize) -> f64 {
    let axle = &vehicle.chassis.axles[axle];
    let off =
        vehicle.donor.hardware.iter().filter(|h| {
            h.unsprung_axle.as_ref() == Some(&axle.id) && vehicle.stripped.contains(&h.id)
        });
    axle.unsprung_kg - off.map(|h| h.mass_kg).sum::<f64>()
}

/// Unsprung mass on an axle of the finished truck, kg, and its moment about the front axle, kg·mm.
fn unsprung(vehicle: &Vehicle, axle: usize) -> (f64, f64) {
    let own = donor_unsprung_kg(vehicle, axle);
    let axle = &vehicle.chassis.axles[axle];
    let mut sum = (own, own * axle.x_mm);
    for item in &vehicle.items {
        if item.unsprung_axle.as_ref() == Some(&axle.id) {
            sum.0 += item.mass_kg;
            sum.1 += item.mass_kg * item.cg.x;
        }
    }
    sum
}

/// Where a part hangs on the rails: at its stated rows, else at a quarter of its length from each end
/// (common practice). Rows of a part that was turned across the truck do not run along it.
#[must_use]
pub fn bracket_rows(item: &Item) -> Vec<f64> {
    let mut rows = Vec::new();
    add_rows(item, &mut rows);
    rows
}

fn add_rows(item: &Item, rows: &mut Vec<f64>) {
    let (min, max) = (item.bounds.min.x, item.bounds.max.x);
    let stated = item.part.mounts.as_ref().map(|m| m.rows_mm.as_slice());
    match stated {
        Some(stated) if !stated.is_empty() && item.turn.is_multiple_of(2) => {
            let place = |row: &f64| if item.turn == 0 { min + row } else { max - row };
            rows.extend(stated.iter().map(place));
        }
        _ if max - min > 1.0 => {
            let quarter = (max - min) / 4.0;
            rows.extend([min + quarter, max - quarter]);
        }
        _ => rows.push(item.cg.x),
    }
}
