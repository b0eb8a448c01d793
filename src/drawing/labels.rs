//! Placing labels so that none covers another: a grid of what is taken, and a search nearby.
//!
//! A label goes inside its part when it fits there, else as near to it as there is room, with a
//! leader. Nearby parts are covered only when nothing better is found. A label for which the search
//! finds no room is left out rather than drawn over another one.
//!
//! What was asked for is kept in a [`Record`], for the drawing after the next move of the mouse. There
//! a label goes where it went, without a search, when the same is asked of the same room and nothing
//! that came, went or changed since touches any of the spots that the search looked at.

use super::plane::{At, Rect, at};

/// What is taken already, in square cells.
#[derive(Clone, Debug)]
pub struct Labels<'a> {
    room: Rect,
    edge: f64,
    columns: usize,
    rows: usize,
    /// Boxes that no label may touch.
    hard: Heap,
    /// Boxes that labels should rather not cover.
    soft: Heap,
    record: Record,
    before: Before<'a>,
}

/// All that was asked of a grid, in order.
#[derive(Clone, Debug)]
pub struct Record {
    room: Rect,
    steps: Vec<Step>,
}

#[derive(Clone, Debug)]
struct Step {
    asked: Asked,
    /// Box that is taken or avoided since; nothing where a label found no room.
    spot: Option<Spot>,
    /// Box around everything that was looked at.
    looked_at: Option<Rect>,
}

#[derive(Clone, Debug, PartialEq)]
enum Asked {
    Take(Rect),
    Avoid(Rect),
    Place(Rect, [f64; 2], bool),
}

/// What was asked before, as far as it is passed by, and what differs from it up to here.
#[derive(Clone, Debug, Default)]
struct Before<'a> {
    rest: &'a [Step],
    changed: Vec<Rect>,
}

impl<'a> Before<'a> {
    /// The step in which the same was asked; all before it that nobody asks for now is gone.
    fn step(&mut self, asked: &Asked) -> Option<&'a Step> {
        let at = self.rest.iter().position(|step| step.asked == *asked)?;
        let (gone, rest) = self.rest.split_at(at);
        for step in gone {
            self.changes(step.spot);
        }
        let (found, rest) = rest.split_first()?;
        self.rest = rest;
        Some(found)
    }

    fn changes(&mut self, spot: Option<Spot>) {
        self.changed.extend(spot.map(|spot| spot.rect));
    }

    fn touches(&self, looked_at: &Rect) -> bool {
        self.changed.iter().any(|rect| rect.overlaps(looked_at))
    }
}

/// Boxes by cell, as chains in one list: no cell has storage of its own.
#[derive(Clone, Debug)]
struct Heap {
    /// Newest link of each cell.
    heads: Vec<u32>,
    /// A box, and the older link of the same cell.
    links: Vec<(Rect, u32)>,
}

/// The end of a chain.
const NONE: u32 = u32::MAX;

impl Heap {
    fn add(&mut self, cell: usize, rect: Rect) {
        if let Ok(link) = u32::try_from(self.links.len()) {
            self.links.push((rect, self.heads[cell]));
            self.heads[cell] = link;
        }
    }

    fn any(&self, cell: usize, mut test: impl FnMut(&Rect) -> bool) -> bool {
        let mut link = self.heads[cell];
        while let Some((rect, older)) = self.links.get(link as usize) {
            if test(rect) {
                return true;
            }
            link = *older;
        }
        false
    }
}

/// How many free spots are passed over in the hope of one that covers no neighbour.
const FEW: usize = 20;

/// Where a label went.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// Box of the label.
    pub rect: Rect,
    /// Outside its part: draw a leader.
    pub leader: bool,
}

impl<'a> Labels<'a> {
    /// An empty grid over the room in which labels may stand, for labels about `edge` high; `before` is
    /// what was asked of another one.
    #[must_use]
    pub fn new(room: Rect, edge: f64, before: Option<&'a Record>) -> Self {
        let edge = edge.max((room.width().max(room.height())) / 400.0).max(1.0);
        let (columns, rows) = (
            index(room.width() / edge) + 1,
            index(room.height() / edge) + 1,
        );
        let heap = || Heap {
            heads: vec![NONE; columns * rows],
            links: Vec::with_capacity(256),
        };
        Self {
            room,
            edge,
            columns,
            rows,
            hard: heap(),
            soft: heap(),
            record: Record {
                room,
                steps: Vec::with_capacity(256),
            },
            before: Before {
                rest: match before {
                    Some(before) if before.room == room => &before.steps,
                    _ => &[],
                },
                changed: Vec::new(),
            },
        }
    }

