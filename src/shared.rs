//! Data that many share and nobody copies until it is changed.
//!
//! Every move of the mouse makes the vehicle anew; its chassis, parts, law and trailer are those of
//! the library all the while.

use serde::{Serialize, Serializer};
use std::ops::{Deref, DerefMut};
use std::sync::Arc;

/// A value that is shared as long as it is read. Whoever changes it gets a copy of their own first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shared<T>(Arc<T>);

impl<T: Serialize> Serialize for Shared<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.0.serialize(serializer)
    }
}

impl<T> From<T> for Shared<T> {
    fn from(value: T) -> Self {
        Self(Arc::new(value))
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
}
