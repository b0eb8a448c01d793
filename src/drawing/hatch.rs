//! The hatch of each kind of part: told apart in black and white by its strokes, not by its tint.

use crate::part::Kind;

/// A hatch: a tile that repeats, in paper millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hatch {
    /// Tint below the strokes; the same for kinds that do related work.
    pub tint: &'static str,
    /// Width of the tile.
    pub width: f64,
    /// Height of the tile.
    pub height: f64,
    /// Strokes, as path data of the tile.
    pub strokes: &'static str,
}

const STORE: &str = "#cfe8df";
const DRIVE: &str = "#d9e0f4";
const VOLTS: &str = "#fbe3cf";
const SOURCE: &str = "#e9dcef";
const GAS: &str = "#f6efc6";
const COOL: &str = "#d6ebf6";
const HELP: &str = "#e3e9dc";
const PLAIN: &str = "#e9eaec";

/// The hatch of a kind.
#[must_use]
pub const fn hatch(kind: Kind) -> Hatch {
    const fn tile(tint: &'static str, width: f64, height: f64, strokes: &'static str) -> Hatch {
        Hatch {
            tint,
            width,
            height,
            strokes,
        }
    }
    match kind {
        Kind::BatteryPack => tile(STORE, 3.0, 4.0, "M.7 0V3.2M2.2 -1.2V2M2.2 2.8V6"),
        Kind::EAxle => tile(
            DRIVE,
            3.2,
            3.2,
            "M0 3.2L3.2 0M-.4 .4L.4-.4M2.8 3.6L3.6 2.8M.8 3.2L3.2 .8M0 .8L.8 0",
        ),
        Kind::CentralDrive => tile(DRIVE, 1.8, 1.8, "M0 1.8L1.8 0M-.4 .4L.4-.4M1.4 2.2L2.2 1.4"),
        Kind::Motor => tile(DRIVE, 2.2, 2.2, "M0 0L2.2 2.2M-.4 1.8L.4 2.6M1.8-.4L2.6 .4"),
        Kind::Gearbox => tile(DRIVE, 2.6, 2.6, "M0 0L2.6 2.6M0 2.6L2.6 0"),
        Kind::Driveshaft => tile(DRIVE, 4.0, 1.0, "M0 .5H4"),
        Kind::Inverter => tile(VOLTS, 3.2, 2.2, "M0 1.1Q.8 0 1.6 1.1T3.2 1.1"),
        Kind::JunctionBox => tile(VOLTS, 2.0, 2.0, "M0 1H2M1 0V2"),
        Kind::DcDc => tile(VOLTS, 3.2, 2.0, "M.1 .5H1.5M1.7 1.5H3.1"),
        Kind::OnBoardCharger => tile(VOLTS, 2.6, 2.6, "M.7 1.3H1.9M1.3 .7V1.9"),
        Kind::ChargeInlet => tile(
            VOLTS,
            2.4,
            2.4,
            "M.6 1.2A.6.6 0 0 1 1.8 1.2A.6.6 0 0 1 .6 1.2",
        ),
        Kind::GeneratorSet => tile(SOURCE, 3.2, 2.2, "M0 1.7L.8 .5L1.6 1.7L2.4 .5L3.2 1.7"),
        Kind::FuelCell => tile(SOURCE, 3.4, 4.0, "M.5 0V4M1.1 0V4M1.7 0V4"),
        Kind::GasTank => tile(GAS, 2.0, 2.0, "M.5 .5h.02M1.5 1.5h.02"),
        Kind::Exhaust => tile(
            SOURCE,
            2.4,
            2.4,
            "M.2 .2L1.2 1.2L.2 2.2M1.4 .2L2.4 1.2L1.4 2.2",
        ),
        Kind::Radiator => tile(COOL, 1.0, 4.0, "M.5 0V4"),
        Kind::Chiller => tile(COOL, 3.0, 3.0, "M.7 1.5H2.3M1.1 .8L1.9 2.2M1.9 .8L1.1 2.2"),
        Kind::CoolantPump => tile(COOL, 2.2, 3.2, "M1.1 0Q0 .8 1.1 1.6T1.1 3.2"),
        Kind::AirCompressor => tile(HELP, 2.8, 2.8, "M.6 2.1L1.4 .7L2.2 2.1Z"),
        Kind::SteeringPump => tile(HELP, 2.8, 2.8, "M1.4 .5L2.3 1.4L1.4 2.3L.5 1.4Z"),
        Kind::Climate => tile(
            COOL,
            3.2,
            3.0,
            "M0 .8Q.8-.1 1.6 .8T3.2 .8M0 1.6Q.8 .7 1.6 1.6T3.2 1.6",
        ),
        Kind::AuxiliaryCradle => tile(HELP, 2.6, 2.6, "M.7 .7H1.9V1.9H.7Z"),
        Kind::BodyDrive => tile(HELP, 2.6, 2.6, "M.4 2.2L1.2 1.4M1.6 1L2.4 .2"),
        Kind::BrakeResistor => tile(VOLTS, 2.4, 2.4, "M0 1.8H.6V.6H1.8V1.8H2.4"),
        Kind::Cables => tile(VOLTS, 4.0, 1.4, "M0 .7H2.2M2.8 .7H3.2"),
        Kind::Structure => tile(PLAIN, 4.0, 2.0, "M0 2L4 0M-1 .5L1-.5M3 2.5L5 1.5"),
        Kind::Fluid => tile(COOL, 2.6, 2.6, "M1.3 .6Q.6 1.6 1.3 1.9Q2 1.6 1.3 .6"),
        Kind::EquipmentBox => tile(PLAIN, 4.0, 2.4, "M0 0H4M0 1.2H4M1 0V1.2M3 1.2V2.4"),
        Kind::FreeMass => tile(PLAIN, 4.0, 4.0, "M0 4L4 0M-.4 .4L.4-.4M3.6 4.4L4.4 3.6"),
    }
}

