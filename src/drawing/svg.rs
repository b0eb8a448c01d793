//! Writes a scene as SVG.
//!
//! A document that stands alone, with its title and description, is made of nodes of the crate `svg`.
//! The shapes inside, of which there are hundreds on every mouse move, are written straight behind them:
//! a node with a hash map of attributes for each costs more than the rest of the drawing. So is the head
//! of a drawing on the stage, which spares the page's first program the crate. Everything that a person
//! typed goes through [`escaped`].

use super::Severity;
use super::encode::{escaped, number, plain, word};
use super::plane::{Path, Rect, Step};
use super::scene::{Anchor, Group, Owner, Scene, Shape, Sight, Text};
use super::style::{Pens, STAGE};
use crate::pieces::{Piece, pieces, unchanged};
use crate::shared::Shared;
use svg::Document;
use svg::node::Text as TextNode;
use svg::node::element::{Description, Title};

/// The whole SVG document as text.
#[must_use]
pub fn write(scene: &Scene) -> String {
    let pens = Pens::of(scene);
    let frame = scene.page.as_ref().map_or(scene.bounds, |page| Rect {
        left: 0.0,
        top: 0.0,
        right: page.size.x,
        bottom: page.size.y,
    });
    let mut out = head(scene, &pens.scope, &frame);
    out.reserve(40_000 + 700 * scene.groups.len());
    out.push_str("<style>");
    pens.css(&mut out);
    out.push_str("</style><defs>");
    pens.patterns(&mut out);
    out.push_str("</defs>");
    ground(&mut out, scene, &frame);
    if let Some(page) = &scene.page {
        out.push_str("\" transform=\"translate(");
        pair(&mut out, page.origin);
        out.push_str(&format!(") scale({:.8})", 1.0 / page.scale));
    }
    out.push_str("\">\n");
    for group in &scene.groups {
        write_group(&mut out, group, scene.page.is_none());
    }
    out.push_str("</g>\n");
    if let Some(page) = &scene.page {
        out.push_str("<g class=\"page\">\n");
        for group in &page.groups {
            write_group(&mut out, group, false);
        }
        out.push_str("</g>\n");
    }
    out.push_str(END);
    out
}

/// A view on the page's stage, which leaves its pens to the page.
#[must_use]
pub fn write_on_stage(scene: &Scene) -> String {
    let mut out = String::new();
    on_stage(&mut out, scene, &scene.groups.iter().collect::<Vec<_>>());
    out
}

/// What is to be done to an earlier scene on the stage: a line that says which groups stay and how
/// many are new (see [`Piece`]), and a drawing with the new ones only. Empty when both are alike.
#[must_use]
pub fn write_change(scene: &Scene, before: &Scene) -> String {
    let (old, new) = (&before.groups, &scene.groups);
    let pieces = pieces(old.len(), new.len(), &|a, b| old[a] == new[b]);
    let mut out = String::new();
    if unchanged(old.len(), new.len(), &pieces)
        && scene.title == before.title
        && scene.description == before.description
        && scene.bounds == before.bounds
    {
        return out;
    }
    let mut groups = Vec::new();
    for (index, piece) in pieces.iter().enumerate() {
        out.push(if index == 0 { '[' } else { ',' });
        match piece {
            Piece::Kept(range) => out.push_str(&format!("[{},{}]", range.start, range.end)),
            Piece::New(range) => {
                out.push_str(&range.len().to_string());
                groups.extend(&new[range.clone()]);
            }
        }
    }
    out.push_str(if pieces.is_empty() { "[]\n" } else { "]\n" });
    on_stage(&mut out, scene, &groups);
    out
}

/// What the page needs once for all views on its stage: their rules, and an empty drawing that holds
/// the hatches.
#[must_use]
pub fn stage_pens(unit: f64) -> String {
    let pens = Pens::of_stage(unit);
    let mut out = String::from("<style>");
    pens.css(&mut out);
    out.push_str("</style><svg width=\"0\" height=\"0\" aria-hidden=\"true\" style=\"position:absolute\"><defs>");
    pens.patterns(&mut out);
    out.push_str("</defs></svg>");
    out
}

