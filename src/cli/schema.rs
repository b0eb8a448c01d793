//! `axlewright schema`: JSON Schemas, made from the types that read the files.

use super::SchemaOf;
use super::evaluate::print;
use crate::chassis::{Chassis, Trailer};
use crate::law::Regime;
use crate::part::Family;
use crate::plan::Plan;
use std::process::ExitCode;

pub(super) fn run(of: SchemaOf) -> ExitCode {
    let schema = match of {
        SchemaOf::Chassis => schemars::schema_for!(Chassis),
        SchemaOf::Part => schemars::schema_for!(Family),
        SchemaOf::Plan => schemars::schema_for!(Plan),
        SchemaOf::Trailer => schemars::schema_for!(Trailer),
        SchemaOf::Law => schemars::schema_for!(Regime),
    };
    match serde_json::to_string_pretty(&schema) {
        Ok(text) => {
            print(&(text + "\n"));
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("{error}");
            ExitCode::from(2)
        }
    }
}
