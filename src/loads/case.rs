//! What stands on each axle in each load case.

use super::{Case, Influence, Support, influence};
use crate::chassis::{Chassis, Group, Share};
use crate::geometry::Point;
use crate::plan::PayloadPlace;
use crate::vehicle::{Aboard, Vehicle};
use serde::Serialize;

/// A centre of gravity; the height is missing when a mass's height is not known.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Centre {
    /// Mass.
    pub mass_kg: f64,
    /// Behind the front axle.
    pub x_mm: f64,
    /// To the right of the middle.
    pub y_mm: f64,
    /// Above ground.
    pub z_mm: Option<f64>,
}

/// Load of an axle group.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GroupLoad {
    /// Group id.
    pub id: String,
    /// Both sides; negative means that the group would lift off.
    pub load_kg: f64,
    /// Left side.
    pub left_kg: f64,
    /// Right side.
    pub right_kg: f64,
    /// One standard deviation, from the uncertainties of the masses and places.
    pub sigma_kg: f64,
    /// Covariance with the load of each group of the case, in their order, kg².
    #[serde(skip)]
    with_kg2: Vec<f64>,
}

/// Standard deviations of the load below which a margin is thin, common practice.
const THIN_SIGMAS: f64 = 2.0;

/// A margin thinner than this, kg, is within what the masses are uncertain by, when the load's standard
/// deviation is this.
#[must_use]
pub fn thin_kg(sigma_kg: f64) -> f64 {
    THIN_SIGMAS * sigma_kg
}

impl GroupLoad {
    /// A margin thinner than this, kg, is within what the masses are uncertain by.
    #[must_use]
    pub fn thin_kg(&self) -> f64 {
        thin_kg(self.sigma_kg)
    }
}

/// Load of one axle.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AxleLoad {
    /// Axle id.
    pub id: String,
    /// Both sides.
    pub load_kg: f64,
    /// Left side.
    pub left_kg: f64,
    /// Right side.
    pub right_kg: f64,
}

/// Loads in one case.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CaseLoads {
    /// Which case.
    pub case: Case,
    /// The truck with what it carries itself, without the trailer.
    pub truck: Centre,
    /// What rides on the springs.
    pub sprung: Centre,
    /// What does not.
    pub unsprung_kg: f64,
    /// Axle groups, front to rear.
    pub groups: Vec<GroupLoad>,
    /// Axles, front to rear.
    pub axles: Vec<AxleLoad>,
    /// Load on the fifth wheel, with a trailer.
    pub kingpin_kg: Option<f64>,
    /// Load on the trailer's axles.
    pub trailer_axles_kg: Option<f64>,
    /// Truck and trailer together.
    pub gross_kg: f64,
    /// Why the axle loads could not be worked out; the lists are then empty.
    pub missing: Option<String>,
}

impl CaseLoads {
    /// One standard deviation, kg, of what stands on these parts of the groups (0 to 1, by the group's
    /// id) together. What the axles of a trailer carry is stated and adds nothing.
    #[must_use]
    pub fn sigma_kg(&self, part: impl Fn(&str) -> f64) -> f64 {
        let parts: Vec<f64> = self.groups.iter().map(|g| part(&g.id)).collect();
        let mut variance = 0.0;
        for (group, part) in self.groups.iter().zip(&parts) {
            let with = group.with_kg2.iter().zip(&parts);
            variance += part * with.map(|(kg2, other)| kg2 * other).sum::<f64>();
        }
        variance.max(0.0).sqrt()
    }

    /// One standard deviation, kg, of what stands on these axles together.
    #[must_use]
    pub fn sigma_on_kg(&self, vehicle: &Vehicle, counts: impl Fn(&str) -> bool) -> f64 {
        let chassis = &vehicle.chassis;
        self.sigma_kg(|id| {
            let Some(group) = chassis.groups.iter().find(|g| g.id == id) else {
                return 0.0;
            };
            let shares = chassis.shares_down(group, &vehicle.raised);
            let axles = group.axles.iter().zip(shares);
            axles
                .filter(|(id, _)| counts(id))
                .map(|(_, share)| share)
                .sum()
        })
    }
}

/// A mass in a case.
#[derive(Clone, Copy)]
pub(super) struct Weight {
    pub(super) mass_kg: f64,
    pub(super) sigma_kg: f64,
    pub(super) at: Point,
    pub(super) height_known: bool,
    /// It was put on or taken off, so its place is uncertain too.
    pub(super) placed: bool,
    /// The group under which the scale read it, by its place in the list.
    pub(super) weighed: Option<usize>,
}

