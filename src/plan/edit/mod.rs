//! Every change that a person can make, as one value.

use super::{
    Duty, FrameChoice, LawChoice, Moving, Payload, PayloadPlace, Place, Placed, Plan, ShaftRun,
    TrailerLoad,
};
use crate::chassis::{AxleKind, Chassis};
use crate::law::Regime;
use crate::library::Library;
use crate::numeric::{sort, sort_by};
use crate::part::Part;
use crate::quantity::{both_lengths, repeated};
use crate::shared::Shared;
use crate::source::{Problems, from_value};
use crate::vehicle::{Vehicle, find_part, listed};
use serde::{Deserialize, Serialize};
use serde_json::Value;

mod name;
mod parts;
mod shafts;

/// One change to a plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Edit {
    /// Puts a part on the truck; the tag is made from the part's kind when not given. A driveshaft is run
    /// from a drive to an axle instead, wherever it is put.
    Place {
        /// Part id.
        part: String,
        /// Front face, truck coordinates.
        x_mm: f64,
        /// Middle.
        y_mm: f64,
        /// Underside.
        z_mm: f64,
        /// Zone to count it in.
        #[serde(default)]
        zone: Option<String>,
        /// Quarter turns.
        #[serde(default)]
        turn: u8,
        /// Mark on the drawing.
        #[serde(default)]
        tag: Option<String>,
    },
    /// Moves a part, in truck coordinates; it stays in its zone unless one is named.
    Move {
        /// Which part.
        tag: String,
        /// Front face.
        x_mm: f64,
        /// Middle.
        y_mm: f64,
        /// Underside.
        z_mm: f64,
        /// New zone.
        #[serde(default)]
        zone: Option<String>,
    },
    /// Counts a part in another zone, or in none, where it stands.
    Zone {
        /// Which part.
        tag: String,
        /// The zone, or none.
        zone: Option<String>,
    },
    /// Turns a part by a quarter about its own middle.
    Turn {
        /// Which part.
        tag: String,
    },
    /// Takes a part or a shaft off.
    Delete {
        /// Which.
        tag: String,
    },
    /// Puts a copy behind a part.
    Duplicate {
        /// Which part.
        tag: String,
    },
    /// Puts a part to the same place on the other side.
    Mirror {
        /// Which part.
        tag: String,
    },
    /// Locks a part against moving, or frees it.
    Lock {
        /// Which part.
        tag: String,
        /// Locked or free.
        on: bool,
    },
    /// Says how full a part is.
    Fill {
        /// Which part.
        tag: String,
        /// Share of the full contents, 0 to 1.
        share: f64,
    },
    /// Gives a part another mark.
    Retag {
        /// Which part.
        tag: String,
        /// The new mark.
        new: String,
    },
    /// Runs a driveshaft from a part to an axle.
    Shaft(ShaftRun),
    /// Adds a part of the user's own, or replaces one with the same id.
    OwnPart(Box<Part>),
    /// Takes donor hardware off.
    Strip {
        /// Hardware id.
        item: String,
    },
    /// Leaves donor hardware on.
    Keep {
        /// Hardware id.
        item: String,
    },
    /// Sets the wheelbase.
    Wheelbase {
        /// New wheelbase.
        mm: f64,
    },
    /// Sets where the rails are cut.
    Splice {
        /// Behind the front axle.
        x_mm: f64,
    },
    /// Slides the fifth wheel.
    FifthWheel {
        /// Ahead of the driven axles.
        ahead_mm: f64,
    },
    /// Raises a lift axle.
    Raise {
        /// Axle id.
        axle: String,
    },
    /// Lowers a lift axle.
    Lower {
        /// Axle id.
        axle: String,
    },
    /// Sets the driver's mass.
    Driver {
        /// Mass; none means nobody aboard.
        kg: Option<f64>,
    },
    /// Sets the load on the truck.
    Payload(Option<Payload>),
    /// Sets the promised payload.
    Target {
        /// Mass; none means nothing was promised.
        kg: Option<f64>,
    },
    /// Sets the trailer and its load.
    Trailer(Option<TrailerLoad>),
    /// Chooses the road law.
    Law(LawChoice),
    /// Sets the turn, the ramp and the bump.
    Moving(Box<Moving>),
    /// Sets the duty: route, trips, weather, reserve.
    Duty(Box<Duty>),
    /// Sets factors, accelerations and reinforcements of the frame.
    Frame(Box<FrameChoice>),
    /// Names the plan.
    Rename {
        /// New name.
        name: String,
    },
    /// Writes the notes.
    Notes {
        /// New text.
        text: String,
    },
}

