//! What exists: shipped templates, trailers, parts and laws, and what the user added.

mod read;

pub use read::FileKind;

use crate::chassis::{Chassis, Trailer};
use crate::law::Regime;
use crate::part::Part;
use crate::source::{Problem, Problems};
use rust_embed::RustEmbed;
use std::collections::BTreeMap;

#[derive(RustEmbed)]
#[folder = "chassis-templates/"]
#[include = "*.toml"]
struct Templates;

#[derive(RustEmbed)]
#[folder = "parts-catalogue/"]
#[include = "*.toml"]
struct Catalogue;

#[derive(RustEmbed)]
#[folder = "src/law/"]
#[include = "*.toml"]
struct Laws;

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
        library.ship::<Templates>();
        library.ship::<Catalogue>();
        library.ship::<Laws>();
        library
    }

    /// Adds the embedded files of one folder, in the order of their names.
    fn ship<E: RustEmbed>(&mut self) {
        let mut names: Vec<_> = E::iter().collect();
        names.sort();
        for name in names {
            let Some(file) = E::get(&name) else { continue };
            let text = String::from_utf8_lossy(&file.data);
            if let Err(Problems(found)) = self.add_toml(&name, &text) {
                self.problems.extend(found);
            }
        }
    }
}
