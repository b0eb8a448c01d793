//! Fields of the duty: how often, how cold, how much is kept; an empty field stands for what is usual.

use super::entries::{Empty, Entry, entry, set};
use super::fields::{Choice, Field};
use crate::plan::{Duty, Edit, Refusal, Strategy};
use crate::quantity::{Measure, Units};

static ENTRIES: [Entry<Duty>; 11] = [
    entry!(
        Duty,
        temperature_c,
        "Air outside",
        Temperature,
        [-30.0, 50.0],
        Empty::Words("the route's")
    ),
    entry!(
        Duty,
        headwind_mps,
        "Wind against the truck",
        RoadSpeed,
        [-20.0, 20.0],
        Empty::Words("the route's")
    ),
    entry!(
        Duty,
        reserve,
        "Kept in reserve",
        Share,
        [0.0, 0.9],
        Empty::Told("", Duty::RESERVE, ", common practice")
    ),
    entry!(
        Duty,
        health,
        "Packs still hold",
        Share,
        [0.5, 1.0],
        Empty::Told("new packs; ", Duty::END_HEALTH, " is a usual end of life")
    ),
    entry!(
        Duty,
        plug_hours,
        "Hours at the plug",
        Count,
        [0.0, 24.0],
        Empty::Told("", Duty::PLUG_HOURS, " hours")
    ),
    entry!(
        Duty,
        days_a_year,
        "Days of work a year",
        Count,
        [1.0, 366.0],
        Empty::Told("", Duty::DAYS_A_YEAR, " days")
    ),
    entry!(
        Duty,
        drag_area_m2,
        "Drag area",
        Area,
        [1.0, 20.0],
        Empty::Words("the chassis's")
    ),
    entry!(
        Duty,
        rolling,
        "Rolling coefficient",
        Coefficient,
        [0.001, 0.05],
        Empty::Words("the chassis's")
    ),
    entry!(
        Duty,
        hold_soc,
        "Source holds the packs at",
        Share,
        [0.05, 0.98],
        Empty::Told("", Duty::HOLD_SOC, "")
    ),
    entry!(
        Duty,
        start_soc,
        "Source starts below",
        Share,
        [0.02, 0.95],
        Empty::Told("", Duty::START_SOC, ", when switched on and off")
    ),
    entry!(
        Duty,
        stop_soc,
        "Source stops above",
        Share,
        [0.05, 0.98],
        Empty::Told("", Duty::STOP_SOC, ", when switched on and off")
    ),
];

/// The fields as they stand; those of a generator or fuel cell only where there is one.
pub(super) fn fields(duty: &Duty, sourced: bool, units: Units) -> Vec<Field> {
    let mut own = duty.clone();
    let trips = own.trips_a_day.map(f64::from);
    let mut fields = vec![
        Field::number(
            "duty.trips_a_day",
            "Trips a day",
            Measure::Count,
            trips,
            units,
        )
        .within(Measure::Count, 1.0, 50.0, units)
        .hinting(format!("empty: {}", Duty::TRIPS_A_DAY)),
    ];
    // What is about a source is asked only where there is one.
    let asked = ENTRIES
        .iter()
        .filter(|e| sourced || !e.id.ends_with("_soc"));
    fields.extend(asked.map(|e| e.field("duty", &mut own, units)));
    let label = "Packs as cold as the air at the start";
    fields.push(Field::switch("duty.soaked", label, duty.soaked));
    if sourced {
        let choice = |id: &str, name: &str| Choice {
            id: id.to_owned(),
            name: name.to_owned(),
        };
        let now = match duty.strategy {
            Some(Strategy::OnOff) => "on-off",
            Some(Strategy::Follow) | None => "follow",
        };
        let ways = vec![
            choice("follow", "follows the need"),
            choice("on-off", "full power on and off"),
        ];
        fields.push(Field::choice(
            "duty.strategy",
            "Generator or cell",
            now,
            ways,
        ));
    }
    fields
}

/// The edit that a field behind `duty.` and a text stand for.
pub(super) fn edit(
    duty: &Duty,
    field: &str,
    typed: &str,
    read: &dyn Fn(Measure) -> Result<f64, Refusal>,
) -> Option<Result<Edit, Refusal>> {
    let mut duty = duty.clone();
    match field {
        "route" => duty.route = Some(typed.to_owned()).filter(|id| !id.is_empty()),
        "soaked" => duty.soaked = typed == "on",
        "strategy" => {
            duty.strategy = match typed {
                "on-off" => Some(Strategy::OnOff),
                _ => None,
            }
        }
        "trips_a_day" if typed.is_empty() => duty.trips_a_day = None,
        "trips_a_day" => match read(Measure::Count) {
            Err(refusal) => return Some(Err(refusal)),
            Ok(trips) => {
                if trips.fract() != 0.0 || !(1.0..=50.0).contains(&trips) {
                    let why = format!("trips a day: {typed} is not a whole number from 1 to 50");
                    return Some(Err(Refusal(why)));
                }
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "a whole number from 1 to 50"
                )]
                let trips = trips as u32;
                duty.trips_a_day = Some(trips);
            }
        },
        other => {
            if let Err(refusal) = set(&ENTRIES, &mut duty, other, typed, read)? {
                return Some(Err(refusal));
            }
        }
    }
    Some(Ok(Edit::Duty(Box::new(duty))))
}
