//! The one façade: a vehicle goes in, answers and findings come out.

mod abilities;
mod aboard;
mod balance;
mod bay;
mod best;
mod bounds;
mod bridge;
mod capacity;
mod course;
mod frame;
mod journey;
mod limits;
mod plugged;
mod position;
mod ranges;
mod ready;
mod road;
mod size;

pub use abilities::Grades;
pub use aboard::Aboard;
pub use balance::{CaseBalance, DonorBalance, balance};
pub use bay::{Cable, SLACK, cables};
pub use best::{Best, BestPositions, best_positions};
pub use bounds::{Bound, Bounds, Stand};
pub use bridge::{Bridge, bridge};
pub use capacity::{Capacity, CapacityRow, Passed, capacity};
pub use course::{CircuitHeat, CooledTo, Heat, Pull};
pub use frame::frame_of;
pub use journey::Journey;
pub use limits::{GroupLimits, Limit, LimitKind, TrailerLimit, group_limits, trailer_limit};
pub use plugged::{Plugged, plugged};
pub use position::{AxleHoles, Binding, PositionRange, axle_holes, fifth_wheel_range};
pub use ranges::{RangeAt, Reach, TEMPERATURES_C, ranges};
pub use ready::Ready;
pub use road::Road;
pub use size::{Goal, MOST_PACKS, Packs, Short, Size, Sizes, sizes};

use crate::clearance::{Clearances, clearances_after};
use crate::driveline::{Driveline, driveline_after};
use crate::findings::{self, Finding, Severity};
use crate::frame::{Frame, MountForces, mount_forces};
use crate::library::Library;
use crate::loads::{CaseLoads, Loads, loads};
use crate::manoeuvre::{Manoeuvre, manoeuvre};
use crate::plan::Plan;
use crate::shared::Shared;
use crate::source::Problem;
use crate::vehicle::Vehicle;

/// Everything that was worked out about a vehicle.
#[derive(Clone, Debug)]
pub struct Answers {
    /// The vehicle.
    pub vehicle: Shared<Vehicle>,
    /// Loads in every case.
    pub loads: Loads,
    /// Gaps and extents.
    pub clearances: Clearances,
    /// The truck moving: circles, angles, ramp and bump.
    pub manoeuvre: Manoeuvre,
    /// Axles on the road, with the limits of each group of them.
    pub road: Shared<Road>,
    /// Every group of consecutive axles under the bridge formula, or what is missing for it.
    pub bridge: Result<Vec<Bridge>, String>,
    /// Payload that is possible, or what is missing for it.
    pub capacity: Result<Capacity, String>,
    /// Centre of gravity and roll-over threshold in every case.
    pub balance: Vec<CaseBalance>,
    /// Driveshafts.
    pub driveline: Shared<Driveline>,
    /// Fifth-wheel positions that are possible, or what is missing for it.
    pub fifth_wheel: Result<PositionRange, String>,
    /// Holes of the trailer's axle slider that are possible; `None` when its axles do not slide.
    pub trailer_axles: Option<Result<AxleHoles, String>>,
    /// Shear and bending of the rails, or what is missing for it.
    pub frame: Result<Frame, String>,
    /// What parts ask of their mounts.
    pub mounts: Vec<Shared<MountForces>>,
}

/// Answers and what follows from them.
#[derive(Clone, Debug)]
pub struct Assessment {
    /// Answers.
    pub answers: Answers,
    /// Findings, worst first.
    pub findings: Vec<Shared<Finding>>,
}

impl Answers {
    /// Works out everything.
    #[must_use]
    pub fn of(vehicle: Vehicle) -> Self {
        Self::after(vehicle, None)
    }

    /// The same answers; what the vehicle shares with another one whose answers are known is taken from
    /// there.
    fn after(vehicle: Vehicle, before: Option<&Self>) -> Self {
        let loads = loads(&vehicle);
        let clearances = clearances_after(&vehicle, before.map(|b| (&*b.vehicle, &b.clearances)));
        let known = before.map(|b| (&*b.vehicle, &b.manoeuvre));
        let manoeuvre = manoeuvre(&vehicle, known);
        let balance = balance(&vehicle, &loads);
        let known = before.map(|b| (&*b.vehicle, &b.driveline));
        let driveline = driveline_after(&vehicle, known);
        let stays = before.filter(|b| road::stays(&vehicle, &b.vehicle));
        let road = stays.map_or_else(|| Road::of(&vehicle).into(), |b| b.road.clone());
        let bridge = bridge(&vehicle, &loads, &road);
        let bounds = Bounds::of(&vehicle, &road);
        let capacity = bounds.as_ref().map_err(Clone::clone).and_then(capacity);
        let fifth_wheel = fifth_wheel_range(
            &vehicle,
            bounds.as_ref(),
            stays.and_then(|b| b.fifth_wheel.as_ref().ok()),
        );
        let trailer_axles = axle_holes(
            &vehicle,
            bounds.as_ref(),
            stays.and_then(|b| b.trailer_axles.as_ref()?.as_ref().ok()),
        );
        let frame = frame_of(&vehicle, &loads);
        let known = before.map(|b| (&*b.vehicle, &*b.mounts));
        let mounts = mount_forces(&vehicle, known);
        Self {
            vehicle: vehicle.into(),
            loads,
            clearances,
            manoeuvre,
            road,
            bridge,
            capacity,
            balance,
            driveline,
            fifth_wheel,
            trailer_axles,
            frame,
            mounts,
        }
    }

    /// Best places of fifth wheel and trailer axles; worked out when asked for, not with every answer.
    ///
    /// # Errors
    /// What is missing.
    pub fn best_positions(&self) -> Result<BestPositions, String> {
        Ok(best_positions(&Bounds::of(&self.vehicle, &self.road)?))
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
        Self::after(plan, library, None)
    }

    /// The same, quicker when little has changed since another plan was assessed.
    ///
    /// # Errors
    /// The problem, when the plan names no chassis that exists.
    pub fn after(
        plan: &Plan,
        library: &Library,
        before: Option<&Self>,
    ) -> Result<Self, Box<Problem>> {
        let known = before.map(|b| &*b.answers.vehicle);
        let vehicle = Vehicle::resolve_after(plan, library, known)?;
        let answers = Answers::after(vehicle, before.map(|b| &b.answers));
        let known = before.map(|b| (&b.answers, &*b.findings));
        let findings = findings::all(&answers, known);
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
