//! What can be chosen: templates, trailers, laws, the shelf of parts, and examples.

use super::session::{Examples, Session};
use crate::part::Kind;
use crate::plan::Plan;
use crate::quantity::{Measure, Units, mass};
use serde::Serialize;

/// Something with a name.
#[derive(Debug, Serialize)]
pub struct Named {
    id: String,
    name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    class: Option<crate::chassis::Class>,
}

/// A part on the shelf.
#[derive(Debug, Serialize)]
struct ShelfPart {
    id: String,
    name: String,
    mass: String,
    size: String,
    zones: Vec<String>,
}

/// Parts of one kind.
#[derive(Debug, Serialize)]
struct Shelf {
    kind: &'static str,
    words: &'static str,
    parts: Vec<ShelfPart>,
}

/// Everything that can be chosen.
#[derive(Debug, Serialize)]
pub struct Catalogue {
    templates: Vec<Named>,
    trailers: Vec<Named>,
    laws: Vec<Named>,
    shelf: Vec<Shelf>,
}

impl Session {
    /// What can be chosen, in the reader's units.
    #[must_use]
    pub fn catalogue(&self, units: Units) -> Catalogue {
        let named = |id: &String, name: &String| Named {
            id: id.clone(),
            name: name.clone(),
            class: None,
        };
        let library = self.library();
        let all = || self.parts(self.plan());
        let shelf = Kind::ALL.into_iter().filter_map(|kind| {
            let parts: Vec<ShelfPart> = all()
                .filter(|part| part.kind == kind)
                .map(|part| {
                    let size = part.bounds().size();
                    let number = |mm: f64| Measure::Length.number(mm, units);
                    ShelfPart {
                        id: part.id.clone(),
                        name: part.name.clone(),
                        mass: mass(part.mass_kg, units),
                        size: format!(
                            "{} × {} × {} {}",
                            number(size.x),
                            number(size.y),
                            number(size.z),
                            Measure::Length.unit(units)
                        ),
                        zones: part.zones.clone(),
                    }
                })
                .collect();
            (!parts.is_empty()).then(|| Shelf {
                kind: kind.key(),
                words: kind.words(),
                parts,
            })
        });
        Catalogue {
            templates: library
                .chassis
                .values()
                .map(|c| Named {
                    class: Some(c.class),
                    ..named(&c.id, &c.name)
                })
                .collect(),
            trailers: library
                .trailers
                .values()
                .map(|t| named(&t.id, &t.name))
                .collect(),
            laws: library
                .laws
                .values()
                .map(|l| named(&l.id, &l.name))
                .collect(),
            shelf: shelf.collect(),
        }
    }
}

impl Examples {
    /// The shipped examples by name.
    #[must_use]
    pub fn named() -> Vec<Named> {
        let named = |(id, text): (String, String)| {
            let name = Plan::from_json(&id, &text).ok()?.name;
            Some(Named {
                id,
                name,
                class: None,
            })
        };
        Self::all().filter_map(named).collect()
    }
}
