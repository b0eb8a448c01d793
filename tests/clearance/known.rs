//! *Property.* Gaps found with the help of those before a change are those found anew, in the same
//! order; and a gap between things that stand still is the very one from before.

use crate::crowded;
use axlewright_core::clearance::{Clearances, Thing, clearances, clearances_after};
use axlewright_core::library::Library;
use axlewright_core::plan::{Place, Plan};
use axlewright_core::shared::Shared;
use axlewright_core::vehicle::{Item, Vehicle};
use proptest::prelude::*;
use std::sync::LazyLock;

const EXAMPLES: [&str; 2] = [
    include_str!("../../examples/gullwharf-drayage.json"),
    include_str!("../../examples/lakeside-lift-axle.json"),
];

static LIBRARY: LazyLock<Library> = LazyLock::new(Library::shipped);
/// Two e-axles below a trailer, and an e-axle beside a lift axle; 60 parts on each.
static PLANS: LazyLock<[Plan; 2]> =
    LazyLock::new(|| EXAMPLES.map(|text| crowded::plan(&LIBRARY, text, 60)));

type Known = (Vehicle, Clearances);

/// The gaps of a plan, found after others, and held against those found anew.
fn after(plan: &Plan, before: Option<&Known>) -> Known {
    let vehicle = Vehicle::resolve_after(plan, &LIBRARY, before.map(|(v, _)| v)).unwrap();
    let found = clearances_after(&vehicle, before.map(|(v, c)| (v, c)));
    assert_eq!(format!("{found:?}"), format!("{:?}", clearances(&vehicle)));
    (vehicle, found)
}

fn shift(plan: &mut Plan, at: usize, by: [f64; 3]) {
    let (x, y, z) = match &mut plan.placed[at].place {
        Place::Free { x_mm, y_mm, z_mm } => (x_mm, y_mm, z_mm),
        Place::Zone {
            from_front_mm,
            y_mm,
            z_mm,
            ..
        } => (from_front_mm, y_mm, z_mm),
    };
    (*x, *y, *z) = (*x + by[0], *y + by[1], *z + by[2]);
}

#[test]
fn a_gap_between_things_that_stand_still_is_the_very_one_from_before() {
    for plan in PLANS.iter() {
        let before = after(plan, None);
        let mut moved = 0;
        for at in 0..plan.placed.len() {
            let mut plan = plan.clone();
            shift(&mut plan, at, [37.0, -21.0, -15.0]);
            let (vehicle, now) = after(&plan, Some(&before));
            let was = |item: &Shared<Item>| before.0.items.iter().any(|old| item.is(old));
            let still = |thing: &Thing| match thing {
                Thing::Part(tag) => vehicle.items.iter().any(|i| &i.tag == tag && was(i)),
                Thing::Body(_) | Thing::Sweep(_) => true,
            };
            for gap in &now.gaps {
                let known = before.1.gaps.iter().any(|old| gap.is(old));
                assert_eq!(known, still(&gap.first) && still(&gap.second), "{gap:?}");
                moved += usize::from(!known);
            }
        }
        assert!(moved > 60, "{moved} gaps measured are too few");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, ..ProptestConfig::default() })]

    #[test]
    fn gaps_after_any_changes_are_those_found_anew(
        which in 0..2_usize,
        changes in prop::collection::vec(
            (0..12_u8, 0..1000_usize, prop::array::uniform3(-300.0..300.0_f64)),
            12,
        ),
    ) {
        let mut plan = PLANS[which].clone();
        let mut before = after(&plan, None);
        for (what, at, by) in changes {
            let at = at % plan.placed.len();
            match what {
                0 => drop(plan.placed.remove(at)),
                1 => {
                    let mut copy = plan.placed[at].clone();
                    copy.tag.push('+');
                    plan.placed.insert(at / 2, copy);
                }
                2 => plan.placed[at].turn = (plan.placed[at].turn + 1) % 4,
                3 => {
                    let raised = &mut plan.changes.raised;
                    *raised = if raised.is_empty() { vec!["axle-3".to_owned()] } else { Vec::new() };
                }
                4 => drop(plan.changes.stripped.pop()),
                5 => plan.changes.wheelbase_mm = Some(5_000.0 + by[0].round()),
                6 => {
                    let other = (at + 1) % plan.placed.len();
                    plan.placed.swap(at, other);
                }
                _ => shift(&mut plan, at, by),
            }
            before = after(&plan, Some(&before));
        }
    }
}
