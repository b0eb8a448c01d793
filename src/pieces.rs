//! What of a list is as it was before a change, so that only the rest need be told anew.

use serde::{Serialize, Serializer};
use std::ops::Range;

/// How many places ahead is looked for where two lists go on alike.
const NEAR: usize = 8;

/// A stretch of a list after a change. As JSON: two numbers, from and to, of what is kept, else how
/// many are new.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Piece {
    /// These of the list before, in their order.
    Kept(Range<usize>),
    /// These of the list now.
    New(Range<usize>),
}

impl Serialize for Piece {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Kept(range) => [range.start, range.end].serialize(serializer),
            Self::New(range) => range.len().serialize(serializer),
        }
    }
}

/// The list now, piece by piece; `same` compares one before with one now. What is kept is in order and
/// none is kept twice; not all that could be kept need be.
// Not generic: lists of many kinds are compared, and the page pays for each copy of this.
#[must_use]
pub fn pieces(before: usize, now: usize, same: &dyn Fn(usize, usize) -> bool) -> Vec<Piece> {
    let same = |old: usize, new: usize| old < before && new < now && same(old, new);
    let mut pieces = Vec::new();
    let (mut old, mut new) = (0, 0);
    while new < now {
        if same(old, new) {
            match pieces.last_mut() {
                Some(Piece::Kept(range)) if range.end == old => range.end += 1,
                _ => pieces.push(Piece::Kept(old..old + 1)),
            }
            old += 1;
            new += 1;
            continue;
        }
        let (gone, came) = alike(&|gone, came| same(old + gone, new + came));
        let end = (new + came).min(now);
        match pieces.last_mut() {
            Some(Piece::New(range)) => range.end = end,
            _ if came > 0 => pieces.push(Piece::New(new..end)),
            _ => {}
        }
        old += gone;
        new = end;
    }
    pieces
}

/// After how many gone and how many new ones both lists go on alike: one replaced comes first, since
/// that is what most changes are; if nowhere near, that.
fn alike(same: &dyn Fn(usize, usize) -> bool) -> (usize, usize) {
    for far in 1..=NEAR {
        if same(far, far) {
            return (far, far);
        }
        for less in 0..far {
            for step in [(less, far), (far, less)] {
                if same(step.0, step.1) {
                    return step;
                }
            }
        }
    }
    (1, 1)
}

/// True when the list is what it was.
#[must_use]
pub fn unchanged(before: usize, now: usize, pieces: &[Piece]) -> bool {
    before == now
        && match pieces {
            [] => now == 0,
            [Piece::Kept(range)] => *range == (0..now),
            _ => false,
        }
}

#[cfg(test)]
mod tests {
    use super::{Piece, pieces, unchanged};
    use proptest::prelude::*;

    fn of(before: &[u8], now: &[u8]) -> Vec<Piece> {
        pieces(before.len(), now.len(), &|a, b| before[a] == now[b])
    }

    #[test]
    fn what_is_replaced_added_or_gone_is_all_that_is_new() {
        let before = [1, 2, 3, 4, 5, 6];
        assert_eq!(of(&before, &before), [Piece::Kept(0..6)]);
        for (now, new) in [
            (&[1, 2, 9, 4, 5, 6][..], 1),
            (&[1, 2, 4, 5, 6], 0),
            (&[1, 2, 3, 4, 9, 8, 5, 6], 2),
            (&[2, 3, 4, 1, 5, 6], 1),
            (&[6, 5], 1),
            (&[], 0),
        ] {
            let news = of(&before, now).into_iter().map(|piece| match piece {
                Piece::Kept(_) => 0,
                Piece::New(range) => range.len(),
            });
            assert_eq!(news.sum::<usize>(), new, "{now:?}");
        }
    }

    proptest! {
        #[test]
        fn pieces_put_together_are_the_list_and_keep_the_order(
            before in prop::collection::vec(0_u8..6, 0..40),
            now in prop::collection::vec(0_u8..6, 0..40),
        ) {
            let pieces = of(&before, &now);
            let (mut made, mut least) = (Vec::new(), 0);
            for piece in &pieces {
                match piece.clone() {
                    Piece::Kept(range) => {
                        prop_assert!(range.start >= least && range.end > range.start);
                        least = range.end;
                        made.extend_from_slice(&before[range]);
                    }
                    Piece::New(range) => {
                        prop_assert!(range.end > range.start && range.start == made.len());
                        made.extend_from_slice(&now[range]);
                    }
                }
            }
            prop_assert_eq!(&made, &now);
            prop_assert_eq!(unchanged(before.len(), now.len(), &pieces), before == now);
        }
    }
}
