//! Centre of gravity and roll-over: published rows, properties, and plans by hand.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "tests, and a second road for angles"
)]

#[path = "stability/hand.rs"]
mod hand;
#[path = "stability/properties.rs"]
mod properties;
#[path = "published_rows/mod.rs"]
mod published_rows;
#[path = "loads/yard.rs"]
mod yard;

use axlewright_core::chassis::LiftWeighing;
use axlewright_core::stability::{LEAST_G, TANK_G, highest_payload_mm, rollover};
use published_rows::{Row, compare};

/// *Published.*
#[test]
fn every_published_row_comes_out() {
    compare(
        include_str!("published/stability/stability.toml"),
        |row: &Row| match row.id.as_str() {
            "CG-1" => {
                let lift = LiftWeighing {
                    level_kg: row.one("front_kg"),
                    raised_kg: row.one("front_raised_kg"),
                    raised_mm: row.one("raised_mm"),
                    wheelbase_mm: row.one("wheelbase_mm"),
                    loaded_radius_mm: 0.0,
                };
                let z = lift.cg_z_mm(row.one("front_kg") + row.one("rear_kg"));
                vec![("z_mm", vec![z.unwrap()])]
            }
            "CG-3" => {
                let z = highest_payload_mm(
                    row.one("whole_kg"),
                    row.one("limit_mm"),
                    row.one("without_kg"),
                    row.one("without_mm"),
                );
                vec![("payload_mm", vec![z.unwrap()])]
            }
            "CG-5" => vec![("least_g", vec![hand::least_g_by_the_check()])],
            "CG-6" => vec![("tank_g", vec![TANK_G])],
            "CG-7" => {
                // A track and a height that give this T/2h.
                let rigid = row.one("rigid_g");
                let roll = rollover(1_000.0, 0.0, &[(1.0, 2_000.0 * rigid)]).unwrap();
                assert!((roll.rigid_g - rigid).abs() < 1e-12);
                vec![("reduced_g", vec![roll.reduced_g])]
            }
            other => panic!("no question for {other}"),
        },
    );
    const { assert!(LEAST_G < TANK_G) };
}
