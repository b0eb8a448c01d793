//! One road for every file and every message: text becomes a value, the value becomes a type.
//!
//! Going through one kind of value keeps the program small (each type is read by one reader, not by
//! one for each format) and lets a problem show the value that was written.

use super::reader::Reader;
use super::{Problem, Problems};
use serde::de::{DeserializeOwned, Deserializer, MapAccess, SeqAccess, Visitor};
use serde_json::error::Category;
use serde_json::{Map, Value};
use std::cell::RefCell;

/// Reads JSON text; a key that stands twice in one object is refused, as is nesting beyond the
/// reader's limit (128 levels).
///
/// # Errors
/// Where the text stops being JSON, with the path to there and the word that stands there.
pub fn json_value(file: &str, text: &str) -> Result<Value, Problems> {
    let mut json = serde_json::Deserializer::from_str(text);
    let way = RefCell::new(Vec::new());
    let value = json.deserialize_any(Strict(&way)).map_err(|error| {
        let word = if error.is_syntax() {
            word_at(text, error.line(), error.column())
        } else {
            ""
        };
        let hint = match error.classify() {
            Category::Eof => "the file ends too early: save or copy it once more",
            Category::Syntax => {
                "look at that line: a comma, a quote or a bracket is missing or one too many"
            }
            _ => "change that place in the file",
        };
        Problem::new(file, written(&way.borrow()), word, error.to_string(), hint)
    })?;
    json.end()
        .map_err(|error| Problem::new(file, "", "", error.to_string(), "one JSON value"))?;
    Ok(value)
}

/// A step on the way to a value.
enum Step {
    Key(String),
    Index(usize),
}

/// A way as people write it: `placed[3].place`.
fn written(way: &[Step]) -> String {
    let mut path = String::new();
    for step in way {
        match step {
            Step::Key(key) if path.is_empty() => path.push_str(key),
            Step::Key(key) => {
                path.push('.');
                path.push_str(key);
            }
            Step::Index(index) => path.push_str(&format!("[{index}]")),
        }
    }
    path
}

/// The word of the text that stands at a line and column (from 1), such as `NaN`.
fn word_at(text: &str, line: usize, column: usize) -> &str {
    let ends = |b: &u8| b.is_ascii_whitespace() || b",:[]{}\"".contains(b);
    let line = text
        .split('\n')
        .nth(line.saturating_sub(1))
        .unwrap_or_default();
    let at = column.saturating_sub(1).min(line.len());
    let (before, behind) = line.as_bytes().split_at(at);
    let start = before.iter().rposition(ends).map_or(0, |last| last + 1);
    let end = behind
        .iter()
        .position(ends)
        .map_or(line.len(), |first| at + first);
    // Both ends lie at ASCII letters, so they cannot be inside of another.
    line.get(start..end).unwrap_or_default()
}

/// Reads a type from a value.
///
/// # Errors
/// The first thing that does not fit, with its path and the value that stands there.
pub fn from_value<T: DeserializeOwned>(file: &str, value: &Value) -> Result<T, Problems> {
    T::deserialize(Reader(value)).map_err(|error| {
        let path = error.path();
        let shown = at_path(value, &path).map_or_else(String::new, |found| match found {
            Value::Object(_) | Value::Array(_) => String::new(),
            plain => plain.to_string(),
        });
        Problem::new(file, path, shown, error.to_string(), error.hint()).into()
    })
}

/// What stands at a path such as `placed[3].place.zone`.
fn at_path<'a>(value: &'a Value, path: &str) -> Option<&'a Value> {
    let mut now = value;
    for step in path.split('.').filter(|step| !step.is_empty()) {
        let (name, indices) = step
            .split_once('[')
            .map_or((step, ""), |(n, rest)| (n, rest));
        if !name.is_empty() {
            now = now.get(name)?;
        }
        for index in indices.split(['[', ']']).filter(|index| !index.is_empty()) {
            now = now.get(index.parse::<usize>().ok()?)?;
        }
    }
    Some(now)
}

/// Builds a value and refuses a key that stands twice; the way to where it stopped stays behind.
#[derive(Clone, Copy)]
struct Strict<'a>(&'a RefCell<Vec<Step>>);

impl<'de> serde::de::DeserializeSeed<'de> for Strict<'_> {
    type Value = Value;
    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<Value, D::Error> {
        from.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Strict<'_> {
    type Value = Value;
    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("a JSON value")
    }
    fn visit_bool<E>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }
    fn visit_i64<E>(self, value: i64) -> Result<Value, E> {
        Ok(value.into())
    }
    fn visit_u64<E>(self, value: u64) -> Result<Value, E> {
        Ok(value.into())
    }
    fn visit_f64<E: serde::de::Error>(self, value: f64) -> Result<Value, E> {
        let number = serde_json::Number::from_f64(value);
        number
            .map(Value::Number)
            .ok_or_else(|| E::custom(format!("{value} is not a finite number")))
    }
    fn visit_str<E>(self, value: &str) -> Result<Value, E> {
        Ok(Value::String(value.to_owned()))
    }
    fn visit_string<E>(self, value: String) -> Result<Value, E> {
        Ok(Value::String(value))
    }
    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }
    fn visit_none<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }
    fn visit_some<D: Deserializer<'de>>(self, from: D) -> Result<Value, D::Error> {
        from.deserialize_any(self)
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        let mut list = Vec::new();
        loop {
            self.0.borrow_mut().push(Step::Index(list.len()));
            let item = items.next_element_seed(self)?;
            self.0.borrow_mut().pop();
            let Some(item) = item else {
                return Ok(Value::Array(list));
            };
            list.push(item);
        }
    }
    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Value, A::Error> {
        let mut map = Map::new();
        while let Some(key) = entries.next_key::<String>()? {
            if map.contains_key(&key) {
                return Err(serde::de::Error::custom(format!(
                    "the key `{key}` stands twice"
                )));
            }
            self.0.borrow_mut().push(Step::Key(key.clone()));
            let value = entries.next_value_seed(self)?;
            self.0.borrow_mut().pop();
            map.insert(key, value);
        }
        Ok(Value::Object(map))
    }
}
