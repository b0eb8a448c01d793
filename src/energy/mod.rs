//! What the truck does on a route: the one time loop of the program.
//!
//! Question: does this truck, as heavy as it was worked out to be, drive that route, and what does it
//! cost? Method: fixed time steps; in each, the force that the driver wants is held against what
//! motor, gears, tyres on the driven axles, packs and sources can give, and the speed that results is
//! driven. The wheel's work over a step is exact for the speeds at its ends, so that the ledger
//! closes to rounding. At a stop the truck may be charged, and its load may change.
//!
//! Assumptions: the truck is one mass on one point of the road; static axle loads limit the grip; wheels
//! roll without slip; parts of the same kind share their work equally; packs have one temperature.

mod charge;
mod cooling;
mod course;
mod driver;
mod ledger;
mod limits;
mod outcome;
mod plug;
mod resistance;
mod run;
mod sprint;
mod state;
mod truck;
mod wear;

pub use charge::{Charge, Limits, Moment, charge};
pub use cooling::Cooling;
pub use driver::Driver;
pub use ledger::Ledger;
pub use limits::{Gait, TractionPoint, held_speed_mps, launch_grade, traction_curve};
pub use outcome::{Charged, Conditions, End, Run, Sample, Strategy};
pub use plug::{CHARGER_EFFICIENCY, Feed, OUTLETS, Outlet, PLUGS, Plug, Socket, Takes, strongest};
pub use resistance::{Forces, GRAVITY, Resistance};
pub use run::run;
pub use sprint::{Sprint, sprint};
pub use truck::{Accessories, Setting, Truck};
pub use wear::{Wear, damage, rainflow, wear};
