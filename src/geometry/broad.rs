//! Which pairs of boxes are near enough to be worth an exact answer.
//!
//! Method: sweep and prune along x, the long axis of every chassis. Boxes are sorted by their front;
//! each is compared only with those whose front lies before its own rear plus the reach. Work is
//! n log n plus the number of neighbours along x, so all pairs only if everything stands side by
//! side.

use super::Aabb;
use crate::numeric::{ascending, sort};

/// Search for near pairs.
#[derive(Clone, Copy, Debug)]
pub struct Broad;

impl Broad {
    /// All pairs (i, j), i < j, in ascending order, whose [`Aabb::gap`] is at most `reach_mm`.
    ///
    /// A reach that is negative or not a number counts as 0. A box with a coordinate that is not
    /// finite is near every other box.
    #[must_use]
    pub fn near_pairs(boxes: &[Aabb], reach_mm: f64) -> Vec<(usize, usize)> {
        let reach = reach_mm.max(0.0);
        let (placed, lost): (Vec<usize>, Vec<usize>) =
            (0..boxes.len()).partition(|&i| boxes[i].has_place());
        let fronts = placed.iter().map(|&i| boxes[i].min.x);
        let order: Vec<usize> = ascending(fronts).into_iter().map(|at| placed[at]).collect();
        let mut pairs = Vec::new();
        let mut take = |i: usize, j: usize| {
            if i != j {
                pairs.push((i.min(j), i.max(j)));
            }
        };
        for (rank, &i) in order.iter().enumerate() {
            for &j in &order[rank + 1..] {
                if boxes[j].min.x - boxes[i].max.x > reach {
                    break;
                }
                // Most lie far off along one axis, which costs less to see than their distance.
                let beside = boxes[j].min.y - boxes[i].max.y > reach
                    || boxes[i].min.y - boxes[j].max.y > reach
                    || boxes[j].min.z - boxes[i].max.z > reach
                    || boxes[i].min.z - boxes[j].max.z > reach;
                if !beside && boxes[i].gap(&boxes[j]) <= reach {
                    take(i, j);
                }
            }
        }
        for &i in &lost {
            (0..boxes.len()).for_each(|j| take(i, j));
        }
        sort(&mut pairs);
        pairs.dedup();
        pairs
    }
}