impl Weight {
    /// A mass that is known, at a place that is.
    pub(super) const fn certain(mass_kg: f64, at: Point) -> Self {
        Self {
            mass_kg,
            sigma_kg: 0.0,
            at,
            height_known: true,
            placed: false,
            weighed: None,
        }
    }
}

/// One standard deviation of a part's centre of gravity along the truck, common practice.
const PLACE_SIGMA_MM: f64 = 15.0;

impl Case {
    /// Loads in this case; `None` when the plan does not give rise to it.
    pub(super) fn loads(self, vehicle: &Vehicle) -> Option<CaseLoads> {
        let has_payload = vehicle.loads.payload.is_some();
        match self {
            Self::Laden if !has_payload => return None,
            Self::Coupled if vehicle.trailer.is_none() => return None,
            _ => {}
        }
        let chassis = self.chassis(vehicle);
        let supports = supports(vehicle, chassis);
        let weights = self.weights(vehicle);
        let kingpin = match (&vehicle.trailer, self) {
            (Some(t), Self::Coupled) => {
                Some(t.tare_on_kingpin_kg() + t.payload_kg * t.load_share_on_kingpin())
            }
            _ => None,
        };
        let trailer_kg = vehicle
            .trailer
            .as_ref()
            .filter(|_| self == Self::Coupled)
            .map(|t| t.trailer.tare_kg + t.payload_kg);
        let truck = centre(&weights);
        let (sprung, unsprung_kg) = self.sprung(vehicle, chassis, &weights);
        let mut result = CaseLoads {
            case: self,
            truck,
            sprung,
            unsprung_kg,
            groups: Vec::new(),
            axles: Vec::new(),
            kingpin_kg: kingpin,
            trailer_axles_kg: trailer_kg.zip(kingpin).map(|(all, pin)| all - pin),
            gross_kg: truck.mass_kg + trailer_kg.unwrap_or(0.0),
            missing: None,
        };
        let mut carried = weights;
        if let (Some(mass_kg), Some(t)) = (kingpin, &vehicle.trailer) {
            carried.push(Weight::certain(mass_kg, t.kingpin));
        }
        match influence(&supports) {
            Err(missing) => result.missing = Some(missing),
            // The scale has already said it.
            Ok(_) if self == Self::Donor => result.groups = weighed_groups(vehicle),
            Ok(influence) => {
                result.groups = groups(vehicle, chassis, &supports, &influence, &carried)
            }
        }
        result.axles = axles(vehicle, chassis, self, &result.groups);
        Some(result)
    }

    /// The chassis whose geometry holds in this case.
    fn chassis(self, vehicle: &Vehicle) -> &Chassis {
        match self {
            Self::Donor | Self::Stripped => &vehicle.donor,
            _ => &vehicle.chassis,
        }
    }

    /// Masses that count in this case.
    pub(super) fn weights(self, vehicle: &Vehicle) -> Vec<Weight> {
        let mut weights = Vec::with_capacity(vehicle.masses.len() + 2);
        for mass in &vehicle.masses {
            let counts = match mass.aboard {
                Aboard::Weighed => 1.0,
                Aboard::Stripped if self == Self::Donor => continue,
                Aboard::Stripped => 1.0,
                _ if self <= Self::Stripped => continue,
                Aboard::Changed | Aboard::Part => 1.0,
                Aboard::Contents if self == Self::HalfTanks => 0.5,
                Aboard::Contents => mass.fill,
            };
            weights.push(Weight {
                mass_kg: mass.mass_kg * counts,
                sigma_kg: mass.sigma_kg,
                at: mass.at,
                height_known: mass.height_known,
                placed: matches!(
                    mass.aboard,
                    Aboard::Part | Aboard::Stripped | Aboard::Contents
                ),
                weighed: (mass.aboard == Aboard::Weighed)
                    .then(|| vehicle.donor.groups.iter().position(|g| g.id == mass.of))
                    .flatten(),
            });
        }
        if self >= Self::HalfTanks {
            weights.extend(driver(vehicle));
        }
        if matches!(self, Self::Laden | Self::Coupled) {
            weights.extend(payload(vehicle));
        }
        weights
    }

    /// [`weights`](Self::weights), with the driver.
    pub(super) fn weights_with_driver(self, vehicle: &Vehicle) -> Vec<Weight> {
        let mut weights = self.weights(vehicle);
        weights.extend(driver(vehicle));
        weights
    }

