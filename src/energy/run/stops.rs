//! Stops: standing, charging, loading.

use super::Loop;
use crate::energy::outcome::Charged;
use crate::energy::plug::{Feed, strongest};
use crate::energy::truck::Truck;
use crate::route::{Charger, Route};

/// Longest step while standing, and while charging, seconds.
const STAND_STEP_S: f64 = 10.0;
const CHARGE_STEP_S: f64 = 2.0;

/// The truck as it leaves each stop of a route; empty where no stop changes the load.
pub(super) fn laden(truck: &Truck, route: &Route) -> Vec<Truck> {
    let stops = route.stops();
    if stops.iter().all(|s| s.load_kg.abs() <= 0.0) {
        return Vec::new();
    }
    let mut load_kg = 0.0;
    stops
        .iter()
        .map(|stop| {
            load_kg += stop.load_kg;
            truck.loaded(load_kg)
        })
        .collect()
}

impl Loop<'_> {
    /// Stands at a stop, is charged where it can be, and takes its new load.
    pub(super) fn halt(&mut self, stop: usize, dwell_s: f64) {
        let charger = self
            .route
            .stops()
            .get(stop)
            .and_then(|s| s.charger.as_ref());
        match charger {
            Some(charger) => self.charge(charger, dwell_s),
            None => self.stand(dwell_s, STAND_STEP_S),
        }
        if let Some(truck) = self.laden.get(stop) {
            self.truck = truck;
        }
    }

    /// Stands for a time: only accessories, source and plug work.
    fn stand(&mut self, seconds: f64, step_s: f64) {
        let mut left = seconds;
        while left > 1e-9 {
            let dt = left.min(step_s);
            self.step(0.0, dt);
            left -= dt;
        }
        self.stuck_s = 0.0;
    }

    fn charge(&mut self, charger: &Charger, dwell_s: f64) {
        let before = (self.state.soc, self.run.ledger.plug_j);
        let wanted = Some(charger.standard.as_str());
        let feed = strongest(
            &self.truck.sockets,
            self.truck.bank.top_v(),
            wanted,
            charger.power_w,
        );
        let mut most_w: f64 = 0.0;
        match &feed {
            Err(_) => self.stand(dwell_s, STAND_STEP_S),
            Ok(Feed {
                most_w: limit_w,
                most_a,
                ..
            }) => {
                let mut left = dwell_s;
                while left > 1e-9 {
                    let dt = left.min(CHARGE_STEP_S);
                    // The plug's current flows at the voltage that the packs have then.
                    let by_current = most_a * self.truck.bank.open_v(self.state.soc);
                    self.state.plug_w = limit_w.min(by_current);
                    let so_far = self.run.ledger.plug_j;
                    self.step(0.0, dt);
                    most_w = most_w.max((self.run.ledger.plug_j - so_far) / dt);
                    left -= dt;
                }
                self.state.plug_w = 0.0;
                self.stuck_s = 0.0;
            }
        }
        let energy_j = self.run.ledger.plug_j - before.1;
        let efficiency = feed.as_ref().map_or(1.0, |f| f.efficiency);
        self.run.charged.push(Charged {
            at_m: self.state.x_m,
            dwell_s,
            by: feed.map(|f| f.by),
            soc: (before.0, self.state.soc),
            energy_j,
            wall_j: energy_j / efficiency,
            most_w,
        });
    }
}
