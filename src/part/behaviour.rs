//! What a part can do, as far as it is known: data for the driveline, energy and heat answers.
//!
//! Power in kilowatt, energy in kilowatt-hour, voltage in volt, torque in newton metre, speed in
//! revolutions per minute, efficiency as a fraction. A field that is not known is left out and the
//! answer that needs it says "not assessed"; there are no hidden defaults.

use crate::source::Checker;
use serde::{Deserialize, Serialize};

macro_rules! data {
    ($($(#[$doc:meta])* $name:ident { $($(#[$fdoc:meta])* $field:ident : $ty:ty,)* })*) => {$(
        $(#[$doc])*
        #[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
        #[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
        #[serde(deny_unknown_fields)]
        pub struct $name { $(
            $(#[$fdoc])*
            #[serde(default, skip_serializing_if = "crate::part::behaviour::Blank::blank")]
            pub $field: $ty,
        )* }
    )*};
}

/// Tells serde which values need not be written.
pub(super) trait Blank {
    /// True when the value says nothing.
    fn blank(&self) -> bool;
}
impl<T> Blank for Option<T> {
    fn blank(&self) -> bool {
        self.is_none()
    }
}
impl Blank for bool {
    fn blank(&self) -> bool {
        !self
    }
}
impl<T> Blank for Vec<T> {
    fn blank(&self) -> bool {
        self.is_empty()
    }
}

/// Cell chemistry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "UPPERCASE")]
pub enum Chemistry {
    /// Nickel manganese cobalt.
    Nmc,
    /// Lithium iron phosphate.
    Lfp,
    /// Lithium titanate.
    Lto,
}

impl Chemistry {
    /// As the trade writes it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Nmc => "NMC",
            Self::Lfp => "LFP",
            Self::Lto => "LTO",
        }
    }
}

/// Gas that a tank holds or an engine burns.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Fuel {
    /// Compressed natural gas.
    NaturalGas,
    /// Compressed hydrogen.
    Hydrogen,
    /// Diesel fuel, in a kept donor tank.
    Diesel,
}

/// What a tank holds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Contents {
    /// Which gas or fluid.
    pub fuel: Fuel,
    /// Mass when full.
    pub full_kg: f64,
    /// Share of the full mass that can be used.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub usable: Option<f64>,
    /// Water volume in litres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub water_l: Option<f64>,
    /// Nominal working pressure, megapascal.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pressure_mpa: Option<f64>,
}