/// Why an edit is not possible. The plan is unchanged.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, thiserror::Error)]
#[error("{0}")]
pub struct Refusal(pub String);

impl Refusal {
    fn new(text: impl Into<String>) -> Self {
        Self(text.into())
    }
}

impl Edit {
    /// Reads an edit in the flat form in which the page sends it: `{"do": "move", "tag": "B1", …}`.
    /// A field named `value` stands for the whole of an edit that is not a list of fields, such as
    /// `{"do": "trailer", "value": null}`.
    ///
    /// # Errors
    /// What does not fit, with its path.
    pub fn from_value(value: &Value) -> Result<Self, Refusal> {
        let mut rest = value.as_object().cloned().unwrap_or_default();
        let Some(Value::String(what)) = rest.remove("do") else {
            return Err(Refusal::new("an edit says what to do, as a word in `do`"));
        };
        let inner = rest.remove("value").unwrap_or(Value::Object(rest));
        let tagged = Value::Object([(what, inner)].into_iter().collect());
        from_value("edit", &tagged).map_err(|problems: Problems| Refusal::new(problems.to_string()))
    }

    /// The plan with this edit made.
    ///
    /// # Errors
    /// The reason why the edit is not possible.
    pub fn applied(&self, plan: &Plan, library: &Library) -> Result<Plan, Refusal> {
        let mut next = plan.clone();
        self.make(&mut next, library)?;
        next.check_after("plan", Some(plan))
            .map_err(|problems| Refusal::new(problems.to_string()))?;
        Ok(next)
    }

