//! Balance and stability of every load case, beside the diesel donor in the same case.

use crate::chassis::{AxleKind, Chassis, Spot};
use crate::loads::{Case, CaseLoads, Centre, GroupLoad, Loads};
use crate::plan::PayloadPlace;
use crate::stability::{LEAST_G, Rollover, highest_payload_mm, rollover};
use crate::vehicle::Vehicle;

/// Balance of one case.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseBalance {
    /// Which case.
    pub case: Case,
    /// Truck with what it carries itself. The height holds at the truck's ride height in this case.
    pub truck: Centre,
    /// Load of all wheels on the left.
    pub left_kg: f64,
    /// Load of all wheels on the right.
    pub right_kg: f64,
    /// Part of the truck's axle loads that stands on its steered axles; `None` without axle loads.
    pub steer_share: Option<f64>,
    /// Roll-over threshold, of the combination when coupled, or what is missing for it.
    pub roll: Result<Rollover, String>,
    /// Highest centre of gravity of the payload (on the trailer when coupled) that keeps the reduced
    /// threshold at the least that is asked for anywhere.
    pub payload_z_max_mm: Option<f64>,
    /// The diesel donor, loaded in the same way.
    pub donor: Option<DonorBalance>,
}

/// The diesel donor in a case.
#[derive(Clone, Debug, PartialEq)]
pub struct DonorBalance {
    /// Truck with what it carries itself.
    pub truck: Centre,
    /// Roll-over threshold, or what is missing for it.
    pub roll: Result<Rollover, String>,
}

/// Works out the balance of every case that has loads.
#[must_use]
pub fn balance(vehicle: &Vehicle, loads: &Loads) -> Vec<CaseBalance> {
    let finished = loads.case(Case::Unladen);
    let donor = loads.case(Case::Donor);
    loads
        .cases
        .iter()
        .map(|case| {
            let compared = match (donor, finished, case.case) {
                (Some(d), Some(f), of) if of >= Case::Unladen => {
                    Some(donor_in(vehicle, d, f, case))
                }
                _ => None,
            };
            one(vehicle, case, compared)
        })
        .collect()
}

fn one(vehicle: &Vehicle, case: &CaseLoads, donor: Option<DonorBalance>) -> CaseBalance {
    let chassis = chassis_of(vehicle, case.case);
    let truck = at_ride_height(chassis, case.case, case.sprung, case.truck);
    let roll = roll(vehicle, case, truck, &case.groups);
    let sum = |pick: fn(&GroupLoad) -> f64| case.groups.iter().map(pick).sum::<f64>();
    let all = sum(|g| g.load_kg);
    let steered = case.groups.iter().filter(|g| is_steered(chassis, &g.id));
    let front: f64 = steered.map(|g| g.load_kg).sum();
    CaseBalance {
        case: case.case,
        left_kg: sum(|g| g.left_kg),
        right_kg: sum(|g| g.right_kg),
        steer_share: (all > 0.0).then(|| front / all),
        payload_z_max_mm: roll
            .as_ref()
            .ok()
            .and_then(|r| payload_z_max_mm(vehicle, case, r)),
        truck,
        roll,
        donor,
    }
}

fn chassis_of(vehicle: &Vehicle, case: Case) -> &Chassis {
    match case {
        Case::Donor | Case::Stripped => &vehicle.donor,
        _ => &vehicle.chassis,
    }
}

fn is_steered(chassis: &Chassis, group: &str) -> bool {
    let group = chassis.groups.iter().find(|g| g.id == group);
    let steers = |id: &String| {
        let axle = chassis.axles.iter().find(|a| &a.id == id);
        axle.is_some_and(|a| a.kind == AxleKind::Steer)
    };
    group.is_some_and(|g| g.axles.iter().any(steers))
}

/// Heights in files are those of the laden truck. Without payload the frame stands higher at the rear,
/// and what rides on the springs rises with it by its place along the wheelbase.
fn at_ride_height(chassis: &Chassis, case: Case, sprung: Centre, mut truck: Centre) -> Centre {
    if matches!(case, Case::Laden | Case::Coupled) || truck.mass_kg <= 0.0 {
        return truck;
    }
    let d = &chassis.dimensions;
    let rise = d.frame_top_unladen_mm - d.frame_top_laden_mm;
    let along = (sprung.x_mm / d.wheelbase_mm).clamp(0.0, 1.0);
    let by = rise * along * (sprung.mass_kg / truck.mass_kg).clamp(0.0, 1.0);
    truck.z_mm = truck.z_mm.map(|z| z + by);
    truck
}

