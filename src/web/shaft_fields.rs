//! Fields of a driveshaft: what drives what through which shaft, its centre bearings, and its figures.

use super::fields::{Choice, Field};
use super::session::Session;
use crate::chassis::Spot;
use crate::driveline::{Ride, Shaft};
use crate::plan::{Edit, Plan, Refusal, ShaftRun};
use crate::quantity::{Measure, Units};
use crate::vehicle::Vehicle;

/// All of them.
pub(super) fn of_shaft(
    session: &Session,
    plan: &Plan,
    vehicle: &Vehicle,
    shaft: &Shaft,
    units: Units,
) -> Vec<Field> {
    let id = |name: &str| format!("part.{}.{name}", shaft.tag);
    let mut fields = Vec::new();
    if let Some(run) = plan.shafts.iter().find(|run| run.tag == shaft.tag) {
        let mut list = Vec::new();
        for part in session.parts(plan) {
            if part.shaft.is_some() {
                add(&mut list, &part.id, &part.name);
            }
        }
        fields.push(Field::choice(&id("shaft"), "Shaft", &run.part, list));
        let mut list = Vec::new();
        for item in &vehicle.items {
            if item.part.output.is_some() {
                add(&mut list, &item.tag, &item.part.name);
            }
        }
        fields.push(Field::choice(&id("from"), "Driven by", &run.from, list));
        let mut list = Vec::new();
        for axle in &vehicle.chassis.axles {
            if axle.input_x_mm.is_some() {
                add(&mut list, &axle.id, &axle.id.replace('-', " "));
            }
        }
        fields.push(Field::choice(&id("axle"), "Drives", &run.to_axle, list));
        let angle = Measure::Angle;
        let down = Some(run.drive_down_deg.unwrap_or(0.0));
        let drive = Field::number(&id("down"), "Drive falls rearward", angle, down, units);
        let hint = format!("how far {} is mounted nose up", shaft.from);
        fields.push(drive.within(angle, -20.0, 20.0, units).hinting(hint));
        let mut list = Vec::new();
        for count in ["0", "1", "2", "3"] {
            add(&mut list, count, count);
        }
        let now = run.bearings.len().to_string();
        fields.push(Field::choice(
            &id("bearings"),
            "Centre bearings",
            &now,
            list,
        ));
        for (number, spot) in (1_u8..).zip(&run.bearings) {
            for (axis, words, mm) in [
                ("x", "behind front axle", spot.x_mm),
                ("y", "right of the middle", spot.y_mm),
                ("z", "above ground", spot.z_mm),
            ] {
                let name = id(&format!("bearing-{number}-{axis}"));
                let label = format!("Bearing {number}, {words}");
                let field = Field::number(&name, &label, Measure::Length, Some(mm), units);
                fields.push(field.within(Measure::Length, -40_000.0, 40_000.0, units));
            }
        }
        fields.push(Field::mark(&shaft.tag));
    }
    let angle = Measure::Angle;
    let speed = shaft.speed.as_ref().ok().map(|s| s.most_rpm);
    let safe = shaft.whirl.as_ref().ok().map(|w| w.safe_rpm);
    let torque = shaft.torque_nm.as_ref().ok().copied();
    let length = shaft.longest_piece().map(|piece| piece.length_mm);
    let worst = |rides: &[Ride]| shaft.worst_joint(rides).map(|(_, _, j)| j.angle_deg);
    let (running, travel) = (worst(&Ride::RUNNING), worst(&Ride::ALL));
    let figures = [
        ("length", "Longest piece, laden", Measure::Length, length),
        ("running", "Largest angle, running", angle, running),
        ("travel", "Largest angle, full travel", angle, travel),
        ("slip", "Slip used", Measure::Length, Some(shaft.plunge_mm)),
        ("speed", "Motor drives it to", Measure::Speed, speed),
        ("safe", "May turn at", Measure::Speed, safe),
        ("torque", "Lowest gear", Measure::Torque, torque),
    ];
    let figures = figures.map(|(name, label, measure, value)| {
        Field::number(&id(name), label, measure, value, units).shown()
    });
    fields.extend(figures);
    fields
}

fn add(list: &mut Vec<Choice>, id: &str, name: &str) {
    list.push(Choice {
        id: id.to_owned(),
        name: name.to_owned(),
    });
}

/// The edit of a shaft that a field stands for, if it is one of its fields.
///
/// # Errors
/// Why the text cannot be used.
pub(super) fn edit(
    run: &ShaftRun,
    vehicle: &Vehicle,
    what: &str,
    typed: &str,
    read: &dyn Fn(Measure) -> Result<f64, Refusal>,
) -> Option<Result<Edit, Refusal>> {
    let mut run = run.clone();
    match what {
        "shaft" => typed.clone_into(&mut run.part),
        "from" => typed.clone_into(&mut run.from),
        "axle" => typed.clone_into(&mut run.to_axle),
        "down" => match typed {
            "" => run.drive_down_deg = None,
            _ => match read(Measure::Angle) {
                Ok(deg) => run.drive_down_deg = Some(deg),
                Err(why) => return Some(Err(why)),
            },
        },
        "bearings" => {
            let count = match typed {
                "0" => 0,
                "1" => 1,
                "2" => 2,
                "3" => 3,
                _ => {
                    let why = format!("bearings: \"{typed}\" is not a count from 0 to 3");
                    return Some(Err(Refusal(why)));
                }
            };
            run = run.over_bearings(count, vehicle);
        }
        _ => {
            let (number, axis) = what.strip_prefix("bearing-")?.split_once('-')?;
            let index = number.parse::<usize>().ok()?.checked_sub(1)?;
            let spot: &mut Spot = run.bearings.get_mut(index)?;
            let place = match axis {
                "x" => &mut spot.x_mm,
                "y" => &mut spot.y_mm,
                "z" => &mut spot.z_mm,
                _ => return None,
            };
            match read(Measure::Length) {
                Ok(mm) => *place = mm,
                Err(why) => return Some(Err(why)),
            }
        }
    }
    Some(Ok(Edit::Shaft(run)))
}
