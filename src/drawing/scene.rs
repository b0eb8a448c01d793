//! What is drawn, as typed shapes with roles; the back ends turn roles into pens.
//!
//! Geometry is in truck millimetres in the view's own plane. Things that have a size on paper (text,
//! arrow heads, dashes) are multiples of [`Scene::unit`]: truck millimetres to one paper millimetre.

use super::View;
use super::chart::{Pen, Tint};
use super::marks::Severity;
use super::plane::{At, Path, Rect};
use crate::part::Kind;
use crate::shared::Shared;
use std::collections::BTreeSet;

/// What a line or an area stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "the names say it")]
pub enum Role {
    Ground,
    Earth,
    CentreLine,
    Zone,
    Trailer,
    Phantom,
    Break,
    Body,
    Rib,
    Rail,
    Flange,
    Member,
    Axle,
    Spring,
    Tyre,
    Tread,
    Rim,
    Hub,
    Cab,
    Glass,
    Trim,
    Dark,
    Kept,
    Ghost,
    Coupling,
    Shape,
    Symbol,
    Dimension,
    Extension,
    Arrow,
    Leader,
    Dot,
    Plate,
    CgLight,
    CgDark,
    Gap,
    Ring,
    Icon,
    Frame,
    Fine,
    Black,
    White,
    TruckWay,
    TrailerWay,
    Trace,
    Grid,
    Nought,
    Edge,
    Lead,
    Pen(Pen),
    Tint(Tint),
}

impl Role {
    /// The word that the back ends use for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Ground => "ground",
            Self::Earth => "earth",
            Self::CentreLine => "centre",
            Self::Zone => "zone",
            Self::Trailer => "trailer",
            Self::Phantom => "phantom",
            Self::Break => "break",
            Self::Body => "body",
            Self::Rib => "rib",
            Self::Rail => "rail",
            Self::Flange => "flange",
            Self::Member => "member",
            Self::Axle => "axle",
            Self::Spring => "spring",
            Self::Tyre => "tyre",
            Self::Tread => "tread",
            Self::Rim => "rim",
            Self::Hub => "hub",
            Self::Cab => "cab",
            Self::Glass => "glass",
            Self::Trim => "trim",
            Self::Dark => "dark",
            Self::Kept => "kept",
            Self::Ghost => "ghost",
            Self::Coupling => "coupling",
            Self::Shape => "shape",
            Self::Symbol => "symbol",
            Self::Dimension => "dim",
            Self::Extension => "ext",
            Self::Arrow => "arrow",
            Self::Leader => "leader",
            Self::Dot => "dot",
            Self::Plate => "plate",
            Self::CgLight => "cg-light",
            Self::CgDark => "cg-dark",
            Self::Gap => "gap",
            Self::Ring => "ring",
            Self::Icon => "icon",
            Self::Frame => "frame",
            Self::Fine => "fine",
            Self::Black => "black",
            Self::White => "white",
            Self::TruckWay => "way",
            Self::TrailerWay => "trailer-way",
            Self::Trace => "trace",
            Self::Grid => "grid-line",
            Self::Nought => "nought",
            Self::Edge => "edge",
            Self::Lead => "lead",
            Self::Pen(pen) => pen.word(),
            Self::Tint(tint) => tint.word(),
        }
    }
}

/// What a text stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "the names say it")]
pub enum TextRole {
    Tag,
    Dimension,
    PartDimension,
    Zone,
    Load,
    Margin,
    Heading,
    Finding,
    Note,
    Title,
}

impl TextRole {
    /// The word that the back ends use for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Tag => "t-tag",
            Self::Dimension => "t-dim",
            Self::PartDimension => "t-part",
            Self::Zone => "t-zone",
            Self::Load => "t-load",
            Self::Margin => "t-margin",
            Self::Heading => "t-head",
            Self::Finding => "t-find",
            Self::Note => "t-note",
            Self::Title => "t-title",
        }
    }

    /// Set in a heavier weight.
    #[must_use]
    pub const fn bold(self) -> bool {
        matches!(self, Self::Tag | Self::Load | Self::Finding | Self::Title)
    }
}

/// Which point of a text its position is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Left end of the base line.
    Start,
    /// Middle of the base line.
    Middle,
    /// Right end of the base line.
    End,
}

/// One line of text.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// What it stands for.
    pub role: TextRole,
    /// On the base line.
    pub at: At,
    /// Which point of the base line `at` is.
    pub anchor: Anchor,
    /// Height of the letters' em, in the units of its place.
    pub size: f64,
    /// Reads upward instead of to the right.
    pub upward: bool,
    /// The text itself.
    pub text: String,
}

/// One thing that is drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A line or an area.
    Path(Role, Path),
    /// A rectangle with round corners.
    Box(Role, Rect, f64),
    /// A line of text.
    Text(Text),
}

