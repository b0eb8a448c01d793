//! The kinds of part, as words of the trade.

use serde::{Deserialize, Serialize};

/// What a part is. Behaviour hangs on the data a part carries, not on this word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// Traction battery pack.
    BatteryPack,
    /// Axle with its own motor and gears.
    EAxle,
    /// Traction motor without gears.
    Motor,
    /// Gearbox.
    Gearbox,
    /// Motor and gearbox in one housing, driving a shaft.
    CentralDrive,
    /// Driveshaft.
    Driveshaft,
    /// Traction inverter.
    Inverter,
    /// High-voltage junction box.
    JunctionBox,
    /// High to low voltage converter.
    DcDc,
    /// On-board charger.
    OnBoardCharger,
    /// Charge inlet.
    ChargeInlet,
    /// Engine with generator.
    GeneratorSet,
    /// Fuel-cell system.
    FuelCell,
    /// Tank for compressed natural gas or hydrogen.
    GasTank,
    /// Radiator with its fans.
    Radiator,
    /// Refrigeration for battery coolant.
    Chiller,
    /// Coolant pumps.
    CoolantPump,
    /// Electric air compressor.
    AirCompressor,
    /// Electric steering pump.
    SteeringPump,
    /// Heater or air conditioner.
    Climate,
    /// Air, steering and climate drives in one cradle.
    AuxiliaryCradle,
    /// Electric drive for body hydraulics.
    BodyDrive,
    /// Brake resistor.
    BrakeResistor,
    /// Catalyst, muffler, pipe.
    Exhaust,
    /// High-voltage cables.
    Cables,
    /// Brackets, hangers, guards.
    Structure,
    /// Coolant and other fluid in lines.
    Fluid,
    /// Tool or equipment box.
    EquipmentBox,
    /// Any other mass.
    FreeMass,
}

impl Kind {
    /// Every kind, in the order of the shelf.
    pub const ALL: [Self; 29] = [
        Self::BatteryPack,
        Self::EAxle,
        Self::CentralDrive,
        Self::Motor,
        Self::Gearbox,
        Self::Driveshaft,
        Self::Inverter,
        Self::JunctionBox,
        Self::DcDc,
        Self::OnBoardCharger,
        Self::ChargeInlet,
        Self::GeneratorSet,
        Self::FuelCell,
        Self::GasTank,
        Self::Exhaust,
        Self::Radiator,
        Self::Chiller,
        Self::CoolantPump,
        Self::AirCompressor,
        Self::SteeringPump,
        Self::Climate,
        Self::AuxiliaryCradle,
        Self::BodyDrive,
        Self::BrakeResistor,
        Self::Cables,
        Self::Structure,
        Self::Fluid,
        Self::EquipmentBox,
        Self::FreeMass,
    ];

    /// The words shown to a person.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::BatteryPack => "battery pack",
            Self::EAxle => "e-axle",
            Self::Motor => "motor",
            Self::Gearbox => "gearbox",
            Self::CentralDrive => "central drive",
            Self::Driveshaft => "driveshaft",
            Self::Inverter => "inverter",
            Self::JunctionBox => "junction box",
            Self::DcDc => "DC-DC converter",
            Self::OnBoardCharger => "on-board charger",
            Self::ChargeInlet => "charge inlet",
            Self::GeneratorSet => "generator set",
            Self::FuelCell => "fuel-cell system",
            Self::GasTank => "gas tank",
            Self::Radiator => "radiator",
            Self::Chiller => "chiller",
            Self::CoolantPump => "coolant pumps",
            Self::AirCompressor => "air compressor",
            Self::SteeringPump => "steering pump",
            Self::Climate => "heater and air conditioner",
            Self::AuxiliaryCradle => "auxiliary cradle",
            Self::BodyDrive => "body drive",
            Self::BrakeResistor => "brake resistor",
            Self::Exhaust => "exhaust",
            Self::Cables => "high-voltage cables",
            Self::Structure => "brackets and guards",
            Self::Fluid => "fluid",
            Self::EquipmentBox => "equipment box",
            Self::FreeMass => "free mass",
        }
    }

    /// The letter with which marks on the drawing begin.
    #[must_use]
    pub const fn letter(self) -> char {
        match self {
            Self::BatteryPack => 'B',
            Self::EAxle | Self::Motor | Self::Gearbox | Self::CentralDrive | Self::Driveshaft => {
                'D'
            }
            Self::Inverter => 'V',
            Self::JunctionBox | Self::DcDc | Self::OnBoardCharger | Self::ChargeInlet => 'H',
            Self::GeneratorSet => 'G',
            Self::FuelCell => 'F',
            Self::GasTank => 'T',
            Self::Exhaust => 'X',
            Self::Radiator | Self::Chiller | Self::CoolantPump => 'C',
            Self::AirCompressor
            | Self::SteeringPump
            | Self::Climate
            | Self::AuxiliaryCradle
            | Self::BodyDrive => 'A',
            Self::BrakeResistor => 'R',
            Self::Cables | Self::Structure | Self::Fluid => 'W',
            Self::EquipmentBox | Self::FreeMass => 'Z',
        }
    }

    /// The word in files and on the drawing's classes, such as `battery-pack`.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::BatteryPack => "battery-pack",
            Self::EAxle => "e-axle",
            Self::CentralDrive => "central-drive",
            Self::Motor => "motor",
            Self::Gearbox => "gearbox",
            Self::Driveshaft => "driveshaft",
            Self::Inverter => "inverter",
            Self::JunctionBox => "junction-box",
            Self::DcDc => "dc-dc",
            Self::OnBoardCharger => "on-board-charger",
            Self::ChargeInlet => "charge-inlet",
            Self::GeneratorSet => "generator-set",
            Self::FuelCell => "fuel-cell",
            Self::GasTank => "gas-tank",
            Self::Exhaust => "exhaust",
            Self::Radiator => "radiator",
            Self::Chiller => "chiller",
            Self::CoolantPump => "coolant-pump",
            Self::AirCompressor => "air-compressor",
            Self::SteeringPump => "steering-pump",
            Self::Climate => "climate",
            Self::AuxiliaryCradle => "auxiliary-cradle",
            Self::BodyDrive => "body-drive",
            Self::BrakeResistor => "brake-resistor",
            Self::Cables => "cables",
            Self::Structure => "structure",
            Self::Fluid => "fluid",
            Self::EquipmentBox => "equipment-box",
            Self::FreeMass => "free-mass",
        }
    }
}
