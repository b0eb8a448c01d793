//! A plan: what the user wants. Ids, choices and positions, never a computed number.

mod check;
mod edit;
mod file;
mod frame;
mod history;
mod migrate;
mod moving;

pub use edit::{Edit, Refusal};
pub use frame::FrameChoice;
pub use history::History;
pub use moving::Moving;

use crate::chassis::{Chassis, Spot};
use crate::law::Regime;
use crate::numeric::sort;
use crate::part::Part;
use crate::shared::Shared;
use serde::{Deserialize, Serialize};

/// A plan in the newest file format.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Plan {
    /// File format; [`Plan::FORMAT`] today, older ones are migrated when read.
    pub format: u32,
    /// Name for people and for the title block.
    pub name: String,
    /// The donor.
    pub chassis: ChassisChoice,
    /// What is changed on the donor.
    #[serde(default)]
    pub changes: Changes,
    /// The user's own parts, beside the library's.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub parts: Vec<Part>,
    /// Parts on the truck.
    #[serde(default)]
    pub placed: Vec<Shared<Placed>>,
    /// Driveshafts between a gearbox output and an axle.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub shafts: Vec<ShaftRun>,
    /// What the truck carries.
    #[serde(default)]
    pub loads: Loads,
    /// The road law to hold it against.
    #[serde(default)]
    pub law: LawChoice,
    /// The turn, the ramp and the bump that it must take.
    #[serde(default, skip_serializing_if = "Moving::is_usual")]
    pub moving: Moving,
    /// Strength of the frame and of what holds the parts.
    #[serde(default, skip_serializing_if = "FrameChoice::is_default")]
    pub frame: FrameChoice,
    /// What it is to drive.
    #[serde(default, skip_serializing_if = "Duty::is_unsaid")]
    pub duty: Duty,
    /// Notes for people.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
}

/// What the truck is to drive, and what is taken for it. What is not given is the route's or the
/// chassis's own, or common practice as the drive's report says.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Duty {
    /// Route id.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub route: Option<String>,
    /// How often the route is driven in a day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trips_a_day: Option<u32>,
    /// Days of work in a year.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub days_a_year: Option<f64>,
    /// Air temperature, °C.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature_c: Option<f64>,
    /// Wind against the truck, metres per second.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub headwind_mps: Option<f64>,
    /// Drag area, square metre.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drag_area_m2: Option<f64>,
    /// Rolling coefficient.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rolling: Option<f64>,
    /// Share of the usable energy that is to be left at the end of the day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reserve: Option<f64>,
    /// Share of the new energy that the packs still hold; 1 is new.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub health: Option<f64>,
    /// How the generator or fuel cell is run; it follows the need when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strategy: Option<Strategy>,
    /// State of charge that the generator or fuel cell holds when it follows the need.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hold_soc: Option<f64>,
    /// State of charge below which it starts when it is switched on and off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub start_soc: Option<f64>,
    /// State of charge above which it stops when it is switched on and off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stop_soc: Option<f64>,
    /// The packs start as cold or as warm as the air, without having been kept warm at a plug.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub soaked: bool,
    /// Natural gas in mole fractions; what is missing to 1 is methane.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gas: Option<GasMix>,
    /// Where the truck is charged: the post, its cable.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bay: Option<Bay>,
    /// Hours at the plug in a day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plug_hours: Option<f64>,
}

impl Duty {
    /// Trips a day where none are stated.
    pub const TRIPS_A_DAY: u32 = 1;
    /// Days of work in a year (common practice).
    pub const DAYS_A_YEAR: f64 = 250.0;
    /// Hours at the plug in a night (common practice).
    pub const PLUG_HOURS: f64 = 8.0;
    /// Share of the usable energy that is kept (common practice: 10 to 20 %).
    pub const RESERVE: f64 = 0.15;
    /// Share of the new energy that packs hold at the end of their life (common practice).
    pub const END_HEALTH: f64 = 0.8;
    /// State of charge that a source holds (common practice).
    pub const HOLD_SOC: f64 = 0.6;
    /// State of charge below which a source is switched on (common practice).
    pub const START_SOC: f64 = 0.4;
    /// State of charge above which it is switched off (common practice).
    pub const STOP_SOC: f64 = 0.7;
}