    /// What was asked.
    #[must_use]
    pub fn into_record(self) -> Record {
        self.record
    }

    /// Nothing may be placed over this box.
    pub fn take(&mut self, rect: Rect) {
        self.hold(rect);
        self.set(Asked::Take(rect), rect);
    }

    /// Labels should rather not cover this box.
    pub fn avoid(&mut self, rect: Rect) {
        self.each(&rect, |this, cell| this.soft.add(cell, rect));
        self.set(Asked::Avoid(rect), rect);
    }

    fn hold(&mut self, rect: Rect) {
        self.each(&rect, |this, cell| this.hard.add(cell, rect));
    }

    /// Writes down a box that stands where it was asked to.
    fn set(&mut self, asked: Asked, rect: Rect) {
        let spot = Some(Spot {
            rect,
            leader: false,
        });
        if self.before.step(&asked).is_none() {
            self.before.changes(spot);
        }
        self.record.steps.push(Step {
            asked,
            spot,
            looked_at: None,
        });
    }

    /// Whether the box touches nothing taken and lies in the room.
    #[must_use]
    pub fn is_free(&self, rect: &Rect) -> bool {
        self.room.contains(rect) && !self.any(&self.hard, rect, None)
    }

    /// Places a label of this size for a part's box.
    pub fn place(&mut self, part: &Rect, width: f64, height: f64, inside: bool) -> Option<Spot> {
        let asked = Asked::Place(*part, [width, height], inside);
        let known = self.before.step(&asked);
        let holds = known.filter(|step| !step.looked_at.is_some_and(|at| self.before.touches(&at)));
        let (spot, looked_at) = match holds {
            Some(step) => (step.spot, step.looked_at),
            None => {
                let mut looked_at = None;
                let found = self
                    .inside(part, width, height, inside, &mut looked_at)
                    .or_else(|| self.beside(part, width, height, &mut looked_at));
                if let Some(known) = known.filter(|step| step.spot != found) {
                    self.before.changes(known.spot);
                }
                if known.is_none_or(|step| step.spot != found) {
                    self.before.changes(found);
                }
                (found, looked_at)
            }
        };
        self.record.steps.push(Step {
            asked,
            spot,
            looked_at,
        });
        self.hold(spot?.rect);
        spot
    }

    fn beside(
        &self,
        part: &Rect,
        width: f64,
        height: f64,
        looked_at: &mut Option<Rect>,
    ) -> Option<Spot> {
        let gap = height * 0.5;
        let (mut second, mut reach) = (None, FEW);
        for candidate in around(part, width, height, gap) {
            look(looked_at, &candidate);
            if !self.is_free(&candidate) {
                continue;
            }
            let spot = Spot {
                rect: candidate,
                leader: true,
            };
            if !self.any(&self.soft, &candidate, Some(part)) {
                return Some(spot);
            }
            // Covering a neighbour is better than standing far off.
            if reach == 0 {
                return second.or(Some(spot));
            }
            reach -= 1;
            second = second.or(Some(spot));
        }
        second
    }

    fn inside(
        &self,
        part: &Rect,
        width: f64,
        height: f64,
        wanted: bool,
        looked_at: &mut Option<Rect>,
    ) -> Option<Spot> {
        let pad = height * 0.2;
        if !wanted || part.width() < width + pad || part.height() < height + pad {
            return None;
        }
        let pad = pad
            .min((part.width() - width) / 2.0)
            .min((part.height() - height) / 2.0);
        let middle = part.centre();
        let tall = part.height() > 2.6 * height;
        let (left, right) = (
            part.left + pad + width / 2.0,
            part.right - pad - width / 2.0,
        );
        let (top, bottom) = (
            part.top + pad + height / 2.0,
            part.bottom - pad - height / 2.0,
        );
        let mut tries = vec![
            at(left, top),
            at(right, top),
            at(left, bottom),
            at(right, bottom),
            at(middle.x, top),
            at(middle.x, bottom),
            at(left, middle.y),
            at(right, middle.y),
        ];
        tries.insert(if tall { 8 } else { 0 }, middle);
        let boxes = tries.into_iter().map(|c| Rect::about(c, width, height));
        let free = boxes.filter(|r| {
            look(looked_at, r);
            self.is_free(r)
        });
        free.map(|rect| Spot {
            rect,
            leader: false,
        })
        .next()
    }