/// Threshold of the truck, with the trailer where one is coupled: both lean together.
fn roll(
    vehicle: &Vehicle,
    case: &CaseLoads,
    truck: Centre,
    groups: &[GroupLoad],
) -> Result<Rollover, String> {
    if let Some(missing) = &case.missing {
        return Err(missing.clone());
    }
    let z = truck.z_mm.ok_or(
        "the height of the donor's centre of gravity is not known (ticket.cg_z_mm or ticket.lift)",
    )?;
    let chassis = chassis_of(vehicle, case.case);
    let up: &[String] = match case.case {
        Case::Donor => &[],
        _ => &vehicle.raised,
    };
    let mut supports: Vec<(f64, f64)> = groups
        .iter()
        .map(|g| (g.load_kg, chassis.group_track_mm(&g.id, up)))
        .collect();
    let (mut mass, mut moment) = (truck.mass_kg, truck.mass_kg * z);
    if let (Case::Coupled, Some(t)) = (case.case, &vehicle.trailer) {
        let track = t
            .trailer
            .track_mm
            .ok_or("the track of the trailer is not in its file (track_mm)")?;
        supports.push((case.trailer_axles_kg.unwrap_or(0.0), track));
        mass += t.trailer.tare_kg + t.payload_kg;
        moment += t.trailer.tare_kg * t.trailer.tare_cg_z_mm;
        moment += t.payload_kg * t.trailer.load_cg_z_mm;
    }
    let offset = truck.y_mm * truck.mass_kg / mass;
    rollover(moment / mass, offset, &supports)
        .ok_or_else(|| "no load stands on the axles".to_owned())
}

fn payload_z_max_mm(vehicle: &Vehicle, case: &CaseLoads, roll: &Rollover) -> Option<f64> {
    let (payload_kg, payload_mm) = match (case.case, &vehicle.trailer) {
        (Case::Coupled, Some(t)) => (t.payload_kg, t.trailer.load_cg_z_mm),
        (Case::Laden, _) => {
            let payload = vehicle.loads.payload.as_ref()?;
            let (PayloadPlace::Cg(Spot { z_mm, .. }) | PayloadPlace::Level { z_mm, .. }) =
                payload.at;
            (payload.mass_kg, z_mm)
        }
        _ => return None,
    };
    let whole = case.gross_kg;
    let without = whole - payload_kg;
    let without_mm = (whole * roll.height_mm - payload_kg * payload_mm) / without.max(1.0);
    highest_payload_mm(whole, roll.height_at_mm(LEAST_G), without, without_mm)
}

/// The donor as weighed with what this case has beyond the finished truck without payload: driver,
/// payload, trailer, but never the finished truck's tanks. Axle loads are added as the finished truck
/// has them; a driver alone adds none, for they only weigh the tracks here.
fn donor_in(
    vehicle: &Vehicle,
    donor: &CaseLoads,
    finished: &CaseLoads,
    case: &CaseLoads,
) -> DonorBalance {
    let more = if case.case == Case::HalfTanks {
        let seat = vehicle.chassis.driver_seat;
        Centre {
            mass_kg: vehicle.loads.driver_kg.unwrap_or(0.0),
            x_mm: seat.x_mm,
            y_mm: seat.y_mm,
            z_mm: Some(seat.z_mm),
        }
    } else {
        sum(case.truck, finished.truck, -1.0)
    };
    let groups: Vec<GroupLoad> = donor
        .groups
        .iter()
        .map(|group| {
            let of = |l: &CaseLoads| {
                let found = l.groups.iter().find(|g| g.id == group.id);
                found.map_or(0.0, |g| g.load_kg)
            };
            let mut group = group.clone();
            if case.case != Case::HalfTanks {
                group.load_kg += of(case) - of(finished);
            }
            group
        })
        .collect();
    // The donor rides as high as the finished truck does in this case.
    let truck = sum(donor.truck, more, 1.0);
    let truck = at_ride_height(&vehicle.donor, case.case, donor.sprung, truck);
    let roll = roll(vehicle, case, truck, &groups);
    DonorBalance { truck, roll }
}

/// One mass and so many times another.
fn sum(one: Centre, other: Centre, times: f64) -> Centre {
    let mass_kg = one.mass_kg + times * other.mass_kg;
    let mean = |a: f64, b: f64| {
        let moment = one.mass_kg * a + times * other.mass_kg * b;
        if mass_kg.abs() > 1e-9 {
            moment / mass_kg
        } else {
            0.0
        }
    };
    Centre {
        mass_kg,
        x_mm: mean(one.x_mm, other.x_mm),
        y_mm: mean(one.y_mm, other.y_mm),
        z_mm: one.z_mm.zip(other.z_mm).map(|(a, b)| mean(a, b)),
    }
}
