//! The drawing plane: points, rectangles and paths in millimetres, y pointing down as on paper.

/// A point of the drawing plane.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct At {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

/// A point of the drawing plane.
#[must_use]
pub const fn at(x: f64, y: f64) -> At {
    At { x, y }
}

/// A rectangle along the axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// Smallest x.
    pub left: f64,
    /// Smallest y.
    pub top: f64,
    /// Largest x.
    pub right: f64,
    /// Largest y.
    pub bottom: f64,
}

impl Rect {
    /// The rectangle with these two opposite corners, in whichever order.
    #[must_use]
    pub fn new(a: At, b: At) -> Self {
        Self {
            left: a.x.min(b.x),
            top: a.y.min(b.y),
            right: a.x.max(b.x),
            bottom: a.y.max(b.y),
        }
    }

    /// A rectangle of this size around its middle.
    #[must_use]
    pub fn about(middle: At, width: f64, height: f64) -> Self {
        let (w, h) = (width / 2.0, height / 2.0);
        Self {
            left: middle.x - w,
            top: middle.y - h,
            right: middle.x + w,
            bottom: middle.y + h,
        }
    }

    /// Width.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.right - self.left
    }

    /// Height.
    #[must_use]
    pub fn height(&self) -> f64 {
        self.bottom - self.top
    }

    /// Middle.
    #[must_use]
    pub fn centre(&self) -> At {
        at(
            f64::midpoint(self.left, self.right),
            f64::midpoint(self.top, self.bottom),
        )
    }

    /// Larger by `by` on every side.
    #[must_use]
    pub fn grown(&self, by: f64) -> Self {
        Self {
            left: self.left - by,
            top: self.top - by,
            right: self.right + by,
            bottom: self.bottom + by,
        }
    }

    /// The smallest rectangle around both.
    #[must_use]
    pub fn union(&self, other: &Self) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    /// Whether they share more than an edge.
    #[must_use]
    pub fn overlaps(&self, other: &Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    /// Whether `inner` lies inside.
    #[must_use]
    pub fn contains(&self, inner: &Self) -> bool {
        self.left <= inner.left
            && inner.right <= self.right
            && self.top <= inner.top
            && inner.bottom <= self.bottom
    }

    /// The point of the rectangle nearest to `p`.
    #[must_use]
    pub fn nearest(&self, p: At) -> At {
        at(
            p.x.max(self.left).min(self.right),
            p.y.max(self.top).min(self.bottom),
        )
    }

    /// Whether all four numbers can be drawn.
    #[must_use]
    pub fn is_finite(&self) -> bool {
        [self.left, self.top, self.right, self.bottom]
            .iter()
            .all(|v| v.abs() < FARTHEST_MM)
    }
}

/// Nothing farther from the origin than this is drawn, mm.
pub(super) const FARTHEST_MM: f64 = 100_000.0;

/// One step of a pen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Lift the pen and set it down here.
    Move(At),
    /// Straight line.
    Line(At),
    /// Arc of a circle.
    Arc {
        /// Radius.
        radius: f64,
        /// The longer of the two arcs.
        large: bool,
        /// Clockwise on paper.
        clockwise: bool,
        /// End.
        to: At,
    },
    /// Curve with one control point.
    Bend {
        /// Control point.
        by: At,
        /// End.
        to: At,
    },
    /// Straight back to where the pen was last set down.
    Close,
}

/// A line that a pen draws, possibly in several strokes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Path {
    /// The steps.
    pub steps: Vec<Step>,
}

impl Path {
    /// An empty path.
    #[must_use]
    pub const fn new() -> Self {
        Self { steps: Vec::new() }
    }

    /// Starts a stroke.
    pub fn from(&mut self, p: At) -> &mut Self {
        self.steps.push(Step::Move(p));
        self
    }

    /// Straight on.
    pub fn to(&mut self, p: At) -> &mut Self {
        self.steps.push(Step::Line(p));
        self
    }

    /// Curved on.
    pub fn bend(&mut self, by: At, to: At) -> &mut Self {
        self.steps.push(Step::Bend { by, to });
        self
    }

    /// On by the shorter arc.
    pub fn arc(&mut self, radius: f64, clockwise: bool, to: At) -> &mut Self {
        self.steps.push(Step::Arc {
            radius,
            large: false,
            clockwise,
            to,
        });
        self
    }

    /// Back to the start of the stroke.
    pub fn close(&mut self) -> &mut Self {
        self.steps.push(Step::Close);
        self
    }

    /// Adds a straight stroke.
    pub fn line(&mut self, a: At, b: At) -> &mut Self {
        self.from(a).to(b)
    }

    /// Adds an open stroke through the points.
    pub fn polyline(&mut self, points: &[At]) -> &mut Self {
        for (i, p) in points.iter().enumerate() {
            self.steps.push(if i == 0 {
                Step::Move(*p)
            } else {
                Step::Line(*p)
            });
        }
        self
    }

    /// Adds a closed stroke through the points.
    pub fn polygon(&mut self, points: &[At]) -> &mut Self {
        self.polyline(points);
        if !points.is_empty() {
            self.close();
        }
        self
    }

    /// Adds a rectangle.
    pub fn rect(&mut self, r: &Rect) -> &mut Self {
        self.polygon(&[
            at(r.left, r.top),
            at(r.right, r.top),
            at(r.right, r.bottom),
            at(r.left, r.bottom),
        ])
    }

    /// Adds a rectangle with round corners.
    pub fn rounded(&mut self, r: &Rect, radius: f64) -> &mut Self {
        let k = radius.min(r.width() / 2.0).min(r.height() / 2.0);
        if k <= 0.0 {
            return self.rect(r);
        }
        self.from(at(r.left + k, r.top)).to(at(r.right - k, r.top));
        self.arc(k, true, at(r.right, r.top + k))
            .to(at(r.right, r.bottom - k));
        self.arc(k, true, at(r.right - k, r.bottom))
            .to(at(r.left + k, r.bottom));
        self.arc(k, true, at(r.left, r.bottom - k))
            .to(at(r.left, r.top + k));
        self.arc(k, true, at(r.left + k, r.top)).close()
    }

    /// Adds a circle.
    pub fn circle(&mut self, c: At, radius: f64) -> &mut Self {
        self.from(at(c.x - radius, c.y))
            .arc(radius, true, at(c.x + radius, c.y))
            .arc(radius, true, at(c.x - radius, c.y))
            .close()
    }

    /// Adds the strokes of another path.
    pub fn join(&mut self, other: &Self) -> &mut Self {
        self.steps.extend_from_slice(&other.steps);
        self
    }

    /// Box around the ends and control points of all steps; `None` for an empty path. Arcs count by
    /// their ends.
    #[must_use]
    pub fn bounds(&self) -> Option<Rect> {
        let mut all: Option<Rect> = None;
        let mut add = |p: At| {
            let one = Rect::new(p, p);
            all = Some(all.map_or(one, |sum| sum.union(&one)));
        };
        for step in &self.steps {
            match step {
                Step::Move(p) | Step::Line(p) | Step::Arc { to: p, .. } => add(*p),
                Step::Bend { by, to } => {
                    add(*by);
                    add(*to);
                }
                Step::Close => {}
            }
        }
        all
    }
}