    fn any(&self, list: &Heap, rect: &Rect, except: Option<&Rect>) -> bool {
        let (x0, x1, y0, y1) = self.cells(rect);
        (y0..=y1).any(|y| {
            (x0..=x1).any(|x| {
                list.any(y * self.columns + x, |r| {
                    r.overlaps(rect) && Some(r) != except
                })
            })
        })
    }

    fn each(&mut self, rect: &Rect, mut act: impl FnMut(&mut Self, usize)) {
        if !rect.is_finite() {
            return;
        }
        let (x0, x1, y0, y1) = self.cells(rect);
        for y in y0..=y1 {
            for x in x0..=x1 {
                act(self, y * self.columns + x);
            }
        }
    }

    fn cells(&self, rect: &Rect) -> (usize, usize, usize, usize) {
        let column = |x: f64| index((x - self.room.left) / self.edge).min(self.columns - 1);
        let row = |y: f64| index((y - self.room.top) / self.edge).min(self.rows - 1);
        (
            column(rect.left),
            column(rect.right),
            row(rect.top),
            row(rect.bottom),
        )
    }
}

/// Writes down that a spot was looked at.
fn look(at: &mut Option<Rect>, spot: &Rect) {
    *at = Some(at.map_or(*spot, |sum| sum.union(spot)));
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped first"
)]
fn index(value: f64) -> usize {
    value.clamp(0.0, 1e6) as usize
}

/// Boxes around a part, nearest first: above, below, beside, at growing distances.
fn around(part: &Rect, width: f64, height: f64, gap: f64) -> impl Iterator<Item = Rect> {
    let part = *part;
    let middle = part.centre();
    (0..6_u32).flat_map(move |ring| {
        let out = gap + f64::from(ring) * height * 1.15;
        let (up, down) = (
            part.top - out - height / 2.0,
            part.bottom + out + height / 2.0,
        );
        let (left, right) = (
            part.left - out - width / 2.0,
            part.right + out + width / 2.0,
        );
        let side = f64::from(ring) * 0.6 + 0.7;
        let step = width * side;
        let centres = [
            at(middle.x, up),
            at(middle.x - step, up),
            at(middle.x + step, up),
            at(middle.x, down),
            at(middle.x - step, down),
            at(middle.x + step, down),
            at(right, middle.y),
            at(left, middle.y),
            at(right, up),
            at(left, up),
            at(right, down),
            at(left, down),
        ];
        centres
            .into_iter()
            .map(move |c| Rect::about(c, width, height))
    })
}

/// Where a leader starts on the label's box and where it ends in the part's.
#[must_use]
pub fn leader(label: &Rect, part: &Rect, inset: f64) -> (At, At) {
    let inset = inset.min(part.width() / 2.0).min(part.height() / 2.0);
    let end = part.grown(-inset).nearest(label.centre());
    (label.nearest(end), end)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thousand_labels_on_one_spot_never_touch_each_other() {
        let room = Rect::new(at(0.0, 0.0), at(9_000.0, 4_000.0));
        let mut labels = Labels::new(room, 150.0, None);
        let part = Rect::about(at(4_000.0, 2_000.0), 100.0, 100.0);
        let spots: Vec<Rect> = (0..1_000)
            .filter_map(|_| labels.place(&part, 200.0, 120.0, true))
            .map(|spot| spot.rect)
            .collect();
        assert!(spots.len() > 20, "only {} placed", spots.len());
        for (i, a) in spots.iter().enumerate() {
            assert!(spots[i + 1..].iter().all(|b| !a.overlaps(b)));
        }
    }

    #[test]
    fn a_label_goes_inside_when_it_fits() {
        let room = Rect::new(at(0.0, 0.0), at(9_000.0, 4_000.0));
        let mut labels = Labels::new(room, 150.0, None);
        let part = Rect::about(at(4_000.0, 2_000.0), 900.0, 600.0);
        let spot = labels.place(&part, 200.0, 120.0, true).expect("room");
        assert!(part.contains(&spot.rect) && !spot.leader);
    }
}