    /// What rides on the springs, and how much does not.
    fn sprung(self, vehicle: &Vehicle, chassis: &Chassis, weights: &[Weight]) -> (Centre, f64) {
        let mut off: Vec<Weight> = Vec::new();
        let mut take = |mass_kg: f64, at: Point| off.push(Weight::certain(-mass_kg, at));
        for axle in &chassis.axles {
            take(
                axle.unsprung_kg,
                Point::new(axle.x_mm, 0.0, axle.unsprung_z_mm),
            );
        }
        for mass in &vehicle.masses {
            let Some(axle) = &mass.unsprung_axle else {
                continue;
            };
            let counts = match mass.aboard {
                Aboard::Stripped => self >= Self::Stripped,
                _ => self >= Self::Unladen,
            };
            if counts {
                let mut at = mass.at;
                // What came off is missing where its axle now is, not where the donor's was weighed.
                if mass.aboard == Aboard::Stripped {
                    at.x += place_of(chassis, axle) - place_of(&vehicle.donor, axle);
                }
                take(mass.mass_kg, at);
            }
        }
        let unsprung = -off.iter().map(|w| w.mass_kg).sum::<f64>();
        let all: Vec<Weight> = weights.iter().copied().chain(off).collect();
        (centre(&all), unsprung)
    }
}

fn place_of(chassis: &Chassis, axle: &str) -> f64 {
    let found = chassis.axles.iter().find(|a| a.id == axle);
    found.map_or(0.0, |a| a.x_mm)
}

fn driver(vehicle: &Vehicle) -> Option<Weight> {
    let kg = vehicle.loads.driver_kg?;
    Some(Weight::certain(kg, vehicle.chassis.driver_seat.point()))
}

/// What the truck carries itself.
pub(super) fn payload(vehicle: &Vehicle) -> Option<Weight> {
    let payload = vehicle.loads.payload.as_ref()?;
    Some(Weight::certain(payload.mass_kg, payload_point(&payload.at)))
}

/// Where a payload's weight acts.
pub(super) fn payload_point(at: &PayloadPlace) -> Point {
    match at {
        PayloadPlace::Cg(spot) => spot.point(),
        PayloadPlace::Level {
            front_x_mm,
            rear_x_mm,
            z_mm,
        } => Point::new(f64::midpoint(*front_x_mm, *rear_x_mm), 0.0, *z_mm),
    }
}

/// Supports of a chassis, front to rear: what is up carries and springs nothing. The scale saw all axles
/// down, so a group with one up starts from the part that the others carried there.
pub(super) fn supports(vehicle: &Vehicle, chassis: &Chassis) -> Vec<Support> {
    let up = &vehicle.raised;
    chassis
        .groups
        .iter()
        .map(|group| {
            let down = |id: &&String| !up.contains(id);
            let axles = || chassis.axles.iter().filter(|a| group.axles.contains(&a.id));
            let rates: Option<f64> = axles()
                .filter(|a| down(&&a.id))
                .map(|a| a.suspension.rate_n_per_mm)
                .sum();
            let ticket = chassis.ticket.as_ref();
            let kept = part_down(vehicle, chassis, group);
            Support {
                x_mm: chassis.group_x_mm(&group.id, up).unwrap_or(0.0),
                rate: rates,
                fixed_kg: match group.share {
                    Share::FixedKg(kg) => Some(kg),
                    _ => None,
                },
                raised: !group.axles.iter().any(|id| down(&id)),
                weighed_kg: ticket
                    .and_then(|t| t.axle.iter().find(|load| load.group == group.id))
                    .map_or(0.0, |load| load.load_kg * kept),
            }
        })
        .collect()
}

/// The part of what the scale read under a group that stood on axles which are down in the plan too.
fn part_down(vehicle: &Vehicle, chassis: &Chassis, group: &Group) -> f64 {
    let shares = group.axles.iter().zip(chassis.shares(group));
    let down = shares.filter(|(id, _)| !vehicle.is_raised(id));
    down.map(|(_, share)| share).sum()
}

fn centre(weights: &[Weight]) -> Centre {
    let mass: f64 = weights.iter().map(|w| w.mass_kg).sum();
    let known = weights.iter().all(|w| w.height_known);
    let mean = |pick: fn(&Weight) -> f64| {
        let sum: f64 = weights.iter().map(|w| w.mass_kg * pick(w)).sum();
        if mass.abs() > 1e-9 { sum / mass } else { 0.0 }
    };
    Centre {
        mass_kg: mass,
        x_mm: mean(|w| w.at.x),
        y_mm: mean(|w| w.at.y),
        z_mm: known.then(|| mean(|w| w.at.z)),
    }
}

