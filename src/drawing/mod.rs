//! Dimensioned drawings of a vehicle: side, plan and rear, on the page's stage or on a sheet of paper.
//!
//! A [`Scene`] of typed shapes with roles is composed from the vehicle and from [`Marks`] (loads and
//! findings as plain data), then written by a back end. Nothing is calculated here but where things
//! go on paper: every figure shown comes with the vehicle or the marks.
//!
//! In the SVG, `<g data-axes="side">` has truck millimetres as user units: x to the rear and −z down
//! in the side view, x and −y in plan, y and −z from behind. Front of the truck to the left. Parts
//! are `<g class="part kind-…" data-tag="…">`, fixed bodies `data-body`, zones `data-zone`, findings
//! `<g class="pointer" data-finding="…">`. A tag in parentheses belongs to a part that is hidden in
//! the view.

mod angles;
mod bending;
mod chart;
mod compose;
mod cover;
mod dimensions;
mod drawn;
mod encode;
mod eye;
mod hatch;
mod labels;
mod loads;
mod marks;
mod parts;
mod plane;
mod pointers;
mod scene;
mod shafts;
mod sheet;
mod spans;
mod style;
mod svg;
mod symbol;
mod tags;
mod text;
mod truck;
mod turn;
mod zones;

pub use chart::{
    Axis, Bar, Body, Chart, ChartScene, Line, Panel, Pen, Tint, chart_scene, draw_chart,
};
pub use compose::stage;
pub use drawn::Drawn;
pub use hatch::{Hatch, hatch};
pub use marks::{AngleMark, AxleMark, FrameMark, Marks, Pointer, Severity};
pub use plane::{At, Path, Rect, Step};
pub use scene::{Anchor, Group, Owner, Page, Role, Scene, Shape, Sight, Text, TextRole};
pub use shafts::shafts;

use crate::quantity::Units;
use crate::vehicle::Vehicle;

/// From where the truck is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum View {
    /// From its left side, front to the left.
    Side,
    /// From above, front to the left.
    Plan,
    /// From behind.
    Rear,
    /// A turn from above, with what truck and trailer sweep.
    Turn,
}

impl View {
    /// The views of the truck itself, in the order of a drawing set.
    pub const ALL: [Self; 3] = [Self::Side, Self::Plan, Self::Rear];

    /// The word of the view, for files and attributes.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Side => "side",
            Self::Plan => "plan",
            Self::Rear => "rear",
            Self::Turn => "turn",
        }
    }

    /// The view with this word.
    #[must_use]
    pub fn named(word: &str) -> Option<Self> {
        let mut all = Self::ALL.into_iter().chain([Self::Turn]);
        all.find(|view| view.word() == word)
    }
}

/// What a sheet's title block says beside the plan's own name.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TitleBlock {
    /// Name of the plan or the job.
    pub name: String,
    /// Date, as the caller gives it.
    pub date: String,
    /// Who drew it.
    pub author: String,
    /// Sheet number, such as "1 of 3".
    pub sheet: String,
}

/// What to draw and how.
#[derive(Clone, Debug, PartialEq)]
pub struct Style {
    /// Units of every figure.
    pub units: Units,
    /// Tag of the part that the user chose.
    pub selected: Option<String>,
    /// Zones as faint outlines with their names.
    pub zones: bool,
    /// Dimensions of the truck.
    pub dimensions: bool,
    /// Position and length of the chosen part.
    pub part_dimensions: bool,
    /// Stripped donor hardware as ghosts.
    pub hardware: bool,
    /// Lines of approach, breakover and departure on the side view.
    pub angles: bool,
    /// Shear and bending of the rails under the side view.
    pub frame: bool,
    /// A sheet of paper with border and title block; `None` for the page's stage.
    pub sheet: Option<TitleBlock>,
    /// Finding that the user chose.
    pub finding: Option<usize>,
}

impl Default for Style {
    fn default() -> Self {
        Self {
            units: Units::Metric,
            selected: None,
            zones: false,
            dimensions: true,
            part_dimensions: true,
            hardware: false,
            angles: false,
            frame: false,
            sheet: None,
            finding: None,
        }
    }
}

/// What a page needs once, for all views on its stage: rules and hatches, as markup.
#[must_use]
pub fn stage_pens() -> String {
    svg::stage_pens(compose::STAGE_UNIT)
}

/// The drawing as SVG text for the page's stage, with the pens of [`stage_pens`].
#[must_use]
pub fn write_on_stage(drawn: &Drawn) -> String {
    svg::write_on_stage(&drawn.scene)
}

/// What is to be done to the drawing before: a line that says which groups stay and how many are new
/// (see [`crate::pieces::Piece`]), and a drawing with the new ones only. Empty when both are alike.
#[must_use]
pub fn write_change(drawn: &Drawn, before: &Drawn) -> String {
    svg::write_change(&drawn.scene, &before.scene)
}

/// Draws one view as SVG text.
#[must_use]
pub fn draw(vehicle: &Vehicle, marks: &Marks, view: View, style: &Style) -> String {
    svg::write(&scene(vehicle, marks, view, style))
}

/// Composes one view without writing it.
#[must_use]
pub fn scene(vehicle: &Vehicle, marks: &Marks, view: View, style: &Style) -> Scene {
    match &style.sheet {
        None if view == View::Turn => turn::compose(vehicle, marks, style, None),
        None => compose::compose(vehicle, marks, view, style, compose::STAGE_UNIT),
        Some(block) => sheet::compose(vehicle, marks, view, style, block),
    }
}
