//! Pens, fills and letters of each role, as CSS that stays inside its own drawing.

use super::hatch::{hatch, word};
use super::scene::Scene;
use std::fmt::Write;

/// Ink of outlines and letters.
const INK: &str = "#14222c";
/// Ink of thin and secondary lines.
const GREY: &str = "#5d6b76";
/// Ink of the part that the user chose.
const CHOSEN: &str = "#0b57c2";

/// The class under which all rules of this drawing stand.
#[must_use]
pub fn scope(scene: &Scene) -> String {
    let place = if scene.page.is_some() { "sheet" } else { "stage" };
    format!("aw-{}-{place}", scene.view.word())
}

/// Writes the style sheet of a drawing.
pub fn css(css: &mut String, scene: &Scene) {
    let u = scene.unit;
    let scope = scope(scene);
    let mut rule = |selectors: &str, body: &str| {
        for (i, selector) in selectors.split(',').enumerate() {
            css.push_str(if i == 0 { "." } else { ",." });
            css.push_str(&scope);
            css.push(' ');
            css.push_str(selector);
        }
        css.push('{');
        css.push_str(body);
        css.push('}');
    };
    let line = |width: f64| format!("{:.1}px", width * u);
    let pen = |width: f64, colour: &str| format!("stroke:{colour};stroke-width:{}", line(width));
    let dash = |on: f64, off: f64| format!("stroke-dasharray:{:.1} {:.1}", on * u, off * u);
    let dash_dot = format!("{} {:.1} {u:.1}", dash(6.0, 1.0), 0.6 * u);
    rule("path,rect", "fill:none;stroke-linejoin:round;stroke-linecap:round");
    rule(".paper", "fill:#fff");
    rule("text", &format!("fill:{INK};font-family:Helvetica,Arial,sans-serif;stroke:none"));
    rule(".t-tag,.t-load,.t-find,.t-title", "font-weight:bold");
    rule(".t-tag", "fill:#fff");
    // Lines that cross a figure stop short of it.
    let halo = format!("paint-order:stroke;stroke:#fff;stroke-width:{}", line(0.9));
    rule(".t-dim,.t-part,.t-zone", &halo);
    rule(".t-zone", &format!("fill:{GREY};font-style:italic"));
    rule(".t-part", &format!("fill:{CHOSEN}"));
    rule(".ground", &pen(0.5, INK));
    rule(".earth", &pen(0.15, GREY));
    rule(".centre", &format!("{};{}", pen(0.2, GREY), dash_dot));
    rule(".zone", &format!("fill:#0b57c2;fill-opacity:.035;{};{}", pen(0.2, GREY), dash(1.2, 1.2)));
    rule(".trailer", "fill:#f4f5f6");
    rule(".trailer,.break", &pen(0.22, GREY));
    rule(".break", "stroke-linejoin:miter");
    rule(".phantom", &format!("{};{}", pen(0.22, GREY), dash(4.0, 1.0)));
    rule(".body", &format!("fill:#f1f2f3;{}", pen(0.4, INK)));
    rule(".rib,.flange,.trim,.hub", &pen(0.18, GREY));
    rule(".rail", &format!("fill:#c9d0d5;{}", pen(0.35, INK)));
    rule(".member", &format!("fill:#dde2e5;{}", pen(0.22, INK)));
    rule(".axle", &format!("fill:#c3cad0;{}", pen(0.22, INK)));
    rule(".spring", &pen(0.3, INK));
    rule(".tyre", &format!("fill:#4a545c;{}", pen(0.4, INK)));
    rule(".tread", "stroke:#8b959d");
    rule(".tread", &format!("stroke-width:{}", line(0.16)));
    rule(".rim", &format!("fill:#eef1f3;{}", pen(0.3, INK)));
    rule(".cab", &format!("fill:#fbfcfc;fill-opacity:.82;{}", pen(0.38, INK)));
    rule(".glass", &format!("fill:#dbe7ee;{}", pen(0.2, INK)));
    rule(".dark", &format!("fill:{GREY}"));
    rule(".kept", &format!("fill:#eceff1;{}", pen(0.22, GREY)));
    rule(".ghost", &format!("{};{}", pen(0.18, "#98a3ab"), dash(0.8, 0.8)));
    rule(".coupling", &format!("fill:#aab4bb;{}", pen(0.35, INK)));
    rule(".symbol", &pen(0.3, INK));
    rule(".dim,.ext", &pen(0.16, INK));
    rule(".ext", "stroke-opacity:.6");
    rule(".arrow,.dot,.black", &format!("fill:{INK}"));
    rule(".leader", &pen(0.2, INK));
    rule(".plate,.white", "fill:#fff");
    rule(".load .white", "fill-opacity:.92");
    rule(".plate", &pen(0.3, INK));
    rule(".cg-light", &format!("fill:#fff;{}", pen(0.3, INK)));
    rule(".cg-dark", &format!("fill:{INK}"));
    rule(".frame", &pen(0.5, INK));
    rule(".fine", &pen(0.18, INK));
    parts(&mut rule, &pen, &dash);
    severities(&mut rule, &pen);
    for kind in &scene.kinds {
        let word = word(*kind);
        rule(&format!(".kind-{word} .shape"), &format!("fill:url(#{scope}-{word})"));
    }
    rule(".behind .shape", "fill:none");
    if scene.page.is_some() {
        // Border and title block are in paper millimetres.
        rule(".page .frame", "stroke-width:.5px");
        rule(".page .fine", "stroke-width:.18px");
    }
}