    fn make(&self, plan: &mut Plan, library: &Library) -> Result<(), Refusal> {
        match self {
            Self::Strip { item } | Self::Keep { item } => {
                let vehicle = resolved(plan, library)?;
                if !vehicle.donor.hardware.iter().any(|h| &h.id == item) {
                    let known = listed(vehicle.donor.hardware.iter().map(|h| &h.id));
                    return Err(Refusal::new(format!("no hardware \"{item}\" ({known})")));
                }
                let list = &mut plan.changes.stripped;
                list.retain(|id| id != item);
                if matches!(self, Self::Strip { .. }) {
                    list.push(item.clone());
                    sort(list);
                    refuse_problem_at("changes.stripped", plan, library)?;
                }
            }
            Self::Wheelbase { mm } => change_wheelbase(plan, library, *mm)?,
            Self::Splice { x_mm } => {
                plan.changes.splice_x_mm = Some(*x_mm);
                refuse_problem_at("changes.splice_x_mm", plan, library)?;
            }
            Self::FifthWheel { ahead_mm } => {
                let vehicle = bare(plan, library)?;
                let Some(fw) = &vehicle.chassis.fifth_wheel else {
                    return Err(Refusal::new("this chassis has no fifth wheel"));
                };
                if !ahead_mm.is_finite()
                    || *ahead_mm < fw.ahead_min_mm
                    || *ahead_mm > fw.ahead_max_mm
                {
                    let [low, high] = [fw.ahead_min_mm, fw.ahead_max_mm].map(|mm| match mm {
                        ..0.0 => format!("{} behind", both_lengths(-mm)),
                        _ => format!("{} ahead", both_lengths(mm)),
                    });
                    let asked = length_or_number(*ahead_mm);
                    return Err(Refusal::new(format!(
                        "the slider reaches from {low} to {high}, not to {asked} ahead"
                    )));
                }
                plan.changes.fifth_wheel_ahead_mm = Some(*ahead_mm);
            }
            Self::Raise { axle } | Self::Lower { axle } => {
                let vehicle = bare(plan, library)?;
                let lift = vehicle.axle(axle).is_some_and(|a| a.kind == AxleKind::Lift);
                if !lift {
                    return Err(Refusal::new(format!("\"{axle}\" is not a lift axle")));
                }
                plan.changes.raised.retain(|id| id != axle);
                if matches!(self, Self::Raise { .. }) {
                    plan.changes.raised.push(axle.clone());
                    sort(&mut plan.changes.raised);
                }
            }
            Self::Driver { kg } => plan.loads.driver_kg = *kg,
            Self::Payload(payload) => plan.loads.payload.clone_from(payload),
            Self::Target { kg } => plan.loads.target_payload_kg = *kg,
            Self::Trailer(trailer) => {
                if let Some(load) = trailer {
                    known("trailer", &load.id, library.trailers.keys())?;
                    if bare(plan, library)?.chassis.fifth_wheel.is_none() {
                        return Err(Refusal::new("this chassis has no fifth wheel"));
                    }
                }
                plan.loads.trailer.clone_from(trailer);
            }
            Self::Law(law) => {
                if let Some(id) = &law.regime
                    && !(id == Regime::OWN && law.own.is_some())
                {
                    known("road law", id, library.laws.keys())?;
                }
                plan.law.clone_from(law);
            }
            Self::Moving(moving) => plan.moving = (**moving).clone(),
            Self::Duty(duty) => plan.duty = (**duty).clone(),
            Self::Frame(frame) => plan.frame.clone_from(frame),
            Self::Rename { name } => plan.name.clone_from(name),
            Self::Notes { text } => plan.notes.clone_from(text),
            Self::OwnPart(part) => {
                plan.parts.retain(|p| p.id != part.id);
                plan.parts.push((**part).clone());
                sort_by(&mut plan.parts, |a, b| a.id.cmp(&b.id));
            }
            _ => self.make_on_parts(plan, library)?,
        }
        Ok(())
    }
}

fn resolved(plan: &Plan, library: &Library) -> Result<Vehicle, Refusal> {
    Vehicle::resolve(plan, library).map_err(|problem| Refusal::new(problem.to_string()))
}

/// The chassis and its zones, for edits that look at nothing else.
fn bare(plan: &Plan, library: &Library) -> Result<Vehicle, Refusal> {
    Vehicle::bare(plan, library).map_err(|problem| Refusal::new(problem.to_string()))
}

fn known<'a>(
    what: &str,
    id: &str,
    mut ids: impl Iterator<Item = &'a String> + Clone,
) -> Result<(), Refusal> {
    let list = listed(ids.clone());
    if ids.any(|one| one == id) {
        Ok(())
    } else {
        Err(Refusal::new(format!(
            "no {what} \"{id}\" in the library ({list})"
        )))
    }
}

/// What would be a problem in a file is refused on the bench.
fn refuse_problem_at(path: &str, plan: &Plan, library: &Library) -> Result<(), Refusal> {
    let vehicle = resolved(plan, library)?;
    let found = vehicle.problems.iter().find(|p| p.path == path);
    found.map_or(Ok(()), |problem| Err(Refusal::new(problem.to_string())))
}

/// A length in both units; one that is absurd, as the number it is.
fn length_or_number(mm: f64) -> String {
    if mm.is_finite() && mm.abs() < 1e9 {
        both_lengths(mm)
    } else {
        repeated(mm)
    }
}