/// How a generator or fuel cell is run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum Strategy {
    /// Follows the average need and holds a state of charge.
    Follow,
    /// Full power from a low state of charge until a high one is reached.
    OnOff,
}

/// Mole fractions of a natural gas besides methane.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct GasMix {
    /// Ethane.
    #[serde(default)]
    pub ethane: f64,
    /// Propane and what is heavier.
    #[serde(default)]
    pub propane: f64,
    /// Nitrogen.
    #[serde(default)]
    pub nitrogen: f64,
    /// Carbon dioxide.
    #[serde(default)]
    pub carbon_dioxide: f64,
}

/// Side of the truck at which a charging post stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum BaySide {
    /// Left of the truck.
    Left,
    /// Right of the truck.
    Right,
    /// Ahead of the bumper.
    Front,
}

/// A charging bay, with the truck standing as it is charged.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Bay {
    /// Side at which the post stands.
    pub side: BaySide,
    /// Where the cable leaves the post: behind the front axle, mm; for a post ahead of the truck, to the
    /// right of the middle.
    pub along_mm: f64,
    /// Free distance between the truck's side, or its bumper, and the post, mm.
    pub off_mm: f64,
    /// Height at which the cable leaves the post, mm.
    pub height_mm: f64,
    /// Length of cable that reaches from the post, mm.
    pub reach_mm: f64,
}

impl Duty {
    /// True when nothing is given.
    #[must_use]
    pub fn is_unsaid(&self) -> bool {
        *self == Self::default()
    }
}

/// Which donor chassis.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case")]
pub enum ChassisChoice {
    /// A template of the library.
    Template(String),
    /// A chassis written into the plan.
    Inline(Box<Chassis>),
}

/// Changes to the donor.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Changes {
    /// New wheelbase; the donor's own when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wheelbase_mm: Option<f64>,
    /// Where the rails are cut for it; the middle of the free rail when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub splice_x_mm: Option<f64>,
    /// New fifth-wheel position ahead of the driven axles; the donor's own when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fifth_wheel_ahead_mm: Option<f64>,
    /// Donor hardware taken off, in the order of their ids.
    #[serde(default)]
    pub stripped: Vec<String>,
    /// Lift axles that are up, in the order of their ids.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub raised: Vec<String>,
}

/// Where a part stands: front face, middle, underside.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Place {
    /// In a zone: x counts from the zone's front end, so that the part follows its zone.
    Zone {
        /// Which zone.
        id: String,
        /// Front face behind the zone's front end.
        from_front_mm: f64,
        /// Middle, from the truck's centre line to the right.
        y_mm: f64,
        /// Underside above ground.
        z_mm: f64,
    },
    /// Free: truck coordinates.
    Free {
        /// Front face behind the front axle centre.
        x_mm: f64,
        /// Middle, from the truck's centre line to the right.
        y_mm: f64,
        /// Underside above ground.
        z_mm: f64,
    },
}

/// One part on the truck.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Placed {
    /// Short mark on the drawing, unique in the plan.
    pub tag: String,
    /// Part id.
    pub part: String,
    /// Where.
    pub place: Place,
    /// Quarter turns to the left (seen from above) about its own middle, 0 to 3.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub turn: u8,
    /// Share of the full contents, 0 to 1; full when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fill: Option<f64>,
    /// Not to be moved.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub locked: bool,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde wants a reference")]
const fn is_zero(turn: &u8) -> bool {
    *turn == 0
}

