//! Reads a TOML file that a person wrote, and adds it to the library.

use super::Library;
use crate::chassis::{Chassis, Trailer};
use crate::law::Regime;
use crate::part::Family;
use crate::source::{Problem, Problems};
use serde::de::DeserializeOwned;

/// What a TOML file turned out to hold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FileKind {
    /// A chassis, with its id.
    Chassis(String),
    /// A trailer, with its id.
    Trailer(String),
    /// Parts, with their ids.
    Parts(Vec<String>),
    /// A road law, with its id.
    Law(String),
}

impl Library {
    /// Longest TOML file that is read, in bytes.
    pub const MOST_BYTES: usize = 2 * 1024 * 1024;

    /// Reads a chassis, trailer, parts or law file and adds what it holds; an entry with a known id
    /// replaces the older one. Nothing is added when anything is wrong.
    ///
    /// # Errors
    /// Problems with file, path, value and what would be accepted.
    pub fn add_toml(&mut self, file: &str, text: &str) -> Result<FileKind, Problems> {
        if text.len() > Self::MOST_BYTES {
            let hint = format!("at most {} bytes", Self::MOST_BYTES);
            return Err(Problem::new(file, "", "", "is too long", hint).into());
        }
        if text.trim_matches('\u{feff}').trim_ascii().is_empty() {
            let hint = "a chassis, trailer, parts or law in TOML, or a plan in JSON";
            return Err(Problem::new(file, "", "", "is empty", hint).into());
        }
        let table: toml::Table = text.parse().map_err(|e: toml::de::Error| {
            Problem::new(file, "", "", e.message().to_owned(), place_of(text, &e))
        })?;
        if table.contains_key("family") {
            let family: Family = read(file, text)?;
            family.check(file)?;
            let ids = family.parts.iter().map(|p| p.id.clone()).collect();
            self.parts.extend(family.parts.into_iter().map(|p| (p.id.clone(), p)));
            Ok(FileKind::Parts(ids))
        } else if table.contains_key("kingpin_to_axles_mm") {
            let trailer: Trailer = read(file, text)?;
            trailer.check(file)?;
            let id = trailer.id.clone();
            self.trailers.insert(id.clone(), trailer);
            Ok(FileKind::Trailer(id))
        } else if table.contains_key("gross_lb") {
            let law: Regime = read(file, text)?;
            law.check(file)?;
            let id = law.id.clone();
            self.laws.insert(id.clone(), law);
            Ok(FileKind::Law(id))
        } else {
            let chassis: Chassis = read(file, text)?;
            chassis.check(file)?;
            let id = chassis.id.clone();
            self.chassis.insert(id.clone(), chassis);
            Ok(FileKind::Chassis(id))
        }
    }
}

fn read<T: DeserializeOwned>(file: &str, text: &str) -> Result<T, Problems> {
    let document = toml::Deserializer::parse(text).map_err(|e| {
        Problem::new(file, "", "", e.message().to_owned(), place_of(text, &e))
    })?;
    serde_path_to_error::deserialize(document).map_err(|error| {
        let path = error.path().to_string();
        let path = if path == "." { String::new() } else { path };
        let inner = error.inner();
        Problem::new(file, path, "", inner.message().to_owned(), place_of(text, inner)).into()
    })
}

/// "line 12" of a TOML error.
fn place_of(text: &str, error: &toml::de::Error) -> String {
    error.span().map_or_else(String::new, |span| {
        let line = text.get(..span.start).map_or(0, |head| head.matches('\n').count()) + 1;
        format!("line {line}")
    })
}
