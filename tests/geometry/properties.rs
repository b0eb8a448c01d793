//! *Property.* What must hold for bodies of every kind, degenerate ones among them. All passed
//! 60,000 cases each when written; the number kept is for every day.

use super::p;
use axlewright_core::geometry::{
    Aabb, Broad, Point, ROUND_SIDES, Separation, Solid, separation, separation_of_sets, yawed,
};
use axlewright_core::numeric::{cos, hypot, sin};
use proptest::prelude::*;
use std::f64::consts::PI;

/// Lengths of the workshop: whole millimetres (so that faces meet exactly, and plates have no
/// thickness) or any.
fn length(range: std::ops::Range<i32>) -> impl Strategy<Value = f64> {
    let (low, high) = (f64::from(range.start), f64::from(range.end));
    prop_oneof![range.prop_map(|mm| f64::from(mm / 100) * 100.0), low..high]
}

fn point(reach: i32) -> impl Strategy<Value = Point> {
    let one = move || length(-reach..reach);
    (one(), one(), one()).prop_map(|(x, y, z)| p(x, y, z))
}

fn a_block() -> impl Strategy<Value = Solid> {
    (point(1500), point(1500)).prop_map(|(a, b)| Solid::Block(Aabb::new(a, b)))
}

fn a_cylinder() -> impl Strategy<Value = Solid> {
    (point(1500), point(1500), length(0..600)).prop_map(|(from, to, radius)| Solid::Cylinder {
        from,
        to,
        radius,
    })
}

fn a_solid() -> impl Strategy<Value = Solid> {
    prop_oneof![
        a_block(),
        a_cylinder(),
        (a_block(), -PI..PI).prop_map(|(b, angle)| yawed(&b, b.aabb().centre(), angle)),
        prop::collection::vec(point(1500), 1..9).prop_map(Solid::Hull),
    ]
}

/// As large as the solid on every side, and `mm` larger.
fn grown(solid: &Solid, mm: f64) -> Solid {
    match solid {
        Solid::Cylinder { from, to, radius } => {
            let along = (*to - *from).direction().unwrap_or_default() * mm;
            Solid::Cylinder {
                from: *from - along,
                to: *to + along,
                radius: radius + mm,
            }
        }
        Solid::Block(block) => Solid::Block(block.inflated(mm)),
        Solid::Hull(points) => Solid::Hull(
            points
                .iter()
                .flat_map(|q| Aabb { min: *q, max: *q }.inflated(mm).corners())
                .collect(),
        ),
    }
}

