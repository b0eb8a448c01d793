//! Fields of the duty: how often, how cold, how much is kept; an empty field stands for what is usual.

use super::fields::{Choice, Field};
use crate::plan::{Duty, Edit, Refusal, Strategy};
use crate::quantity::{Measure, Units};

/// One field: its id behind `duty.`, its name, what it measures, its range, what an empty one means, and
/// where it stands.
struct Entry {
    id: &'static str,
    label: &'static str,
    measure: Measure,
    range: [f64; 2],
    empty: &'static str,
    of: fn(&mut Duty) -> &mut Option<f64>,
}

macro_rules! entry {
    ($field:ident, $label:literal, $measure:ident, $range:expr, $empty:literal) => {
        Entry {
            id: stringify!($field),
            label: $label,
            measure: Measure::$measure,
            range: $range,
            empty: $empty,
            of: |duty| &mut duty.$field,
        }
    };
}

static ENTRIES: [Entry; 11] = [
    entry!(
        temperature_c,
        "Air outside",
        Temperature,
        [-30.0, 50.0],
        "the route's"
    ),
    entry!(
        headwind_mps,
        "Wind against the truck",
        RoadSpeed,
        [-20.0, 20.0],
        "the route's"
    ),
    entry!(
        reserve,
        "Kept in reserve",
        Share,
        [0.0, 0.9],
        "15 %, common practice"
    ),
    entry!(
        health,
        "Packs still hold",
        Share,
        [0.5, 1.0],
        "new packs; 80 % is a usual end of life"
    ),
    entry!(
        plug_hours,
        "Hours at the plug",
        Count,
        [0.0, 24.0],
        "8 hours"
    ),
    entry!(
        days_a_year,
        "Days of work a year",
        Count,
        [1.0, 366.0],
        "250 days"
    ),
    entry!(
        drag_area_m2,
        "Drag area, m²",
        Factor,
        [1.0, 20.0],
        "the chassis's"
    ),
    entry!(
        rolling,
        "Rolling coefficient",
        Factor,
        [0.001, 0.05],
        "the chassis's"
    ),
    entry!(
        hold_soc,
        "Source holds the packs at",
        Share,
        [0.05, 0.98],
        "60 %"
    ),
    entry!(
        start_soc,
        "Source starts below",
        Share,
        [0.02, 0.95],
        "usual, when switched on and off"
    ),
    entry!(
        stop_soc,
        "Source stops above",
        Share,
        [0.05, 0.98],
        "usual, when switched on and off"
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
        .hinting("empty: 1"),
    ];
    for e in &ENTRIES {
        if e.id.ends_with("_soc") && !sourced {
            continue;
        }
        let field = Field::number(
            &format!("duty.{}", e.id),
            e.label,
            e.measure,
            *(e.of)(&mut own),
            units,
        );
        let hint = format!("empty: {}", e.empty);
        fields.push(
            field
                .within(e.measure, e.range[0], e.range[1], units)
                .hinting(hint),
        );
    }
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
    let value = |measure: Measure| match typed {
        "" => Ok(None),
        _ => read(measure).map(Some),
    };
    match field {
        "route" => duty.route = Some(typed.to_owned()).filter(|id| !id.is_empty()),
        "soaked" => duty.soaked = typed == "on",
        "strategy" => {
            duty.strategy = match typed {
                "on-off" => Some(Strategy::OnOff),
                _ => None,
            }
        }
        "trips_a_day" => match value(Measure::Count) {
            Err(refusal) => return Some(Err(refusal)),
            Ok(None) => duty.trips_a_day = None,
            Ok(Some(trips)) => {
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
            let entry = ENTRIES.iter().find(|e| e.id == other)?;
            match value(entry.measure) {
                Ok(value) => *(entry.of)(&mut duty) = value,
                Err(refusal) => return Some(Err(refusal)),
            }
        }
    }
    Some(Ok(Edit::Duty(Box::new(duty))))
}
