//! *Published*: the measured window of laden tractors.

use super::published::{AIR, each, number};
use super::rig;
use axlewright_core::energy::Gait;
use axlewright_core::route::shipped;

#[test]
fn a_laden_tractor_lands_in_the_measured_window() {
    each("measured energy window, tractor-trailer", |row| {
        let truck = rig::tractor();
        let run = axlewright_core::energy::run(
            &truck,
            &shipped("level-80").unwrap(),
            &Default::default(),
            &mut |_| true,
        );
        let per_km = run.ledger.cells_j / 3.6e6 / (run.distance_m / 1e3);
        let low = number(&row.expected, "kWh_per_km_low").unwrap();
        let high = number(&row.expected, "kWh_per_km_high").unwrap();
        assert!((low..=high).contains(&per_km), "{per_km} kWh/km");
        assert!(
            truck
                .held_speed_mps(0.06, Gait::Peak, AIR, 25.0, 0.8)
                .is_some()
        );
    });
}
