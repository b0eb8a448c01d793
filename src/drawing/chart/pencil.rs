//! The back end on which `plotters` draws: shapes of the house, in tenths of a pixel.

use crate::drawing::plane::{At, Path, Rect, at};
use crate::drawing::scene::{Group, Role};
use plotters::coord::Shift;
use plotters::coord::types::RangedCoordf64;
use plotters::prelude::{
    AreaSeries, BLACK, Cartesian2d, DrawingArea, DrawingBackend, LineSeries, Rectangle,
};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingErrorKind,
};
use std::cell::RefCell;
use std::convert::Infallible;
use std::rc::Rc;

/// Steps of the back end in a pixel.
const FINE: f64 = 10.0;

type Done = Result<(), DrawingErrorKind<Infallible>>;
type Plane = Cartesian2d<RangedCoordf64, RangedCoordf64>;

/// Takes down what is drawn.
struct Slate {
    size: (u32, u32),
    role: Role,
    group: Group,
}

/// A piece of paper with two scales.
pub(super) struct Pencil {
    slate: Rc<RefCell<Slate>>,
    area: DrawingArea<Slate, Plane>,
    /// Where the heights begin, and the height nearest to nought: what lies far outside has no pixel.
    base: f64,
    nought: f64,
}

impl Pencil {
    /// A rectangle of the picture, in pixels, over which x and y run.
    pub(super) fn new(layer: &'static str, at: &Rect, x: (f64, f64), y: (f64, f64)) -> Self {
        let fine = |v: f64| (v * FINE).round() as i32;
        let slate = Rc::new(RefCell::new(Slate {
            size: (
                fine(at.right).unsigned_abs(),
                fine(at.bottom).unsigned_abs(),
            ),
            role: Role::Fine,
            group: Group::layer(layer),
        }));
        let whole: DrawingArea<Slate, Shift> = (&slate).into();
        let plane = Plane::new(
            x.0..x.1,
            y.0..y.1,
            (fine(at.left)..fine(at.right), fine(at.bottom)..fine(at.top)),
        );
        Self {
            area: whole.apply_coord_spec(plane),
            slate,
            base: y.0,
            nought: 0_f64.max(y.0.min(y.1)).min(y.0.max(y.1)),
        }
    }

    /// Where a value falls, in pixels.
    pub(super) fn place(&self, x: f64, y: f64) -> At {
        point(self.area.map_coordinate(&(x, y)))
    }

    /// Column of pixels of a value.
    pub(super) fn column(&self, x: f64) -> i32 {
        self.area
            .map_coordinate(&(x, self.base))
            .0
            .div_euclid(FINE as i32)
    }

    /// A line.
    pub(super) fn line(&self, role: Role, points: &[(f64, f64)]) {
        self.take(role);
        for element in LineSeries::new(points.iter().copied(), BLACK) {
            self.never(self.area.draw(&element));
        }
    }

    /// What lies between a line and nought.
    pub(super) fn area(&self, role: Role, points: &[(f64, f64)]) {
        self.take(role);
        for element in AreaSeries::new(points.iter().copied(), self.nought, BLACK) {
            self.never(self.area.draw(&element));
        }
    }

    /// A rectangle between two corners.
    pub(super) fn bar(&self, role: Role, corners: [(f64, f64); 2]) {
        self.take(role);
        self.never(self.area.draw(&Rectangle::new(corners, BLACK)));
    }

    /// What was drawn.
    pub(super) fn done(self) -> Group {
        let layer = Group::layer("");
        std::mem::replace(&mut self.slate.borrow_mut().group, layer)
    }

    fn take(&self, role: Role) {
        self.slate.borrow_mut().role = role;
    }

    /// The slate cannot fail, so neither can what is drawn on it.
    fn never<E>(&self, drawn: Result<(), E>) {
        debug_assert!(drawn.is_ok(), "a slate does not fail");
    }
}

fn point((x, y): BackendCoord) -> At {
    at(f64::from(x) / FINE, f64::from(y) / FINE)
}

impl Slate {
    /// Repeated points and points within a straight level stretch are left out.
    fn trace(&mut self, points: impl IntoIterator<Item = BackendCoord>, closed: bool) {
        let mut kept: Vec<BackendCoord> = Vec::new();
        for p in points {
            match kept.as_slice() {
                [.., last] if *last == p => continue,
                [.., a, b] if a.1 == b.1 && b.1 == p.1 && (a.0 <= b.0) == (b.0 <= p.0) => {
                    kept.pop();
                }
                _ => {}
            }
            kept.push(p);
        }
        // A single point shows as a dash of a pixel.
        if let [(x, y)] = kept[..] {
            kept = vec![(x - 5, y), (x + 5, y)];
        }
        let places: Vec<At> = kept.into_iter().map(point).collect();
        let mut path = Path::new();
        if closed {
            path.polygon(&places);
        } else {
            path.polyline(&places);
        }
        self.group.path(self.role, path);
    }
}

impl DrawingBackend for Slate {
    type ErrorType = Infallible;

    fn get_size(&self) -> (u32, u32) {
        self.size
    }

    fn ensure_prepared(&mut self) -> Done {
        Ok(())
    }

    fn present(&mut self) -> Done {
        Ok(())
    }

    fn draw_pixel(&mut self, p: BackendCoord, _: BackendColor) -> Done {
        self.trace([p], false);
        Ok(())
    }

    fn draw_line<S: BackendStyle>(&mut self, a: BackendCoord, b: BackendCoord, _: &S) -> Done {
        self.trace([a, b], false);
        Ok(())
    }

    fn draw_rect<S: BackendStyle>(
        &mut self,
        a: BackendCoord,
        b: BackendCoord,
        _: &S,
        _: bool,
    ) -> Done {
        self.group
            .rounded(self.role, Rect::new(point(a), point(b)), 0.0);
        Ok(())
    }

    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Done {
        // An area's border is drawn by itself, as a line.
        if style.color().alpha > 0.0 {
            self.trace(path, false);
        }
        Ok(())
    }

    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        corners: I,
        _: &S,
    ) -> Done {
        self.trace(corners, true);
        Ok(())
    }

    /// Words are placed by the house, which knows their width; none come this way.
    fn draw_text<S: BackendTextStyle>(&mut self, _: &str, _: &S, _: BackendCoord) -> Done {
        Ok(())
    }

    fn estimate_text_size<S: BackendTextStyle>(
        &self,
        _: &str,
        _: &S,
    ) -> Result<(u32, u32), DrawingErrorKind<Infallible>> {
        Ok((0, 0))
    }
}
