//! What stands on each axle: static equilibrium of truck and trailer in each load case.
//!
//! Method. The donor's own weights come from its scale ticket; everything taken off, moved or put on
//! is added by moments. Two supports: exact moments. Three or more: a rigid frame on the springs of
//! its groups, counted from the weighed state, so that what the scale showed is reproduced.
//!
//! Assumptions. The frame is rigid in bending. Axles of a group share by the group's rule. A
//! group's weighed load acts at the group's support. Side to side, each mass is carried by the
//! groups in the proportion in which they carry its weight (a frame that is soft in torsion), and
//! within a group by the moment about its track. Road level, standing still.

mod case;
mod trend;

pub use crate::numeric::{Influence, Support, influence};
pub use crate::vehicle::Case;
pub use case::{AxleLoad, CaseLoads, Centre, GroupLoad, thin_kg};
pub use trend::{Split, Trend, Trends, trends};

use crate::vehicle::Vehicle;

/// Loads in every case that the plan gives rise to.
#[derive(Clone, Debug)]
pub struct Loads {
    /// Cases in their order of building up the truck.
    pub cases: Vec<CaseLoads>,
    /// Why nothing could be worked out, if so.
    pub missing: Option<String>,
}

/// How a mass anywhere on the finished truck divides among its axle groups.
///
/// # Errors
/// What is missing.
pub fn sharing(vehicle: &Vehicle) -> Result<Influence, String> {
    if vehicle.donor.ticket.is_none() {
        return Err("the chassis has no scale ticket".to_owned());
    }
    influence(&case::supports(vehicle, &vehicle.chassis))
}

/// Works out all load cases.
#[must_use]
pub fn loads(vehicle: &Vehicle) -> Loads {
    if let Some(missing) = missing(vehicle) {
        return Loads {
            cases: Vec::new(),
            missing: Some(missing),
        };
    }
    let cases = Case::ALL
        .into_iter()
        .filter_map(|case| case.loads(vehicle))
        .collect();
    Loads {
        cases,
        missing: None,
    }
}

/// Why no load can be worked out, if so.
fn missing(vehicle: &Vehicle) -> Option<String> {
    if vehicle.donor.ticket.is_none() {
        return Some("the chassis has no scale ticket".to_owned());
    }
    let stripped = Case::Stripped.weights(vehicle);
    let left: f64 = stripped.iter().map(|weight| weight.mass_kg).sum();
    (left <= 0.0).then(|| "nothing is left of the truck after the strip-out".to_owned())
}

impl Loads {
    /// One case.
    #[must_use]
    pub fn case(&self, case: Case) -> Option<&CaseLoads> {
        self.cases.iter().find(|c| c.case == case)
    }

    /// The case of the finished truck in which a group carries most, and what it carries then.
    #[must_use]
    pub fn heaviest_of(&self, group: &str) -> Option<(Case, &GroupLoad)> {
        self.cases
            .iter()
            .filter(|c| c.case >= Case::Unladen)
            .filter_map(|c| c.groups.iter().find(|g| g.id == group).map(|g| (c.case, g)))
            .reduce(|a, b| if b.1.load_kg > a.1.load_kg { b } else { a })
    }

    /// The heaviest case that the plan states: coupled, else laden, else unladen.
    #[must_use]
    pub fn heaviest(&self) -> Option<&CaseLoads> {
        [Case::Coupled, Case::Laden, Case::Unladen]
            .into_iter()
            .find_map(|case| self.case(case))
    }
}
