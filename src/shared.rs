//! Data that many share and nobody copies until it is changed.
//!
//! Every move of the mouse makes the vehicle anew; its chassis, parts, law and trailer are those of
//! the library all the while. And what comes out equal to what it was before the move can be made the
//! same thing ([`Shared::settle`]): whatever was worked out from it then holds still, which takes a
//! glance to see ([`Shared::is`]) where a comparison would take longer than the work.

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::ops::{Deref, DerefMut};
use std::sync::Arc;

/// A value that is shared as long as it is read. Whoever changes it gets a copy of their own first.
#[derive(Debug, Default)]
pub struct Shared<T>(Arc<T>);

impl<T> Clone for Shared<T> {
    fn clone(&self) -> Self {
        Self(Arc::clone(&self.0))
    }
}

// What is the same is equal: numbers that are not (NaN) are stopped where they enter.
impl<T: PartialEq> PartialEq for Shared<T> {
    fn eq(&self, other: &Self) -> bool {
        self.is(other) || *self.0 == *other.0
    }
}

impl<T> Shared<T> {
    /// True when both are one and the same thing, not only equal.
    #[must_use]
    pub fn is(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }
}

/// What may be there or not.
pub trait Maybe {
    /// True when both are one and the same thing, or neither is there.
    fn stays(self, other: Self) -> bool;
}

impl<T> Maybe for Option<&Shared<T>> {
    fn stays(self, other: Self) -> bool {
        match (self, other) {
            (Some(now), Some(then)) => now.is(then),
            (None, None) => true,
            _ => false,
        }
    }
}

impl<T: PartialEq> Shared<T> {
    /// Becomes the same as what was before, if it is equal to it.
    pub fn settle(&mut self, before: &Self) {
        if *self == *before {
            *self = before.clone();
        }
    }
}

impl<T: Serialize> Serialize for Shared<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.0.serialize(serializer)
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Shared<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        T::deserialize(deserializer).map(Self::from)
    }
}

// In a file nobody sees that it is shared.
#[cfg(not(target_arch = "wasm32"))]
impl<T: schemars::JsonSchema> schemars::JsonSchema for Shared<T> {
    fn inline_schema() -> bool {
        T::inline_schema()
    }

    fn schema_name() -> std::borrow::Cow<'static, str> {
        T::schema_name()
    }

    fn schema_id() -> std::borrow::Cow<'static, str> {
        T::schema_id()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        T::json_schema(generator)
    }
}

impl<T> From<T> for Shared<T> {
    fn from(value: T) -> Self {
        Self(Arc::new(value))
    }
}

impl<T> AsRef<T> for Shared<T> {
    fn as_ref(&self) -> &T {
        &self.0
    }
}

impl<T> Deref for Shared<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.0
    }
}

impl<T: Clone> DerefMut for Shared<T> {
    fn deref_mut(&mut self) -> &mut T {
        Arc::make_mut(&mut self.0)
    }
}

/// A list from before, walked along beside the same list of now: of what came, went or stayed in the same
/// order, each is found where the last one was left.
#[derive(Clone, Debug)]
pub struct Along<'a, T> {
    rest: &'a [T],
}

impl<'a, T> Along<'a, T> {
    /// From the first on.
    #[must_use]
    pub const fn new(list: &'a [T]) -> Self {
        Self { rest: list }
    }

    /// The next one that is wanted, and what was passed over to reach it; without one nothing is passed.
    pub fn next(&mut self, wanted: impl Fn(&T) -> bool) -> Option<(&'a T, &'a [T])> {
        let at = self.rest.iter().position(wanted)?;
        let (passed, rest) = self.rest.split_at(at);
        let (found, rest) = rest.split_first()?;
        self.rest = rest;
        Some((found, passed))
    }
}

#[cfg(test)]
mod tests {
    use super::Shared;

    #[test]
    fn a_change_is_seen_by_nobody_else() {
        let first = Shared::from(vec![1, 2]);
        let mut second = first.clone();
        assert!(std::ptr::eq(&*first, &*second));
        second.push(3);
        assert_eq!((first.len(), second.len()), (2, 3));
    }

    #[test]
    fn what_is_equal_becomes_the_same_and_nothing_else_does() {
        let before = Shared::from(vec![1, 2]);
        let (mut equal, mut other) = (Shared::from(vec![1, 2]), Shared::from(vec![2, 1]));
        assert!(!equal.is(&before));
        equal.settle(&before);
        other.settle(&before);
        assert!(equal.is(&before) && !other.is(&before));
        assert_eq!(*other, [2, 1]);
    }
}
