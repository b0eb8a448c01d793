//! A small picture of the driveshafts to scale, from the side and from above: laden as drawn on the
//! truck, and where they lie empty, at full jounce and at full rebound.

use super::encode::{escaped, number};
use crate::driveline::{Ride, Shaft, ShaftState};
use crate::geometry::Point;

/// How far the picture goes beyond the joints, as a share of what lies between them.
const BEYOND: f64 = 0.12;
/// Size of the letters as a share of the picture's width.
const LETTERS: f64 = 0.012;

/// Where the picture's plane has its axes.
type Eye = fn(Point) -> (f64, f64);

/// Draws the shafts as SVG text; empty without any.
#[must_use]
pub fn shafts(shafts: &[Shaft]) -> String {
    let points = || {
        let states = shafts.iter().flat_map(|s| &s.states);
        states.flat_map(|s| &s.pieces).flat_map(|p| [p.from, p.to])
    };
    let least = points().map(|p| p.x).fold(f64::INFINITY, f64::min);
    let most = points().map(|p| p.x).fold(f64::NEG_INFINITY, f64::max);
    if most <= least {
        return String::new();
    }
    let width = (most - least) * (1.0 + 2.0 * BEYOND);
    let left = least - (most - least) * BEYOND;
    let letters = width * LETTERS;
    let side: Eye = |p| (p.x, -p.z);
    let above: Eye = |p| (p.x, -p.y);
    let mut out = String::new();
    let mut at = 0.0;
    let mut body = String::new();
    for (title, eye, labelled) in [("From the side", side, true), ("From above", above, false)] {
        let ys = || points().map(|p| eye(p).1);
        let top = ys().fold(f64::INFINITY, f64::min);
        let bottom = ys().fold(f64::NEG_INFINITY, f64::max);
        let head = letters * if labelled { 7.6 } else { 2.4 };
        body.push_str("<g transform=\"translate(0 ");
        number(&mut body, at + head - top);
        body.push_str(")\">");
        words(
            &mut body,
            title,
            left + letters,
            top - head + 1.4 * letters,
            letters,
            "start",
        );
        for shaft in shafts {
            for ride in [Ride::Rebound, Ride::Jounce, Ride::Empty, Ride::Laden] {
                line(&mut body, shaft.state(ride), eye, letters);
            }
            if labelled {
                labels(&mut body, shaft, eye, top - head, letters);
            }
        }
        body.push_str("</g>");
        at += head + (bottom - top) + 1.4 * letters;
    }
    legend(&mut body, left + letters, at + letters, letters);
    at += 2.4 * letters;
    out.push_str("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" viewBox=\"");
    number(&mut out, left);
    out.push_str(" 0 ");
    number(&mut out, width);
    out.push(' ');
    number(&mut out, at);
    out.push_str("\" aria-label=\"Driveshafts to scale\" font-family=\"sans-serif\" fill=\"none\" stroke-linecap=\"round\">");
    out.push_str(&body);
    out.push_str("</svg>");
    out
}

/// Colour and dashes of a state, dashes in sizes of letters.
const fn pen(ride: Ride) -> (&'static str, f64, f64) {
    match ride {
        Ride::Laden => ("#1b2226", 0.30, 0.0),
        Ride::Empty => ("#0b57c2", 0.16, 0.8),
        Ride::Jounce => ("#9c1518", 0.16, 0.4),
        Ride::Rebound => ("#7a4f00", 0.16, 0.2),
    }
}

fn stroke(out: &mut String, ride: Ride, letters: f64) {
    let (colour, thick, dash) = pen(ride);
    out.push_str(" stroke=\"");
    out.push_str(colour);
    out.push_str("\" stroke-width=\"");
    number(out, thick * letters);
    if dash > 0.0 {
        out.push_str("\" stroke-dasharray=\"");
        number(out, dash * letters);
        out.push(' ');
        number(out, 0.5 * letters);
    }
    out.push_str("\"/>");
}

fn line(out: &mut String, state: &ShaftState, eye: Eye, letters: f64) {
    out.push_str("<path d=\"");
    for (index, piece) in state.pieces.iter().enumerate() {
        if index == 0 {
            place(out, 'M', eye(piece.from));
        }
        place(out, 'L', eye(piece.to));
    }
    out.push('"');
    stroke(out, state.ride, letters);
    if state.ride == Ride::Laden {
        let ends = state.pieces.iter().map(|p| p.to);
        for joint in state.pieces.first().map(|p| p.from).into_iter().chain(ends) {
            let (x, y) = eye(joint);
            out.push_str("<circle cx=\"");
            number(out, x);
            out.push_str("\" cy=\"");
            number(out, y);
            out.push_str("\" r=\"");
            number(out, 0.5 * letters);
            out.push_str("\" fill=\"#fff\"");
            stroke(out, Ride::Laden, letters);
        }
    }
}

fn place(out: &mut String, step: char, (x, y): (f64, f64)) {
    out.push(step);
    number(out, x);
    out.push(' ');
    number(out, y);
}

/// Above each joint, its angle in every state.
fn labels(out: &mut String, shaft: &Shaft, eye: Eye, top: f64, letters: f64) {
    let laden = shaft.state(Ride::Laden);
    for (index, joint) in laden.joints.iter().enumerate() {
        let (x, y) = eye(joint.at);
        // The joints of two shafts at one axle lie near each other: read along the own shaft.
        let (anchor, by) = if index == 0 {
            ("start", -0.3 * letters)
        } else {
            ("end", 0.3 * letters)
        };
        let under = top + 6.6 * letters;
        out.push_str("<path d=\"");
        place(out, 'M', (x, under));
        place(out, 'L', (x, y - 0.7 * letters));
        out.push_str("\" stroke=\"#b9b8ae\" stroke-width=\"");
        number(out, 0.08 * letters);
        out.push_str("\"/>");
        for (row, ride) in (0u8..).zip([Ride::Laden, Ride::Empty, Ride::Jounce, Ride::Rebound]) {
            let angle = shaft.state(ride).joints.get(index);
            let text = angle.map_or_else(String::new, |j| {
                // Short, so that the labels of a short shaft do not meet: the legend has the whole words.
                let word = ride.words().rsplit(' ').next().unwrap_or_default();
                format!("{word} {:.1}°", j.angle_deg)
            });
            let y = top + (3.0 + 1.15 * f64::from(row)) * letters;
            words(out, &text, x + by, y, letters, anchor);
        }
    }
}

fn words(out: &mut String, text: &str, x: f64, y: f64, letters: f64, anchor: &str) {
    out.push_str("<text x=\"");
    number(out, x);
    out.push_str("\" y=\"");
    number(out, y);
    out.push_str("\" font-size=\"");
    number(out, letters);
    out.push_str("\" text-anchor=\"");
    out.push_str(anchor);
    out.push_str("\" fill=\"#1b2226\">");
    escaped(out, text);
    out.push_str("</text>");
}

fn legend(out: &mut String, left: f64, y: f64, letters: f64) {
    let mut x = left;
    for ride in [Ride::Laden, Ride::Empty, Ride::Jounce, Ride::Rebound] {
        out.push_str("<path d=\"");
        place(out, 'M', (x, y));
        place(out, 'L', (x + 3.0 * letters, y));
        out.push('"');
        stroke(out, ride, letters);
        words(
            out,
            ride.words(),
            x + 3.5 * letters,
            y + 0.35 * letters,
            letters,
            "start",
        );
        x += 10.5 * letters;
    }
}