/// A new wheelbase moves what is placed behind the splice along with the frame.
fn change_wheelbase(plan: &mut Plan, library: &Library, mm: f64) -> Result<(), Refusal> {
    let (low, high) = (Chassis::WHEELBASE_MIN_MM, Chassis::WHEELBASE_MAX_MM);
    if !mm.is_finite() || mm < low || mm > high {
        return Err(Refusal::new(format!(
            "a wheelbase of {} is outside {} to {}",
            length_or_number(mm),
            both_lengths(low),
            both_lengths(high)
        )));
    }
    let before = resolved(plan, library)?;
    let splice = before.splice_x_mm;
    let by = mm - before.chassis.dimensions.wheelbase_mm;
    let donor = before.donor.dimensions.wheelbase_mm;
    plan.changes.wheelbase_mm = (mm != donor).then_some(mm);
    let after = resolved(plan, library)?;
    if after.chassis.dimensions.cab_to_axle_mm() < 500.0 {
        return Err(Refusal::new(format!(
            "a wheelbase of {} leaves less than {} between cab and driven axle",
            both_lengths(mm),
            both_lengths(500.0)
        )));
    }
    // What lies in a rigid body goes with it.
    if after.chassis.body.is_some()
        && let Some(payload) = &mut plan.loads.payload
    {
        match &mut payload.at {
            PayloadPlace::Cg(spot) => spot.x_mm += by,
            PayloadPlace::Level {
                front_x_mm,
                rear_x_mm,
                ..
            } => {
                *front_x_mm += by;
                *rear_x_mm += by;
            }
        }
    }
    // Only what stands wholly behind the cut moves with the rear frame; a shorter frame takes the same
    // things back to where they came from.
    let edge = if by < 0.0 { splice - by } else { splice };
    for bearing in plan.shafts.iter_mut().flat_map(|run| &mut run.bearings) {
        if bearing.x_mm >= edge {
            bearing.x_mm += by;
        }
    }
    for placed in &mut plan.placed {
        let Some(item) = before.item(&placed.tag) else {
            continue;
        };
        // An axle's zone moves with the axle, and what is the axle stays in its middle.
        if item.unsprung_axle.is_some() {
            continue;
        }
        let moves = item.bounds.min.x >= edge;
        match &mut placed.place {
            Place::Free { x_mm, .. } if moves => *x_mm += by,
            Place::Free { .. } => {}
            Place::Zone {
                id, from_front_mm, ..
            } => {
                let front = |v: &Vehicle| v.zone(id).map_or(0.0, |z| z.volume.min.x);
                let zone_moved = front(&after) - front(&before);
                let wanted = if moves { by } else { 0.0 };
                *from_front_mm += wanted - zone_moved;
            }
        }
    }
    Ok(())
}

/// A mark that is not used yet: a letter of the kind and a number.
fn free_tag(plan: &Plan, part: &Part) -> String {
    let letter = part.kind.letter();
    let used = |tag: &str| {
        plan.placed.iter().any(|p| p.tag == tag) || plan.shafts.iter().any(|s| s.tag == tag)
    };
    (1..=plan.placed.len() + plan.shafts.len() + 1)
        .map(|n| format!("{letter}{n}"))
        .find(|tag| !used(tag))
        .unwrap_or_else(|| format!("{letter}0"))
}

fn find_placed<'a>(plan: &'a mut Plan, tag: &str) -> Result<&'a mut Placed, Refusal> {
    plan.placed
        .iter_mut()
        .find(|p| p.tag == tag)
        .map(|placed| &mut **placed)
        .ok_or_else(|| Refusal::new(format!("no part \"{tag}\" on the truck")))
}

fn part_of(plan: &Plan, library: &Library, id: &str) -> Result<Shared<Part>, Refusal> {
    find_part(plan, library, id)
        .ok_or_else(|| Refusal::new(format!("no part \"{id}\" in the library or the plan")))
}
