//! What the page holds, so that it is told only what has changed since.
//!
//! Every answer has a number. The page says which number it holds; unless that is the one that is
//! remembered here, it is told everything. So neither side needs to trust the other's memory.

use super::told::Told;
use super::view::Shown;
use crate::drawing::{Drawn, View, write_change, write_on_stage};

/// Words and drawings as the page was last handed them.
#[derive(Debug, Default)]
pub struct Held {
    number: u32,
    words: Option<(u32, Shown)>,
    drawn: [Option<(u32, Drawn)>; View::ALL.len()],
}

impl Held {
    /// What was shown last.
    #[must_use]
    pub fn shown(&self) -> Option<&Shown> {
        self.words.as_ref().map(|(_, shown)| shown)
    }

    fn next(&mut self) -> u32 {
        self.number = self.number.wrapping_add(1);
        self.number
    }

    /// The words of what is shown from now on, as JSON: all of them, or what differs from those with
    /// the number that the page has. Fields that are left out are as they were; in a list, two numbers
    /// in brackets stand for what is kept of it, from and to.
    ///
    /// # Errors
    /// The words cannot be written as JSON, which would be a mistake of the program.
    pub fn show(&mut self, shown: Shown, have: u32) -> serde_json::Result<String> {
        let number = self.next();
        let before = self.words.replace((number, shown));
        let known = before.as_ref().filter(|(held, _)| *held == have);
        self.shown().map_or_else(
            || Ok(String::new()),
            |shown| {
                serde_json::to_string(&Told {
                    number: Some(number),
                    now: &shown.words,
                    before: known.map(|(_, shown)| &shown.words),
                })
            },
        )
    }

    /// A drawing of what is shown, by its place in [`View::ALL`]: its number, a line break and the SVG;
    /// or, when the page has the one that is remembered, its number, what stays and what is new (see
    /// [`write_change`]). Empty when nothing has changed, or nothing is shown.
    #[must_use]
    pub fn picture(&mut self, index: usize, have: u32) -> String {
        let number = self.next();
        let (Some((_, shown)), Some(view), Some(held)) =
            (&self.words, View::ALL.get(index), self.drawn.get_mut(index))
        else {
            return String::new();
        };
        let drawn = shown.drawn(*view, held.as_ref().map(|(_, before)| before));
        let text = match held {
            Some((known, before)) if *known == have => {
                let change = write_change(&drawn, before);
                if change.is_empty() {
                    *held = Some((have, drawn));
                    return change;
                }
                format!("{number} {change}")
            }
            _ => format!("{number}\n{}", write_on_stage(&drawn)),
        };
        *held = Some((number, drawn));
        text
    }
}
