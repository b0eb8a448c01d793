//! A reader of values that knows where it stands.
//!
//! Serde's own way from a value to a type does not say where it failed; a wrapper that does would
//! be compiled once more for every type and cost the page a fifth of its size. This reader is
//! compiled once: each level that an error passes on its way out adds its own step to the path.
//!
//! Each kind of value has its own short way: one way for all of them would compile, for every type,
//! also what it makes of numbers, words and lists that it never accepts.

use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, Error as _, Expected, IntoDeserializer, MapAccess,
    SeqAccess, Unexpected, VariantAccess, Visitor,
};
use serde::forward_to_deserialize_any;
use serde_json::Value;
use serde_json::map::Iter as MapIter;
use std::fmt::Display;

/// What does not fit, and the steps to it, innermost first. Small, since every answer has room for
/// one.
#[derive(Debug)]
pub(super) struct Misfit(Box<Story>);

#[derive(Debug)]
struct Story {
    steps: Vec<String>,
    message: String,
    hint: String,
}

impl Misfit {
    #[cold]
    #[inline(never)]
    fn told(message: String, hint: String) -> Self {
        Self(Box::new(Story {
            steps: Vec::new(),
            message,
            hint,
        }))
    }

    /// Something of another kind than what belongs there.
    #[cold]
    #[inline(never)]
    fn other_kind(found: Unexpected<'_>, wanted: &dyn Expected) -> Self {
        let found = match found {
            Unexpected::Bool(_) => "true or false",
            Unexpected::Unsigned(_) | Unexpected::Signed(_) | Unexpected::Float(_) => "a number",
            Unexpected::Str(_) | Unexpected::Char(_) => "text",
            Unexpected::Unit => "empty",
            Unexpected::Seq => "a list",
            Unexpected::Map => "a group of keys",
            _ => "something else",
        };
        // Serde names the types of the program; a person knows what they look like in the file.
        let wanted = wanted.to_string();
        let (wanted, hint) = match wanted.as_str() {
            "f64" | "f32" => ("a number", "a number, without quotes"),
            "a boolean" => ("true or false", "true or false, without quotes"),
            "a string" | "a borrowed string" => ("text", "text, in quotes"),
            "a sequence" => ("a list", "a list in square brackets"),
            "a map" => ("a group of keys", "keys with their values"),
            other if is_whole(other) => ("a whole number", "a whole number, without quotes"),
            other if other.starts_with("struct ") => ("a group of keys", "keys with their values"),
            other => (other, ""),
        };
        Self::told(
            format!("is {found} where {wanted} belongs"),
            hint.to_owned(),
        )
    }

    /// What would do.
    pub(super) fn hint(&self) -> &str {
        &self.0.hint
    }

    #[cold]
    #[inline(never)]
    fn under(mut self, step: &str) -> Self {
        self.0.steps.push(step.to_owned());
        self
    }

    #[cold]
    #[inline(never)]
    fn at(self, index: usize) -> Self {
        self.under(&format!("[{index}]"))
    }

    /// Another kind of value than the type asks for.
    #[cold]
    #[inline(never)]
    fn unlike(value: &Value, expected: &dyn Expected) -> Self {
        let found = match value {
            Value::Null => Unexpected::Unit,
            Value::Bool(flag) => Unexpected::Bool(*flag),
            Value::String(text) => Unexpected::Str(text),
            Value::Array(_) => Unexpected::Seq,
            Value::Object(_) => Unexpected::Map,
            Value::Number(number) => match (number.as_u64(), number.as_i64()) {
                (Some(n), _) => Unexpected::Unsigned(n),
                (_, Some(n)) => Unexpected::Signed(n),
                _ => Unexpected::Float(number.as_f64().unwrap_or_default()),
            },
        };
        Self::invalid_type(found, expected)
    }

    /// Path such as `placed[3].place.zone`.
    pub(super) fn path(&self) -> String {
        let mut path = String::new();
        for step in self.0.steps.iter().rev() {
            if !path.is_empty() && !step.starts_with('[') {
                path.push('.');
            }
            path.push_str(step);
        }
        path
    }
}

/// Serde's names of whole numbers.
fn is_whole(name: &str) -> bool {
    [
        "u8", "u16", "u32", "u64", "usize", "i8", "i16", "i32", "i64",
    ]
    .contains(&name)
}

