//! What people call each edit.

use super::Edit;
use crate::library::Library;
use crate::plan::{ChassisChoice, Plan};
use crate::vehicle::find_part;

impl Edit {
    /// What the undo button calls this step, in the names and marks that people see; `plan` is the plan
    /// before the edit.
    #[must_use]
    pub fn name(&self, plan: &Plan, library: &Library) -> String {
        let part = |id: &str| {
            find_part(plan, library, id).map_or_else(|| id.to_owned(), |p| p.name.clone())
        };
        match self {
            Self::Place { part: id, .. } => format!("Place {}", part(id)),
            Self::Move { tag, .. } => format!("Move {tag}"),
            Self::Zone { tag, .. } => format!("Change zone of {tag}"),
            Self::Turn { tag } => format!("Turn {tag}"),
            Self::Delete { tag } => format!("Take off {tag}"),
            Self::Duplicate { tag } => format!("Duplicate {tag}"),
            Self::Mirror { tag } => format!("Mirror {tag}"),
            Self::Lock { tag, on: true } => format!("Lock {tag}"),
            Self::Lock { tag, .. } => format!("Free {tag}"),
            Self::Fill { tag, .. } => format!("Fill {tag}"),
            Self::Retag { tag, new } => format!("Call {tag} {new}"),
            Self::Shaft(run) => format!("Driveshaft {}", run.tag),
            Self::OwnPart(part) => format!("Own part {}", part.name),
            Self::Strip { item } => format!("Strip {}", hardware(item, plan, library)),
            Self::Keep { item } => format!("Keep {}", hardware(item, plan, library)),
            Self::Wheelbase { .. } => "Wheelbase".to_owned(),
            Self::Splice { .. } => "Frame cut".to_owned(),
            Self::FifthWheel { .. } => "Fifth wheel".to_owned(),
            Self::Raise { axle } => format!("Raise {}", axle.replace('-', " ")),
            Self::Lower { axle } => format!("Lower {}", axle.replace('-', " ")),
            Self::Driver { .. } => "Driver".to_owned(),
            Self::Payload(_) => "Payload".to_owned(),
            Self::Target { .. } => "Promised payload".to_owned(),
            Self::Trailer(None) => "Uncouple trailer".to_owned(),
            Self::Trailer(Some(load)) => {
                let now = plan.loads.trailer.as_ref();
                if now.is_some_and(|now| now.id == load.id) {
                    "Load on the trailer".to_owned()
                } else {
                    let trailer = library.trailers.get(&load.id);
                    format!(
                        "Couple {}",
                        trailer.map_or(load.id.as_str(), |t| t.name.as_str())
                    )
                }
            }
            Self::Law(_) => "Road law".to_owned(),
            Self::Frame(_) => "Frame".to_owned(),
            Self::Moving(_) => "Turn, ramp and bump".to_owned(),
            Self::Duty(_) => "Duty".to_owned(),
            Self::Rename { .. } => "Name".to_owned(),
            Self::Notes { .. } => "Notes".to_owned(),
        }
    }
}

fn hardware<'a>(id: &'a str, plan: &'a Plan, library: &'a Library) -> &'a str {
    let chassis = match &plan.chassis {
        ChassisChoice::Inline(chassis) => Some(&**chassis),
        ChassisChoice::Template(id) => library.chassis.get(id).map(|found| &**found),
    };
    let item = chassis.and_then(|c| c.hardware.iter().find(|h| h.id == id));
    item.map_or(id, |h| h.name.as_str())
}