/// Of the groups only these.
fn on_stage(out: &mut String, scene: &Scene, groups: &[&Shared<Group>]) {
    out.reserve(2_000 + 700 * groups.len());
    stage_head(out, scene);
    ground(out, scene, &scene.bounds);
    out.push_str("\">\n");
    for group in groups {
        write_group(out, group, true);
    }
    out.push_str("</g>\n");
    out.push_str(END);
}

/// The paper, and the group of the truck's axes, which is left open for what else it has to say.
fn ground(out: &mut String, scene: &Scene, frame: &Rect) {
    out.push_str("<rect class=\"paper\" fill=\"#fff\"");
    rect(out, frame);
    out.push_str("/><g data-axes=\"");
    out.push_str(scene.view.word());
}

/// How the crate ends a document.
const END: &str = "</svg>";

/// The document without its end, so that the shapes can be written straight behind it.
fn head(scene: &Scene, scope: &str, frame: &Rect) -> String {
    let mut numbers = String::new();
    view_box(&mut numbers, frame);
    let mut document = Document::new()
        .set("viewBox", numbers)
        .set("class", format!("aw-drawing {scope}"))
        .set("data-view", scene.view.word())
        .set("role", if scene.page.is_some() { "img" } else { "group" })
        .set("aria-label", plain(&scene.title));
    if let Some(page) = &scene.page {
        document = document
            .set("width", format!("{:.0}mm", page.size.x))
            .set("height", format!("{:.0}mm", page.size.y));
    }
    let mut text = document
        .add(Title::new(plain(&scene.title)))
        .add(Description::new().add(TextNode::new(plain(&scene.description))))
        .to_string();
    if text.ends_with(END) {
        text.truncate(text.len() - END.len());
    }
    text
}

/// The same for the page's stage.
fn stage_head(out: &mut String, scene: &Scene) {
    out.push_str("<svg class=\"aw-drawing ");
    out.push_str(STAGE);
    out.push_str("\" data-view=\"");
    out.push_str(scene.view.word());
    out.push_str("\" role=\"group\" aria-label=\"");
    escaped(out, &scene.title);
    out.push_str("\" viewBox=\"");
    view_box(out, &scene.bounds);
    out.push_str("\" xmlns=\"http://www.w3.org/2000/svg\"><title>");
    escaped(out, &scene.title);
    out.push_str("</title><desc>");
    escaped(out, &scene.description);
    out.push_str("</desc>");
}

fn view_box(out: &mut String, frame: &Rect) {
    let numbers = [frame.left, frame.top, frame.width(), frame.height()];
    for (i, value) in numbers.into_iter().enumerate() {
        if i > 0 {
            out.push(' ');
        }
        number(out, value);
    }
}

pub(super) fn write_group(out: &mut String, group: &Group, live: bool) {
    open(out, &group.owner, live);
    for shape in &group.shapes {
        match shape {
            Shape::Path(role, path) => {
                out.push_str("<path class=\"");
                word(out, role.word());
                out.push_str("\" d=\"");
                write_path(out, path);
                out.push_str("\"/>");
            }
            Shape::Box(role, r, radius) => {
                out.push_str("<rect class=\"");
                word(out, role.word());
                out.push('"');
                rect(out, r);
                out.push_str(" rx=\"");
                number(out, *radius);
                out.push_str("\"/>");
            }
            Shape::Text(text) => write_text(out, text),
        }
    }
    out.push_str("</g>\n");
}

fn rect(out: &mut String, r: &Rect) {
    for (name, value) in [
        (" x=\"", r.left),
        (" y=\"", r.top),
        (" width=\"", r.width()),
        (" height=\"", r.height()),
    ] {
        out.push_str(name);
        number(out, value);
        out.push('"');
    }
}

/// The word of a severity, as a class.
#[must_use]
pub const fn severity_word(severity: Severity) -> &'static str {
    match severity {
        Severity::Fails => "fails",
        Severity::Caution => "caution",
        Severity::Holds => "holds",
        Severity::NotAssessed => "not-assessed",
    }
}

