//! How much room a text takes, without asking a font.
//!
//! A table of the widths of one common sans-serif family (printable ASCII, thousandths of the em),
//! with slack for wider families that a reader's machine may have instead. Letters outside the table
//! count as wide ones. Good for placing labels, not for typesetting.

use super::plane::{Rect, at};
use super::scene::{Anchor, Text, TextRole};

/// Widths of the characters from space to tilde, in thousandths of the em.
const WIDTHS: [u16; 95] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
    611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
    667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500,
    222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];
/// Room for wider families than the table's.
const SLACK: f64 = 1.16;
/// Heavier weights are wider.
const BOLD: f64 = 1.13;
/// Above the base line, of the em.
const ASCENT: f64 = 0.78;
/// Below the base line, of the em.
const DESCENT: f64 = 0.22;

/// Width of a text at this size.
#[must_use]
pub fn width(text: &str, size: f64, bold: bool) -> f64 {
    let mut sum = 0.0;
    for c in text.chars() {
        let index = (c as usize).wrapping_sub(32);
        sum += match WIDTHS.get(index) {
            Some(w) => f64::from(*w),
            None if (c as u32) < 0x1100 => 720.0,
            None => 1_000.0,
        };
    }
    sum * size * SLACK * if bold { BOLD } else { 1.0 } / 1_000.0
}

/// The text, cut with an ellipsis where it would be wider than `room`.
#[must_use]
pub fn fitted(text: &str, size: f64, bold: bool, room: f64) -> String {
    if width(text, size, bold) <= room {
        return text.to_owned();
    }
    let mut cut = String::new();
    let mut used = width("…", size, bold);
    for c in text.chars() {
        let mut one = [0; 4];
        used += width(c.encode_utf8(&mut one), size, bold);
        if used > room {
            break;
        }
        cut.push(c);
    }
    let mut cut = cut.trim_end().to_owned();
    cut.push('…');
    cut
}

impl Text {
    /// A line of text reading to the right.
    #[must_use]
    pub fn new(
        role: TextRole,
        x: f64,
        y: f64,
        anchor: Anchor,
        size: f64,
        text: impl Into<String>,
    ) -> Self {
        Self {
            role,
            at: at(x, y),
            anchor,
            size,
            upward: false,
            text: text.into(),
        }
    }

    /// Width along its base line.
    #[must_use]
    pub fn length(&self) -> f64 {
        width(&self.text, self.size, self.role.bold())
    }

    /// The box that it takes.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let w = self.length();
        let start = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -w / 2.0,
            Anchor::End => -w,
        };
        let (up, down) = (self.size * ASCENT, self.size * DESCENT);
        if self.upward {
            Rect {
                left: self.at.x - up,
                right: self.at.x + down,
                top: self.at.y - start - w,
                bottom: self.at.y - start,
            }
        } else {
            Rect {
                left: self.at.x + start,
                right: self.at.x + start + w,
                top: self.at.y - up,
                bottom: self.at.y + down,
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_name_is_cut_to_its_room_and_says_so() {
        let cut = fitted("Gullwharf Drayage tractor", 3.0, false, 30.0);
        assert!(cut.ends_with('…'));
        assert!(width(&cut, 3.0, false) <= 30.0);
        assert_eq!(fitted("short", 3.0, false, 30.0), "short");
    }

    #[test]
    fn the_box_of_a_text_that_reads_upward_is_tall() {
        let mut text = Text::new(
            TextRole::Dimension,
            0.0,
            0.0,
            Anchor::Middle,
            10.0,
            "1,010 mm",
        );
        let flat = text.bounds();
        text.upward = true;
        let tall = text.bounds();
        assert!((flat.width() - tall.height()).abs() < 1e-9);
        assert!((flat.height() - tall.width()).abs() < 1e-9);
    }
}
