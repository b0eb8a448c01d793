//! Fields of a driveshaft: what drives what through which shaft, its centre bearings, and its figures.

use super::fields::{Choice, Field};
use super::session::Session;
use crate::chassis::Spot;
use crate::driveline::{Ride, Shaft};
use crate::plan::{Edit, Plan, Refusal, ShaftRun};
use crate::quantity::{Measure, Units};
use crate::vehicle::Vehicle;

/// Words for how many centre bearings there may be; as many as a plan may state.
const BEARINGS: [&str; 4] = ["none, one piece", "1", "2", "3"];

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
        let choice = |name: &str, label: &str, now: &str, list: Vec<Choice>| {
            Field::choice(&id(name), label, now, list)
        };
        let of = |id: &str, name: &str| Choice {
            id: id.to_owned(),
            name: name.to_owned(),
        };
        let parts = session.parts(plan);
        let parts = parts.filter(|p| p.shaft.is_some() || p.id == run.part);
        let parts = parts.map(|p| of(&p.id, &p.name)).collect();
        fields.push(choice("shaft", "Shaft", &run.part, parts));
        let drives = vehicle.items.iter().filter(|i| i.part.output.is_some());
        let drives = drives.map(|i| of(&i.tag, &format!("{}  {}", i.tag, i.part.name)));
        fields.push(choice("from", "Driven by", &run.from, drives.collect()));
        let axles = vehicle
            .chassis
            .axles
            .iter()
            .filter(|a| a.input_x_mm.is_some());
        let axles = axles.map(|a| of(&a.id, &a.id.replace('-', " ")));
        fields.push(choice("axle", "Drives", &run.to_axle, axles.collect()));
        let angle = Measure::Angle;
        let down = run.drive_down_deg.unwrap_or(0.0);
        let drive = Field::number(
            &id("down"),
            "Drive falls rearward",
            angle,
            Some(down),
            units,
        );
        let hint = format!("how far {} is mounted nose up", shaft.from);
        fields.push(drive.within(angle, -20.0, 20.0, units).hinting(hint));
        let count = run.bearings.len().to_string();
        let counts = (0_u8..)
            .zip(BEARINGS)
            .map(|(n, words)| of(&n.to_string(), words));
        fields.push(choice(
            "bearings",
            "Centre bearings",
            &count,
            counts.collect(),
        ));
        for (number, spot) in (1_u8..).zip(&run.bearings) {
            let places = [("x", spot.x_mm), ("y", spot.y_mm), ("z", spot.z_mm)];
            for ((axis, mm), (words, hint)) in places.into_iter().zip(PLACE) {
                let name = id(&format!("bearing-{number}-{axis}"));
                let label = format!("Bearing {number}, {words}");
                let field = Field::number(&name, &label, Measure::Length, Some(mm), units);
                let field = field.within(Measure::Length, -40_000.0, 40_000.0, units);
                fields.push(field.hinting(hint));
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

/// What the coordinates of a bearing are called, as those of a part.
const PLACE: [(&str, &str); 3] = [
    ("behind front axle", ""),
    ("to the right", "of the centre line; minus is left"),
    ("above ground", "laden"),
];

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
        "bearings" => match typed.parse() {
            Ok(count) if count < BEARINGS.len() => run = run.over_bearings(count, vehicle),
            _ => {
                let most = BEARINGS.len() - 1;
                let why = format!("bearings: \"{typed}\" is not a count from 0 to {most}");
                return Some(Err(Refusal(why)));
            }
        },
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
