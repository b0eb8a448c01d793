//! *Property.* Two parts are as far apart whichever comes first in the plan, and wherever the pair
//! stands.

use super::gap;
use super::yard::{assess, bare, part, plan, put};
use axlewright_core::clearance::{Gap, State};
use axlewright_core::part::{KeepAway, Kind, Part};
use proptest::prelude::*;

#[derive(Clone, Debug)]
struct Pair {
    sizes: [[f64; 3]; 2],
    asks: [[f64; 3]; 2],
    offset: [f64; 3],
    keep_mm: f64,
    turns: [u8; 2],
}

fn a_pair() -> impl Strategy<Value = Pair> {
    let size = || prop::array::uniform3(50.0..600.0_f64);
    let asks = || prop::array::uniform3(0.0..150.0_f64);
    let offset = prop::array::uniform3(-700.0..700.0_f64);
    (
        (size(), size()),
        (asks(), asks()),
        offset,
        0.0..200.0_f64,
        (0..4u8, 0..4u8),
    )
        .prop_map(|((s1, s2), (a1, a2), offset, keep_mm, (t1, t2))| Pair {
            sizes: [s1, s2],
            asks: [a1, a2],
            offset,
            keep_mm,
            turns: [t1, t2],
        })
}

impl Pair {
    fn parts(&self) -> [Part; 2] {
        let one = |index: usize, id: &str, kind: &str| {
            let mut made = part(id, kind, 10.0, self.sizes[index]);
            let [all, rear, left] = self.asks[index];
            made.clearance.all_mm = all;
            made.clearance.rear_mm = Some(rear);
            made.clearance.left_mm = Some(left);
            made
        };
        let mut tank = one(1, "T1", "gas-tank");
        tank.keep_away = vec![KeepAway {
            kind: Kind::BatteryPack,
            mm: self.keep_mm,
            why: "fire".to_owned(),
        }];
        [one(0, "B1", "battery-pack"), tank]
    }

    /// The gap with the pair here, in this order; `None` when it is too wide to be listed.
    fn gap(&self, at: [f64; 3], tank_first: bool) -> Option<Gap> {
        let mut plan = plan(bare());
        let [pack, tank] = self.parts();
        let there = [0, 1, 2].map(|i| at[i] + self.offset[i]);
        put(&mut plan, pack, at);
        put(&mut plan, tank, there);
        plan.placed[0].turn = self.turns[0];
        plan.placed[1].turn = self.turns[1];
        if tank_first {
            plan.placed.reverse();
        }
        gap(&assess(&plan), State::Parts, "B1", "T1").cloned()
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 150,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn the_order_of_two_parts_does_not_matter(pair in a_pair()) {
        let at = [2_500.0, 0.0, 1_800.0];
        let (one, other) = (pair.gap(at, false), pair.gap(at, true));
        prop_assert_eq!(one.is_some(), other.is_some());
        if let (Some(one), Some(other)) = (one, other) {
            prop_assert!((one.distance_mm - other.distance_mm).abs() < 1e-6, "{one:?} {other:?}");
            prop_assert!((one.required_mm - other.required_mm).abs() < 1e-9, "{one:?} {other:?}");
        }
    }

    #[test]
    fn two_parts_moved_together_stay_as_far_apart(pair in a_pair(), by in prop::array::uniform3(-800.0..800.0_f64)) {
        let at = [2_500.0, 0.0, 1_800.0];
        let there = [0, 1, 2].map(|i| at[i] + by[i]);
        let (one, other) = (pair.gap(at, false), pair.gap(there, false));
        // On the edge of being listed, rounding may decide.
        if let (Some(one), Some(other)) = (one, other) {
            prop_assert!((one.distance_mm - other.distance_mm).abs() < 1e-6, "{one:?} {other:?}");
            prop_assert!((one.required_mm - other.required_mm).abs() < 1e-9, "{one:?} {other:?}");
        }
    }
}