/// The word of a kind, as files and the page's classes have it.
#[must_use]
pub const fn word(kind: Kind) -> &'static str {
    match kind {
        Kind::BatteryPack => "battery-pack",
        Kind::EAxle => "e-axle",
        Kind::Motor => "motor",
        Kind::Gearbox => "gearbox",
        Kind::CentralDrive => "central-drive",
        Kind::Driveshaft => "driveshaft",
        Kind::Inverter => "inverter",
        Kind::JunctionBox => "junction-box",
        Kind::DcDc => "dc-dc",
        Kind::OnBoardCharger => "on-board-charger",
        Kind::ChargeInlet => "charge-inlet",
        Kind::GeneratorSet => "generator-set",
        Kind::FuelCell => "fuel-cell",
        Kind::GasTank => "gas-tank",
        Kind::Radiator => "radiator",
        Kind::Chiller => "chiller",
        Kind::CoolantPump => "coolant-pump",
        Kind::AirCompressor => "air-compressor",
        Kind::SteeringPump => "steering-pump",
        Kind::Climate => "climate",
        Kind::AuxiliaryCradle => "auxiliary-cradle",
        Kind::BodyDrive => "body-drive",
        Kind::BrakeResistor => "brake-resistor",
        Kind::Exhaust => "exhaust",
        Kind::Cables => "cables",
        Kind::Structure => "structure",
        Kind::Fluid => "fluid",
        Kind::EquipmentBox => "equipment-box",
        Kind::FreeMass => "free-mass",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_kinds_look_the_same_in_black_and_white() {
        for (i, a) in Kind::ALL.iter().enumerate() {
            for b in &Kind::ALL[i + 1..] {
                let (x, y) = (hatch(*a), hatch(*b));
                assert_ne!(x.strokes, y.strokes, "{a:?} and {b:?}");
            }
        }
    }

    #[test]
    fn words_are_those_of_the_files() {
        for kind in Kind::ALL {
            let file = serde_json::to_string(&kind).expect("a word");
            assert_eq!(file, format!("\"{}\"", word(kind)));
        }
    }
}