/// Whether a part can be seen in this view.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sight {
    /// Seen.
    Open,
    /// Behind the truck's own sheet metal, wheels or rails.
    Through,
    /// Behind other parts.
    Behind,
}

/// What a group of shapes belongs to.
#[derive(Clone, Debug, PartialEq)]
pub enum Owner {
    /// Nothing that can be pointed at; the word groups it.
    Layer(&'static str),
    /// A fixed body of the vehicle.
    Body(String),
    /// A zone of the chassis.
    Zone(String),
    /// A placed part.
    Part {
        /// Its tag.
        tag: String,
        /// Its kind.
        kind: Kind,
        /// What a person is told about it.
        label: String,
        /// Whether it can be seen.
        sight: Sight,
        /// Lies along others, so its outline says little: cables, brackets, fluid.
        soft: bool,
        /// Chosen by the user.
        selected: bool,
        /// Worst finding that points at it in this view.
        severity: Option<Severity>,
    },
    /// The tag plate of a part.
    Tag(String),
    /// A finding that points at a place.
    Pointer {
        /// Index of the finding.
        finding: usize,
        /// How bad.
        severity: Severity,
        /// Chosen by the user.
        chosen: bool,
        /// Another one is chosen.
        faint: bool,
    },
    /// Load of an axle group.
    Load {
        /// Axle or group id.
        id: String,
        /// How bad.
        severity: Severity,
    },
}

/// Shapes that belong together.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// What they belong to.
    pub owner: Owner,
    /// In painter's order.
    pub shapes: Vec<Shape>,
}

impl Group {
    /// An empty group.
    #[must_use]
    pub const fn new(owner: Owner) -> Self {
        Self {
            owner,
            shapes: Vec::new(),
        }
    }

    /// An empty group that only orders the drawing.
    #[must_use]
    pub const fn layer(word: &'static str) -> Self {
        Self::new(Owner::Layer(word))
    }

    /// Adds a path; an empty one is left out.
    pub fn path(&mut self, role: Role, path: Path) {
        if !path.steps.is_empty() {
            self.shapes.push(Shape::Path(role, path));
        }
    }

    /// Adds what `draw` draws in one role.
    pub fn draw(&mut self, role: Role, draw: impl FnOnce(&mut Path)) {
        let mut path = Path {
            steps: Vec::with_capacity(12),
        };
        draw(&mut path);
        self.path(role, path);
    }

    /// Adds a rectangle with corners of this radius.
    pub fn rounded(&mut self, role: Role, rect: Rect, radius: f64) {
        self.shapes.push(Shape::Box(role, rect, radius));
    }

    /// Adds a text.
    pub fn text(&mut self, text: Text) {
        self.shapes.push(Shape::Text(text));
    }
}

/// Paper that the scene lies on.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// Width and height of the paper, mm.
    pub size: At,
    /// Truck millimetres to one paper millimetre.
    pub scale: f64,
    /// Where the origin of the truck's axes lies on the paper, mm.
    pub origin: At,
    /// Border, title block and notes, in paper millimetres.
    pub groups: Vec<Group>,
}

/// A whole drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// From where the truck is seen.
    pub view: View,
    /// Name for people.
    pub title: String,
    /// What it shows, for people who cannot see it.
    pub description: String,
    /// Truck millimetres to one paper millimetre.
    pub unit: f64,
    /// Room that the drawing takes, truck millimetres in the view's plane.
    pub bounds: Rect,
    /// In painter's order.
    pub groups: Vec<Shared<Group>>,
    /// Kinds of part that occur, for their hatches.
    pub kinds: BTreeSet<Kind>,
    /// The sheet of paper; `None` on the stage of the page.
    pub page: Option<Page>,
}

impl Scene {
    /// Every text of the drawing with the box that it takes, in the view's plane; the texts of the
    /// sheet's border and title block are not among them.
    #[must_use]
    pub fn text_boxes(&self) -> Vec<(String, Rect)> {
        boxes(self.groups.iter().map(|g| &**g))
    }
}

impl Page {
    /// Every text of the border, title block and notes with its box, paper millimetres.
    #[must_use]
    pub fn text_boxes(&self) -> Vec<(String, Rect)> {
        boxes(self.groups.iter())
    }
}

pub(super) fn boxes<'a>(groups: impl Iterator<Item = &'a Group>) -> Vec<(String, Rect)> {
    let shapes = groups.flat_map(|g| &g.shapes);
    let texts = shapes.filter_map(|shape| match shape {
        Shape::Text(text) => Some((text.text.clone(), text.bounds())),
        Shape::Path(..) | Shape::Box(..) => None,
    });
    texts.collect()
}