fn groups(
    vehicle: &Vehicle,
    chassis: &Chassis,
    supports: &[Support],
    influence: &Influence,
    weights: &[Weight],
) -> Vec<GroupLoad> {
    let parts: Vec<(f64, f64)> = chassis
        .groups
        .iter()
        .zip(supports)
        .map(|(group, support)| (part_down(vehicle, chassis, group), support.x_mm))
        .collect();
    let mass: f64 = weights.iter().map(|w| w.mass_kg).sum();
    let moment: f64 = weights.iter().map(|w| w.mass_kg * w.at.x).sum();
    // What a kilogram of each mass, and a wrong place of it, does to each group.
    let share = |index: usize, w: &Weight| {
        let share = influence.share(index, w.at.x);
        // The springs start from what the scale read, so that this stays under its group, sides
        // and uncertainty with it, as far as its axles are down and stand where they stood.
        w.weighed.map_or(share, |own| {
            let (part, x) = parts[own];
            share + part * (f64::from(own == index) - influence.share(index, x))
        })
    };
    let place = |index: usize, w: &Weight| {
        if w.placed {
            w.mass_kg * influence.per_kg_mm[index] * PLACE_SIGMA_MM
        } else {
            0.0
        }
    };
    let count = parts.len();
    let mut sums = vec![(0.0, vec![0.0; count]); count];
    let mut each = vec![(0.0, 0.0); count];
    for w in weights {
        for (index, each) in each.iter_mut().enumerate() {
            *each = (share(index, w), place(index, w));
        }
        let sigma2 = w.sigma_kg.powi(2);
        for ((side, with_kg2), (own, own_place)) in sums.iter_mut().zip(&each) {
            *side += w.mass_kg * w.at.y * own;
            for (kg2, (share, place)) in with_kg2.iter_mut().zip(&each) {
                *kg2 += own * share * sigma2 + own_place * place;
            }
        }
    }
    chassis
        .groups
        .iter()
        .zip(sums)
        .enumerate()
        .map(|(index, (group, (side, with_kg2)))| {
            let load = influence.reaction_kg(index, mass, moment);
            let track = chassis.group_track_mm(&group.id, &vehicle.raised).max(1.0);
            GroupLoad {
                id: group.id.clone(),
                load_kg: load,
                left_kg: load / 2.0 - side / track,
                right_kg: load / 2.0 + side / track,
                sigma_kg: with_kg2[index].sqrt(),
                with_kg2,
            }
        })
        .collect()
}

fn weighed_groups(vehicle: &Vehicle) -> Vec<GroupLoad> {
    let Some(ticket) = &vehicle.donor.ticket else {
        return Vec::new();
    };
    vehicle
        .donor
        .groups
        .iter()
        .filter_map(|group| ticket.axle.iter().find(|load| load.group == group.id))
        .map(|load| GroupLoad {
            id: load.group.clone(),
            load_kg: load.load_kg,
            left_kg: load.left_kg.unwrap_or(load.load_kg / 2.0),
            right_kg: load.right_kg.unwrap_or(load.load_kg / 2.0),
            sigma_kg: ticket.resolution_kg,
            with_kg2: Vec::new(),
        })
        .collect()
}

/// Divides each group's load among its axles; axles that are up get none. The scale saw the donor with
/// all of them down.
fn axles(vehicle: &Vehicle, chassis: &Chassis, case: Case, groups: &[GroupLoad]) -> Vec<AxleLoad> {
    let up = match case {
        Case::Donor => &[],
        _ => vehicle.raised.as_slice(),
    };
    let mut result = Vec::new();
    for axle in &chassis.axles {
        let Some(group) = chassis.groups.iter().find(|g| g.axles.contains(&axle.id)) else {
            continue;
        };
        let Some(load) = groups.iter().find(|g| g.id == group.id) else {
            continue;
        };
        let shares = chassis.shares_down(group, up);
        let own = group.axles.iter().position(|id| id == &axle.id);
        let part = own.map_or(0.0, |i| shares[i]);
        result.push(AxleLoad {
            id: axle.id.clone(),
            load_kg: load.load_kg * part,
            left_kg: load.left_kg * part,
            right_kg: load.right_kg * part,
        });
    }
    result
}
