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
use crate::shared::Along;

/// What is taken already.
#[derive(Clone, Debug)]
pub struct Labels<'a> {
    room: Rect,
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
    /// Spots that had to be free.
    free: Looks,
    /// Spots that should rather cover no part.
    clear: Looks,
}

/// What a search has seen: a bit for each spot in the order of trying, of which there are fewer than these.
#[derive(Clone, Copy, Debug, Default)]
struct Looks {
    /// Box around all of them.
    around: Option<Rect>,
    looked: u128,
    good: u128,
}

impl Looks {
    fn note(&mut self, bit: u128, spot: &Rect, good: bool) {
        self.around = Some(self.around.map_or(*spot, |sum| sum.union(spot)));
        self.looked |= bit;
        if good {
            self.good |= bit;
        }
    }

    /// What was seen there, if it was looked at and none of these boxes touches it.
    fn known(&self, bit: u128, spot: &Rect, changed: &[Rect]) -> Option<bool> {
        let stands = || changed.iter().all(|rect| !rect.overlaps(spot));
        (self.looked & bit != 0 && stands()).then_some(self.good & bit != 0)
    }

    fn stand(&self, changed: &[Rect]) -> bool {
        let free = |at| changed.iter().all(|rect: &Rect| !rect.overlaps(&at));
        self.around.is_none_or(free)
    }
}

#[derive(Clone, Debug, PartialEq)]
enum Asked {
    Take(Rect),
    Avoid(Rect),
    Place(Rect, [f64; 2], bool),
}

/// What was asked before, and what differs from it up to here.
#[derive(Clone, Debug)]
struct Before<'a> {
    steps: Along<'a, Step>,
    hard: Vec<Rect>,
    soft: Vec<Rect>,
}

impl<'a> Before<'a> {
    /// The step in which the same was asked; all before it that nobody asks for now is gone.
    fn step(&mut self, asked: &Asked) -> Option<&'a Step> {
        let (found, gone) = self.steps.next(|step| step.asked == *asked)?;
        for step in gone {
            self.changes(&step.asked, step.spot);
        }
        Some(found)
    }

    fn changes(&mut self, asked: &Asked, spot: Option<Spot>) {
        let list = match asked {
            Asked::Avoid(_) => &mut self.soft,
            Asked::Take(_) | Asked::Place(..) => &mut self.hard,
        };
        list.extend(spot.map(|spot| spot.rect));
    }

    /// True when nothing differs where this search looked.
    fn holds(&self, step: &Step) -> bool {
        step.free.stand(&self.hard) && step.clear.stand(&self.soft)
    }
}

/// Boxes in square cells, by cell as chains in one list: no cell has storage of its own.
#[derive(Clone, Debug)]
struct Heap {
    corner: At,
    edge: f64,
    columns: usize,
    /// Newest link of each cell.
    heads: Vec<u32>,
    /// A box, and the older link of the same cell.
    links: Vec<(Rect, u32)>,
}

/// The end of a chain.
const NONE: u32 = u32::MAX;

impl Heap {
    fn new(room: &Rect, edge: f64) -> Self {
        let columns = index(room.width() / edge) + 1;
        let rows = index(room.height() / edge) + 1;
        Self {
            corner: at(room.left, room.top),
            edge,
            columns,
            heads: vec![NONE; columns * rows],
            links: Vec::with_capacity(512),
        }
    }

    fn add(&mut self, rect: Rect) {
        if !rect.is_finite() {
            return;
        }
        let (x0, x1, y0, y1) = self.cells(&rect);
        for y in y0..=y1 {
            for x in x0..=x1 {
                let head = &mut self.heads[y * self.columns + x];
                if let Ok(link) = u32::try_from(self.links.len()) {
                    self.links.push((rect, *head));
                    *head = link;
                }
            }
        }
    }

    /// Whether any box overlaps this one, other than one that is equal to `except`.
    fn any(&self, rect: &Rect, except: Option<&Rect>) -> bool {
        let (x0, x1, y0, y1) = self.cells(rect);
        for y in y0..=y1 {
            for head in &self.heads[y * self.columns + x0..=y * self.columns + x1] {
                let mut link = *head;
                while let Some((other, older)) = self.links.get(link as usize) {
                    if other.overlaps(rect) && Some(other) != except {
                        return true;
                    }
                    link = *older;
                }
            }
        }
        false
    }

