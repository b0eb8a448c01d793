//! The words of a view as JSON: all of them, or what differs from the view before.

use super::view::View;
use crate::pieces::{Piece, pieces, unchanged};
use serde::ser::{SerializeMap, SerializeSeq};
use serde::{Serialize, Serializer};

/// A view as it is told.
pub(super) struct Told<'a> {
    /// By which the page calls it.
    pub number: Option<u32>,
    pub now: &'a View,
    /// What the reader knows; what is equal to it is not told again.
    pub before: Option<&'a View>,
}

impl Serialize for View {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let told = Told {
            number: None,
            now: self,
            before: None,
        };
        told.serialize(serializer)
    }
}

impl Serialize for Told<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        let out = &mut map;
        if let Some(number) = self.number {
            out.serialize_entry("number", &number)?;
        }
        self.field(out, "name", |v| &v.name)?;
        self.field(out, "notes", |v| &v.notes)?;
        self.field(out, "chassis", |v| &v.chassis)?;
        self.field(out, "file", |v| &v.file)?;
        self.field(out, "verdict", |v| &v.verdict)?;
        self.field(out, "bars", |v| &v.bars)?;
        self.field(out, "pages", |v| &v.pages)?;
        self.list(out, "findings", |v| &v.findings)?;
        self.list(out, "placed", |v| &v.placed)?;
        self.field(out, "hardware", |v| &v.hardware)?;
        if self.now.controls.is_some() {
            self.field(out, "controls", |v| &v.controls)?;
        }
        self.field(out, "payload", |v| &v.payload)?;
        self.field(out, "zones", |v| &v.zones)?;
        self.field(out, "cautions", |v| &v.cautions)?;
        self.field(out, "assumptions", |v| &v.assumptions)?;
        self.field(out, "problems", |v| &v.problems)?;
        map.end()
    }
}

impl Told<'_> {
    fn field<M: SerializeMap, T: Serialize + PartialEq>(
        &self,
        map: &mut M,
        name: &'static str,
        of: fn(&View) -> &T,
    ) -> Result<(), M::Error> {
        let now = of(self.now);
        if self.before.is_some_and(|before| of(before) == now) {
            return Ok(());
        }
        map.serialize_entry(name, now)
    }

    /// A long list: piece by piece, if there was one before.
    fn list<M: SerializeMap, T: Serialize + PartialEq>(
        &self,
        map: &mut M,
        name: &'static str,
        of: fn(&View) -> &[T],
    ) -> Result<(), M::Error> {
        let now = of(self.now);
        let Some(old) = self.before.map(of) else {
            return map.serialize_entry(name, now);
        };
        let pieces = pieces(old.len(), now.len(), &|a, b| old[a] == now[b]);
        if unchanged(old.len(), now.len(), &pieces) {
            return Ok(());
        }
        map.serialize_entry(name, &List { now, pieces })
    }
}

struct List<'a, T> {
    now: &'a [T],
    pieces: Vec<Piece>,
}

impl<T: Serialize> Serialize for List<'_, T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut seq = serializer.serialize_seq(None)?;
        for piece in &self.pieces {
            match piece {
                Piece::Kept(_) => seq.serialize_element(piece)?,
                Piece::New(range) => {
                    for each in &self.now[range.clone()] {
                        seq.serialize_element(each)?;
                    }
                }
            }
        }
        seq.end()
    }
}
