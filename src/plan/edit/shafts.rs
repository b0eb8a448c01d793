//! A driveshaft comes onto the truck: not put somewhere, but run from a drive to an axle.

use super::{Refusal, free_tag};
use crate::chassis::Spot;
use crate::part::Part;
use crate::plan::{Plan, ShaftRun};
use crate::vehicle::{Vehicle, listed};

/// A level line from the first drive that turns no shaft yet to the first axle that none drives.
///
/// # Errors
/// What of the two is missing.
pub(super) fn free_run(plan: &Plan, vehicle: &Vehicle, part: &Part) -> Result<ShaftRun, Refusal> {
    let drives = || vehicle.items.iter().filter(|i| i.part.output.is_some());
    let of = |tag: &str| plan.shafts.iter().find(|run| run.from == tag);
    let Some(from) = drives().find(|drive| of(&drive.tag).is_none()) else {
        return Err(Refusal::new(if drives().next().is_none() {
            "nothing on the truck drives a shaft: place a central drive first".to_owned()
        } else {
            let tags = listed(drives().map(|drive| &drive.tag));
            format!("each drive turns a shaft already ({tags})")
        }));
    };
    let axles = || {
        let inputs = vehicle.chassis.axles.iter();
        inputs.filter(|axle| axle.input_x_mm.is_some() && axle.input_z_mm.is_some())
    };
    let kept = || axles().filter(|axle| vehicle.keeps_drive(&axle.id));
    let driven = |id: &String| vehicle.shafts.iter().any(|shaft| shaft.to_axle == *id);
    let Some(to) = kept().find(|axle| !driven(&axle.id)) else {
        return Err(Refusal::new(if kept().next().is_some() {
            let ids = listed(kept().map(|axle| &axle.id));
            format!("each driven axle has its shaft already ({ids})")
        } else if axles().next().is_some() {
            "no axle is left that a shaft could drive: the donor's drive axles are off".to_owned()
        } else {
            "no axle of this chassis has an input for a driveshaft".to_owned()
        }));
    };
    Ok(ShaftRun {
        tag: free_tag(plan, part),
        part: part.id.clone(),
        from: from.tag.clone(),
        to_axle: to.id.clone(),
        drive_down_deg: None,
        bearings: Vec::new(),
    })
}

impl ShaftRun {
    /// The same shaft over so many centre bearings. A new one stands in the middle of the longest piece,
    /// on its line; the last ones go.
    #[must_use]
    pub fn over_bearings(&self, count: usize, vehicle: &Vehicle) -> Self {
        let mut run = self.clone();
        run.bearings.truncate(count);
        let Some(line) = vehicle.shafts.iter().find(|shaft| shaft.tag == run.tag) else {
            return run;
        };
        let [first, .., last] = line.joints.as_slice() else {
            return run;
        };
        while run.bearings.len() < count {
            // The longest piece, and its middle.
            let (mut at, mut middle, mut longest) = (0, *first, -1.0);
            let mut from = *first;
            for index in 0..=run.bearings.len() {
                let to = run.bearings.get(index).map_or(*last, |spot| spot.point());
                let long = (to - from).length();
                if long > longest {
                    (at, middle, longest) = (index, (from + to) * 0.5, long);
                }
                from = to;
            }
            let spot = Spot::new(middle.x.round(), middle.y.round(), middle.z.round());
            run.bearings.insert(at, spot);
        }
        run
    }
}
