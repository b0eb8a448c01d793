//! Point masses: what counts in which load case.

use super::Vehicle;
use crate::geometry::Point;

/// When a mass is aboard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Aboard {
    /// The donor as it was weighed, and nothing else of this list.
    Weighed,
    /// What the strip-out takes away (negative mass).
    Stripped,
    /// What the wheelbase change and the fifth-wheel slide add or move (pairs of −m and +m).
    Changed,
    /// A placed part, without contents.
    Part,
    /// The full contents of a placed part; the load case says how full.
    Contents,
}

/// A mass at a place.
#[derive(Clone, Debug, PartialEq)]
pub struct MassPoint {
    /// Tag or id of what it is.
    pub of: String,
    /// When it counts.
    pub aboard: Aboard,
    /// Mass; negative for what is taken away.
    pub mass_kg: f64,
    /// One standard deviation of the mass.
    pub sigma_kg: f64,
    /// Place.
    pub at: Point,
    /// The height is known; without it no height of the whole can be given.
    pub height_known: bool,
    /// Rides on this axle and not on the springs.
    pub unsprung_axle: Option<String>,
    /// Share of the contents as planned, for contents.
    pub fill: f64,
}

impl Vehicle {
    /// Collects the point masses. The donor's own come from its scale ticket.
    pub(super) fn collect_masses(&mut self) {
        let mut masses = self.donor_masses();
        masses.extend(self.change_masses());
        for item in &self.items {
            masses.push(MassPoint {
                of: item.tag.clone(),
                aboard: Aboard::Part,
                mass_kg: item.mass_kg,
                sigma_kg: item.part.mass_sigma_kg,
                at: item.cg,
                height_known: true,
                unsprung_axle: item.unsprung_axle.clone(),
                fill: 1.0,
            });
            if item.full_kg > 0.0 {
                masses.push(MassPoint {
                    of: item.tag.clone(),
                    aboard: Aboard::Contents,
                    mass_kg: item.full_kg,
                    sigma_kg: 0.0,
                    at: item.bounds.centre(),
                    height_known: true,
                    unsprung_axle: None,
                    fill: item.fill,
                });
            }
        }
        self.masses = masses;
    }

    /// One mass for each weighed group (at the group's support), less the stripped items.
    fn donor_masses(&self) -> Vec<MassPoint> {
        let mut masses = Vec::new();
        let Some(ticket) = &self.donor.ticket else {
            return masses;
        };
        for load in &ticket.axle {
            let Some(x) = self.donor.group_x_mm(&load.group, &[]) else {
                continue;
            };
            // The sides of the scale give the side offset: right minus left, times half the track.
            let y = match (load.left_kg, load.right_kg) {
                (Some(l), Some(r)) if load.load_kg > 0.0 => {
                    let half = self.donor.group_track_mm(&load.group, &[]) / 2.0;
                    (r - l) / (r + l) * half
                }
                _ => 0.0,
            };
            masses.push(MassPoint {
                of: load.group.clone(),
                aboard: Aboard::Weighed,
                mass_kg: load.load_kg,
                sigma_kg: ticket.resolution_kg,
                at: Point::new(x, y, ticket.height_mm().unwrap_or(0.0)),
                height_known: ticket.height_mm().is_some(),
                unsprung_axle: None,
                fill: 1.0,
            });
        }
        for item in self
            .donor
            .hardware
            .iter()
            .filter(|h| self.stripped.contains(&h.id))
        {
            masses.push(MassPoint {
                of: item.id.clone(),
                aboard: Aboard::Stripped,
                mass_kg: -item.mass_kg,
                sigma_kg: item.mass_sigma_kg,
                at: item.cg.point(),
                height_known: true,
                unsprung_axle: item.unsprung_axle.clone(),
                fill: 1.0,
            });
        }
        masses
    }

    /// What a new wheelbase and a slid fifth wheel do: masses leave one place and come to another.
    fn change_masses(&self) -> Vec<MassPoint> {
        let mut masses = Vec::new();
        let mut add = |of: &str, mass_kg: f64, x: f64, z: f64| {
            masses.push(MassPoint {
                of: of.to_owned(),
                aboard: Aboard::Changed,
                mass_kg,
                sigma_kg: 0.0,
                at: Point::new(x, 0.0, z),
                height_known: true,
                unsprung_axle: None,
                fill: 1.0,
            });
        };
        let top = self.donor.dimensions.frame_top_laden_mm;
        if self.stretch_mm != 0.0 {
            let (by, splice) = (self.stretch_mm, self.splice_x_mm);
            let (mass, x) = self.donor.mass_behind(splice);
            add("moved behind the splice", -mass, x, top);
            add("moved behind the splice", mass, x + by, top);
            for item in &self.donor.hardware {
                // Hardware that stays and stands behind the cut moves as well.
                if item.cg.x_mm > splice && !self.stripped.contains(&item.id) {
                    add(&item.id, -item.mass_kg, item.cg.x_mm, item.cg.z_mm);
                    add(&item.id, item.mass_kg, item.cg.x_mm + by, item.cg.z_mm);
                }
            }
            let rail = self.donor.rail.both_kg_per_m() * by / 1_000.0;
            add(
                "frame rails",
                rail,
                splice + by / 2.0,
                top - self.donor.rail.depth_mm / 2.0,
            );
        }
        if let (Some(old), Some(new)) = (&self.donor.fifth_wheel, &self.chassis.fifth_wheel) {
            let by = old.ahead_mm - new.ahead_mm;
            if by != 0.0 {
                let x = self.chassis.dimensions.wheelbase_mm - old.ahead_mm;
                add("fifth wheel", -old.mass_kg, x, old.top_z_mm);
                add("fifth wheel", old.mass_kg, x + by, new.top_z_mm);
            }
        }
        masses
    }
}
