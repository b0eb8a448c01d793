//! Where the energy came from and where it went, joule.

use serde::Serialize;

/// Energy over a run, joule. What comes in: `cells_j` (falls when packs are charged), `source_j` and
/// `plug_j`. What goes out: all others; `climb_j`, `motion_j` and `air_j` may be negative.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Ledger {
    /// Out of the cells.
    pub cells_j: f64,
    /// Out of generator or fuel cell, electric.
    pub source_j: f64,
    /// Out of plugs on the way, at the truck.
    pub plug_j: f64,
    /// Heat in the packs.
    pub pack_heat_j: f64,
    /// Loss in motors, inverters, gears.
    pub drive_loss_j: f64,
    /// Loss in kept drive axles.
    pub axle_loss_j: f64,
    /// Lost when gears are shifted.
    pub shift_j: f64,
    /// Rolling resistance.
    pub rolling_j: f64,
    /// Air.
    pub air_j: f64,
    /// Height.
    pub climb_j: f64,
    /// Motion.
    pub motion_j: f64,
    /// Friction brakes.
    pub brakes_j: f64,
    /// Accessories: air, steering, cab, pumps, fans.
    pub accessories_j: f64,
    /// Brake resistor.
    pub resistor_j: f64,
    /// Fuel burnt, at its lower heating value.
    pub fuel_j: f64,
    /// At the wheels, driving.
    pub wheel_out_j: f64,
    /// At the wheels, braking by motor.
    pub wheel_back_j: f64,
}

impl Ledger {
    /// What comes in.
    #[must_use]
    pub fn came_in_j(&self) -> f64 {
        self.cells_j + self.source_j + self.plug_j
    }

    /// What goes out.
    #[must_use]
    pub fn went_out_j(&self) -> f64 {
        self.pack_heat_j
            + self.drive_loss_j
            + self.axle_loss_j
            + self.shift_j
            + self.rolling_j
            + self.air_j
            + self.climb_j
            + self.motion_j
            + self.brakes_j
            + self.accessories_j
            + self.resistor_j
    }

    /// Difference of the two, as a share of all energy that was moved.
    #[must_use]
    pub fn gap(&self) -> f64 {
        let moved =
            self.wheel_out_j + self.accessories_j + self.brakes_j + self.pack_heat_j + self.plug_j;
        (self.came_in_j() - self.went_out_j()).abs() / moved.max(1.0)
    }
}
