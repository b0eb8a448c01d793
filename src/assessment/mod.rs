//! The one façade: a vehicle goes in, answers and findings come out.

mod bridge;
mod capacity;
mod journey;
mod limits;
mod size;

pub use bridge::{Bridge, bridge};
pub use capacity::{Capacity, CapacityRow, capacity};
pub use journey::{Grades, Journey, Plugged};
pub use limits::{GroupLimits, Limit, LimitKind, TrailerLimit, group_limits, trailer_limit};
pub use size::{Size, sizes};

use crate::clearance::{Clearances, clearances};
use crate::findings::{self, Finding, Severity};
use crate::library::Library;
use crate::loads::{CaseLoads, Loads, PositionRange, fifth_wheel_range, loads};
use crate::plan::Plan;
use crate::source::Problem;
use crate::vehicle::Vehicle;

/// Everything that was worked out about a vehicle.
#[derive(Clone, Debug)]
pub struct Answers {
    /// The vehicle.
    pub vehicle: Vehicle,
    /// Loads in every case.
    pub loads: Loads,
    /// Gaps and extents.
    pub clearances: Clearances,
    /// Limits of each axle group.
    pub limits: Vec<GroupLimits>,
    /// Every group of consecutive axles under the bridge formula, or what is missing for it.
    pub bridge: Result<Vec<Bridge>, String>,
    /// Payload that is possible, or what is missing for it.
    pub capacity: Result<Capacity, String>,
    /// Fifth-wheel positions that are possible, or what is missing for it.
    pub fifth_wheel: Result<PositionRange, String>,
}

/// Answers and what follows from them.
#[derive(Clone, Debug)]
pub struct Assessment {
    /// Answers.
    pub answers: Answers,
    /// Findings, worst first.
    pub findings: Vec<Finding>,
}

impl Answers {
    /// Works out everything.
    #[must_use]
    pub fn of(vehicle: Vehicle) -> Self {
        let loads = loads(&vehicle);
        let clearances = clearances(&vehicle);
        let limits = group_limits(&vehicle);
        let bridge = bridge(&vehicle, &loads);
        let capacity = capacity(&vehicle, &limits);
        let lowest: Vec<(String, f64)> = limits
            .iter()
            .filter_map(|g| g.lowest().map(|limit| (g.id.clone(), limit.kg)))
            .collect();
        let fifth_wheel = fifth_wheel_range(&vehicle, &lowest);
        Self {
            vehicle,
            loads,
            clearances,
            limits,
            bridge,
            capacity,
            fifth_wheel,
        }
    }

    /// The heaviest case that the plan states.
    #[must_use]
    pub fn heaviest(&self) -> Option<&CaseLoads> {
        self.loads.heaviest()
    }
}

impl Assessment {
    /// Resolves and assesses a plan.
    ///
    /// # Errors
    /// The problem, when the plan names no chassis that exists.
    pub fn of(plan: &Plan, library: &Library) -> Result<Self, Box<Problem>> {
        let answers = Answers::of(Vehicle::resolve(plan, library)?);
        let findings = findings::all(&answers);
        Ok(Self { answers, findings })
    }

    /// The worst severity of all findings.
    #[must_use]
    pub fn worst(&self) -> Severity {
        self.findings
            .iter()
            .map(|f| f.severity)
            .min()
            .unwrap_or(Severity::NotAssessed)
    }
}
