//! Two boxes along the axes: the closed form.

use super::{Aabb, Separation};

/// Exact up to the rounding of one subtraction when the boxes are apart along one axis or overlap.
pub(super) fn separation(a: &Aabb, b: &Aabb) -> Separation {
    // Of the part shared along each axis; where apart, the two faces that look at each other.
    let low = a.min.upper(b.min);
    let high = a.max.lower(b.max);
    let middle = (low + high) * 0.5;
    let gap = a.gap(b);
    if gap > 0.0 {
        let first = middle.upper(a.min).lower(a.max);
        let second = middle.upper(b.min).lower(b.max);
        return Separation {
            distance_mm: gap,
            on_first: first,
            on_second: second,
        };
    }
    let rearward = a.max - b.min;
    let forward = b.max - a.min;
    let depth = rearward.lower(forward);
    let (mut first, mut second) = (middle, middle);
    let faces =
        |behind: bool, a: (f64, f64), b: (f64, f64)| if behind { (a.1, b.0) } else { (a.0, b.1) };
    let distance_mm = if depth.x <= depth.y && depth.x <= depth.z {
        (first.x, second.x) = faces(
            rearward.x <= forward.x,
            (a.min.x, a.max.x),
            (b.min.x, b.max.x),
        );
        depth.x
    } else if depth.y <= depth.z {
        (first.y, second.y) = faces(
            rearward.y <= forward.y,
            (a.min.y, a.max.y),
            (b.min.y, b.max.y),
        );
        depth.y
    } else {
        (first.z, second.z) = faces(
            rearward.z <= forward.z,
            (a.min.z, a.max.z),
            (b.min.z, b.max.z),
        );
        depth.z
    };
    Separation {
        // Plain 0, not −0, for boxes that touch.
        distance_mm: 0.0 - distance_mm,
        on_first: first,
        on_second: second,
    }
}

#[cfg(test)]
mod tests {
    use super::super::Point;
    use super::*;

    fn block(x: (f64, f64), y: (f64, f64), z: (f64, f64)) -> Aabb {
        Aabb::new(Point::new(x.0, y.0, z.0), Point::new(x.1, y.1, z.1))
    }

    #[test]
    fn whole_millimetres_stay_whole() {
        let a = block((0.0, 925.0), (-400.0, 400.0), (500.0, 900.0));
        let b = block((1075.0, 2000.0), (-300.0, 500.0), (600.0, 1000.0));
        let s = separation(&a, &b);
        assert_eq!(s.distance_mm, 150.0);
        assert_eq!(s.on_first, Point::new(925.0, 50.0, 750.0));
        assert_eq!(s.on_second, Point::new(1075.0, 50.0, 750.0));
    }

    #[test]
    fn an_overlap_is_as_deep_as_the_shortest_way_out() {
        let a = block((0.0, 1000.0), (0.0, 100.0), (0.0, 100.0));
        let b = block((200.0, 300.0), (70.0, 200.0), (-500.0, 500.0));
        let s = separation(&a, &b);
        assert_eq!(s.distance_mm, -30.0);
        assert_eq!(s.on_first, Point::new(250.0, 100.0, 50.0));
        assert_eq!(s.on_second, Point::new(250.0, 70.0, 50.0));
    }

    #[test]
    fn touching_is_plain_zero() {
        let a = block((0.0, 100.0), (0.0, 100.0), (0.0, 100.0));
        let s = separation(&a, &a.translated(Point::new(100.0, 0.0, 0.0)));
        assert!(s.distance_mm == 0.0 && s.distance_mm.is_sign_positive());
    }

    #[test]
    fn corner_to_corner_is_the_diagonal() {
        let a = block((0.0, 1.0), (0.0, 1.0), (0.0, 1.0));
        let b = block((3.0, 4.0), (4.0, 5.0), (7.0, 8.0));
        assert_eq!(separation(&a, &b).distance_mm, 7.0);
    }
}