/// Round bodies are answered to 1e-6 of the distance; twice that between two answers.
fn close(a: Separation, b: Separation) -> bool {
    let slack = 2e-6 * a.distance_mm.abs().max(1.0);
    (a.distance_mm - b.distance_mm).abs() <= slack
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 300,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn the_distance_is_the_same_from_either_side(a in a_solid(), b in a_solid()) {
        let (ab, ba) = (separation(&a, &b), separation(&b, &a));
        prop_assert!(close(ab, ba), "{ab:?} {ba:?}");
    }

    #[test]
    fn the_answer_is_finite_and_its_points_are_that_far_apart(a in a_solid(), b in a_solid()) {
        let s = separation(&a, &b);
        prop_assert!(s.distance_mm.is_finite() && s.on_first.has_place() && s.on_second.has_place());
        let between = (s.on_second - s.on_first).length();
        prop_assert!((between - s.distance_mm.abs()).abs() < 1e-6, "{s:?}");
        prop_assert!(s.distance_mm.max(0.0) >= a.aabb().gap(&b.aabb()) - 1e-6);
    }

    #[test]
    fn the_move_between_the_points_brings_the_bodies_to_touch(a in a_solid(), b in a_solid()) {
        let s = separation(&a, &b);
        let touching = separation(&a, &b.translated(s.on_first - s.on_second));
        let slack = 1e-5 * s.distance_mm.abs().max(1.0);
        prop_assert!(touching.distance_mm.abs() <= slack, "{s:?} {touching:?}");
    }

    #[test]
    fn moving_both_changes_nothing(a in a_solid(), b in a_solid(), by in point(5000)) {
        let (here, there) = (separation(&a, &b), separation(&a.translated(by), &b.translated(by)));
        prop_assert!(close(here, there), "{here:?} {there:?}");
    }

    #[test]
    fn mirroring_both_changes_nothing(a in a_solid(), b in a_solid()) {
        let (left, right) = (separation(&a, &b), separation(&a.mirrored_y(), &b.mirrored_y()));
        prop_assert!(close(left, right), "{left:?} {right:?}");
    }

    #[test]
    fn a_larger_body_is_never_farther_away(a in a_solid(), b in a_solid(), mm in 0.0..300.0) {
        let (small, large) = (separation(&a, &b), separation(&grown(&a, mm), &b));
        let slack = 2e-6 * small.distance_mm.abs().max(1.0);
        prop_assert!(large.distance_mm <= small.distance_mm + slack, "{small:?} {large:?}");
    }

    #[test]
    fn the_closed_form_for_boxes_agrees_with_the_general_method(a in a_block(), b in a_block()) {
        let hull = Solid::Hull(a.aabb().corners().to_vec());
        let (closed, general) = (separation(&a, &b), separation(&hull, &b));
        let miss = (closed.distance_mm - general.distance_mm).abs();
        prop_assert!(miss < 1e-6, "{closed:?} {general:?}");
    }

    #[test]
    fn near_pairs_are_those_that_comparing_all_finds(
        solids in prop::collection::vec(a_solid(), 0..40), reach in length(-100..800)
    ) {
        let boxes: Vec<Aabb> = solids.iter().map(Solid::aabb).collect();
        let near = |i: usize, j: usize| boxes[i].gap(&boxes[j]) <= reach.max(0.0);
        let all = (0..boxes.len()).flat_map(|i| (i + 1..boxes.len()).map(move |j| (i, j)));
        let expected: Vec<_> = all.filter(|&(i, j)| near(i, j)).collect();
        prop_assert_eq!(Broad::near_pairs(&boxes, reach), expected);
    }

    #[test]
    fn of_two_sets_the_nearest_pair_counts(
        a in prop::collection::vec(a_solid(), 1..6), b in prop::collection::vec(a_solid(), 1..6)
    ) {
        let all = a.iter().flat_map(|x| b.iter().map(|y| separation(x, y).distance_mm));
        let least = all.fold(f64::INFINITY, f64::min);
        let found = separation_of_sets(&a, &b).unwrap().distance_mm;
        prop_assert!((found - least).abs() <= 2e-6 * least.abs().max(1.0));
    }

    #[test]
    fn nothing_of_a_cylinder_is_farther_than_its_farthest_point(
        c in a_cylinder(), x in length(-2000..2000), y in length(-2000..2000)
    ) {
        let Solid::Cylinder { from, to, radius } = &c else { return Ok(()) };
        let (reach, place) = c.farthest_horizontal_from(x, y);
        prop_assert!((hypot(place.x - x, place.y - y) - reach).abs() < 1e-6);
        let on_it = separation(&c, &Solid::Hull(vec![place])).distance_mm;
        prop_assert!(on_it.abs() < 1e-5, "{on_it}");
        let Some(axis) = (*to - *from).direction() else { return Ok(()) };
        let helper = if axis.x.abs() < 0.5 { p(1.0, 0.0, 0.0) } else { p(0.0, 1.0, 0.0) };
        let first = axis.cross(helper).direction().unwrap();
        let second = axis.cross(first);
        let mut best = 0.0_f64;
        for i in 0..720 {
            let t = f64::from(i) * PI / 360.0;
            for end in [from, to] {
                let q = *end + first * (radius * cos(t)) + second * (radius * sin(t));
                best = best.max(hypot(q.x - x, q.y - y));
            }
        }
        prop_assert!(best <= reach + 1e-6 && reach <= best + radius * 1e-4 + 1e-6, "{best} {reach}");
    }

    #[test]
    fn what_is_swept_holds_the_body_at_both_ends_of_its_travel(
        a in a_solid(), down in length(0..300), up in length(0..300), n in point(100)
    ) {
        let swept = a.swept_z(down, up);
        for dz in [-down, 0.0, up] {
            // The body's own point nearest to somewhere far out lies in the swept room.
            let away = n.direction().unwrap_or(p(0.0, 0.0, 1.0)) * 1e4;
            let body = a.translated(p(0.0, 0.0, dz));
            let surface = separation(&body, &Solid::Hull(vec![away])).on_first;
            let room = separation(&swept, &Solid::Hull(vec![surface]));
            prop_assert!(room.distance_mm <= 1e-6, "{room:?}");
        }
        let (bounds, inner) = (swept.aabb(), a.aabb());
        prop_assert!(bounds.contains(&inner.translated(p(0.0, 0.0, -down)), 1e-6));
        prop_assert!(bounds.contains(&inner.translated(p(0.0, 0.0, up)), 1e-6));
        if let Solid::Cylinder { from, to, radius } = &a && (*to - *from).length() > 0.0 {
            let excess = 1.0 / cos(PI / f64::from(ROUND_SIDES)) - 1.0;
            let taken = inner.union(&inner.translated(p(0.0, 0.0, up)));
            let taken = taken.union(&inner.translated(p(0.0, 0.0, -down)));
            prop_assert!(bounds.outset_beyond(&taken).largest() <= radius * excess + 1e-6);
        }
    }
}
