//! What is known from before a change, and what is left to measure.
//!
//! A gap is worked out from the two things that it lies between, given the truck that they are on.
//! A third part never comes into it: it may make the search for neighbours reach farther, but each
//! pair is then judged by its own demand. So while chassis, trailer and raised axles are the same,
//! a gap between things that stand still is what it was, and where none was listed none is listed
//! now. What is left is each pair with a part that is not the same as before.

use super::{Clearances, Gap};
use crate::geometry::{Aabb, Broad};
use crate::shared::Shared;
use crate::vehicle::{Item, Vehicle};

/// The hard parts, in the order of the plan.
pub(super) struct Parts<'a> {
    pub all: Vec<&'a Item>,
    /// Whether each is to be measured against everything.
    pub fresh: Vec<bool>,
    /// Nothing is known: chassis and trailer are fresh too, and so is every part.
    pub anew: bool,
}

/// Lists of gaps, in the order of the whole list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Chapter {
    Parts,
    Fixed,
    Tyres,
    RiderAndPart,
    Riders,
    RiderAndRest,
    Opening,
    Swing,
    Legs,
    Moved,
}

/// One of the two things of a gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Which {
    /// A hard part, by its place among them.
    Part(usize),
    /// Anything of chassis or trailer, by its place in its list.
    Rest(usize),
}

/// Where a gap stands in the list.
pub(super) type Place = (Chapter, Which, Which);

fn hard(vehicle: &Vehicle) -> impl Iterator<Item = (usize, &Shared<Item>)> + Clone {
    let hard = vehicle.items.iter().filter(|i| !i.part.soft);
    hard.enumerate()
}

impl<'a> Parts<'a> {
    /// The parts, and the gaps that are known.
    pub fn of(vehicle: &'a Vehicle, before: Option<(&Vehicle, &Clearances)>) -> (Self, Clearances) {
        let mut found = Clearances::default();
        let all: Vec<&Item> = hard(vehicle).map(|(_, item)| &**item).collect();
        let Some((before, old)) = before.filter(|(before, _)| vehicle.stands_on(before)) else {
            let parts = Self {
                fresh: vec![true; all.len()],
                all,
                anew: true,
            };
            return (parts, found);
        };
        let mut fresh = vec![false; all.len()];
        let mut then = hard(before);
        let mut now: Vec<Option<Which>> = vec![None; before.items.len()];
        for (at, item) in hard(vehicle) {
            let mut rest = then.clone();
            if let Some((was, _)) = rest.find(|(_, old)| old.is(item)) {
                now[was] = Some(Which::Part(at));
                then = rest;
            } else {
                fresh[at] = true;
            }
        }
        let still = |which| match which {
            Which::Part(was) => now[was],
            Which::Rest(_) => Some(which),
        };
        for ((chapter, first, second), gap) in old.places.iter().zip(&old.gaps) {
            if let (Some(first), Some(second)) = (still(*first), still(*second)) {
                found.places.push((*chapter, first, second));
                found.gaps.push(gap.clone());
            }
        }
        let parts = Self {
            all,
            fresh,
            anew: false,
        };
        (parts, found)
    }

    /// Parts to be measured against something that is fresh or not, with their places.
    pub fn facing(&self, fresh: bool) -> impl Iterator<Item = (usize, &'a Item)> {
        let each = self.all.iter().zip(&self.fresh).enumerate();
        each.filter(move |(_, (_, own))| fresh || **own)
            .map(|(at, (item, _))| (at, *item))
    }

    /// The bodies of the chassis whose gaps to the trailer are to be measured, with their places.
    pub fn rest<'b, T>(&self, bodies: &'b [T]) -> impl Iterator<Item = (usize, &'b T)> {
        let fresh = if self.anew { bodies } else { &[] };
        fresh.iter().enumerate()
    }

    /// Pairs that are to be measured, if their boxes are not farther apart than this.
    pub fn near_pairs(&self, reach_mm: f64) -> Vec<(usize, usize)> {
        if self.anew {
            let boxes: Vec<Aabb> = self.all.iter().map(|i| i.bounds).collect();
            return Broad::near_pairs(&boxes, reach_mm);
        }
        let mut pairs = Vec::new();
        for (i, _) in self.facing(false) {
            let near = |j: usize| self.all[i].bounds.gap(&self.all[j].bounds) <= reach_mm;
            let others = (0..self.all.len()).filter(|&j| (j > i || !self.fresh[j]) && near(j));
            pairs.extend(others.map(|j| (i.min(j), i.max(j))));
        }
        pairs
    }
}

impl Clearances {
    /// Puts a gap that is near enough where it belongs, behind others of the same two things.
    pub(super) fn put(&mut self, place: Place, gap: Option<Gap>) {
        if let Some(gap) = gap {
            let at = self.places.partition_point(|other| *other <= place);
            self.places.insert(at, place);
            self.gaps.insert(at, gap.into());
        }
    }
}
