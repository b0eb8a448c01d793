//! Which parts can be seen: a coarse raster, filled from the nearest thing to the farthest.
//!
//! A part counts as hidden when more than half of its cells are covered by nearer things. That is a
//! drawing convention (dashed or solid), not a measurement. Cost grows with the drawn area.

use super::plane::Rect;
use super::scene::Sight;
use crate::numeric::ascending;

/// Edge of a cell, truck millimetres.
const CELL_MM: f64 = 80.0;

/// One thing that may cover others.
#[derive(Clone, Copy, Debug)]
pub struct Cover {
    /// Its outline's box.
    pub rect: Rect,
    /// Nearness of the face that looks at the eye.
    pub near: f64,
    /// Which part it is; `None` for the truck's own sheet metal, wheels and rails.
    pub item: Option<usize>,
}

/// For each of `count` parts, whether it can be seen, and by which part it is covered. Of things equally
/// near the first of the list counts as nearer.
#[must_use]
pub fn sights(mut all: Vec<Cover>, room: &Rect, count: usize) -> Vec<(Sight, Option<usize>)> {
    let mut seen = vec![(Sight::Open, None); count];
    let (columns, rows) = (cells(room.width()), cells(room.height()));
    if columns == 0 || rows == 0 || columns * rows > 4_000_000 {
        return seen;
    }
    // Cell content: 0 free, 1 covered by the truck, 2 + index: covered by that part.
    let mut raster = vec![0_u32; columns * rows];
    all.retain(|c| c.rect.is_finite() && c.near.is_finite());
    for at in ascending(all.iter().map(|c| -c.near)) {
        let cover = &all[at];
        let (x0, x1) = span(
            cover.rect.left - room.left,
            cover.rect.right - room.left,
            columns,
        );
        let (y0, y1) = span(
            cover.rect.top - room.top,
            cover.rect.bottom - room.top,
            rows,
        );
        let (mut total, mut by_truck, mut by_parts, mut whose) = (0_usize, 0_usize, 0_usize, 0);
        for y in y0..y1 {
            let row = &mut raster[y * columns + x0..y * columns + x1];
            let Some(index) = cover.item else {
                // The truck's own things cover; nobody asks whether they are seen.
                for cell in row {
                    *cell = (*cell).max(1);
                }
                continue;
            };
            let mine = u32::try_from(index).unwrap_or(0) + 2;
            total += row.len();
            for cell in row {
                match *cell {
                    0 => *cell = mine,
                    1 => {
                        by_truck += 1;
                        // Parts behind this one are hidden by a part, even through the truck.
                        *cell = mine;
                    }
                    other => {
                        by_parts += 1;
                        whose = other - 2;
                    }
                }
            }
        }
        if let Some(slot) = cover.item.and_then(|index| seen.get_mut(index)) {
            if by_parts * 2 > total {
                *slot = (Sight::Behind, Some(whose as usize));
            } else if (by_parts + by_truck) * 2 > total {
                *slot = (Sight::Through, None);
            }
        }
    }
    seen
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "checked range"
)]
fn cells(length: f64) -> usize {
    if length > 0.0 && length < 1e6 {
        (length / CELL_MM).ceil() as usize
    } else {
        0
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped first"
)]
fn span(from: f64, to: f64, count: usize) -> (usize, usize) {
    #[expect(clippy::cast_precision_loss, reason = "a few thousand cells")]
    let end = count as f64;
    let first = (from / CELL_MM + 0.5).floor().clamp(0.0, end) as usize;
    let last = (to / CELL_MM + 0.5).floor().clamp(0.0, end) as usize;
    // Even a thin part covers one cell.
    let first = first.min(count.saturating_sub(1));
    (first, last.max(first + 1).min(count))
}

#[cfg(test)]
mod tests {
    use super::super::plane::at;
    use super::*;

    fn cover(x: f64, near: f64, item: Option<usize>) -> Cover {
        Cover {
            rect: Rect::new(at(x, 0.0), at(x + 1_000.0, 600.0)),
            near,
            item,
        }
    }

    #[test]
    fn the_far_one_of_a_pair_is_behind_the_near_one() {
        let room = Rect::new(at(-500.0, -500.0), at(5_000.0, 3_000.0));
        let all = vec![
            cover(0.0, 10.0, Some(0)),
            cover(0.0, 20.0, Some(1)),
            cover(3_000.0, 10.0, Some(2)),
            cover(3_000.0, 30.0, None),
        ];
        let seen = sights(all, &room, 3);
        assert_eq!(seen[0], (Sight::Behind, Some(1)));
        assert_eq!(seen[1], (Sight::Open, None));
        assert_eq!(seen[2], (Sight::Through, None));
    }
}