/// Only on the stage can a part be focused and pressed.
fn open(out: &mut String, owner: &Owner, live: bool) {
    let attribute = |out: &mut String, name: &str, value: &str| {
        out.push(' ');
        out.push_str(name);
        out.push_str("=\"");
        escaped(out, value);
        out.push('"');
    };
    out.push_str("<g");
    match owner {
        Owner::Layer(word) => attribute(out, "class", word),
        Owner::Body(id) => attribute(out, "data-body", id),
        Owner::Zone(id) => attribute(out, "data-zone", id),
        Owner::Part {
            tag,
            kind,
            label,
            sight,
            soft,
            selected,
            severity,
        } => {
            out.push_str(" class=\"part kind-");
            out.push_str(super::hatch::word(*kind));
            out.push_str(match sight {
                Sight::Open => "",
                Sight::Through => " through",
                Sight::Behind => " behind",
            });
            out.push_str(if *soft { " soft" } else { "" });
            if let Some(severity) = severity {
                out.push(' ');
                out.push_str(severity_word(*severity));
            }
            if *selected {
                out.push_str(" selected");
            }
            out.push('"');
            attribute(out, "data-tag", tag);
            attribute(out, "aria-label", label);
            if live {
                out.push_str(" tabindex=\"0\" role=\"button\"");
                attribute(
                    out,
                    "aria-pressed",
                    if *selected { "true" } else { "false" },
                );
            }
        }
        Owner::Tag(tag) => {
            out.push_str(" class=\"tag\" aria-hidden=\"true\"");
            attribute(out, "data-for", tag);
        }
        Owner::Pointer {
            finding,
            severity,
            chosen,
            faint,
        } => {
            out.push_str(" class=\"pointer ");
            out.push_str(severity_word(*severity));
            out.push_str(if *chosen { " chosen" } else { "" });
            out.push_str(if *faint { " faint" } else { "" });
            out.push_str("\" data-finding=\"");
            out.push_str(&finding.to_string());
            out.push('"');
        }
        Owner::Load { id, severity } => {
            out.push_str(" class=\"load ");
            out.push_str(severity_word(*severity));
            out.push('"');
            attribute(out, "data-axle", id);
        }
    }
    out.push('>');
}

fn write_text(out: &mut String, text: &Text) {
    out.push_str("<text class=\"");
    word(out, text.role.word());
    out.push('"');
    if text.upward {
        out.push_str(" transform=\"translate(");
        number(out, text.at.x);
        out.push(' ');
        number(out, text.at.y);
        out.push_str(") rotate(-90)\"");
    } else {
        out.push_str(" x=\"");
        number(out, text.at.x);
        out.push_str("\" y=\"");
        number(out, text.at.y);
        out.push('"');
    }
    out.push_str(match text.anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
        Anchor::End => " text-anchor=\"end\"",
    });
    out.push_str(" font-size=\"");
    number(out, text.size);
    out.push_str("\">");
    escaped(out, &text.text);
    out.push_str("</text>");
}

fn write_path(out: &mut String, path: &Path) {
    let mut last = super::plane::at(f64::NAN, f64::NAN);
    for step in &path.steps {
        match step {
            Step::Move(p) => {
                out.push('M');
                pair(out, *p);
                last = *p;
            }
            Step::Line(p) => {
                if same(p.y, last.y) {
                    out.push('H');
                    number(out, p.x);
                } else if same(p.x, last.x) {
                    out.push('V');
                    number(out, p.y);
                } else {
                    out.push('L');
                    pair(out, *p);
                }
                last = *p;
            }
            Step::Arc {
                radius,
                large,
                clockwise,
                to,
            } => {
                out.push('A');
                number(out, *radius);
                out.push(' ');
                number(out, *radius);
                out.push_str(match (large, clockwise) {
                    (false, false) => " 0 0 0 ",
                    (false, true) => " 0 0 1 ",
                    (true, false) => " 0 1 0 ",
                    (true, true) => " 0 1 1 ",
                });
                pair(out, *to);
                last = *to;
            }
            Step::Bend { by, to } => {
                out.push('Q');
                pair(out, *by);
                out.push(' ');
                pair(out, *to);
                last = *to;
            }
            Step::Close => {
                out.push('Z');
                last = super::plane::at(f64::NAN, f64::NAN);
            }
        }
    }
}

/// Equal as written.
fn same(a: f64, b: f64) -> bool {
    (a * 10.0).round() == (b * 10.0).round()
}

fn pair(out: &mut String, p: super::plane::At) {
    number(out, p.x);
    out.push(' ');
    number(out, p.y);
}
