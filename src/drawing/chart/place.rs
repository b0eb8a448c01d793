//! Words of a chart, and where they stand without touching.

use crate::drawing::plane::Rect;
use crate::drawing::scene::{Anchor, Group, Text, TextRole};
use crate::drawing::text::{fitted, width};
use crate::quantity::grouped;

/// Sizes of letters, pixels.
#[derive(Clone, Copy, Debug)]
pub struct Letters {
    /// Title.
    pub title: f64,
    /// Everything else.
    pub small: f64,
}

impl Letters {
    /// Of a whole chart or a strip.
    pub const fn of(strip: bool) -> Self {
        if strip {
            Self {
                title: 10.0,
                small: 9.5,
            }
        } else {
            Self {
                title: 14.0,
                small: 11.0,
            }
        }
    }

    /// Height that a line of small letters takes.
    pub fn line(&self) -> f64 {
        self.small * 1.2
    }

    /// Width of small words.
    pub fn wide(&self, words: &str) -> f64 {
        width(words, self.small, false)
    }

    /// Small words, cut to a room.
    pub fn small(&self, x: f64, y: f64, anchor: Anchor, words: &str, room: f64) -> Text {
        let words = fitted(words, self.small, false, room);
        Text::new(TextRole::Note, x, y, anchor, self.small, words)
    }

    /// From the base line to the middle of small letters.
    pub fn half(&self) -> f64 {
        self.small * 0.28
    }
}

/// A tick's number.
pub fn number(value: f64, decimals: usize) -> String {
    grouped(value, decimals)
}

/// Writes the title into its line and returns where the rest may begin.
pub fn title(group: &mut Group, words: &str, letters: Letters, room: f64) -> f64 {
    let words = fitted(words, letters.title, true, room);
    let y = 4.0 + letters.title;
    group.text(Text::new(
        TextRole::Title,
        8.0,
        y,
        Anchor::Start,
        letters.title,
        words,
    ));
    y + 5.0
}

/// Heights near the wished ones, apart by at least a gap and inside a span as far as there is room; the
/// order stays.
pub fn spread(wished: &[f64], gap: f64, span: (f64, f64)) -> Vec<f64> {
    let mut order: Vec<usize> = (0..wished.len()).collect();
    let at = |i: &usize| wished.get(*i).copied().unwrap_or(0.0);
    order.sort_by(|a, b| at(a).total_cmp(&at(b)).then(a.cmp(b)));
    let mut places: Vec<f64> = Vec::with_capacity(order.len());
    let mut floor = span.0;
    for i in &order {
        let y = at(i).max(floor);
        places.push(y);
        floor = y + gap;
    }
    let mut ceiling = span.1;
    for y in places.iter_mut().rev() {
        *y = y.min(ceiling);
        ceiling = *y - gap;
    }
    let mut out = vec![0.0; wished.len()];
    for (i, y) in order.into_iter().zip(places) {
        if let Some(place) = out.get_mut(i) {
            *place = y;
        }
    }
    out
}

/// Adds a text unless it would touch the one before it in its row.
pub fn in_row(group: &mut Group, last: &mut Option<Rect>, text: Text, gap: f64) {
    let bounds = text.bounds();
    if last.is_none_or(|l| !l.grown(gap).overlaps(&bounds)) {
        group.text(text);
        *last = Some(bounds);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_keep_apart_and_stay_inside() {
        let places = spread(&[50.0, 51.0, 49.0, 99.0], 12.0, (0.0, 100.0));
        let mut sorted = places.clone();
        sorted.sort_by(f64::total_cmp);
        assert!(sorted.windows(2).all(|p| p[1] - p[0] >= 12.0 - 1e-9));
        assert!(sorted[0] >= 0.0 && sorted[3] <= 100.0);
        assert!(places[2] < places[0] && places[0] < places[1] && places[1] < places[3]);
    }
}
