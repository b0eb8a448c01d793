//! Sorting: one copy of the standard library's stable sort for the whole program.
//!
//! A stable sort is some 6 kB of code that the compiler writes again for each type and comparison;
//! with thirty of them that was a tenth of what the page has to load. Here places are sorted, and
//! the values moved afterwards.

use std::cmp::Ordering;

/// Sorts a list by a comparison; equals keep their order.
pub fn sort_by<T>(items: &mut [T], mut compare: impl FnMut(&T, &T) -> Ordering) {
    if items.len() < 2 {
        return;
    }
    let mut places = sorted_places(items.len(), &mut |a, b| compare(&items[a], &items[b]));
    for start in 0..items.len() {
        while places[start] != start {
            let to = places[start];
            items.swap(start, to);
            places.swap(start, to);
        }
    }
}

/// Sorts a list of things that have an order; equals keep theirs.
pub fn sort<T: Ord>(items: &mut [T]) {
    sort_by(items, T::cmp);
}

/// The places of numbers from the least to the greatest; equals keep their order.
#[must_use]
pub fn ascending(keys: impl Iterator<Item = f64>) -> Vec<usize> {
    let mut order: Vec<(f64, usize)> = keys.zip(0..).collect();
    // With the place as the last word no two are equal, so that any sort will do.
    order.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    order.into_iter().map(|(_, place)| place).collect()
}

/// For each entry the place where it belongs.
fn sorted_places(count: usize, compare: &mut dyn FnMut(usize, usize) -> Ordering) -> Vec<usize> {
    let mut order: Vec<usize> = (0..count).collect();
    order.sort_by(|a, b| compare(*a, *b));
    let mut places = vec![0; count];
    for (place, from) in order.into_iter().enumerate() {
        places[from] = place;
    }
    places
}

#[cfg(test)]
mod tests {
    use super::{ascending, sort, sort_by};

    #[test]
    fn like_the_standard_library_and_equals_keep_their_order() {
        // Numbers of a small generator, with many equals.
        let mut state = 7_u32;
        for count in 0..200 {
            let mut ours: Vec<(u32, usize)> = (0..count)
                .map(|index| {
                    state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                    ((state >> 24) % 17, index)
                })
                .collect();
            let mut theirs = ours.clone();
            sort_by(&mut ours, |a, b| a.0.cmp(&b.0));
            theirs.sort_by_key(|each| each.0);
            assert_eq!(ours, theirs);
        }
        assert_eq!(
            ascending([3.0, -0.0, 3.0, 1.0, 0.0].into_iter()),
            [1, 4, 3, 0, 2]
        );
        let mut words = ["steer", "drive", "tag"];
        sort(&mut words);
        assert_eq!(words, ["drive", "steer", "tag"]);
    }
}