impl Display for Misfit {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0.message)
    }
}

impl std::error::Error for Misfit {}

impl serde::de::Error for Misfit {
    #[cold]
    #[inline(never)]
    fn custom<T: Display>(message: T) -> Self {
        Self::told(message.to_string(), String::new())
    }

    fn invalid_type(found: Unexpected<'_>, wanted: &dyn Expected) -> Self {
        Self::other_kind(found, wanted)
    }

    fn invalid_value(found: Unexpected<'_>, wanted: &dyn Expected) -> Self {
        match found {
            // The right kind, out of what the program can hold.
            Unexpected::Unsigned(_) | Unexpected::Signed(_) | Unexpected::Float(_)
                if is_whole(&wanted.to_string()) =>
            {
                Self::told(
                    "is not a whole number of a usable size".to_owned(),
                    "a whole number".to_owned(),
                )
            }
            _ => Self::other_kind(found, wanted),
        }
    }

    fn unknown_field(_: &str, known: &'static [&'static str]) -> Self {
        // The key itself is the last step of the path.
        Self::told(
            "is not a known key".to_owned(),
            format!("take it out, or use one of: {}", known.join(", ")),
        )
    }

    fn unknown_variant(word: &str, known: &'static [&'static str]) -> Self {
        let word: String = word.chars().take(40).collect();
        Self::told(
            format!("\"{word}\" is none of the words known here"),
            format!("one of: {}", known.join(", ")),
        )
    }

    fn missing_field(key: &'static str) -> Self {
        Self::told(
            format!("the key \"{key}\" is missing"),
            format!("add \"{key}\""),
        )
    }
}

/// Reads from a borrowed value.
pub(super) struct Reader<'de>(pub(super) &'de Value);