    fn cells(&self, rect: &Rect) -> (usize, usize, usize, usize) {
        let rows = self.heads.len() / self.columns;
        let column = |x: f64| index((x - self.corner.x) / self.edge).min(self.columns - 1);
        let row = |y: f64| index((y - self.corner.y) / self.edge).min(rows - 1);
        (
            column(rect.left),
            column(rect.right),
            row(rect.top),
            row(rect.bottom),
        )
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
        Self {
            room,
            hard: Heap::new(&room, edge),
            // Parts are larger than labels.
            soft: Heap::new(&room, 3.0 * edge),
            record: Record {
                room,
                steps: Vec::with_capacity(256),
            },
            before: Before {
                steps: Along::new(match before {
                    Some(before) if before.room == room => &before.steps,
                    _ => &[],
                }),
                hard: Vec::new(),
                soft: Vec::new(),
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
        self.hard.add(rect);
        self.set(Asked::Take(rect), rect);
    }

    /// Labels should rather not cover this box.
    pub fn avoid(&mut self, rect: Rect) {
        self.soft.add(rect);
        self.set(Asked::Avoid(rect), rect);
    }

    /// Writes down a box that stands where it was asked to.
    fn set(&mut self, asked: Asked, rect: Rect) {
        let spot = Some(Spot {
            rect,
            leader: false,
        });
        if self.before.step(&asked).is_none() {
            self.before.changes(&asked, spot);
        }
        self.record.steps.push(Step {
            asked,
            spot,
            free: Looks::default(),
            clear: Looks::default(),
        });
    }

    /// Whether the box touches nothing taken and lies in the room.
    #[must_use]
    pub fn is_free(&self, rect: &Rect) -> bool {
        self.room.contains(rect) && !self.hard.any(rect, None)
    }

    /// Places a label of this size for a part's box.
    pub fn place(&mut self, part: &Rect, width: f64, height: f64, inside: bool) -> Option<Spot> {
        let asked = Asked::Place(*part, [width, height], inside);
        let known = self.before.step(&asked);
        let step = match known.filter(|step| self.before.holds(step)) {
            Some(step) => step.clone(),
            None => {
                let step = self.search(known, asked);
                let same = known.is_some_and(|known| known.spot == step.spot);
                if !same {
                    let then = known.and_then(|known| known.spot);
                    self.before.changes(&step.asked, then);
                    self.before.changes(&step.asked, step.spot);
                }
                step
            }
        };
        let spot = step.spot;
        self.record.steps.push(step);
        self.hard.add(spot?.rect);
        spot
    }

    /// Looks for a spot; where nothing has changed since the same was asked, what was seen then counts.
    fn search(&self, known: Option<&Step>, asked: Asked) -> Step {
        let mut step = Step {
            asked,
            spot: None,
            free: Looks::default(),
            clear: Looks::default(),
        };
        let Asked::Place(part, [width, height], wanted) = step.asked else {
            return step;
        };
        let within = within(&part, width, height, wanted);
        let beside = around(&part, width, height, height * 0.5);
        let within = within.into_iter().map(|spot| (spot, false));
        let spots = (0..)
            .zip(within)
            .chain((INSIDE..).zip(beside.map(|spot| (spot, true))));
        let (mut second, mut reach) = (None, FEW);
        for (turn, (rect, leader)) in spots {
            let bit = 1_u128 << turn;
            let then = known.and_then(|k| k.free.known(bit, &rect, &self.before.hard));
            let free = then.unwrap_or_else(|| self.is_free(&rect));
            step.free.note(bit, &rect, free);
            if !free {
                continue;
            }
            let spot = Some(Spot { rect, leader });
            if !leader {
                step.spot = spot;
                return step;
            }
            let then = known.and_then(|k| k.clear.known(bit, &rect, &self.before.soft));
            let clear = then.unwrap_or_else(|| !self.soft.any(&rect, Some(&part)));
            step.clear.note(bit, &rect, clear);
            if clear {
                step.spot = spot;
                return step;
            }
            // Covering a neighbour is better than standing far off.
            second = second.or(spot);
            if reach == 0 {
                break;
            }
            reach -= 1;
        }
        step.spot = second;
        step
    }
}

/// How many spots there are inside a part.
const INSIDE: u32 = 9;

/// Spots inside a part, the best first; none where the label does not fit or is not wanted there.
fn within(part: &Rect, width: f64, height: f64, wanted: bool) -> Vec<Rect> {
    let pad = height * 0.2;
    if !wanted || part.width() < width + pad || part.height() < height + pad {
        return Vec::new();
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
    boxes.collect()
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
