//! A drawing on the stage, and what the next one may take from it.
//!
//! A move of the mouse changes one part of sixty. What was drawn from things that are the same
//! ([`Shared::is`]) under the same style is taken over, not drawn again; the result is the same scene.

use super::labels::Record;
use super::plane::Rect;
use super::scene::{Group, Scene, Sight};
use super::tags::Tag;
use super::{Severity, Style};
use crate::shared::{Maybe, Shared};
use crate::vehicle::{Item, Vehicle};

/// A scene and what it was made of.
#[derive(Clone, Debug)]
pub struct Drawn {
    /// What is to be seen.
    pub scene: Scene,
    pub(super) of: Shared<Vehicle>,
    pub(super) style: Style,
    pub(super) made: Made,
}

/// The pieces of a scene.
#[derive(Clone, Debug)]
pub(super) struct Made {
    pub bare: Shared<Bare>,
    pub labels: Record,
    /// Parts by their index in the vehicle; nothing for one that has no place.
    pub parts: Vec<Option<PartDrawn>>,
}

/// The truck without its parts.
#[derive(Clone, Debug)]
pub(super) struct Bare {
    /// Room of the bare truck, its body and the trailer's front.
    pub extent: Rect,
    pub truck: Vec<Shared<Group>>,
    pub trailer: Option<Shared<Group>>,
}

/// A part as it was drawn, and all that it was drawn from besides the item and the style's units.
#[derive(Clone, Debug)]
pub(super) struct PartDrawn {
    pub sight: Sight,
    pub selected: bool,
    pub severity: Option<Severity>,
    pub tag: Option<Shared<Tag>>,
    pub group: Shared<Group>,
    /// The plate with its tag.
    pub plate: Option<Shared<Group>>,
}

impl PartDrawn {
    /// True when it would be drawn alike from these.
    pub fn is_of(
        &self,
        sight: Sight,
        selected: bool,
        severity: Option<Severity>,
        tag: Option<&Shared<Tag>>,
    ) -> bool {
        self.tag.as_ref().stays(tag)
            && (self.sight, self.selected, self.severity) == (sight, selected, severity)
    }
}

impl Drawn {
    /// The bare truck, where it is the same. An axle of the donor is drawn unless an e-axle is in its
    /// place.
    pub(super) fn bare(&self, now: &Vehicle) -> Option<Shared<Bare>> {
        let rides = |item: &&Shared<Item>| item.unsprung_axle.is_some();
        let then = self.of.items.iter().filter(rides);
        let same = now.items.iter().filter(rides).eq(then);
        (same && now.stands_on(&self.of)).then(|| self.made.bare.clone())
    }

    /// The part at this index, where it is the same item at the same index.
    pub(super) fn part(&self, now: &Vehicle, index: usize) -> Option<&PartDrawn> {
        let part = self.made.parts.get(index)?.as_ref();
        part.filter(|_| now.keeps_item(index, &self.of))
    }
}
