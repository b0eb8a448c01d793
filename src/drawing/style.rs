//! Pens, fills and letters of each role, as CSS that stays inside its own drawing, and the hatches.

use super::View;
use super::encode::number;
use super::hatch::{hatch, word};
use super::scene::Scene;
use std::fmt::Write;

/// The rules, with marks for the drawing's class and for millimetres of paper.
const RULES: &str = include_str!("drawing.css");

/// The class under which all rules of this drawing stand.
#[must_use]
pub fn scope(scene: &Scene) -> String {
    let place = if scene.page.is_some() {
        "sheet"
    } else {
        "stage"
    };
    format!("aw-{}-{place}", scene.view.word())
}

/// Writes the style sheet of a drawing.
pub fn css(out: &mut String, scene: &Scene) {
    let scope = scope(scene);
    let mut rest = RULES.split_once("*/").map_or(RULES, |(_, rules)| rules);
    while let Some(index) = rest.find(['@', '$']) {
        out.push_str(&rest[..index]);
        let mark = rest.as_bytes()[index];
        rest = &rest[index + 1..];
        if mark == b'@' {
            out.push('.');
            out.push_str(&scope);
        } else {
            let end = rest
                .find(|c: char| !c.is_ascii_digit() && c != '.')
                .unwrap_or(rest.len());
            number(out, rest[..end].parse().unwrap_or(0.0) * scene.unit);
            rest = &rest[end..];
        }
    }
    out.push_str(rest);
    for kind in &scene.kinds {
        let word = word(*kind);
        let _ = writeln!(
            out,
            ".{scope} .kind-{word} .shape{{fill:url(#{scope}-{word})}}"
        );
    }
    if scene.view == View::Turn {
        for (word, _, _) in WAYS {
            let _ = writeln!(out, ".{scope} .{word}{{fill:url(#{scope}-{word})}}");
        }
    }
    if scene.page.is_some() {
        // Border and title block are in paper millimetres and need no halo.
        let _ = write!(out, ".{scope} .page text{{stroke:none}}");
        let _ = write!(out, ".{scope} .page .frame{{stroke-width:.5}}");
        let _ = write!(out, ".{scope} .page .fine{{stroke-width:.18}}");
    }
}

/// What truck and trailer sweep: class, tint, strokes on a tile of 3 mm; told apart in black and white.
const WAYS: [(&str, &str, &str); 2] = [
    ("way", "#eef2f5", "M0 3L3 0M-.5 .5L.5-.5M2.5 3.5L3.5 2.5"),
    ("trailer-way", "#f8f6ef", "M0 1.5H3"),
];

/// Writes the hatches as pattern elements.
pub fn patterns(out: &mut String, scene: &Scene) {
    let scope = scope(scene);
    for (word, tint, strokes) in WAYS.iter().filter(|_| scene.view == View::Turn) {
        let _ = writeln!(
            out,
            "<pattern id=\"{scope}-{word}\" width=\"3\" height=\"3\" \
             patternUnits=\"userSpaceOnUse\" patternTransform=\"scale({u})\">\
             <path d=\"M0 0H3V3H0Z\" style=\"fill:{tint};stroke:none\"/>\
             <path d=\"{strokes}\" style=\"stroke:#8b959d;stroke-width:.12\"/></pattern>",
            u = scene.unit,
        );
    }
    for kind in &scene.kinds {
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
            u = scene.unit,
            tint = h.tint,
            strokes = h.strokes,
        );
    }
}

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