/// A driveshaft between a placed part's output and an axle's input.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct ShaftRun {
    /// Short mark on the drawing.
    pub tag: String,
    /// Part id of the shaft.
    pub part: String,
    /// Tag of the part that drives it.
    pub from: String,
    /// Axle that it drives.
    pub to_axle: String,
    /// How far the drive is mounted nose up, degrees: its output's axis then falls rearward by as
    /// much. Level when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drive_down_deg: Option<f64>,
    /// Centre bearings on the frame, from the drive to the axle: at each of them one piece of the
    /// shaft ends and the next begins.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bearings: Vec<Spot>,
}

/// What the truck carries.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Loads {
    /// Driver; the seat's place is the chassis's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub driver_kg: Option<f64>,
    /// Load on a rigid truck's body or on the frame.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub payload: Option<Payload>,
    /// Trailer behind a tractor.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trailer: Option<TrailerLoad>,
    /// Payload that was promised, to be held against what is possible.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub target_payload_kg: Option<f64>,
}

/// A load on the truck itself.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Payload {
    /// Mass.
    pub mass_kg: f64,
    /// Where it lies.
    pub at: PayloadPlace,
}

/// Where a load lies.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum PayloadPlace {
    /// With its centre of gravity here.
    Cg(Spot),
    /// Spread evenly over this length ("water level"), this high.
    Level {
        /// Front end of the load.
        front_x_mm: f64,
        /// Rear end of the load.
        rear_x_mm: f64,
        /// Height of its centre of gravity.
        z_mm: f64,
    },
}

/// A trailer and its load.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct TrailerLoad {
    /// Trailer id.
    pub id: String,
    /// Load on the trailer.
    pub payload_kg: f64,
    /// Where it lies, 0 over the kingpin to 1 over the axles; the trailer's own when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub load_cg: Option<f64>,
    /// Kingpin to the trailer's axles, on a trailer whose axles slide; its own when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kingpin_to_axles_mm: Option<f64>,
}

/// Road law to hold the plan against.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(not(target_arch = "wasm32"), derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct LawChoice {
    /// Regime id; without one, road law is not assessed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub regime: Option<String>,
    /// The user claims the law's allowance for the driveline, such as that for electric vehicles.
    #[serde(default)]
    pub allowance: bool,
    /// Which allowance, where the law has several; its first when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub which: Option<String>,
    /// The user states that containers are carried in intermodal transport.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub intermodal: bool,
    /// A law of the user's own, used when `regime` is `own`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub own: Option<Box<Regime>>,
}

impl Plan {
    /// The newest file format.
    pub const FORMAT: u32 = 2;
    /// Most parts that one plan may hold.
    pub const MOST_PARTS: usize = 2_000;

    /// An empty plan on a template, with the template's default strip-out.
    #[must_use]
    pub fn on(chassis: &Chassis) -> Self {
        let mut stripped: Vec<String> = chassis
            .hardware
            .iter()
            .filter(|item| item.strip_by_default)
            .map(|item| item.id.clone())
            .collect();
        sort(&mut stripped);
        Self {
            format: Self::FORMAT,
            name: format!("New plan on {}", chassis.name),
            chassis: ChassisChoice::Template(chassis.id.clone()),
            changes: Changes {
                stripped,
                ..Changes::default()
            },
            parts: Vec::new(),
            placed: Vec::new(),
            shafts: Vec::new(),
            loads: Loads {
                driver_kg: Some(100.0),
                ..Loads::default()
            },
            law: LawChoice::default(),
            moving: Moving::default(),
            frame: FrameChoice::default(),
            duty: Duty::default(),
            notes: String::new(),
        }
    }

    /// The placed part with this mark.
    #[must_use]
    pub fn placed_by_tag(&self, tag: &str) -> Option<&Placed> {
        let mut placed = self.placed.iter().map(AsRef::as_ref);
        placed.find(|p: &&Placed| p.tag == tag)
    }
}
