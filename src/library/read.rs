//! Reads a TOML file that a person wrote, and adds it to the library.

use super::Library;
use crate::chassis::{Chassis, Trailer};
use crate::law::Regime;
use crate::part::Family;
use crate::source::{Problem, Problems, from_value};
use serde_json::{Map, Value};

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

/// Reads TOML text as a plain value, which [`Library::add_value`] takes.
///
/// # Errors
/// Problems with file, line, path and what would be accepted.
pub fn toml_value(file: &str, text: &str) -> Result<Value, Problems> {
    if text.len() > Library::MOST_BYTES {
        let hint = format!("at most {} bytes", Library::MOST_BYTES);
        return Err(Problem::new(file, "", "", "is too long", hint).into());
    }
    if text.trim_matches('\u{feff}').trim_ascii().is_empty() {
        let hint = "a chassis, trailer, parts or law in TOML, or a plan in JSON";
        return Err(Problem::new(file, "", "", "is empty", hint).into());
    }
    let table: toml::Table = text.parse().map_err(|e: toml::de::Error| {
        Problem::new(file, "", "", e.message().to_owned(), place_of(text, &e))
    })?;
    object(file, "", table)
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
        self.add_value(file, &toml_value(file, text)?)
    }

    /// Adds what such a file holds, once it is read as a value.
    ///
    /// # Errors
    /// Problems with file, path, value and what would be accepted; nothing is added then.
    pub fn add_value(&mut self, file: &str, value: &Value) -> Result<FileKind, Problems> {
        if value.get("family").is_some() {
            let family: Family = from_value(file, value)?;
            family.check(file)?;
            let ids = family.parts.iter().map(|p| p.id.clone()).collect();
            self.parts
                .extend(family.parts.into_iter().map(|p| (p.id.clone(), p.into())));
            Ok(FileKind::Parts(ids))
        } else if value.get("kingpin_to_axles_mm").is_some() {
            let trailer: Trailer = from_value(file, value)?;
            trailer.check(file)?;
            let id = trailer.id.clone();
            self.trailers.insert(id.clone(), trailer.into());
            Ok(FileKind::Trailer(id))
        } else if value.get("law_format").is_some() {
            let law: Regime = from_value(file, value)?;
            law.check(file)?;
            let id = law.id.clone();
            self.laws.insert(id.clone(), law.into());
            Ok(FileKind::Law(id))
        } else {
            let chassis: Chassis = from_value(file, value)?;
            chassis.check(file)?;
            let id = chassis.id.clone();
            self.chassis.insert(id.clone(), chassis.into());
            Ok(FileKind::Chassis(id))
        }
    }
}

/// TOML as a JSON value; numbers that are not finite stop here, with their path.
fn object(file: &str, path: &str, table: toml::Table) -> Result<Value, Problems> {
    let mut map = Map::new();
    for (key, item) in table {
        let at = if path.is_empty() {
            key.clone()
        } else {
            format!("{path}.{key}")
        };
        map.insert(key, plain(file, &at, item)?);
    }
    Ok(Value::Object(map))
}

fn plain(file: &str, path: &str, item: toml::Value) -> Result<Value, Problems> {
    Ok(match item {
        toml::Value::String(text) => Value::String(text),
        toml::Value::Integer(number) => number.into(),
        toml::Value::Float(number) => {
            let finite = serde_json::Number::from_f64(number).ok_or_else(|| {
                let shown = number.to_string();
                Problem::new(
                    file,
                    path,
                    shown,
                    "is not a finite number",
                    "a plain number",
                )
            })?;
            Value::Number(finite)
        }
        toml::Value::Boolean(flag) => Value::Bool(flag),
        toml::Value::Datetime(time) => Value::String(time.to_string()),
        toml::Value::Array(items) => {
            let mut list = Vec::with_capacity(items.len());
            for (index, one) in items.into_iter().enumerate() {
                list.push(plain(file, &format!("{path}[{index}]"), one)?);
            }
            Value::Array(list)
        }
        toml::Value::Table(table) => object(file, path, table)?,
    })
}

/// "line 12" of a TOML error.
fn place_of(text: &str, error: &toml::de::Error) -> String {
    error.span().map_or_else(String::new, |span| {
        let line = text
            .get(..span.start)
            .map_or(0, |head| head.matches('\n').count())
            + 1;
        format!("line {line}")
    })
}