data! {
    /// A battery pack.
    Battery {
        /// Cell chemistry.
        chemistry: Option<Chemistry>,
        /// Gross energy.
        energy_kwh: Option<f64>,
        /// Nominal voltage.
        nominal_v: Option<f64>,
        /// Power that can be drawn without end.
        continuous_kw: Option<f64>,
        /// Power that can be drawn for 30 seconds.
        peak_kw: Option<f64>,
        /// Power that can be charged.
        charge_kw: Option<f64>,
        /// Lowest state of charge in use, fraction.
        soc_low: Option<f64>,
        /// Highest state of charge in use, fraction.
        soc_high: Option<f64>,
        /// Cycles to 80 % of the energy.
        cycle_life: Option<f64>,
        /// Side to which gas would vent.
        vent: Option<String>,
    }
    /// A traction motor, with its gears if it has any.
    Motor {
        /// Power without end.
        continuous_kw: Option<f64>,
        /// Short power.
        peak_kw: Option<f64>,
        /// Largest torque.
        peak_nm: Option<f64>,
        /// Highest speed.
        max_rpm: Option<f64>,
        /// Gear ratios, lowest gear first; a motor without any has no gears.
        ratios: Vec<f64>,
        /// Motor to output.
        efficiency: Option<f64>,
        /// Nominal voltage.
        nominal_v: Option<f64>,
    }
    /// The wheel-carrying side of an e-axle.
    AxleBeam {
        /// Axle rating.
        rating_kg: Option<f64>,
        /// Mass that the file's mass leaves out and the donor keeps: hubs, brakes, wheels.
        keeps_hubs: Option<bool>,
        /// Width over the wheel flanges.
        flange_width_mm: Option<f64>,
    }
    /// A tubular driveshaft of steel; its length comes from what it joins.
    ShaftTube {
        /// Length for which the part's mass holds.
        nominal_length_mm: Option<f64>,
        /// Mass for each metre more.
        kg_per_m: Option<f64>,
        /// Outer diameter of the tube.
        tube_od_mm: Option<f64>,
        /// Inner diameter of the tube.
        tube_id_mm: Option<f64>,
        /// Largest torque of the tube with its welds and slip.
        rating_nm: Option<f64>,
        /// Largest torque of the joints.
        joint_nm: Option<f64>,
        /// Largest angle of a joint before its yokes touch, degrees.
        joint_max_deg: Option<f64>,
        /// How much the slip lets the shaft change its length, from shortest to longest.
        plunge_mm: Option<f64>,
    }
    /// An engine with generator, or a fuel-cell system.
    SourceUnit {
        /// Electric power without end, own consumers taken off.
        continuous_kw: Option<f64>,
        /// Fuel (lower heating value) to electricity at that power.
        efficiency: Option<f64>,
        /// The same at half of that power.
        efficiency_half: Option<f64>,
        /// Heat into the coolant at that power.
        heat_coolant_kw: Option<f64>,
        /// Heat into the exhaust at that power.
        heat_exhaust_kw: Option<f64>,
        /// Coolant temperature at the outlet, °C.
        coolant_out_c: Option<f64>,
        /// What it burns.
        fuel: Option<Fuel>,
        /// Seconds from start to full power.
        warm_up_s: Option<f64>,
        /// Least time that it runs once started, seconds.
        least_run_s: Option<f64>,
        /// Most that its power may rise in a second, as a share of full power.
        ramp_share_s: Option<f64>,
        /// Least power while it runs, as a share of full power.
        least_share: Option<f64>,
        /// Share of its power that is lost at the end of its life.
        ageing_share: Option<f64>,
        /// Height above the sea up to which it has full power, metres.
        full_to_m: Option<f64>,
        /// Share of its power that is lost with each further kilometre of height.
        loss_per_km: Option<f64>,
    }
    /// An inverter or a DC-DC converter.
    Converter {
        /// Power without end.
        continuous_kw: Option<f64>,
        /// Short power.
        peak_kw: Option<f64>,
        /// Nominal voltage on the high side.
        nominal_v: Option<f64>,
        /// Voltage on the low side.
        low_v: Option<f64>,
    }
    /// An on-board charger.
    Charger {
        /// Power from the grid.
        ac_kw: Option<f64>,
    }
    /// A charge inlet.
    Inlet {
        /// Standard of the plug.
        standard: Option<String>,
        /// Largest current.
        max_a: Option<f64>,
        /// Largest voltage.
        max_v: Option<f64>,
    }
    /// A radiator or chiller.
    Cooler {
        /// Heat given away at 40 °C ambient.
        heat_kw_at_40c: Option<f64>,
        /// Coolant temperature at which that heat is given away, °C.
        coolant_c: Option<f64>,
        /// Fan or compressor power.
        fan_kw: Option<f64>,
        /// Face area, square metres.
        face_m2: Option<f64>,
    }
    /// An electric consumer.
    Load {
        /// Air compressor.
        air_kw: Option<f64>,
        /// Steering pump.
        steer_kw: Option<f64>,
        /// Heating and cooling of the cab.
        climate_kw: Option<f64>,
        /// Anything else.
        other_kw: Option<f64>,
        /// What a brake resistor turns into heat, on demand.
        brake_kw: Option<f64>,
    }
    /// What holds a part on the rails.
    Mounts {
        /// Rows of brackets along the truck, from the part's front face before it is turned, mm.
        rows_mm: Vec<f64>,
        /// Brackets in all.
        brackets: Option<u32>,
        /// Bolts in all.
        bolts: Option<u32>,
        /// Largest force in any direction that brackets and bolts bear together, newton.
        rating_n: Option<f64>,
        /// The part comes without brackets: who converts the truck designs them and has to prove them. A
        /// stated strength goes before this.
        own_design: bool,
    }
    /// A hot outer surface.
    HotSurface {
        /// Highest surface temperature, °C.
        surface_c: Option<f64>,
    }
}

/// A flange for a driveshaft, in the part's own axes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Port {
    /// Centre of the joint, `[x, y, z]`.
    pub at_mm: [f64; 3],
}

impl Motor {
    /// Lowest and top gear: the largest and the smallest ratio; 1 and 1 for a motor without gears.
    #[must_use]
    pub fn gears(&self) -> (f64, f64) {
        let low = self
            .ratios
            .iter()
            .copied()
            .fold(f64::NEG_INFINITY, f64::max);
        let top = self.ratios.iter().copied().fold(f64::INFINITY, f64::min);
        if self.ratios.is_empty() {
            (1.0, 1.0)
        } else {
            (low, top)
        }
    }
}

impl ShaftTube {
    /// Ranges that a truck's shaft keeps.
    pub(crate) fn check(&self, c: &mut Checker) {
        c.range_if("nominal_length_mm", self.nominal_length_mm, 50.0, 6_000.0);
        c.range_if("kg_per_m", self.kg_per_m, 0.0, 200.0);
        c.range_if("tube_od_mm", self.tube_od_mm, 20.0, 400.0);
        let widest = self.tube_od_mm.unwrap_or(400.0);
        c.range_if("tube_id_mm", self.tube_id_mm, 0.0, widest);
        c.range_if("rating_nm", self.rating_nm, 0.0, 200_000.0);
        c.range_if("joint_nm", self.joint_nm, 0.0, 200_000.0);
        c.range_if("joint_max_deg", self.joint_max_deg, 1.0, 60.0);
        c.range_if("plunge_mm", self.plunge_mm, 0.0, 1_000.0);
    }
}
