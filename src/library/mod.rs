//! What exists: shipped templates, trailers, parts and laws, and what the user added.

mod read;

pub use read::{FileKind, toml_value};

use crate::chassis::{Chassis, Trailer};
use crate::law::Regime;
use crate::part::Part;
use crate::shared::Shared;
use crate::source::{Problem, Problems};
use serde_json::Value;
use std::collections::BTreeMap;

/// The shipped TOML files as `[[file, content], …]`, packed when the program was built.
const SHIPPED: &str = include_str!(concat!(env!("OUT_DIR"), "/library.json"));

/// Everything a plan may name, by id.
#[derive(Clone, Debug, Default)]
pub struct Library {
    /// Donor chassis.
    pub chassis: BTreeMap<String, Shared<Chassis>>,
    /// Trailers.
    pub trailers: BTreeMap<String, Shared<Trailer>>,
    /// Parts.
    pub parts: BTreeMap<String, Shared<Part>>,
    /// Road laws.
    pub laws: BTreeMap<String, Shared<Regime>>,
    /// Problems of shipped files; empty, and a test keeps it so.
    pub problems: Vec<Problem>,
}

impl Library {
    /// Every part of the library, by id.
    pub fn each_part(&self) -> impl Iterator<Item = &Part> {
        self.parts.values().map(|part| &**part)
    }

    /// The library as shipped with this build.
    #[must_use]
    pub fn shipped() -> Self {
        let mut library = Self::default();
        let packed: Vec<(String, Value)> = match serde_json::from_str(SHIPPED) {
            Ok(packed) => packed,
            Err(e) => {
                let broken = Problem::new("library.json", "", "", e.to_string(), "build it again");
                library.problems.push(broken);
                return library;
            }
        };
        for (name, content) in &packed {
            if let Err(Problems(found)) = library.add_value(name, content) {
                library.problems.extend(found);
            }
        }
        library
    }
}
