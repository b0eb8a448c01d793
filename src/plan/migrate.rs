//! Older file formats, frozen as they were, and the step to the next one.

use super::{Changes, ChassisChoice, FrameChoice, LawChoice, Loads, Place, Placed, Plan, ShaftRun};
use crate::numeric::sort;
use crate::part::Part;
use crate::shared::Shared;
use crate::source::{Problem, Problems, from_value};
use serde::Deserialize;
use serde_json::Value;

/// Reads the format number alone.
pub(super) fn format_of(file: &str, value: &Value) -> Result<u32, Problems> {
    let Some(format) = value.get("format") else {
        return Err(Problem::new(file, "format", "", "is missing", "2").into());
    };
    format
        .as_u64()
        .and_then(|n| u32::try_from(n).ok())
        .ok_or_else(|| {
            Problem::new(
                file,
                "format",
                format.to_string(),
                "is not a format number",
                "2",
            )
            .into()
        })
}

/// Format 1: parts stood only at truck coordinates, and the wheelbase was a field of its own.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct First {
    #[serde(rename = "format")]
    _format: u32,
    name: String,
    chassis: String,
    #[serde(default)]
    wheelbase_mm: Option<f64>,
    #[serde(default)]
    fifth_wheel_ahead_mm: Option<f64>,
    #[serde(default)]
    stripped: Vec<String>,
    #[serde(default)]
    parts: Vec<Part>,
    #[serde(default)]
    placed: Vec<FirstPlaced>,
    #[serde(default)]
    shafts: Vec<ShaftRun>,
    #[serde(default)]
    loads: Loads,
    #[serde(default)]
    law: LawChoice,
    #[serde(default)]
    notes: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FirstPlaced {
    tag: String,
    part: String,
    x_mm: f64,
    y_mm: f64,
    z_mm: f64,
    #[serde(default)]
    turn: u8,
}

pub(super) fn from_first(file: &str, value: &Value) -> Result<Plan, Problems> {
    let old: First = from_value(file, value)?;
    let mut stripped = old.stripped;
    sort(&mut stripped);
    Ok(Plan {
        format: Plan::FORMAT,
        name: old.name,
        chassis: ChassisChoice::Template(old.chassis),
        changes: Changes {
            wheelbase_mm: old.wheelbase_mm,
            fifth_wheel_ahead_mm: old.fifth_wheel_ahead_mm,
            stripped,
            ..Changes::default()
        },
        parts: old.parts,
        placed: old
            .placed
            .into_iter()
            .map(|p| Placed {
                tag: p.tag,
                part: p.part,
                place: Place::Free {
                    x_mm: p.x_mm,
                    y_mm: p.y_mm,
                    z_mm: p.z_mm,
                },
                turn: p.turn,
                fill: None,
                locked: false,
            })
            .map(Shared::from)
            .collect(),
        shafts: old.shafts,
        loads: old.loads,
        law: old.law,
        moving: super::Moving::default(),
        frame: FrameChoice::default(),
        duty: super::Duty::default(),
        notes: old.notes,
    })
}
