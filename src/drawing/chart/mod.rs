//! Charts: lines over a common axis, one panel below the other, and bars.
//!
//! What is shown comes ready, in the reader's units; here it only finds its place. Curves, areas and bars
//! are mapped and drawn by the crate `plotters` on a back end of our own ([`Pencil`]), which hands them on
//! as shapes of the house: the crate's own SVG back end has neither dashes nor hatches, places everything
//! on whole pixels, and what lays out its words asks the browser, which a worker does not have.
//!
//! Everything can be told apart without colour: pens by width and dash, areas by hatch, and each line has
//! its name and a piece of its pen beside its end.

mod bars;
mod lines;
mod pencil;
mod place;
mod thin;
mod ticks;
mod write;

use pencil::Pencil;

use super::plane::Rect;
use super::scene::{Group, boxes};

/// A chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// Stable id, also the name of its file.
    pub id: &'static str,
    /// Its title.
    pub title: String,
    /// What it shows, for people who cannot see it.
    pub description: String,
    /// Width and height in pixels.
    pub size: (f64, f64),
    /// Without title and with smaller letters, to stand beside something.
    pub strip: bool,
    /// What is in it.
    pub body: Body,
}

/// What a chart shows.
#[derive(Clone, Debug, PartialEq)]
pub enum Body {
    /// Panels of lines over one axis.
    Lines {
        /// The axis that all panels share.
        x: Axis,
        /// From the top down.
        panels: Vec<Panel>,
    },
    /// Bars to the right of their names.
    Bars {
        /// Their axis.
        axis: Axis,
        /// From the top down.
        bars: Vec<Bar>,
        /// What the tints stand for.
        key: Vec<(&'static str, Tint)>,
    },
}

/// What an axis counts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Axis {
    /// Name.
    pub name: String,
    /// Unit mark; may be empty.
    pub unit: String,
}

/// Lines over one piece of height.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    /// Its axis.
    pub axis: Axis,
    /// Values that its axis reaches in any case.
    pub reaches: Vec<f64>,
    /// Lines, the one on top last.
    pub lines: Vec<Line>,
    /// Its share of the height among the panels.
    pub share: f64,
}

/// A line.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Name, which stands at its end.
    pub name: String,
    /// How it is drawn.
    pub pen: Pen,
    /// What lies between it and nought is filled.
    pub filled: bool,
    /// Points in shown units, x not falling. What is not finite is a hole.
    pub points: Vec<(f64, f64)>,
}

/// A bar.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// Name.
    pub name: String,
    /// Length in shown units.
    pub value: f64,
    /// What stands beside it.
    pub words: String,
    /// How it is filled.
    pub tint: Tint,
}

/// Pens, told apart by width and dash.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "the names say it")]
pub enum Pen {
    Heavy,
    Plain,
    Dashed,
    Dotted,
    Mixed,
    Thin,
}

impl Pen {
    /// The word that the back ends use for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Heavy => "heavy",
            Self::Plain => "plain",
            Self::Dashed => "dashed",
            Self::Dotted => "dotted",
            Self::Mixed => "mixed",
            Self::Thin => "thin",
        }
    }
}

/// Fills, told apart by hatch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "the names say it")]
pub enum Tint {
    Under,
    Dark,
    Rising,
    Dots,
}

impl Tint {
    /// The word that the back ends use for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Under => "under",
            Self::Dark => "full",
            Self::Rising => "rising",
            Self::Dots => "dots",
        }
    }
}

/// A chart with everything at its place, in pixels.
#[derive(Clone, Debug, PartialEq)]
pub struct ChartScene {
    /// In painter's order.
    pub groups: Vec<Group>,
    /// The whole picture.
    pub bounds: Rect,
}

impl ChartScene {
    /// Every text with the box that it takes.
    #[must_use]
    pub fn text_boxes(&self) -> Vec<(String, Rect)> {
        boxes(self.groups.iter())
    }
}

/// Puts everything at its place without writing it.
#[must_use]
pub fn chart_scene(chart: &Chart) -> ChartScene {
    let (width, height) = chart.size;
    ChartScene {
        groups: match &chart.body {
            Body::Lines { x, panels } => lines::compose(chart, x, panels),
            Body::Bars { axis, bars, key } => bars::compose(chart, axis, bars, key),
        },
        bounds: Rect {
            left: 0.0,
            top: 0.0,
            right: width,
            bottom: height,
        },
    }
}

/// Draws a chart as SVG text.
#[must_use]
pub fn draw_chart(chart: &Chart) -> String {
    write::write(chart, &chart_scene(chart))
}

impl Axis {
    /// An axis.
    #[must_use]
    pub fn new(name: &str, unit: &str) -> Self {
        Self {
            name: name.to_owned(),
            unit: unit.to_owned(),
        }
    }

    /// Name and unit.
    fn words(&self) -> String {
        if self.unit.is_empty() {
            self.name.clone()
        } else {
            format!("{}, {}", self.name, self.unit)
        }
    }
}