fn parts(
    rule: &mut impl FnMut(&str, &str),
    pen: &impl Fn(f64, &str) -> String,
    dash: &impl Fn(f64, f64) -> String,
) {
    rule(".part,.tag", "cursor:grab");
    rule(".part .shape", &pen(0.4, INK));
    rule(".through .shape", &format!("fill-opacity:.62;{};{}", pen(0.28, INK), dash(1.6, 0.8)));
    rule(".through .symbol", "stroke-opacity:.75");
    rule(".behind .shape", &format!("pointer-events:stroke;{};{}", pen(0.24, GREY), dash(1.2, 0.9)));
    rule(".soft .shape", &format!("fill-opacity:.3;{};{}", pen(0.2, GREY), dash(0.3, 0.9)));
    rule(".soft .symbol", &pen(0.2, GREY));
    rule(".part:focus", "outline:none");
    rule(".part:focus-visible .shape", &pen(0.8, CHOSEN));
    rule(".selected .shape", &format!("{};stroke-dasharray:none", pen(0.9, CHOSEN)));
}

fn severities(rule: &mut impl FnMut(&str, &str), pen: &impl Fn(f64, &str) -> String) {
    for (word, fill, ink) in [
        ("fails", "#b3180f", "#fff"),
        ("caution", "#ffc72e", INK),
        ("holds", "#1d6b3c", "#fff"),
        ("not-assessed", "#e3e7ea", INK),
    ] {
        rule(&format!(".{word} .icon"), &format!("fill:{fill};{}", pen(0.15, INK)));
        rule(&format!(".load.{word} .symbol,.pointer.{word} .symbol"), &pen(0.34, ink));
        let line = if word == "caution" { "#8a5a00" } else { fill };
        rule(&format!(".pointer.{word} .ring"), &pen(0.5, line));
        rule(&format!(".pointer.{word} .gap"), &format!("fill:{line};{}", pen(0.4, line)));
        rule(&format!(".pointer.{word} .plate"), &pen(0.35, line));
    }
    rule(".pointer", "cursor:pointer");
    rule(".part.fails .shape", &pen(0.8, "#b3180f"));
    rule(".pointer.faint", "opacity:.35");
    rule(".pointer.chosen .ring", &pen(0.9, "#b3180f"));
}

/// Writes the hatches as pattern elements.
pub fn patterns(out: &mut String, scene: &Scene) {
    let scope = scope(scene);
    for kind in &scene.kinds {
        let h = hatch(*kind);
        let (w, tall) = (h.width, h.height);
        let _ = write!(
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