impl<'de> Deserializer<'de> for Reader<'de> {
    type Error = Misfit;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misfit> {
        match self.0 {
            Value::Null => visitor.visit_unit(),
            Value::Bool(flag) => visitor.visit_bool(*flag),
            Value::String(text) => visitor.visit_borrowed_str(text),
            Value::Array(_) => self.deserialize_seq(visitor),
            Value::Object(_) => self.deserialize_map(visitor),
            Value::Number(_) => self.deserialize_i64(visitor),
        }
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misfit> {
        match self.0 {
            Value::Bool(flag) => visitor.visit_bool(*flag),
            other => Err(Misfit::unlike(other, &visitor)),
        }
    }

    fn deserialize_i64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misfit> {
        let Value::Number(number) = self.0 else {
            return Err(Misfit::unlike(self.0, &visitor));
        };
        match (number.as_u64(), number.as_i64(), number.as_f64()) {
            (Some(n), _, _) => visitor.visit_u64(n),
            (_, Some(n), _) => visitor.visit_i64(n),
            (_, _, Some(n)) => visitor.visit_f64(n),
            _ => Err(Misfit::custom("is not a number that can be kept")),
        }
    }

    fn deserialize_f64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misfit> {
        match self.0.as_f64() {
            Some(number) => visitor.visit_f64(number),
            None => Err(Misfit::unlike(self.0, &visitor)),
        }
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misfit> {
        match self.0 {
            Value::String(text) => visitor.visit_borrowed_str(text),
            other => Err(Misfit::unlike(other, &visitor)),
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misfit> {
        self.deserialize_str(visitor)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misfit> {
        let Value::Array(items) = self.0 else {
            return Err(Misfit::unlike(self.0, &visitor));
        };
        let mut items = Items {
            items: items.iter(),
            at: 0,
        };
        let read = visitor.visit_seq(&mut items)?;
        items.end()?;
        Ok(read)
    }

    fn deserialize_tuple<V: Visitor<'de>>(
        self,
        _len: usize,
        visitor: V,
    ) -> Result<V::Value, Misfit> {
        self.deserialize_seq(visitor)
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misfit> {
        match self.0 {
            Value::Object(map) => visitor.visit_map(Entries {
                entries: map.iter(),
                value: None,
            }),
            other => Err(Misfit::unlike(other, &visitor)),
        }
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _name: &'static str,
        _fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Misfit> {
        self.deserialize_map(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Misfit> {
        if self.0.is_null() {
            visitor.visit_none()
        } else {
            visitor.visit_some(self)
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _name: &'static str,
        visitor: V,
    ) -> Result<V::Value, Misfit> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _name: &'static str,
        _variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Misfit> {
        match self.0 {
            Value::String(name) => visitor.visit_enum(Choice { name, inner: None }),
            Value::Object(map) if map.len() == 1 => match map.iter().next() {
                Some((name, inner)) => visitor.visit_enum(Choice {
                    name,
                    inner: Some(inner),
                }),
                None => Err(Misfit::custom("is empty")),
            },
            _ => Err(Misfit::custom(
                "is neither a word nor an object with one key",
            )),
        }
    }

    forward_to_deserialize_any! {
        i8 i16 i32 u8 u16 u32 u64 f32 char bytes byte_buf unit unit_struct tuple_struct identifier
        ignored_any
    }
}

struct Items<'de> {
    items: std::slice::Iter<'de, Value>,
    at: usize,
}

impl Items<'_> {
    /// Nothing may be left over, such as a fourth number of a point.
    fn end(&self) -> Result<(), Misfit> {
        match self.items.len() {
            0 => Ok(()),
            more => Err(Misfit::custom(format!("has {more} entries too many"))),
        }
    }
}

impl<'de> SeqAccess<'de> for &mut Items<'de> {
    type Error = Misfit;
    fn next_element_seed<T: DeserializeSeed<'de>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, Misfit> {
        let Some(item) = self.items.next() else {
            return Ok(None);
        };
        let at = self.at;
        self.at += 1;
        seed.deserialize(Reader(item))
            .map(Some)
            .map_err(|e| e.at(at))
    }
    fn size_hint(&self) -> Option<usize> {
        Some(self.items.len())
    }
}

struct Entries<'de> {
    entries: MapIter<'de>,
    value: Option<(&'de str, &'de Value)>,
}

impl<'de> MapAccess<'de> for Entries<'de> {
    type Error = Misfit;
    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, Misfit> {
        let Some((key, value)) = self.entries.next() else {
            return Ok(None);
        };
        self.value = Some((key, value));
        let key_reader: serde::de::value::BorrowedStrDeserializer<'de, Misfit> =
            serde::de::value::BorrowedStrDeserializer::new(key);
        seed.deserialize(key_reader)
            .map(Some)
            .map_err(|e| e.under(key))
    }
    fn next_value_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<T::Value, Misfit> {
        let (key, value) = self
            .value
            .take()
            .ok_or_else(|| Misfit::custom("a value without a key"))?;
        seed.deserialize(Reader(value)).map_err(|e| e.under(key))
    }
}

struct Choice<'de> {
    name: &'de str,
    inner: Option<&'de Value>,
}

impl<'de> EnumAccess<'de> for Choice<'de> {
    type Error = Misfit;
    type Variant = Inner<'de>;
    fn variant_seed<T: DeserializeSeed<'de>>(
        self,
        seed: T,
    ) -> Result<(T::Value, Self::Variant), Misfit> {
        let name: serde::de::value::StrDeserializer<'_, Misfit> = self.name.into_deserializer();
        let variant = seed.deserialize(name)?;
        Ok((
            variant,
            Inner {
                name: self.name,
                inner: self.inner,
            },
        ))
    }
}

struct Inner<'de> {
    name: &'de str,
    inner: Option<&'de Value>,
}

impl<'de> Inner<'de> {
    fn value(&self) -> Result<&'de Value, Misfit> {
        self.inner
            .ok_or_else(|| Misfit::custom(format!("`{}` needs a value", self.name)))
    }
}

impl<'de> VariantAccess<'de> for Inner<'de> {
    type Error = Misfit;
    fn unit_variant(self) -> Result<(), Misfit> {
        match self.inner {
            None | Some(Value::Null) => Ok(()),
            Some(_) => Err(Misfit::custom(format!("`{}` takes no value", self.name))),
        }
    }
    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, Misfit> {
        seed.deserialize(Reader(self.value()?))
            .map_err(|e| e.under(self.name))
    }
    fn tuple_variant<V: Visitor<'de>>(self, _len: usize, visitor: V) -> Result<V::Value, Misfit> {
        Reader(self.value()?)
            .deserialize_seq(visitor)
            .map_err(|e| e.under(self.name))
    }
    fn struct_variant<V: Visitor<'de>>(
        self,
        _fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Misfit> {
        Reader(self.value()?)
            .deserialize_map(visitor)
            .map_err(|e| e.under(self.name))
    }
}
