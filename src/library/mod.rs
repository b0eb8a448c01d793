//! What exists: shipped templates, trailers, parts and laws, and what the user added.

mod read;

pub use read::FileKind;

use crate::chassis::{Chassis, Trailer};
use crate::law::Regime;
use crate::part::Part;
use crate::source::{Problem, Problems};
use include_dir::{Dir, include_dir};
use std::collections::BTreeMap;

static TEMPLATES: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/chassis-templates");
static CATALOGUE: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/parts-catalogue");
static LAWS: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/src/law");

/// Everything a plan may name, by id.
#[derive(Clone, Debug, Default)]
pub struct Library {
    /// Donor chassis.
    pub chassis: BTreeMap<String, Chassis>,
    /// Trailers.
    pub trailers: BTreeMap<String, Trailer>,
    /// Parts.
    pub parts: BTreeMap<String, Part>,
    /// Road laws.
    pub laws: BTreeMap<String, Regime>,
    /// Problems of shipped files; empty, and a test keeps it so.
    pub problems: Vec<Problem>,
}

impl Library {
    /// The library as shipped with this build.
    #[must_use]
    pub fn shipped() -> Self {
        let mut library = Self::default();
        for dir in [&TEMPLATES, &CATALOGUE, &LAWS] {
            for file in dir.files() {
                let name = file.path().to_string_lossy();
                if !name.ends_with(".toml") {
                    continue;
                }
                let text = file.contents_utf8().unwrap_or_default();
                if let Err(Problems(found)) = library.add_toml(&name, text) {
                    library.problems.extend(found);
                }
            }
        }
        library
    }
}
