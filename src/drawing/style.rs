//! Pens, fills and letters of each role, as CSS that stays inside its own drawing, and the hatches.

use super::View;
use super::encode::number;
use super::hatch::{hatch, word};
use super::scene::Scene;
use crate::part::Kind;
use std::fmt::Write;

/// The rules, with marks for the drawing's class and for millimetres of paper.
const RULES: &str = include_str!("drawing.css");

/// The pens of a drawing, or of all drawings on the page's stage.
#[derive(Debug)]
pub struct Pens {
    /// The class under which all rules stand.
    pub scope: String,
    unit: f64,
    kinds: Vec<Kind>,
    turn: bool,
    sheet: bool,
}

impl Pens {
    /// Those that a drawing needs to stand alone.
    #[must_use]
    pub fn of(scene: &Scene) -> Self {
        let place = if scene.page.is_some() {
            "sheet"
        } else {
            "stage"
        };
        Self {
            scope: format!("aw-{}-{place}", scene.view.word()),
            unit: scene.unit,
            kinds: scene.kinds.iter().copied().collect(),
            turn: scene.view == View::Turn,
            sheet: scene.page.is_some(),
        }
    }

    /// Those that the views on the page's stage share.
    #[must_use]
    pub fn of_stage(unit: f64) -> Self {
        Self {
            scope: STAGE.to_owned(),
            unit,
            kinds: Kind::ALL.to_vec(),
            turn: false,
            sheet: false,
        }
    }

    /// Writes the style sheet.
    pub fn css(&self, out: &mut String) {
        let scope = &self.scope;
        let mut rest = RULES.split_once("*/").map_or(RULES, |(_, rules)| rules);
        while let Some(index) = rest.find(['@', '$']) {
            out.push_str(&rest[..index]);
            let mark = rest.as_bytes()[index];
            rest = &rest[index + 1..];
            if mark == b'@' {
                out.push('.');
                out.push_str(scope);
            } else {
                let end = rest
                    .find(|c: char| !c.is_ascii_digit() && c != '.')
                    .unwrap_or(rest.len());
                number(out, rest[..end].parse().unwrap_or(0.0) * self.unit);
                rest = &rest[end..];
            }
        }
        out.push_str(rest);
        for kind in &self.kinds {
            let word = word(*kind);
            let _ = writeln!(
                out,
                ".{scope} .kind-{word} .shape{{fill:url(#{scope}-{word})}}"
            );
        }
        if self.turn {
            for (word, _, _) in WAYS {
                let _ = writeln!(out, ".{scope} .{word}{{fill:url(#{scope}-{word})}}");
            }
        }
        if self.sheet {
            // Border and title block are in paper millimetres and need no halo.
            let _ = write!(out, ".{scope} .page text{{stroke:none}}");
            let _ = write!(out, ".{scope} .page .frame{{stroke-width:.5}}");
            let _ = write!(out, ".{scope} .page .fine{{stroke-width:.18}}");
        }
    }

    /// Writes the hatches as pattern elements.
    pub fn patterns(&self, out: &mut String) {
        let (scope, u) = (&self.scope, self.unit);
        for (word, tint, strokes) in WAYS.iter().filter(|_| self.turn) {
            let _ = writeln!(
                out,
                "<pattern id=\"{scope}-{word}\" width=\"3\" height=\"3\" \
                 patternUnits=\"userSpaceOnUse\" patternTransform=\"scale({u})\">\
                 <path d=\"M0 0H3V3H0Z\" style=\"fill:{tint};stroke:none\"/>\
                 <path d=\"{strokes}\" style=\"stroke:#8b959d;stroke-width:.12\"/></pattern>",
            );
        }
        for kind in &self.kinds {
            let h = hatch(*kind);
            let (w, tall) = (h.width, h.height);
            let _ = writeln!(
                out,
                "<pattern id=\"{scope}-{word}\" width=\"{w}\" height=\"{tall}\" \
                 patternUnits=\"userSpaceOnUse\" patternTransform=\"scale({u})\">\
                 <path d=\"M0 0H{w}V{tall}H0Z\" style=\"fill:{tint};stroke:none\"/>\
                 <path d=\"{strokes}\" style=\"stroke:#2c3b46;stroke-width:.17;stroke-opacity:.62\"/>\
                 </pattern>",
                word = word(*kind),
                tint = h.tint,
                strokes = h.strokes,
            );
        }
    }
}

/// The class of the views on the page's stage, which leave their pens to the page.
pub const STAGE: &str = "aw-stage";

/// What truck and trailer sweep: class, tint, strokes on a tile of 3 mm; told apart in black and white.
const WAYS: [(&str, &str, &str); 2] = [
    ("way", "#eef2f5", "M0 3L3 0M-.5 .5L.5-.5M2.5 3.5L3.5 2.5"),
    ("trailer-way", "#f8f6ef", "M0 1.5H3"),
];

#[cfg(test)]
mod tests {
    use super::RULES;

    #[test]
    fn every_rule_stays_inside_its_drawing() {
        let (_, rules) = RULES.split_once("*/").expect("a comment first");
        for line in rules.lines().filter(|line| !line.is_empty()) {
            let (selectors, _) = line.split_once('{').expect("a rule");
            assert!(selectors.split(',').all(|s| s.starts_with("@ ")), "{line}");
        }
    }
}
